//! Listening, on this machine only, and ending.
//!
//! Connections are few and short: so many at a time, each with so long for the head of a request and for its body, and with
//! a limit on the size of both. What is beyond is turned away before anything is done for it.

use std::convert::Infallible;
use std::io;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr, SocketAddr};
use std::sync::Arc;
use std::sync::mpsc::Receiver;
use std::time::Duration;

use http_body_util::{BodyExt, Limited};
use hyper::server::conn::http1;
use hyper::service::service_fn;
use hyper::{Method, Request, StatusCode};
use hyper_util::rt::{TokioIo, TokioTimer};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::Semaphore;
use tokio::time::{sleep, timeout};

use super::guard::{Door, Verdict};
use super::idle::Idle;
use super::reply::{self, WebReply};
use super::session::Session;
use super::{acts, routes};

/// How many connections are open at a time; browsers open six.
const CONNECTIONS: usize = 64;
/// How long the head of a request may take, and how long a connection may be silent.
const HEAD: Duration = Duration::from_secs(10);
/// How long a body may take.
const BODY: Duration = Duration::from_secs(10);
/// How long a connection lasts before the browser has to open another one.
const LASTS: Duration = Duration::from_mins(15);
/// Bytes in the head of a request.
const HEAD_BYTES: usize = 16 << 10;
/// Bytes in a body: a whole lesson file, with every character escaped.
const BODY_BYTES: usize = 2 << 20;
/// How many threads lay out lessons, draw pages and read files.
const WORKERS: usize = 16;

/// A place to listen at.
pub struct Listening {
    listener: std::net::TcpListener,
    /// Where it is.
    pub address: SocketAddr,
}

/// Begins to listen at a port of this machine, or at one that is free for 0.
pub fn listen(port: u16) -> io::Result<Listening> {
    let bind = |ip: IpAddr| std::net::TcpListener::bind(SocketAddr::new(ip, port));
    let listener = bind(Ipv4Addr::LOCALHOST.into()).or_else(|error| match error.kind() {
        // Machines without IPv4 have the other loopback.
        io::ErrorKind::AddrNotAvailable | io::ErrorKind::Unsupported => bind(Ipv6Addr::LOCALHOST.into()),
        _ => Err(error),
    })?;
    listener.set_nonblocking(true)?;
    let address = listener.local_addr()?;
    Ok(Listening { listener, address })
}

/// Serves until nobody has the page open any more, or until `stop` is told.
pub fn serve(
    listening: Listening,
    door: Door,
    session: &Arc<Session>,
    linger: Duration,
    stop: &Receiver<()>,
) -> io::Result<()> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().max_blocking_threads(WORKERS).build()?;
    let (door, idle) = (Arc::new(door), Arc::new(Idle::new(linger)));
    let result = runtime.block_on(async {
        let listener = TcpListener::from_std(listening.listener)?;
        let first = session.now().revision;
        let mine = Arc::clone(session);
        tokio::task::spawn_blocking(move || mine.work_out(first));
        let (through, mine, still) = (Arc::clone(&door), Arc::clone(session), Arc::clone(&idle));
        tokio::spawn(async move { accept(&listener, &through, &mine, &still).await });
        idle.wait(session, stop).await;
        Ok(())
    });
    session.stop();
    // Work that was dropped may still be at its last step; nobody waits for it.
    runtime.shutdown_timeout(Duration::from_millis(200));
    result
}

async fn accept(listener: &TcpListener, door: &Arc<Door>, session: &Arc<Session>, idle: &Arc<Idle>) -> Infallible {
    let room = Arc::new(Semaphore::new(CONNECTIONS));
    loop {
        let Ok((stream, peer)) = listener.accept().await else {
            // Out of handles: others have to be closed first.
            sleep(Duration::from_millis(50)).await;
            continue;
        };
        let Ok(place) = Arc::clone(&room).try_acquire_owned() else { continue };
        if !peer.ip().is_loopback() {
            continue;
        }
        let (door, session, idle) = (Arc::clone(door), Arc::clone(session), Arc::clone(idle));
        tokio::spawn(async move {
            // Small answers are sent at once.
            let _ = stream.set_nodelay(true);
            talk(stream, &door, &session, &idle).await;
            drop(place);
        });
    }
}

/// One connection.
async fn talk(stream: TcpStream, door: &Arc<Door>, session: &Arc<Session>, idle: &Arc<Idle>) {
    let service = service_fn(|request| {
        let (door, session, idle) = (Arc::clone(door), Arc::clone(session), Arc::clone(idle));
        async move { Ok::<WebReply, Infallible>(answer(request, &door, &session, &idle).await) }
    });
    let mut builder = http1::Builder::new();
    // Whoever says that no more will come is answered all the same, and one who stops in the middle is not waited for.
    builder.half_close(true);
    builder.timer(TokioTimer::new()).header_read_timeout(HEAD).max_buf_size(HEAD_BYTES).max_headers(64);
    let connection = builder.serve_connection(TokioIo::new(stream), service);
    let mut connection = std::pin::pin!(connection);
    if timeout(LASTS, connection.as_mut()).await.is_err() {
        connection.as_mut().graceful_shutdown();
        let _ = timeout(LASTS, connection).await;
    }
}

/// One request.
pub async fn answer<B>(request: Request<B>, door: &Door, session: &Arc<Session>, idle: &Idle) -> WebReply
where
    B: hyper::body::Body,
    B::Error: Into<Box<dyn std::error::Error + Send + Sync>>,
{
    let (head, body) = request.into_parts();
    match door.judge(&head) {
        Verdict::Refuse(status, sentence) => return reply::refusal(status, sentence),
        Verdict::Enter(cookie) => return reply::on_to_the_page(cookie.as_deref()),
        Verdict::Come => {}
    }
    let path = head.uri.path();
    idle.seen(path == "/left");
    if head.method == Method::GET {
        return routes::get(session, path, head.uri.query()).await;
    }
    match timeout(BODY, Limited::new(body, BODY_BYTES).collect()).await {
        Ok(Ok(body)) => acts::post(session, path, &body.to_bytes()).await,
        Ok(Err(error)) if error.is::<http_body_util::LengthLimitError>() => {
            reply::refusal(StatusCode::PAYLOAD_TOO_LARGE, "This is more than a lesson file can hold.")
        }
        Ok(Err(_)) => reply::refusal(StatusCode::BAD_REQUEST, "This request ended early."),
        Err(_) => reply::refusal(StatusCode::REQUEST_TIMEOUT, "This request took too long."),
    }
}
