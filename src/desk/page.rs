//! The page as a whole, and the parts of it that are sent again after a change.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use serde_json::{Value, json};

use super::fields::{self, Trouble};
use super::form::{self, Room};
use super::packets::packets;
use super::points::POINTS;
use super::session::{Session, State};
use super::view::{self, Outcome};
use super::{document, lesson_files};

/// The parts of the page that change, by the ids of their elements.
pub struct PageParts {
    bar: Markup,
    form: Markup,
    standing: Markup,
    packets: Markup,
    numbers: Markup,
    pages: Markup,
}

impl PageParts {
    /// What is shown of a session.
    pub fn of(session: &Session, state: &State) -> Self {
        let text = state.lesson.as_ref().map_or("", |lesson| &lesson.text);
        let trouble = fields::trouble(text, &state.found);
        let outcome = Outcome {
            laid: state.laid.as_ref().map(|(laid, revision)| (laid.as_ref(), *revision)),
            trouble: &trouble,
            waiting: !state.is_judged(),
            held: state.lesson.as_ref().map_or(&[], |lesson| &lesson.held),
        };
        Self {
            bar: bar(session, state),
            form: filled(session, state, text, &trouble),
            standing: view::standing(&outcome),
            packets: packets(state),
            numbers: view::numbers(&outcome),
            pages: view::pages(&outcome),
        }
    }

    /// For the script of the page.
    pub fn json(self, state: &State) -> Value {
        json!({
            "revision": state.revision, "judged": state.is_judged(), "busy": state.making.is_some(),
            "saved": state.is_saved(), "lesson": state.lesson.is_some(),
            "bar": self.bar.into_string(), "form": self.form.into_string(),
            "standing": self.standing.into_string(), "packets": self.packets.into_string(),
            "numbers": self.numbers.into_string(), "pages": self.pages.into_string(),
        })
    }
}

/// The whole page: the lesson on the desk, or what can be begun with where there is none.
pub fn page(session: &Session, state: &State) -> String {
    whole(session, state, false)
}

/// The page on which a lesson is begun or opened, whatever is on the desk.
pub fn beginning(session: &Session, state: &State) -> String {
    let mut empty = state.clone();
    empty.lesson = None;
    whole(session, &empty, state.lesson.is_some())
}

fn whole(session: &Session, state: &State, on_desk: bool) -> String {
    let shown = PageParts::of(session, state);
    let title = state.lesson.as_ref().map(|lesson| session.file_name(lesson));
    let head = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                meta name="robots" content="noindex";
                title { @if let Some(title) = title { (title) " \u{b7} " } "Placewright desk" }
                link rel="icon" href="/desk.svg" type="image/svg+xml";
                link rel="stylesheet" href="/desk.css";
                script src="/desk.js" defer {}
            }
            body data-revision=(state.revision) data-judged=(state.is_judged()) {
                a.skip href=(if state.lesson.is_some() { "#pages" } else { "#begin" }) { "Skip to what is shown" }
                noscript { p.alert { "This page needs JavaScript, which is switched off in this browser." } }
                p.alert.gone id="gone" hidden {
                    "The desk has ended. Start Placewright again to go on. What was saved is in your files; what was not still
                    stands under \u{201c}The lesson file itself\u{201d}: copy it from there."
                }
                header id="bar" { (shown.bar) }
                section.asks id="asks" aria-label="A question about saving" {
                    div.ask id="name-asked" hidden {
                        label {
                            "File name "
                            input.wide id="name-given" type="text" autocomplete="off" spellcheck="false";
                        }
                        button.first type="button" data-named { "Save under this name" }
                        button type="button" data-unasked { "Do not save" }
                    }
                }
                @if state.lesson.is_some() {
                    // Within reach on a small screen, where all of it stands in one column.
                    nav.jump aria-label="Parts of this page" {
                        a href="#asked" { "Form" } a href="#numbers" { "Numbers" } a href="#pages" { "Pages" }
                    }
                    main.work {
                        section.comes aria-label="Whether it can be made, and the files" {
                            p.working id="working" role="status" hidden { "Working out this lesson \u{2026}" }
                            div id="standing" { (shown.standing) }
                            div id="packets" { (shown.packets) }
                        }
                        section.asked id="asked" aria-labelledby="asked-is" tabindex="-1" {
                            h2.unseen id="asked-is" { "What the lesson asks for" }
                            div id="form" { (shown.form) }
                        }
                        div.column id="numbers" tabindex="-1" { (shown.numbers) }
                        div.column id="pages" tabindex="-1" { (shown.pages) }
                    }
                } @else {
                    main.begin id="begin" tabindex="-1" { (begin(session, on_desk)) }
                }
                dialog id="large" aria-label="A page, larger" {
                    form.acts method="dialog" {
                        button type="button" data-turn="-1" { "Page before" }
                        button type="button" data-turn="1" { "Next page" }
                        button value="close" { "Close" }
                    }
                    img id="large-sheet" alt="" ;
                    p id="large-name" {}
                }
            }
        }
    };
    head.into_string()
}

/// What can be begun with.
fn begin(session: &Session, on_desk: bool) -> Markup {
    let lessons = lesson_files(session);
    html! {
        h1 { "A lesson on place value" }
        @if on_desk { p { a.button href="/" { "Back to the lesson on the desk" } } }
        section aria-labelledby="begin-new" {
            h2 id="begin-new" { "Begin a new one" }
            ul.points {
                @for point in &POINTS {
                    li { button.point type="button" data-begin=(point.word) { strong { (point.title) } span { (point.says) } } }
                }
                @if let Some(last) = lessons.first() {
                    li {
                        button.point type="button" data-like=(last) {
                            strong { "Like the last one, with new numbers" }
                            span { "A new lesson that asks for what " (last) " asks for." }
                        }
                    }
                }
            }
        }
        section aria-labelledby="begin-old" {
            h2 id="begin-old" { "Open one from " (session.workshop.folder()) }
            @if lessons.is_empty() {
                p { "There is no lesson file in this folder yet." }
            } @else {
                ul.files { @for lesson in &lessons { li { button type="button" data-open=(lesson) { (lesson) } } } }
            }
        }
    }
}

/// The name of the lesson and what can be done with it as a whole.
fn bar(session: &Session, state: &State) -> Markup {
    let Some(lesson) = &state.lesson else {
        return html! { p.program { "Placewright desk" } };
    };
    let name = session.file_name(lesson);
    let there = lesson.name.is_some();
    let saved = state.is_saved();
    html! {
        p.program { "Placewright desk" }
        div.file {
            h1 { (name) }
            p.state {
                @if state.gone { "its file is no longer there" } @else if saved { "saved" } @else if there { "changed since it was saved" } @else { "not saved yet" }
            }
        }
        div.acts {
            button type="button" data-go="/back" disabled[!state.can_go_back()] { "Undo" }
            button type="button" data-go="/forth" disabled[!state.can_go_forward()] { "Redo" }
            button type="button" data-save=(name) data-there[there] { "Save" }
            button type="button" data-saveas=(name) { "Save as \u{2026}" }
            a.button href="/begin" { "Other lesson" }
            button.first type="button" data-go="/make"
                disabled[!state.is_judged() || !state.found.is_empty() || state.making.is_some()] { "Make the files to print" }
        }
        @if state.theirs.is_some() {
            div.ask role="alert" {
                p { "The file " (name) " was changed by another program. Undo brings back whichever of the two you leave." }
                button type="button" data-go="/theirs" { "Take what the file says" }
                button type="button" data-save=(name) data-over { "Save mine over it" }
                button type="button" data-saveas=(name) { "Save mine under another name" }
            }
        }
    }
}

/// The form, or where the text is no lesson file, the text alone.
fn filled(session: &Session, state: &State, text: &str, trouble: &[Trouble]) -> Markup {
    let Some(lesson) = &state.lesson else { return html! {} };
    let assumed = state.laid.as_ref().map(|(laid, _)| laid.assumed.as_slice()).unwrap_or_default();
    let name = lesson.name.as_deref();
    let beside = |endings: &[&str]| session.workshop.beside(name, endings);
    let (rosters, fonts) = (beside(&["csv", "tsv", "txt"]), beside(&["ttf", "otf"]));
    let mut folders: Vec<String> =
        beside(&["toml"]).iter().filter_map(|file| Some(file.rsplit_once('/')?.0.to_owned())).collect();
    folders.dedup();
    let greatest = document::get(text, "numbers.range").and_then(|range| range.get(1)?.as_u64());
    let places = greatest.map_or(6, |greatest| greatest.to_string().len());
    let versions = document::get(text, "class.versions").and_then(|versions| versions.as_u64());
    let versions = versions.and_then(|versions| usize::try_from(versions).ok()).unwrap_or(1);
    let sound = document::is_sound(text);
    html! {
        @if sound {
            (form::form(&fields::sections(text, assumed, trouble), Room { places, versions, rosters: &rosters, fonts: &fonts, folders: &folders }))
        } @else {
            p { "This file cannot be shown as a form before its mistakes are put right." }
        }
        details.part id="part-text" open[!sound] data-wrong[!sound] {
            summary { span { "The lesson file itself" } }
            p.help id="help-text" { "Everything on this page stands in this text. Change it here if you like." }
            textarea id="text" rows="18" spellcheck="false" aria-label="The text of the lesson file"
                aria-describedby="help-text" { (PreEscaped("\n")) (text) }
            p.acts {
                button type="button" data-text { "Use this text" }
                @if !trouble.is_empty() { " " button type="button" data-go="/mend" { "Put right what is sure" } }
            }
        }
    }
}
