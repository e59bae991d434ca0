//! A desk that is open, and a client that speaks to it byte by byte.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Shutdown, TcpStream};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use serde_json::{Value, json};

/// A running desk; it ends with the test.
pub struct Desk {
    child: Child,
    /// Where it listens, such as `127.0.0.1:4711`.
    pub host: String,
    /// The path that opens it once.
    pub entry: String,
}

/// What came back.
#[derive(Debug, Clone)]
pub struct Answer {
    pub status: u16,
    pub head: String,
    pub body: Vec<u8>,
}

impl Answer {
    pub fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }

    pub fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|error| panic!("{error}: {}", self.text()))
    }

    /// The value of a header.
    pub fn header(&self, name: &str) -> Option<&str> {
        let lines = self.head.lines().filter_map(|line| line.split_once(':'));
        lines.into_iter().find(|(key, _)| key.eq_ignore_ascii_case(name)).map(|(_, value)| value.trim())
    }
}

impl Desk {
    /// Opens a desk in a folder.
    pub fn open(folder: &Path, args: &[&str]) -> Self {
        let mut command = Command::new(env!("CARGO_BIN_EXE_placewright"));
        command.args(["desk", "--no-browser", "--format", "json"]).args(args).current_dir(folder);
        Self::of(command)
    }

    /// A desk that a command opens.
    pub fn of(mut command: Command) -> Self {
        let mut child =
            command.stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn().expect("the program");
        let mut line = String::new();
        BufReader::new(child.stdout.take().expect("a pipe")).read_line(&mut line).expect("a line");
        let told: Value = serde_json::from_str(&line).unwrap_or_else(|error| panic!("{error}: {line:?}"));
        let address = told["address"].as_str().expect("an address").strip_prefix("http://").expect("plain HTTP");
        let (host, entry) = address.split_once('/').expect("a path");
        Self { child, host: host.to_owned(), entry: format!("/{entry}") }
    }

    /// Sends bytes, says that no more will come, and reads until the other end closes.
    pub fn raw(&self, bytes: &[u8]) -> String {
        let mut stream = TcpStream::connect(&self.host).expect("a connection");
        stream.set_read_timeout(Some(Duration::from_secs(20))).expect("a limit");
        // The desk may have closed already.
        let _ = stream.write_all(bytes);
        let _ = stream.shutdown(Shutdown::Write);
        let mut heard = Vec::new();
        let _ = stream.read_to_end(&mut heard);
        String::from_utf8_lossy(&heard).into_owned()
    }

    /// Sends a request with these headers alone and a body, on a connection of its own.
    pub fn ask(&self, method: &str, path: &str, headers: &[(&str, &str)], body: &[u8]) -> Answer {
        let mut stream = TcpStream::connect(&self.host).expect("a connection");
        stream.set_read_timeout(Some(Duration::from_secs(120))).expect("a limit");
        let mut head = format!("{method} {path} HTTP/1.1\r\nConnection: close\r\n");
        for (name, value) in headers {
            head.push_str(&format!("{name}: {value}\r\n"));
        }
        if method == "POST" {
            head.push_str(&format!("Content-Length: {}\r\n", body.len()));
        }
        stream.write_all(format!("{head}\r\n").as_bytes()).expect("sent");
        let _ = stream.write_all(body);
        let mut heard = Vec::new();
        let _ = stream.read_to_end(&mut heard);
        let at = heard.windows(4).position(|bytes| bytes == b"\r\n\r\n").expect("a head");
        let head = String::from_utf8_lossy(&heard[..at]).into_owned();
        let status = head.split(' ').nth(1).and_then(|word| word.parse().ok()).expect("a status");
        let mut body = heard[at + 4..].to_vec();
        if head.to_lowercase().contains("transfer-encoding: chunked") {
            body = whole(&body);
        }
        Answer { status, head, body }
    }

    /// Goes in by the first address.
    pub fn enter(&self) -> Page<'_> {
        let answer = self.ask("GET", &self.entry, &[("Host", &self.host)], b"");
        assert_eq!(answer.status, 303, "{answer:?}");
        let cookie = answer.header("set-cookie").expect("a cookie").split(';').next().expect("a pair").to_owned();
        Page { desk: self, cookie }
    }

    /// Whether the program has ended, within so many seconds, and how.
    pub fn ended(&mut self, seconds: u64) -> Option<i32> {
        for _ in 0..seconds * 20 {
            if let Some(status) = self.child.try_wait().expect("a process") {
                return status.code();
            }
            std::thread::sleep(Duration::from_millis(50));
        }
        None
    }

    /// The number of the process.
    pub fn id(&self) -> u32 {
        self.child.id()
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// A body that came in chunks (RFC 9112, 7.1).
fn whole(mut rest: &[u8]) -> Vec<u8> {
    let mut body = Vec::new();
    while let Some(at) = rest.windows(2).position(|bytes| bytes == b"\r\n") {
        let size = String::from_utf8_lossy(&rest[..at]).into_owned();
        let size = usize::from_str_radix(size.trim(), 16).expect("a size");
        if size == 0 {
            break;
        }
        body.extend_from_slice(&rest[at + 2..at + 2 + size]);
        rest = &rest[at + 2 + size + 2..];
    }
    body
}

/// Whoever has the page.
pub struct Page<'d> {
    pub desk: &'d Desk,
    pub cookie: String,
}

impl Page<'_> {
    /// The headers that the page's own requests have.
    pub fn headers(&self) -> Vec<(&str, String)> {
        vec![
            ("Host", self.desk.host.clone()),
            ("Cookie", self.cookie.clone()),
            ("Origin", format!("http://{}", self.desk.host)),
            ("Content-Type", "application/json".to_owned()),
        ]
    }

    pub fn get(&self, path: &str) -> Answer {
        let headers = self.headers();
        let headers: Vec<(&str, &str)> = headers[..2].iter().map(|(name, value)| (*name, value.as_str())).collect();
        self.desk.ask("GET", path, &headers, b"")
    }

    pub fn post(&self, path: &str, body: &Value) -> Answer {
        let headers = self.headers();
        let headers: Vec<(&str, &str)> = headers.iter().map(|(name, value)| (*name, value.as_str())).collect();
        self.desk.ask("POST", path, &headers, body.to_string().as_bytes())
    }

    /// Does something that the desk does; what it tells.
    pub fn does(&self, path: &str, body: Value) -> Value {
        let answer = self.post(path, &body);
        assert_eq!(answer.status, 200, "{path} {body}: {}", answer.text());
        answer.json()
    }

    /// Fills in a field.
    pub fn fill(&self, key: &str, parts: Value) -> Value {
        self.does("/edit", json!({ "key": key, "parts": parts }))
    }

    /// What is shown once the lesson is worked out.
    pub fn view(&self) -> Value {
        for _ in 0..20 {
            let view = self.get("/view").json();
            if view["judged"] == true {
                return view;
            }
        }
        panic!("the lesson is not worked out");
    }

    /// The text of the lesson file, as the page shows it.
    pub fn text(&self) -> String {
        let form = self.view()["form"].as_str().expect("a form").to_owned();
        let at = form.find("<textarea").expect("the text");
        let text = &form[at + form[at..].find('>').expect("its start") + 1..];
        let text = text[..text.find("</textarea>").expect("its end")].trim_start_matches('\n');
        text.replace("&lt;", "<").replace("&gt;", ">").replace("&quot;", "\"").replace("&amp;", "&")
    }
}
