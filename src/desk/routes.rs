//! What the desk does for each request that came through the door.

use std::io;
use std::sync::Arc;
use std::time::Duration;

use hyper::StatusCode;
use hyper::body::Bytes;
use serde::Deserialize;
use serde_json::{Value, json};
use tokio::task::spawn_blocking;
use tokio::time::timeout;

use super::page::{self, Shown};
use super::points::POINTS;
use super::reply::{self, Reply};
use super::session::{Lesson, Session, State};
use super::values::{self, Parts};
use super::workshop::{Made, Refused};
use super::{archive, document, fields, pick};
use crate::svg;

/// How long a page is held back for a lesson that is being worked out.
const PATIENCE: Duration = Duration::from_secs(20);

const STYLE: &str = include_str!("desk.css");
const SCRIPT: &str = include_str!("desk.js");
const ICON: &str = include_str!("desk.svg");

/// What a change asks for.
#[derive(Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
struct Asked {
    /// The path of a key.
    key: String,
    /// What its field holds.
    parts: Parts,
    /// Whether it is still being typed.
    typing: bool,
    /// A whole text.
    text: String,
    /// The name of a file, or of a starting point.
    name: String,
    /// Whether a file may be replaced.
    over: bool,
    /// What to do with a number.
    act: String,
    /// Whose number.
    role: String,
    /// The number.
    number: u32,
}

/// Answers a reading request.
pub async fn get(session: &Arc<Session>, path: &str, query: Option<&str>) -> Reply {
    match path {
        "/" => html(page::page(session, &settled(session, None).await)),
        "/begin" => html(page::beginning(session, &session.now())),
        "/desk.css" => reply::text("text/css; charset=utf-8", STYLE),
        "/desk.js" => reply::text("text/javascript; charset=utf-8", SCRIPT),
        "/desk.svg" => reply::text("image/svg+xml", ICON),
        "/view" => view(session, query).await,
        "/here" => here(session).await,
        "/all.zip" => everything(session),
        _ => {
            let found = match path.trim_start_matches('/').split_once('/') {
                Some(("page", which)) => sheet(session, which).await,
                Some(("file", name)) => packet(session, name, false).await,
                Some(("save", name)) => packet(session, name, true).await,
                _ => None,
            };
            found.unwrap_or_else(|| reply::refusal(StatusCode::NOT_FOUND, "There is nothing of this name here."))
        }
    }
}

/// Answers a request to do something.
pub async fn post(session: &Arc<Session>, path: &str, body: &Bytes) -> Reply {
    let Ok(asked) = serde_json::from_slice::<Asked>(body) else {
        return reply::refusal(StatusCode::BAD_REQUEST, "This is not what the desk's own page sends.");
    };
    let before = session.now().revision;
    let path = path.to_owned();
    let mine = Arc::clone(session);
    // Files are read and written away from the thread that answers.
    let done = spawn_blocking(move || act(&mine, &path, &asked)).await;
    let after = session.now().revision;
    if after != before {
        let mine = Arc::clone(session);
        spawn_blocking(move || mine.work_out(after));
    }
    match done {
        Ok(Some(told)) => {
            let mut value = json!({ "revision": after });
            if let Some(told) = told {
                value["told"] = told;
            }
            reply::json(&value)
        }
        Ok(None) => reply::refusal(StatusCode::NOT_FOUND, "There is nothing of this name here."),
        Err(_) => reply::refusal(StatusCode::INTERNAL_SERVER_ERROR, "This went wrong in Placewright."),
    }
}

/// Does something; what there is to tell of it. None for what nobody does here.
fn act(session: &Arc<Session>, path: &str, asked: &Asked) -> Option<Option<Value>> {
    let state = session.now();
    let told = match path {
        "/begin" => begin(session, asked)?,
        "/open" => match session.workshop.open(&asked.name) {
            Ok(text) => {
                session.note(|state| drop(state.files.insert(asked.name.clone(), text.clone())));
                session.put(Lesson { name: Some(asked.name.clone()), text }, None);
                None
            }
            Err(why) => Some(refused(&why)),
        },
        "/back" | "/forth" => {
            session.step(path == "/back");
            None
        }
        "/stop" => {
            session.stop();
            None
        }
        "/left" => None,
        _ => {
            let lesson = state.lesson.clone()?;
            return change(session, &state, lesson, path, asked);
        }
    };
    Some(told)
}

/// Changes the lesson on the desk, or does something with it.
fn change(session: &Arc<Session>, state: &State, lesson: Lesson, path: &str, asked: &Asked) -> Option<Option<Value>> {
    let text = &lesson.text;
    let new = match path {
        "/edit" => {
            let (key, shape) = fields::find(&asked.key).filter(|(key, _)| *key == asked.key)?;
            document::set(text, &key, values::value(&shape, &asked.parts).as_ref())
        }
        "/text" => asked.text.clone(),
        "/mend" => session.workshop.mended(&session.file_name(&lesson), text),
        "/theirs" => {
            let theirs = state.theirs.clone()?;
            let name = lesson.name.clone()?;
            session.note(|state| {
                state.files.insert(name, theirs.clone());
                state.theirs = None;
            });
            theirs
        }
        "/number" => return number(session, state, &lesson, asked),
        "/save" => {
            let told = session.save(&asked.name, asked.over).err();
            return Some(told.map(|why| refused(&why)));
        }
        "/make" => {
            let session = Arc::clone(session);
            // Its end is told to whoever waits for a view.
            std::thread::spawn(move || session.make());
            return Some(None);
        }
        _ => return None,
    };
    let typing = asked.typing.then_some(asked.key.as_str());
    session.put(Lesson { text: new, ..lesson }, typing);
    Some(None)
}

/// Puts a new lesson on the desk: from a starting point, or like a file of the folder.
fn begin(session: &Arc<Session>, asked: &Asked) -> Option<Option<Value>> {
    let text = if asked.act == "like" {
        match session.workshop.open(&asked.name) {
            Ok(text) => pick::fresh(&text, seed(&text), &[]),
            Err(why) => return Some(Some(refused(&why))),
        }
    } else {
        POINTS.iter().find(|point| point.word == asked.name)?.text(session.workshop.as_ref())
    };
    session.put(Lesson { name: None, text }, None);
    Some(None)
}

/// Keeps, leaves out or exchanges a number.
fn number(session: &Session, state: &State, lesson: &Lesson, asked: &Asked) -> Option<Option<Value>> {
    let (text, role) = (&lesson.text, asked.role.as_str());
    let known = crate::lesson::Role::ALL.iter().any(|known| known.word() == role);
    let mut held = state.held.clone();
    let new = match asked.act.as_str() {
        "fresh" => pick::fresh(text, seed(text), &std::mem::take(&mut held)),
        "free" => pick::free(text),
        _ if !known => return None,
        "keep" => pick::keep(text, role, asked.number),
        "let-go" => pick::let_go(text, role, asked.number),
        "leave-out" => pick::leave_out(text, role, asked.number),
        "another" => {
            let (laid, _) = state.laid.as_ref().filter(|_| state.found.is_empty())?;
            let (new, more) = pick::another(text, laid, role, asked.number);
            // Looked at first: a lesson that could be made is not exchanged for one that cannot.
            let made = session.workshop.lay(&session.file_name(lesson), &new, &|| true)?;
            if made.is_err() {
                let words = "There is no other number that meets the requests while the others stay.".to_owned();
                return Some(Some(json!(words)));
            }
            held.extend(more);
            new
        }
        _ => return None,
    };
    session.put(Lesson { text: new, ..lesson.clone() }, None);
    session.note(|state| state.held = held);
    Some(None)
}

/// A seed that a text does not have.
fn seed(text: &str) -> u64 {
    let now = document::get(text, "seed").and_then(|seed| seed.as_u64()).unwrap_or(1);
    if now < u64::from(u32::MAX) { now + 1 } else { 1 }
}

fn refused(why: &Refused) -> Value {
    match why {
        Refused::There => json!({ "there": true }),
        Refused::Because(why) => json!(why),
    }
}

fn html(text: String) -> Reply {
    reply::text("text/html; charset=utf-8", text)
}

/// What is shown, once the lesson of a change (or the one on the desk) is worked out or another one came; or what is shown
/// by then, when that takes long.
async fn settled(session: &Arc<Session>, revision: Option<u64>) -> State {
    let mut told = session.watch();
    let wait = async {
        loop {
            told.mark_unchanged();
            let state = session.now();
            if state.is_judged() || revision.is_some_and(|revision| state.revision != revision) {
                return state;
            }
            if told.changed().await.is_err() {
                return state;
            }
        }
    };
    match timeout(PATIENCE, wait).await {
        Ok(state) => state,
        Err(_) => session.now(),
    }
}

/// The parts of the page, for a change that the page knows of.
async fn view(session: &Arc<Session>, query: Option<&str>) -> Reply {
    let revision = query.and_then(|query| query.strip_prefix("revision=")?.parse().ok());
    let state = settled(session, revision).await;
    let mine = Arc::clone(session);
    let shown = spawn_blocking(move || Shown::of(&mine, &state).json(&state)).await;
    shown.map_or_else(|_| reply::refusal(StatusCode::INTERNAL_SERVER_ERROR, "This went wrong."), |shown| reply::json(&shown))
}

/// Says that the page is still open; tells it what it may not know.
async fn here(session: &Arc<Session>) -> Reply {
    let mine = Arc::clone(session);
    let _ = spawn_blocking(move || mine.look()).await;
    let state = session.now();
    reply::json(&json!({ "revision": state.revision, "theirs": state.theirs.is_some(), "busy": state.making.is_some() }))
}

/// A page as a picture: by the change that it came of, and its place among the pages that are shown.
async fn sheet(session: &Arc<Session>, which: &str) -> Option<Reply> {
    let (revision, index) = which.split_once('/')?;
    let (revision, index): (u64, usize) = (revision.parse().ok()?, index.parse().ok()?);
    let (laid, now) = session.now().laid?;
    if now != revision || index >= laid.pages.len() {
        return None;
    }
    let drawn = spawn_blocking(move || laid.pages.get(index).map(|page| svg::page(&page.page, &laid.family, 0)));
    Some(reply::text("image/svg+xml", drawn.await.ok()??))
}

fn made(session: &Session) -> Option<Made> {
    session.now().made.and_then(|(made, _)| made.ok())
}

/// A packet that was made, to look at or to save.
async fn packet(session: &Arc<Session>, name: &str, save: bool) -> Option<Reply> {
    let made = made(session)?;
    let file = made.files.iter().map(|(file, _)| file).find(|file| *file == name)?.clone();
    let mine = Arc::clone(session);
    let name = file.clone();
    let opened = spawn_blocking(move || mine.workshop.made(&made, &file)).await.ok()?;
    Some(match opened {
        Ok((mut content, length)) => {
            let copy = move |out: &mut dyn io::Write| io::copy(&mut content, out).map(|_| ());
            reply::file(reply::PDF, copy, Some(length), save.then_some(name.as_str()))
        }
        Err(Refused::There | Refused::Because(_)) => {
            reply::refusal(StatusCode::NOT_FOUND, "This file is no longer where it was made. Make the files again.")
        }
    })
}

/// All packets as one file.
fn everything(session: &Arc<Session>) -> Reply {
    let Some(made) = made(session) else {
        return reply::refusal(StatusCode::NOT_FOUND, "No files were made yet.");
    };
    let stem = made.folder.rsplit('/').next().unwrap_or("lesson").to_owned();
    let mine = Arc::clone(session);
    let content = move |out: &mut dyn io::Write| archive::write(out, &stem, &made, mine.workshop.as_ref());
    let name = format!("{}.zip", session.now().lesson.map_or_else(String::new, |lesson| session.file_name(&lesson)));
    let name = name.replace(".toml", "");
    reply::file("application/zip", content, None, Some(name.rsplit('/').next().unwrap_or(&name)))
}
