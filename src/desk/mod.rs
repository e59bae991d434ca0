//! The desk: a page in the browser on which a lesson file is filled in, with its numbers and pages beside the form.
//!
//! It is the same program behind another door: the lesson file is the one truth, and whatever is done on the page is a
//! change of its text that a teacher could have typed. Data flows one way here too: [`guard`] lets a request in, [`acts`]
//! changes the [`session`] through [`document`] and [`pick`], and [`routes`] hands out the [`page`] that shows what came of it; what the page says of keys
//! comes from their table ([`fields`]). Files and the other stages are reached through the [`workshop`] alone.

mod acts;
mod archive;
mod document;
mod fields;
mod form;
mod guard;
mod idle;
mod packets;
mod page;
mod pick;
mod points;
mod reply;
mod routes;
mod server;
mod session;
mod values;
mod view;
pub mod workshop;

use std::io;
use std::sync::Arc;
use std::sync::mpsc::Receiver;
use std::time::Duration;

use guard::Door;
use session::{OnDesk, Session};
use workshop::Workshop;

/// A desk that is ready to be opened.
pub struct Ready {
    listening: server::Listening,
    door: Door,
    session: Arc<Session>,
    /// The address that opens it, once.
    pub address: String,
}

/// Gets a desk ready at a port of this machine, or at a free one for 0; with a lesson file on it where one is named, by its
/// name and text.
pub fn ready(workshop: Arc<dyn Workshop>, lesson: Option<(String, String)>, port: u16) -> io::Result<Ready> {
    let listening = server::listen(port)?;
    let door = Door::new(listening.address.port())?;
    let address = format!("http://{}{}", listening.address, door.entry());
    let lesson = lesson.map(|(name, text)| OnDesk::new(Some(name), text));
    let session = Arc::new(Session::new(workshop, lesson));
    Ok(Ready { listening, door, session, address })
}

impl Ready {
    /// Serves the page until nobody has had it open for `linger`, or until something is sent to `stop`.
    pub fn serve(self, linger: Duration, stop: &Receiver<()>) -> io::Result<()> {
        server::serve(self.listening, self.door, &self.session, linger, stop)
    }
}

/// The lesson files that can be opened.
fn lesson_files(session: &Session) -> Vec<String> {
    session.workshop.lessons()
}
