//! What comes of the lesson, as HTML: whether it can be made, its numbers and its pages.

use maud::{Markup, html};

use super::fields::{Trouble, label};
use super::form::{id, sentence};
use super::workshop::{ChosenNumber, LaidLesson, LaidPage, NumberSet};
use crate::lesson::Role;

/// What is shown beside the form.
#[derive(Debug, Clone, Copy)]
pub struct Outcome<'o> {
    /// The last lesson that could be made, and when it was laid out: its pages are asked for by that.
    pub laid: Option<(&'o LaidLesson, u64)>,
    /// What is wrong with the lesson as it is now.
    pub trouble: &'o [Trouble],
    /// Whether the lesson as it is now is still being worked out.
    pub waiting: bool,
    /// Numbers that are asked for by name only for the sake of another one, with the key they stand in.
    pub held: &'o [(String, u32)],
}

/// Pixels of a style sheet are 1/96 in.
const PIXELS: f64 = 96.0;

/// Whether the lesson can be made, and how much paper it takes.
pub fn standing(outcome: &Outcome<'_>) -> Markup {
    html! { div role="status" { (words(outcome)) } }
}

/// The numbers; those from before where the lesson cannot be made.
pub fn numbers(outcome: &Outcome<'_>) -> Markup {
    html! {
        @if let Some((laid, _)) = outcome.laid {
            div.earlier[!outcome.trouble.is_empty()] { (sets(&laid.sets, outcome.held)) }
        }
    }
}

/// The pages, likewise.
pub fn pages(outcome: &Outcome<'_>) -> Markup {
    html! {
        @if let Some((laid, revision)) = outcome.laid {
            div.earlier[!outcome.trouble.is_empty()] { (files(laid, revision)) }
        }
    }
}

fn words(outcome: &Outcome<'_>) -> Markup {
    let Outcome { laid, trouble, waiting, held: _ } = outcome;
    html! {
        @if *waiting {
            p { "Working out this lesson \u{2026}" }
        } @else if !trouble.is_empty() {
            div.trouble {
                p.lead { "This lesson cannot be made yet." }
                ul {
                    @for trouble in trouble.iter().filter(|t| t.hint.is_some() || t.line.is_some() || t.at.is_none()) {
                        li {
                            @if let Some(at) = &trouble.at {
                                a href={ "#field-" (id(at)) } { (label(at.rsplit('.').next().unwrap_or(at))) } ": "
                            } @else if let Some(line) = trouble.line { "Line " (line) ": " }
                            (sentence(&trouble.message))
                            @if let Some(hint) = &trouble.hint { " " (sentence(hint)) }
                        }
                    }
                }
                @if laid.is_some() { p { "Below are the numbers and pages from before." } }
            }
        } @else if let Some((laid, _)) = laid {
            p.lead { "This lesson can be made." }
            @for line in &laid.paper { p { (line) } }
            @for note in &laid.notes { p.note { (sentence(note)) } }
        }
    }
}

/// What a role's numbers are called.
fn heading(set: &NumberSet) -> String {
    let name = match (set.role, set.version) {
        (Role::Model, _) => "Model numbers".to_owned(),
        (Role::Exit, _) => "Exit numbers".to_owned(),
        (Role::Sort, None) => "Sort numbers".to_owned(),
        (Role::Sort, Some(version)) => format!("Sort numbers, version {version}"),
    };
    set.whose.as_ref().map_or_else(|| name.clone(), |whose| format!("{name}, {whose}"))
}

fn sets(sets: &[NumberSet], held: &[(String, u32)]) -> Markup {
    let kept = sets.iter().flat_map(|set| &set.numbers).any(|number| number.always);
    html! {
        section aria-labelledby="numbers-are" {
            h2 id="numbers-are" { "The numbers, and why" }
            p.acts {
                button.quiet type="button" data-act="fresh" { "All new numbers" }
                @if kept { " " button.quiet type="button" data-act="free" { "Keep none of them" } }
            }
            @for set in sets {
                h3 { (heading(set)) @if !set.ways.is_empty() { " " span.ways { (set.ways) } } }
                ul.set { @for number in &set.numbers { (self::number(set, number, held)) } }
            }
        }
    }
}

/// A number, why it is there, and what can be done with it.
fn number(set: &NumberSet, number: &ChosenNumber, held: &[(String, u32)]) -> Markup {
    let ChosenNumber { value, written, .. } = number;
    // What is only held was not asked for by anybody.
    let is_held = held.iter().any(|(key, held)| held == value && *key == set.place().own());
    let always = number.always && !is_held;
    let why = match number.besides.as_str() {
        _ if !is_held => number.why.as_str(),
        "" => "as it was",
        besides => besides,
    };
    let (role, version) = (&set.table, set.own.map(|version| version.to_string()));
    let of = set.version.map(|version| format!(" in version {version}")).unwrap_or_default();
    html! {
        li {
            strong { (written) } " " span.why { (why) }
            span.acts {
                button.quiet type="button" data-act=(if always { "let-go" } else { "keep" }) data-role=(role)
                    data-number=(value) data-version=[&version] aria-pressed=(if always { "true" } else { "false" }) {
                    "Keep" span.unseen { " " (written) (of) }
                }
                button.quiet type="button" data-act="another" data-role=(role) data-number=(value)
                    data-version=[&version] {
                    "Another instead" span.unseen { " of " (written) (of) }
                }
            }
        }
    }
}

fn files(laid: &LaidLesson, revision: u64) -> Markup {
    html! {
        section aria-labelledby="pages-are" {
            h2 id="pages-are" { "The pages" }
            @for (k, file) in laid.files.iter().enumerate() {
                @let shown: Vec<(usize, &LaidPage)> =
                    laid.pages.iter().enumerate().filter(|(_, page)| page.file == k).collect();
                details.packet id={ "packet-" (file.about.file.trim_end_matches(".pdf")) } open[k == 0] {
                    summary {
                        span { (file.about.title) } " "
                        span.given { (count(file.pages, "page")) ", for the " (file.about.reader) }
                    }
                    p.help { (file.about.purpose) }
                    @if shown.len() < file.pages {
                        p.help { "Here are " (shown.len()) " of its " (file.pages) " pages: the others look alike." }
                    }
                    ol.pages { @for (index, page) in shown { (picture(index, page, revision)) } }
                }
            }
        }
    }
}

fn picture(index: usize, page: &LaidPage, revision: u64) -> Markup {
    let pixels = |length: crate::measure::Length| (length.to_inches() * PIXELS).round();
    let size = page.page.size;
    let name = match page.page.learner {
        Some(learner) => format!("{}, learner {learner}", page.page.name),
        None => page.page.name.clone(),
    };
    let wide = size.width > size.height;
    html! {
        li.wide[wide] {
            button.sheet type="button" data-page={ "/page/" (revision) "/" (index) } {
                img src={ "/page/" (revision) "/" (index) } width=(pixels(size.width)) height=(pixels(size.height))
                    loading="lazy" decoding="async" alt={ "Page " (page.number) ", " (name) ": " (page.holds) };
                span.caption { (page.number) ": " (name) }
            }
        }
    }
}

/// `1 page`, `12 pages`.
pub fn count(count: usize, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}
