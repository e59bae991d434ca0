//! When the desk ends by itself: nobody has asked for anything in a while.
//!
//! An open page says that it is there every few seconds, less often behind other pages; a page that is closed says so. A
//! page that was put to sleep by its browser says nothing, so what is not saved is waited for much longer.

use std::sync::mpsc::Receiver;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use tokio::time::sleep;

use super::session::Session;

/// How long is waited after a page was closed: it may only be loaded again.
const CLOSED: Duration = Duration::from_secs(20);
/// How long a lesson that is not saved is waited for.
const UNSAVED: Duration = Duration::from_hours(12);
/// Between two looks.
const PAUSE: Duration = Duration::from_millis(250);

/// When something was last asked for.
pub struct Idle {
    linger: Duration,
    last: Mutex<(Instant, bool)>,
}

impl Idle {
    /// Waits so long after the last request.
    pub fn new(linger: Duration) -> Self {
        Self { linger, last: Mutex::new((Instant::now(), false)) }
    }

    /// Something was asked for; `left` where a page said that it is being closed.
    pub fn seen(&self, left: bool) {
        *self.last.lock().unwrap_or_else(PoisonError::into_inner) = (Instant::now(), left);
    }

    /// Returns when nobody is there any more, or when something is sent to `stop`.
    pub async fn wait(&self, session: &Session, stop: &Receiver<()>) {
        while stop.try_recv().is_err() {
            sleep(PAUSE).await;
            let (last, left) = *self.last.lock().unwrap_or_else(PoisonError::into_inner);
            let state = session.now();
            let patience = if left {
                self.linger.min(CLOSED)
            } else if state.is_saved() {
                self.linger
            } else {
                self.linger.max(UNSAVED)
            };
            if last.elapsed() > patience && state.making.is_none() {
                return;
            }
        }
    }
}
