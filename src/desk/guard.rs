//! Who may speak to the desk: the browser of whoever started it, from the desk's own page, and nobody else.
//!
//! Every request passes [`Door::judge`] before anything else looks at it. In order: the address it was sent to must be
//! the desk's own (a page elsewhere can make a browser send requests here under another name: DNS rebinding); a browser
//! that says which page a request comes from must say that it comes from this one, or that a person typed the address; it
//! carries the cookie that the first address was exchanged for. The first address holds a random word that works once: it is
//! seen by whatever lists running programs while the browser starts.
//!
//! What browsers tell: Fetch Standard (WHATWG), `Origin`; Fetch Metadata Request Headers (W3C), `Sec-Fetch-Site`; cookies:
//! RFC 6265, and `SameSite` after its successor's draft.

use std::sync::Mutex;

use hyper::header::{self, HeaderMap, HeaderName};
use hyper::http::request::Parts;
use hyper::{Method, StatusCode, Version};

/// A random word of 256 bits, in hexadecimal.
fn secret() -> std::io::Result<String> {
    let mut bytes = [0; 32];
    getrandom::fill(&mut bytes).map_err(|error| std::io::Error::other(error.to_string()))?;
    Ok(bytes.iter().flat_map(|byte| [byte >> 4, byte & 15]).filter_map(|k| char::from_digit(k.into(), 16)).collect())
}

/// The only way in.
pub struct Door {
    /// What `Host` may be: the addresses of this desk.
    hosts: Vec<String>,
    /// What opens the door once.
    entry: Mutex<Option<String>>,
    /// What a browser shows from then on.
    pass: String,
    /// The cookie's name: cookies do not know ports, and several desks may be open.
    cookie: String,
}

/// What becomes of a request.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// It is answered.
    Come,
    /// It is sent on to the page, with this cookie where it has none yet.
    Enter(Option<String>),
    /// It is refused, with this status and word.
    Refuse(StatusCode, &'static str),
}

/// The words by which the first address is told.
const ENTRY: &str = "key=";

/// What a page elsewhere cannot set without asking, and a browser tells of every request it makes itself.
const FETCH_SITE: HeaderName = HeaderName::from_static("sec-fetch-site");

impl Door {
    /// A door for a desk at a port of this machine.
    pub fn new(port: u16) -> std::io::Result<Self> {
        let hosts = ["127.0.0.1", "[::1]", "localhost"].map(|host| format!("{host}:{port}")).to_vec();
        let cookie = format!("placewright-{port}");
        Ok(Self { hosts, entry: Mutex::new(Some(secret()?)), pass: secret()?, cookie })
    }

    /// The path of the first address.
    pub fn entry(&self) -> String {
        let entry = self.entry.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        format!("/?{ENTRY}{}", entry.as_deref().unwrap_or_default())
    }

    /// What becomes of a request.
    pub fn judge(&self, request: &Parts) -> Verdict {
        use StatusCode as Code;
        let headers = &request.headers;
        let Some(host) = one(headers, &header::HOST).filter(|host| self.hosts.iter().any(|own| own == host)) else {
            return Verdict::Refuse(Code::MISDIRECTED_REQUEST, "This is not the address of this desk.");
        };
        if request.uri.authority().is_some() || request.version != Version::HTTP_11 {
            return Verdict::Refuse(Code::BAD_REQUEST, "This is no request to a page of this desk.");
        }
        let reads = request.method == Method::GET;
        if !reads && request.method != Method::POST {
            return Verdict::Refuse(Code::METHOD_NOT_ALLOWED, "This desk is read and spoken to, nothing else.");
        }
        let elsewhere = Verdict::Refuse(Code::FORBIDDEN, "This request comes from another page.");
        if headers.contains_key(FETCH_SITE) && !matches!(one(headers, &FETCH_SITE), Some("same-origin" | "none")) {
            return elsewhere;
        }
        let origin = one(headers, &header::ORIGIN);
        let own = origin.and_then(|origin| origin.strip_prefix("http://")).is_some_and(|origin| origin == host);
        if (headers.contains_key(header::ORIGIN) || !reads) && !own {
            return elsewhere;
        }
        let known = self.is_known(headers);
        if let Some(word) = request.uri.query().and_then(|query| query.strip_prefix(ENTRY)) {
            if reads && request.uri.path() == "/" && (known || self.take(word)) {
                let pass = (!known).then(|| self.give());
                return Verdict::Enter(pass);
            }
        } else if known {
            let plain = matches!(one(headers, &header::CONTENT_TYPE), Some("application/json"));
            return if reads || plain {
                Verdict::Come
            } else {
                Verdict::Refuse(Code::UNSUPPORTED_MEDIA_TYPE, "This is not what the desk's own page sends.")
            };
        }
        let word = "This desk is open in the browser that it was started in. To open another one, start it again.";
        Verdict::Refuse(Code::FORBIDDEN, word)
    }

    /// Whether a request has the cookie.
    fn is_known(&self, headers: &HeaderMap) -> bool {
        let all = headers.get_all(header::COOKIE).iter().filter_map(|value| value.to_str().ok());
        let pairs = all.flat_map(|value| value.split(';')).filter_map(|pair| pair.trim().split_once('='));
        let mut ours = pairs.filter(|(name, _)| *name == self.cookie).map(|(_, value)| value);
        ours.any(|value| same(value, &self.pass))
    }

    /// Takes the word that works once.
    fn take(&self, word: &str) -> bool {
        let mut entry = self.entry.lock().unwrap_or_else(std::sync::PoisonError::into_inner);
        let right = entry.as_deref().is_some_and(|entry| same(word, entry));
        if right {
            *entry = None;
        }
        right
    }

    /// The cookie: sent to this page only, never to scripts, gone with the browser.
    fn give(&self) -> String {
        format!("{}={}; Path=/; HttpOnly; SameSite=Strict", self.cookie, self.pass)
    }
}

/// The value of a header that is there once, and is text.
fn one<'h>(headers: &'h HeaderMap, name: &HeaderName) -> Option<&'h str> {
    let mut values = headers.get_all(name).iter();
    let value = values.next()?.to_str().ok()?;
    values.next().is_none().then_some(value)
}

/// Whether two texts are the same, in a time that does not tell how far they are.
fn same(one: &str, other: &str) -> bool {
    let differ = one.bytes().zip(other.bytes()).fold(0, |seen, (a, b)| seen | (a ^ b));
    one.len() == other.len() && differ == 0
}

#[cfg(test)]
mod tests {
    use super::*;
    use hyper::Request;

    fn ask(door: &Door, method: &str, uri: &str, headers: &[(&str, &str)]) -> Verdict {
        let mut request = Request::builder().method(method).uri(uri);
        for (name, value) in headers {
            request = request.header(*name, *value);
        }
        door.judge(&request.body(()).expect("a request").into_parts().0)
    }

    fn status(verdict: &Verdict) -> u16 {
        match verdict {
            Verdict::Come => 200,
            Verdict::Enter(_) => 303,
            Verdict::Refuse(status, _) => status.as_u16(),
        }
    }

    #[test]
    fn the_first_address_opens_once() {
        let door = Door::new(4711).expect("a door");
        let (entry, host) = (door.entry(), ("host", "127.0.0.1:4711"));
        assert!(entry.len() > 64);
        assert_eq!(status(&ask(&door, "GET", &entry.replace('a', "b").replace('0', "1"), &[host])), 403);
        let Verdict::Enter(Some(cookie)) = ask(&door, "GET", &entry, &[host]) else { panic!("no entry") };
        assert!(cookie.contains("HttpOnly") && cookie.contains("SameSite=Strict"));
        assert_eq!(status(&ask(&door, "GET", &entry, &[host])), 403);
        let shown = ("cookie", cookie.split(';').next().expect("a pair"));
        // Whoever is in may press the reload button on the first address.
        assert_eq!(ask(&door, "GET", &entry, &[host, shown]), Verdict::Enter(None));
        assert_eq!(ask(&door, "GET", "/", &[host, shown]), Verdict::Come);
        assert_eq!(status(&ask(&door, "GET", "/?key=", &[host])), 403);
    }

    #[test]
    fn each_sign_of_another_page_is_enough() {
        let door = Door::new(4711).expect("a door");
        let cookie = format!("other=1; {}={}", door.cookie, door.pass);
        let (host, shown) = (("host", "localhost:4711"), ("cookie", cookie.as_str()));
        let (own, json) = (("origin", "http://localhost:4711"), ("content-type", "application/json"));
        let post = |more: &[(&str, &str)]| status(&ask(&door, "POST", "/edit", &[&[host, shown], more].concat()));
        let get = |uri: &str, headers: &[(&str, &str)]| status(&ask(&door, "GET", uri, headers));
        assert_eq!(post(&[own, json]), 200);
        assert_eq!(post(&[own, json, ("sec-fetch-site", "same-origin")]), 200);
        for headers in [
            &[json][..],
            &[("origin", "null"), json],
            &[("origin", "http://127.0.0.1:4711"), json],
            &[("origin", "http://localhost:4712"), json],
            &[("origin", "https://localhost:4711"), json],
            &[("origin", "http://evil.example"), json],
            &[own, own, json],
            &[own, json, ("sec-fetch-site", "cross-site")],
            &[own, json, ("sec-fetch-site", "same-site")],
        ] {
            assert_eq!(post(headers), 403, "{headers:?}");
        }
        for kind in ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"] {
            assert_eq!(post(&[own, ("content-type", kind)]), 415);
        }
        assert_eq!(post(&[own]), 415);
        for elsewhere in ["evil.example", "evil.example:4711", "127.0.0.1", "127.0.0.1:4712", "0.0.0.0:4711", ""] {
            assert_eq!(get("/", &[("host", elsewhere), shown]), 421, "{elsewhere}");
        }
        assert_eq!(get("/", &[shown]), 421);
        assert_eq!(get("/", &[host, host, shown]), 421);
        assert_eq!(get("http://localhost:4711/", &[host, shown]), 400);
        assert_eq!(get("/", &[host]), 403);
        assert_eq!(get("/", &[host, ("cookie", "placewright-4711=x")]), 403);
        assert_eq!(get("/", &[host, shown, ("origin", "http://evil.example")]), 403);
        assert_eq!(get("/", &[host, shown, ("sec-fetch-site", "none")]), 200);
        for method in ["PUT", "DELETE", "OPTIONS", "HEAD", "TRACE", "CONNECT"] {
            assert!(status(&ask(&door, method, "/", &[host, shown, own, json])) >= 400, "{method}");
        }
    }
}
