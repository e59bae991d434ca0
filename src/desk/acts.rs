//! What the desk does when its page asks for it.

use std::sync::Arc;

use hyper::StatusCode;
use hyper::body::Bytes;
use serde::Deserialize;
use serde_json::{Value, json};
use tokio::task::spawn_blocking;

use super::points::POINTS;
use super::reply::{self, WebReply};
use super::session::{OnDesk, Session, State};
use super::values::{self, FieldParts};
use super::workshop::{NumberPlace, Refused};
use super::{document, fields, pick};
use crate::spec::Version;
use crate::spec::keys::Shape;

/// What a change asks for.
#[derive(Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
struct Asked {
    /// The path of a key.
    key: String,
    /// What its field holds.
    parts: FieldParts,
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
    /// The table of the role whose number it is.
    role: String,
    /// The number.
    number: u32,
    /// The letter of its version, counted from the first of the class or group, where that has several.
    version: String,
}

/// What there is to tell the page of what was done.
enum Told {
    /// Nothing more than that it is done.
    Done,
    /// This.
    Words(Value),
    /// That nobody does such a thing here.
    Unknown,
}

/// Answers a request to do something.
pub async fn post(session: &Arc<Session>, path: &str, body: &Bytes) -> WebReply {
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
        Ok(Told::Done) => reply::json(&json!({ "revision": after })),
        Ok(Told::Words(words)) => reply::json(&json!({ "revision": after, "told": words })),
        Ok(Told::Unknown) => reply::refusal(StatusCode::NOT_FOUND, "There is nothing of this name here."),
        Err(_) => reply::refusal(StatusCode::INTERNAL_SERVER_ERROR, "This went wrong in Placewright."),
    }
}

/// Does something.
fn act(session: &Arc<Session>, path: &str, asked: &Asked) -> Told {
    match path {
        "/begin" => begin(session, asked),
        "/open" => match session.workshop.open(&asked.name) {
            Ok(text) => {
                session.note(|state| drop(state.files.insert(asked.name.clone(), text.clone())));
                session.put(OnDesk::new(Some(asked.name.clone()), text), None);
                Told::Done
            }
            Err(why) => refused(&why),
        },
        "/back" | "/forth" => {
            session.step(path == "/back");
            Told::Done
        }
        "/stop" => {
            session.stop();
            Told::Done
        }
        "/left" => Told::Done,
        _ => {
            let state = session.now();
            match state.lesson.clone() {
                Some(lesson) => change(session, &state, lesson, path, asked),
                None => Told::Unknown,
            }
        }
    }
}

/// Changes the lesson on the desk, or does something with it.
fn change(session: &Arc<Session>, state: &State, lesson: OnDesk, path: &str, asked: &Asked) -> Told {
    let text = &lesson.text;
    let new = match path {
        "/edit" => {
            let Some((key, shape)) = fields::find(&asked.key).filter(|(key, _)| *key == asked.key) else {
                return Told::Unknown;
            };
            document::set(text, &key, values::value(&shape, &asked.parts).as_ref())
        }
        "/list" => {
            let new = match asked.act.as_str() {
                "add" => fields::with_table(text, &asked.name),
                "remove" if fields::LISTS.contains(&asked.name.as_str()) => {
                    Some(document::remove_table(text, &asked.name, asked.number as usize))
                }
                _ => None,
            };
            let Some(new) = new else { return Told::Unknown };
            new
        }
        "/text" => asked.text.clone(),
        "/mend" => session.workshop.mended(&session.file_name(&lesson), text),
        "/theirs" => {
            let (Some(theirs), Some(name)) = (state.theirs.clone(), lesson.name.clone()) else { return Told::Unknown };
            session.note(|state| {
                state.files.insert(name, theirs.clone());
                state.theirs = None;
            });
            theirs
        }
        "/number" => return number(session, state, &lesson, asked),
        "/save" => return session.save(&asked.name, asked.over).map_or_else(|why| refused(&why), |()| Told::Done),
        "/make" => {
            // Its end is told to whoever waits for a view.
            session.make();
            return Told::Done;
        }
        _ => return Told::Unknown,
    };
    let typing = asked.typing.then_some(asked.key.as_str());
    session.put(OnDesk { text: new, ..lesson }, typing);
    Told::Done
}

/// Puts a new lesson on the desk: from a starting point, or like a file of the folder.
fn begin(session: &Arc<Session>, asked: &Asked) -> Told {
    let text = if asked.act == "like" {
        match session.workshop.open(&asked.name) {
            Ok(text) => from_here(&pick::fresh(&text, seed(&text), &[]), &asked.name),
            Err(why) => return refused(&why),
        }
    } else {
        let Some(point) = POINTS.iter().find(|point| point.word == asked.name) else { return Told::Unknown };
        point.text(session.workshop.as_ref())
    };
    session.put(OnDesk::new(None, text), None);
    Told::Done
}

/// A lesson text of a folder below, with the files and folders that it names as they are called from this one.
fn from_here(text: &str, name: &str) -> String {
    let Some((folder, _)) = name.rsplit_once('/') else { return text.to_owned() };
    let fields = fields::sections(text, &[], &[]).into_iter().flat_map(|section| section.fields);
    fields.fold(text.to_owned(), |text, field| match (&field.shape, field.given.get(values::ONLY)) {
        (Shape::Font(words), Some(given)) if words.iter().any(|word| word.eq_ignore_ascii_case(given)) => text,
        (Shape::Font(_) | Shape::Path(..), Some(given)) => {
            document::set(&text, &field.path, Some(&json!(format!("{folder}/{given}"))))
        }
        _ => text,
    })
}

/// Keeps, leaves out or exchanges a number.
fn number(session: &Session, state: &State, lesson: &OnDesk, asked: &Asked) -> Told {
    let text = &lesson.text;
    let version = Version::of(&asked.version);
    let place = NumberPlace { table: asked.role.as_str(), version };
    let is_key = |path: &str| fields::find(path).is_some_and(|(key, _)| key == path);
    let known = is_key(&place.always())
        && (asked.version.is_empty() || version.is_some() && is_key(&format!("{}.always_in", place.table)));
    let mut held = lesson.held.clone();
    let name = session.file_name(lesson);
    let lay = |text: &str| session.workshop.lay(&name, text, &|| true);
    let shown = if state.is_judged() {
        state.laid.as_ref().filter(|_| state.found.is_empty()).map(|(laid, _)| Arc::clone(laid))
    } else {
        known.then(|| lay(text)?.ok()).flatten().map(Arc::new)
    };
    let new = match asked.act.as_str() {
        "fresh" => pick::fresh(text, seed(text), &std::mem::take(&mut held)),
        "free" => {
            held.clear();
            pick::free(text)
        }
        "keep" if known => {
            // From now on it is asked for itself.
            held.retain(|(key, number)| *number != asked.number || *key != place.own());
            let new = pick::keep(text, place, asked.number);
            match shown.as_deref().filter(|_| new != *text) {
                Some(laid) if !matches!(lay(&new), Some(Ok(after)) if after.same_numbers(laid)) => {
                    let (new, more) = pick::hold(&new, laid, place, asked.number);
                    held.extend(more);
                    new
                }
                _ => new,
            }
        }
        "let-go" if known => pick::let_go(text, place, asked.number),
        "another" if known => {
            let Some(laid) = shown else {
                return Told::Words(json!("Another number can be chosen when the lesson can be made."));
            };
            let (new, more) = pick::another(text, &laid, place, asked.number);
            // Looked at first: a lesson that could be made is not exchanged for one that cannot.
            if lay(&new).is_none_or(|made| made.is_err()) {
                return Told::Words(json!("There is no other number that meets the requests while the others stay."));
            }
            held.retain(|(key, number)| *number != asked.number || *key != place.own());
            held.extend(more);
            new
        }
        _ => return Told::Unknown,
    };
    session.put(OnDesk { text: new, held, ..lesson.clone() }, None);
    Told::Done
}

/// A seed that a text does not have.
fn seed(text: &str) -> u64 {
    let now = document::get(text, "seed").and_then(|seed| seed.as_u64()).unwrap_or(1);
    if now < u64::from(u32::MAX) { now + 1 } else { 1 }
}

fn refused(why: &Refused) -> Told {
    Told::Words(match why {
        Refused::There => json!({ "there": true }),
        Refused::Because(why) => json!(why),
    })
}
