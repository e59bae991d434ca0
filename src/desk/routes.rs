//! What the desk's page is given: itself, its parts, pictures of pages, and the packets that were made.

use std::io;
use std::sync::Arc;
use std::time::Duration;

use hyper::StatusCode;
use serde_json::json;
use tokio::task::spawn_blocking;
use tokio::time::timeout;

use super::archive;
use super::page::{self, PageParts};
use super::reply::{self, WebReply};
use super::session::{Session, State};
use super::workshop::{Made, Refused};
use crate::svg;

/// How long what is shown is held back for a lesson that is being worked out.
const PATIENCE: Duration = Duration::from_secs(20);
/// How long the page itself is: nothing else is seen by then.
const FIRST: Duration = Duration::from_millis(800);

const STYLE: &str = include_str!("desk.css");
const SCRIPT: &str = include_str!("desk.js");
const ICON: &str = include_str!("desk.svg");

/// Answers a reading request.
pub async fn get(session: &Arc<Session>, path: &str, query: Option<&str>) -> WebReply {
    match path {
        "/" => html(page::page(session, &settled(session, None, FIRST).await)),
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

fn html(text: String) -> WebReply {
    reply::text("text/html; charset=utf-8", text)
}

/// What is shown, once the lesson of a change (or the one on the desk) is worked out or another one came; or what is shown
/// by then, when that takes long.
async fn settled(session: &Arc<Session>, revision: Option<u64>, patience: Duration) -> State {
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
    match timeout(patience, wait).await {
        Ok(state) => state,
        Err(_) => session.now(),
    }
}

/// The parts of the page, for a change that the page knows of.
async fn view(session: &Arc<Session>, query: Option<&str>) -> WebReply {
    let revision = query.and_then(|query| query.strip_prefix("revision=")?.parse().ok());
    let state = settled(session, revision, PATIENCE).await;
    let mine = Arc::clone(session);
    let shown = spawn_blocking(move || PageParts::of(&mine, &state).json(&state)).await;
    shown.map_or_else(
        |_| reply::refusal(StatusCode::INTERNAL_SERVER_ERROR, "This went wrong."),
        |shown| reply::json(&shown),
    )
}

/// Says that the page is still open; tells it what it may not know.
async fn here(session: &Arc<Session>) -> WebReply {
    let mine = Arc::clone(session);
    let _ = spawn_blocking(move || mine.look()).await;
    let state = session.now();
    reply::json(&json!({
        "revision": state.revision, "theirs": state.theirs.is_some(), "saved": state.is_saved(),
        "busy": state.making.is_some(),
    }))
}

/// A page as a picture: by the change that it came of, and its place among the pages that are shown.
async fn sheet(session: &Arc<Session>, which: &str) -> Option<WebReply> {
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
async fn packet(session: &Arc<Session>, name: &str, save: bool) -> Option<WebReply> {
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
fn everything(session: &Arc<Session>) -> WebReply {
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
