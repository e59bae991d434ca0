//! The desk is spoken to by its own page and by nobody else: each attack byte by byte.
//!
//! What requests look like: RFC 9110 and 9112 (HTTP), RFC 6265 (cookies), and the Fetch Standard for what browsers add.

use std::fs;
use std::io::{Read, Write};
use std::net::{IpAddr, TcpStream, UdpSocket};
use std::time::Duration;

use serde_json::json;
use tempfile::TempDir;

use crate::support::desk::{Answer, Desk};

const LESSON: &str = "title = \"Tram stops\"\n[numbers]\nrange = [10, 99]\nsort.count = 4\n[class]\nlearners = 2\nspares = 0\n[sheets]\nmake = [\"record\"]\n";

fn scene() -> (TempDir, Desk) {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), LESSON).unwrap();
    let desk = Desk::open(at.path(), &["tram.toml"]);
    (at, desk)
}

#[test]
fn nobody_comes_in_without_the_word_and_it_works_once() {
    let (_at, desk) = scene();
    let host = ("Host", desk.host.as_str());
    for path in ["/", "/view", "/here", "/desk.js", "/page/1/0", "/all.zip", "/file/teacher.pdf", "/?key=", "/?key=0"] {
        let refused = desk.ask("GET", path, &[host], b"");
        assert_eq!(refused.status, 403, "{path}");
        assert!(!refused.text().contains("Tram") && refused.header("set-cookie").is_none(), "{path}");
    }
    // Guesses do not use the word up.
    let page = desk.enter();
    assert_eq!(desk.ask("GET", &desk.entry, &[host], b"").status, 403);
    assert_eq!(page.get("/").status, 200);
    let sent = desk.ask("GET", &desk.entry, &[host, ("Cookie", &page.cookie)], b"");
    assert_eq!((sent.status, sent.header("location")), (303, Some("/")));
    let guess = format!("{}0", &page.cookie[..page.cookie.len() - 1]);
    let guess = if guess == page.cookie { format!("{}1", &page.cookie[..page.cookie.len() - 1]) } else { guess };
    for wrong in [guess.as_str(), "placewright=1", &page.cookie[..20], &page.cookie.to_uppercase()] {
        assert_eq!(desk.ask("GET", "/", &[host, ("Cookie", wrong)], b"").status, 403, "{wrong}");
    }
}

#[test]
fn the_cookie_is_for_this_page_alone() {
    let (_at, desk) = scene();
    let entered = desk.ask("GET", &desk.entry, &[("Host", &desk.host)], b"");
    let cookie = entered.header("set-cookie").unwrap();
    for word in ["HttpOnly", "SameSite=Strict", "Path=/"] {
        assert!(cookie.contains(word), "{cookie}");
    }
    assert!(!cookie.contains("Domain") && !cookie.contains("Max-Age") && !cookie.contains("Expires"), "{cookie}");
    let port = desk.host.rsplit(':').next().unwrap();
    assert!(cookie.starts_with(&format!("placewright-{port}=")), "{cookie}");
}

#[test]
fn another_name_for_this_machine_is_refused() {
    let (_at, desk) = scene();
    let page = desk.enter();
    let port = desk.host.rsplit(':').next().unwrap();
    let named = |host: &str| desk.ask("GET", "/", &[("Host", host), ("Cookie", &page.cookie)], b"").status;
    for good in [desk.host.clone(), format!("localhost:{port}"), format!("[::1]:{port}")] {
        assert_eq!(named(&good), 200, "{good}");
    }
    for bad in [
        "evil.example".to_owned(),
        format!("evil.example:{port}"),
        format!("127.0.0.1.evil.example:{port}"),
        format!("localhost.evil.example:{port}"),
        "127.0.0.1".to_owned(),
        "127.0.0.1:1".to_owned(),
        format!("0.0.0.0:{port}"),
        format!("2130706433:{port}"),
        format!("127.1:{port}"),
        format!("user@127.0.0.1:{port}"),
        format!("127.0.0.1:{port} "),
        String::new(),
    ] {
        // Spaces at the end are no part of a header's value.
        assert!(named(&bad) == 421 || bad.ends_with(' '), "{bad}");
    }
    let (host, rest) = (&desk.host, format!("Cookie: {}\r\nConnection: close\r\n\r\n", page.cookie));
    let without = desk.raw(format!("GET / HTTP/1.1\r\n{rest}").as_bytes());
    let twice = desk.raw(format!("GET / HTTP/1.1\r\nHost: {host}\r\nHost: evil.example\r\n{rest}").as_bytes());
    let absolute = desk.raw(format!("GET http://evil.example/ HTTP/1.1\r\nHost: {host}\r\n{rest}").as_bytes());
    let older = desk.raw(format!("GET / HTTP/1.0\r\nHost: {host}\r\n{rest}").as_bytes());
    for answer in [&without, &twice, &absolute, &older] {
        let status = answer.split(' ').nth(1).unwrap_or_default();
        assert!(["400", "421"].contains(&status) && !answer.contains("Tram"), "{answer}");
    }
}

#[test]
fn other_pages_cannot_make_the_browser_ask() {
    let (at, desk) = scene();
    let page = desk.enter();
    let own = format!("http://{}", desk.host);
    let (host, cookie) = (("Host", desk.host.as_str()), ("Cookie", page.cookie.as_str()));
    let json = ("Content-Type", "application/json");
    let body = br#"{"name":"stolen.toml"}"#;
    let tries: &[&[(&str, &str)]] = &[
        &[host, cookie, json],
        &[host, cookie, json, ("Origin", "null")],
        &[host, cookie, json, ("Origin", "http://evil.example")],
        &[host, cookie, json, ("Origin", "http://127.0.0.1:1")],
        &[host, cookie, json, ("Origin", &own), ("Origin", "http://evil.example")],
        &[host, cookie, json, ("Origin", &own), ("Sec-Fetch-Site", "cross-site")],
        &[host, cookie, json, ("Origin", &own), ("Sec-Fetch-Site", "same-site")],
        &[host, json, ("Origin", &own)],
    ];
    for headers in tries {
        assert_eq!(desk.ask("POST", "/save", headers, body).status, 403, "{headers:?}");
    }
    for kind in
        ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "application/json; x"]
    {
        let headers = [host, cookie, ("Origin", own.as_str()), ("Content-Type", kind)];
        assert_eq!(desk.ask("POST", "/save", &headers, body).status, 415, "{kind}");
    }
    for (name, value) in
        [("Sec-Fetch-Site", "cross-site"), ("Sec-Fetch-Site", "same-site"), ("Origin", "http://evil.example")]
    {
        for path in ["/", "/view", "/page/1/0", "/desk.js"] {
            assert_eq!(desk.ask("GET", path, &[host, cookie, (name, value)], b"").status, 403, "{path}");
        }
    }
    // Nothing is said to those who ask first (CORS), and there is no other way to ask.
    for method in ["OPTIONS", "PUT", "DELETE", "PATCH", "HEAD", "TRACE"] {
        let headers = [host, cookie, ("Origin", "http://evil.example"), ("Access-Control-Request-Method", "POST")];
        let answer = desk.ask(method, "/save", &headers, b"");
        assert!(answer.status >= 400 && answer.header("access-control-allow-origin").is_none(), "{method}");
    }
    // Reading does nothing.
    for path in ["/save", "/make", "/edit", "/open", "/stop", "/back"] {
        assert_eq!(page.get(path).status, 404, "{path}");
    }
    assert_eq!(fs::read_dir(at.path()).unwrap().count(), 1, "something was written");
}

#[test]
fn every_answer_is_fenced_in() {
    let (_at, desk) = scene();
    let page = desk.enter();
    page.view();
    #[track_caller]
    fn fenced(answer: &Answer) {
        let policy = answer.header("content-security-policy").unwrap();
        assert!(policy.contains("default-src 'none'") && policy.contains("frame-ancestors 'none'"), "{policy}");
        assert!(!policy.contains("unsafe") && !policy.contains('*') && !policy.contains("http"), "{policy}");
        assert_eq!(answer.header("x-content-type-options"), Some("nosniff"));
        assert_eq!(answer.header("referrer-policy"), Some("no-referrer"));
        assert_eq!(answer.header("cache-control"), Some("no-store"));
        assert_eq!(answer.header("cross-origin-resource-policy"), Some("same-origin"));
        assert!(answer.header("access-control-allow-origin").is_none());
    }
    for path in ["/", "/begin", "/view", "/here", "/desk.js", "/desk.css", "/desk.svg", "/page/1/0", "/nothing"] {
        fenced(&page.get(path));
    }
    fenced(&desk.ask("GET", "/", &[("Host", &desk.host)], b""));
    // What the policy forbids is not there to begin with, and nothing comes from elsewhere.
    let html = page.get("/").text();
    for word in [" style=", " onclick=", " onload=", "<script>", "javascript:", "https://", "http://", "//cdn"] {
        assert!(!html.contains(word), "{word}");
    }
    for path in ["/desk.js", "/desk.css"] {
        let text = page.get(path).text();
        assert!(!text.contains("https:") && !text.contains("url(") && !text.contains("eval("), "{path}");
    }
}

#[test]
fn what_is_typed_never_becomes_markup() {
    let (_at, desk) = scene();
    let page = desk.enter();
    let evil = "</textarea><script>alert(1)</script><img src=x onerror=alert(2)> \"' &amp;";
    page.fill("title", json!({ "": evil }));
    page.fill("grade", json!({ "": "\" autofocus onfocus=alert(3) x=\"" }));
    page.view();
    let html = page.get("/").text();
    assert!(html.contains("&lt;script&gt;alert(1)") && !html.contains("<script>alert"), "{html}");
    assert!(!html.contains("<img src=x") && !html.contains("\" autofocus"), "{html}");
}

#[test]
fn no_more_is_read_than_a_lesson_takes() {
    let (_at, desk) = scene();
    let page = desk.enter();
    let big = vec![b'x'; 3 << 20];
    let headers = page.headers();
    let headers: Vec<(&str, &str)> = headers.iter().map(|(name, value)| (*name, value.as_str())).collect();
    assert_eq!(desk.ask("POST", "/text", &headers, &big).status, 413);
    let long = format!("GET /{} HTTP/1.1\r\nHost: {}\r\n\r\n", "a".repeat(1 << 20), desk.host);
    assert!(desk.raw(long.as_bytes()).starts_with("HTTP/1.1 4"));
    let many: String = (0..200).map(|k| format!("X-{k}: 1\r\n")).collect();
    let many = format!("GET / HTTP/1.1\r\nHost: {}\r\n{many}\r\n", desk.host);
    assert!(desk.raw(many.as_bytes()).starts_with("HTTP/1.1 431"));
    assert_eq!(page.get("/").status, 200);
}

#[test]
fn requests_that_are_none_change_nothing() {
    let (_at, desk) = scene();
    let page = desk.enter();
    let (host, cookie) = (&desk.host, &page.cookie);
    let head = format!("Host: {host}\r\nCookie: {cookie}\r\nOrigin: http://{host}\r\nContent-Type: application/json");
    for bytes in [
        &b"\x00\x01\x02\xff"[..],
        b"\r\n\r\n\r\n",
        b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03",
        b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n",
        b"GET\r\n\r\n",
        b"GET / HTTP/9.9\r\n\r\n",
        b"get / HTTP/1.1\r\nhost:\r\n\r\n",
        // Two ends of a body: where one reader would see a second request (RFC 9112, 6.3).
        format!("POST /undo HTTP/1.1\r\n{head}\r\nContent-Length: 2\r\nContent-Length: 40\r\n\r\n{{}}").as_bytes(),
        format!("POST /back HTTP/1.1\r\n{head}\r\nContent-Length: -1\r\n\r\n{{}}").as_bytes(),
        format!("POST /back HTTP/1.1\r\n{head}\r\nContent-Length: 99999999999999999999\r\n\r\n{{}}").as_bytes(),
        format!("POST /back HTTP/1.1\r\n{head}\r\nTransfer-Encoding: chunked\r\n\r\nzz\r\n").as_bytes(),
        format!("GET /../../etc/passwd HTTP/1.1\r\n{head}\r\n\r\n").as_bytes(),
        format!("GET /file/../../etc/passwd HTTP/1.1\r\n{head}\r\n\r\n").as_bytes(),
        format!("GET /file/%2e%2e%2fetc%2fpasswd HTTP/1.1\r\n{head}\r\n\r\n").as_bytes(),
        format!("GET /page/1/99999999999999999999 HTTP/1.1\r\n{head}\r\n\r\n").as_bytes(),
    ] {
        let answer = desk.raw(bytes);
        let status = answer.split(' ').nth(1).unwrap_or("400");
        assert!(
            answer.is_empty() || status.starts_with('4') || status == "505",
            "{:?}: {answer}",
            String::from_utf8_lossy(bytes)
        );
        assert!(!answer.contains("root:"), "{answer}");
    }
    for body in [
        "",
        "{",
        "[]",
        "null",
        "{\"key\":1}",
        "{\"unknown\":1}",
        "{\"number\":-1}",
        "{\"parts\":{\"a\":{}}}",
        "\u{feff}{}",
    ] {
        let headers = page.headers();
        let headers: Vec<(&str, &str)> = headers.iter().map(|(name, value)| (*name, value.as_str())).collect();
        let status = desk.ask("POST", "/edit", &headers, body.as_bytes()).status;
        assert!(status == 400 || status == 404, "{body}: {status}");
    }
    for key in ["", "nothing", "numbers", "numbers.sort", "title.x", "seed.", "__proto__", "numbers.sort.zeros.tens"] {
        assert_eq!(page.post("/edit", &json!({ "key": key, "parts": { "": "1" } })).status, 404, "{key}");
    }
    assert_eq!(page.view()["saved"], true, "something changed");
}

#[test]
fn a_connection_that_says_nothing_is_closed_and_keeps_nobody_out() {
    let (_at, desk) = scene();
    let page = desk.enter();
    let (host, cookie) = (&desk.host, &page.cookie);
    // A body that never comes, heads that end in the middle, and more of them than there is room for.
    let connect = |text: &str| {
        let mut stream = TcpStream::connect(&desk.host).ok()?;
        stream.set_read_timeout(Some(Duration::from_secs(30))).unwrap();
        stream.write_all(text.as_bytes()).ok()?;
        Some(stream)
    };
    let head = "Content-Type: application/json\r\nContent-Length: 10\r\n\r\n{";
    let waiting = format!("POST /back HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\nOrigin: http://{host}\r\n{head}");
    let mut body = connect(&waiting).unwrap();
    let mut slow: Vec<TcpStream> = (0..80).filter_map(|_| connect("GET / HTTP/1.1\r\nHo")).collect();
    let mut heard = Vec::new();
    // It ends by itself: an error would be the limit of this test.
    slow[0].read_to_end(&mut heard).expect("closed by the desk");
    let mut heard = [0; 64];
    let read = body.read(&mut heard).expect("an answer");
    assert!(heard[..read].starts_with(b"HTTP/1.1 408"), "{}", String::from_utf8_lossy(&heard[..read]));
    assert_eq!(page.get("/here").status, 200);
}

#[test]
fn nobody_on_the_network_is_listened_to() {
    let (_at, desk) = scene();
    let port: u16 = desk.host.rsplit(':').next().unwrap().parse().unwrap();
    // The address by which others would reach this machine; nothing is sent.
    let socket = UdpSocket::bind("0.0.0.0:0").unwrap();
    let outer = socket.connect("192.0.2.1:9").and_then(|()| socket.local_addr()).map(|address| address.ip());
    match outer {
        Ok(ip) if !ip.is_loopback() && !ip.is_unspecified() => {
            assert!(TcpStream::connect_timeout(&(ip, port).into(), Duration::from_secs(2)).is_err(), "{ip}:{port}");
        }
        _ => eprintln!("skipped: this machine has no address on a network"),
    }
    let bound: IpAddr = desk.host.rsplit_once(':').unwrap().0.trim_matches(['[', ']']).parse().unwrap();
    assert!(bound.is_loopback());
}
