//! A trial for what a browser, or anybody else on this machine, sends to the desk.
//!
//! In: any bytes, in which `{host}` and `{cookie}` stand for those that open the door. Out: nothing, or a panic that names the
//! promise that was broken. One desk is open for all trials of a process; what stands behind it is made of texts in memory.

use std::collections::BTreeMap;
use std::io::{self, Read, Write};
use std::net::{Shutdown, TcpStream};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, OnceLock, mpsc};
use std::time::Duration;

use placewright::desk::workshop::{LaidLesson, Made, Refused, UnderWay, Workshop};
use placewright::desk::{self, Ready};
use placewright::diag::{Diagnostic, Problem, Source};
use placewright::spec;

/// What a lesson begins with.
const LESSON: &str = "title = \"T\"\n[numbers]\nrange = [10, 99]\n";

/// Panics seen anywhere in this process while the desk was open.
static PANICS: AtomicUsize = AtomicUsize::new(0);

/// Files in memory.
struct Memory(Mutex<BTreeMap<String, String>>);

impl Workshop for Memory {
    fn folder(&self) -> String {
        "memory".to_owned()
    }

    fn lessons(&self) -> Vec<String> {
        self.0.lock().unwrap().keys().cloned().collect()
    }

    fn beside(&self, _: Option<&str>, _: &[&str]) -> Vec<String> {
        Vec::new()
    }

    fn open(&self, name: &str) -> Result<String, Refused> {
        let files = self.0.lock().unwrap();
        files.get(name).cloned().ok_or_else(|| Refused::Because("there is none".to_owned()))
    }

    fn save(&self, name: &str, text: &str, replace: bool) -> Result<(), Refused> {
        let mut files = self.0.lock().unwrap();
        if files.contains_key(name) && !replace {
            return Err(Refused::There);
        }
        if files.len() < 20 {
            files.insert(name.to_owned(), text.to_owned());
        }
        Ok(())
    }

    fn name_for(&self, _: &str) -> String {
        "lesson.toml".to_owned()
    }

    fn blank(&self, _: &str, _: (u32, u32)) -> String {
        LESSON.to_owned()
    }

    /// Reads the text and lays out nothing: that has trials of its own.
    fn lay(&self, name: &str, text: &str, _: &dyn Fn() -> bool) -> Option<Result<LaidLesson, Vec<Diagnostic>>> {
        let source = Arc::new(Source { name: name.to_owned(), text: text.to_owned() });
        let nothing = || vec![Problem::new("nothing is laid out here").unplaced()];
        Some(Err(spec::read(&source).err().unwrap_or_else(nothing)))
    }

    fn make(&self, _: &str, _: &str, _: &UnderWay) -> Result<Made, Vec<Diagnostic>> {
        Ok(Made { folder: "out/lesson".to_owned(), files: vec![("teacher.pdf".to_owned(), 4)], note: None })
    }

    fn made(&self, _: &Made, _: &str) -> Result<(Box<dyn Read + Send>, u64), Refused> {
        Ok((Box::new(&b"%PDF"[..]), 4))
    }

    fn mended(&self, _: &str, text: &str) -> String {
        text.to_owned()
    }
}

/// An open desk: its address and the cookie of its page.
fn scene() -> &'static (String, String) {
    static SCENE: OnceLock<(String, String)> = OnceLock::new();
    SCENE.get_or_init(|| {
        let before = std::panic::take_hook();
        std::panic::set_hook(Box::new(move |info| {
            // Those of the desk's own threads would be answered as if nothing had happened.
            if std::thread::current().name().is_none_or(|name| !name.contains("::")) {
                PANICS.fetch_add(1, Ordering::SeqCst);
            }
            before(info);
        }));
        let workshop = Arc::new(Memory(Mutex::new(BTreeMap::from([("a.toml".to_owned(), LESSON.to_owned())]))));
        let ready: Ready = desk::ready(workshop, Some(("a.toml".to_owned(), LESSON.to_owned())), 0).unwrap();
        let (host, entry) = ready.address.strip_prefix("http://").unwrap().split_once('/').unwrap();
        let (host, entry) = (host.to_owned(), format!("/{entry}"));
        std::thread::spawn(move || {
            let (_stop, stopped) = mpsc::channel();
            ready.serve(Duration::from_hours(24), &stopped)
        });
        let entered =
            say(&host, format!("GET {entry} HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n").as_bytes());
        let entered = String::from_utf8(entered.unwrap()).unwrap();
        let cookie = entered.split("set-cookie: ").nth(1).unwrap().split(';').next().unwrap().to_owned();
        (host, cookie)
    })
}

fn say(host: &str, bytes: &[u8]) -> io::Result<Vec<u8>> {
    let mut stream = TcpStream::connect(host)?;
    stream.set_read_timeout(Some(Duration::from_secs(20)))?;
    let _ = stream.write_all(bytes);
    let _ = stream.shutdown(Shutdown::Write);
    let mut heard = Vec::new();
    // What is reset was refused.
    let _ = stream.read_to_end(&mut heard);
    Ok(heard)
}

/// A request, or several. Gives whether the first was answered with what was asked for.
pub fn desk(bytes: &[u8]) -> bool {
    let (host, cookie) = scene();
    let filled = replaced(&replaced(bytes, b"{host}", host.as_bytes()), b"{cookie}", cookie.as_bytes());
    let heard = say(host, &filled).expect("the desk has ended");
    assert_eq!(PANICS.load(Ordering::SeqCst), 0, "the desk panicked");
    let text = String::from_utf8_lossy(&heard);
    // Who speaks an older version is refused in it (RFC 9110, 6.2).
    let spoken = ["HTTP/1.1 ", "HTTP/1.0 4"].iter().any(|start| text.starts_with(start));
    assert!(heard.is_empty() || spoken, "{text}");
    // The cookie is told to nobody again, and every answer of the desk has its fence.
    assert!(!text.to_lowercase().contains("set-cookie"), "{text}");
    let fenced = text.split("HTTP/1.1 ").skip(1).filter(|answer| answer.contains("\r\ncontent-type: "));
    fenced.into_iter().for_each(|answer| assert!(answer.contains("content-security-policy: "), "{answer}"));
    text.starts_with("HTTP/1.1 200")
}

fn replaced(bytes: &[u8], from: &[u8], to: &[u8]) -> Vec<u8> {
    let mut rest = bytes;
    let mut all = Vec::with_capacity(bytes.len());
    while let Some(at) = rest.windows(from.len()).position(|bytes| bytes == from) {
        all.extend_from_slice(&rest[..at]);
        all.extend_from_slice(to);
        rest = &rest[at + from.len()..];
    }
    all.extend_from_slice(rest);
    all
}

/// Requests that the page itself makes, to begin with.
pub fn seeds() -> Vec<Vec<u8>> {
    let get = |path: &str| {
        format!("GET {path} HTTP/1.1\r\nHost: {{host}}\r\nCookie: {{cookie}}\r\nConnection: close\r\n\r\n")
    };
    let post = |path: &str, body: &str| {
        format!(
            "POST {path} HTTP/1.1\r\nHost: {{host}}\r\nCookie: {{cookie}}\r\nOrigin: http://{{host}}\r\nConnection: close\r\n\
             Content-Type: application/json\r\nContent-Length: {}\r\n\r\n{body}",
            body.len()
        )
    };
    let read =
        ["/", "/begin", "/view", "/view?revision=1", "/here", "/desk.js", "/page/1/0", "/file/teacher.pdf", "/all.zip"];
    let done = [
        ("/edit", "{\"key\":\"title\",\"parts\":{\"\":\"Tram\"},\"typing\":true}"),
        ("/edit", "{\"key\":\"numbers.sort.zeros\",\"parts\":{\"tens.min\":\"1\",\"tens.max\":\"2\"}}"),
        ("/edit", "{\"key\":\"forms.match\",\"parts\":{\"00\":\"numeral\",\"01\":\"words\"}}"),
        ("/number", "{\"act\":\"keep\",\"role\":\"numbers.sort\",\"number\":42}"),
        ("/number", "{\"act\":\"fresh\"}"),
        ("/list", "{\"name\":\"group\",\"act\":\"add\"}"),
        ("/text", "{\"text\":\"title = 1\\n[numbers\"}"),
        ("/open", "{\"name\":\"a.toml\"}"),
        ("/save", "{\"name\":\"a.toml\",\"over\":true}"),
        ("/begin", "{\"name\":\"teens\"}"),
        ("/back", "{}"),
        ("/make", "{}"),
        ("/left", "{}"),
    ];
    let read = read.iter().map(|path| get(path));
    read.chain(done.iter().map(|(path, body)| post(path, body))).map(String::into_bytes).collect()
}
