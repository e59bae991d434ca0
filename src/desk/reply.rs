//! What the desk answers with: every answer carries the same strict headers.
//!
//! The page may load scripts, styles and pictures from the desk itself and nothing from anywhere else; it may not be shown
//! inside another page; nothing of it is kept by the browser (Content Security Policy Level 3, W3C; RFC 9111, `no-store`).

use std::convert::Infallible;
use std::io::{self, Write};
use std::pin::Pin;
use std::task::{Context, Poll};

use http_body_util::combinators::UnsyncBoxBody;
use http_body_util::{BodyExt, Full};
use hyper::body::{Body, Bytes, Frame};
use hyper::header::{self, HeaderName, HeaderValue};
use hyper::{Response, StatusCode};
use serde_json::Value;
use tokio::sync::mpsc;

/// An answer.
pub type WebReply = Response<UnsyncBoxBody<Bytes, Infallible>>;

const POLICY: &str = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; \
                      form-action 'none'; base-uri 'none'; frame-ancestors 'none'";

/// What every answer says.
const ALWAYS: [(HeaderName, &str); 6] = [
    (header::CONTENT_SECURITY_POLICY, POLICY),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::CACHE_CONTROL, "no-store"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
    (HeaderName::from_static("cross-origin-opener-policy"), "same-origin"),
];

/// How many bytes of a file are one piece on its way, and how many pieces may be.
const PIECE: usize = 1 << 16;
const PIECES: usize = 4;

fn answer(status: StatusCode, kind: &'static str, body: UnsyncBoxBody<Bytes, Infallible>) -> WebReply {
    let mut reply = Response::new(body);
    *reply.status_mut() = status;
    let headers = reply.headers_mut();
    headers.insert(header::CONTENT_TYPE, HeaderValue::from_static(kind));
    for (name, value) in ALWAYS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    reply
}

fn whole(bytes: impl Into<Bytes>) -> UnsyncBoxBody<Bytes, Infallible> {
    Full::new(bytes.into()).boxed_unsync()
}

/// A page, a style sheet, a script or a picture.
pub fn text(kind: &'static str, text: impl Into<Bytes>) -> WebReply {
    answer(StatusCode::OK, kind, whole(text))
}

/// What the page's script reads.
pub fn json(value: &Value) -> WebReply {
    text("application/json", value.to_string())
}

/// A refusal, in a sentence for people.
pub fn refusal(status: StatusCode, sentence: &str) -> WebReply {
    answer(status, "text/plain; charset=utf-8", whole(sentence.to_owned()))
}

/// Sends the browser on to the page; with a cookie where it gets one.
pub fn on_to_the_page(cookie: Option<&str>) -> WebReply {
    let mut reply = answer(StatusCode::SEE_OTHER, "text/plain; charset=utf-8", whole(""));
    reply.headers_mut().insert(header::LOCATION, HeaderValue::from_static("/"));
    if let Some(cookie) = cookie.and_then(|cookie| HeaderValue::from_str(cookie).ok()) {
        reply.headers_mut().insert(header::SET_COOKIE, cookie);
    }
    reply
}

/// A file that is made or read by `content` while it is sent. `name` is given to what the browser saves; without it the
/// browser shows the file. What cannot be read to its end is cut short, which the browser notices.
pub fn file(
    kind: &'static str,
    content: impl FnOnce(&mut dyn Write) -> io::Result<()> + Send + 'static,
    length: Option<u64>,
    name: Option<&str>,
) -> WebReply {
    let (sender, receiver) = mpsc::channel(PIECES);
    tokio::task::spawn_blocking(move || {
        let mut out = io::BufWriter::with_capacity(PIECE, Sending(sender));
        // Nobody is left to tell of what goes wrong here.
        let _ = content(&mut out).and_then(|()| out.flush());
    });
    let mut reply = answer(StatusCode::OK, kind, Pieces(receiver).boxed_unsync());
    let headers = reply.headers_mut();
    if let Some(length) = length {
        headers.insert(header::CONTENT_LENGTH, HeaderValue::from(length));
    }
    if kind == PDF {
        headers.insert(header::CONTENT_SECURITY_POLICY, HeaderValue::from_static(VIEWER));
    }
    let plain = |c: char| if c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.') { c } else { '-' };
    let name = name.map(|name| name.chars().map(plain).collect::<String>());
    let shown = name.map_or("inline".to_owned(), |name| format!("attachment; filename=\"{name}\""));
    if let Ok(shown) = HeaderValue::from_str(&shown) {
        headers.insert(header::CONTENT_DISPOSITION, shown);
    }
    reply
}

/// The kind of a packet.
pub const PDF: &str = "application/pdf";

/// The policy on a packet: viewers that are part of a browser are pages with styles of their own.
const VIEWER: &str = "default-src 'self' 'unsafe-inline'; frame-ancestors 'none'";

/// Where a file is written that is sent as it comes; waits while the browser has enough.
struct Sending(mpsc::Sender<Bytes>);

impl Write for Sending {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let gone = |_| io::Error::from(io::ErrorKind::BrokenPipe);
        self.0.blocking_send(Bytes::copy_from_slice(bytes)).map_err(gone).map(|()| bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Pieces of a file as they come.
struct Pieces(mpsc::Receiver<Bytes>);

impl Body for Pieces {
    type Data = Bytes;
    type Error = Infallible;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, Infallible>>> {
        self.0.poll_recv(context).map(|piece| piece.map(|piece| Ok(Frame::data(piece))))
    }
}
