//! The form as HTML.

use maud::{Markup, html};

use super::fields::{Field, Section, lists, numbered};
use super::values::ONLY;
use crate::number::Place;
use crate::spec::Version;
use crate::spec::keys::{PathTo, Shape};

/// Keys whose words have an order: the first has a part of its own.
const ORDERED: [&str; 1] = ["forms.match"];

/// The tables that are open when the page is: what a lesson is chosen by.
const OPEN: [&str; 4] = ["", "numbers", "numbers.model", "numbers.sort"];

/// What the fields need to know besides the lesson.
#[derive(Debug, Clone, Copy)]
pub struct Room<'r> {
    /// How many places the greatest number has.
    pub places: usize,
    /// How many versions the class has.
    pub versions: usize,
    /// Files beside the lesson that can be a roster.
    pub rosters: &'r [String],
    /// Files beside the lesson that can be a font.
    pub fonts: &'r [String],
    /// Folders beside the lesson that can hold layouts.
    pub folders: &'r [String],
}

/// The whole form.
pub fn form(sections: &[Section], room: Room<'_>) -> Markup {
    html! {
        @for section in sections {
            @let open = OPEN.contains(&section.path.as_str());
            @let given = section.fields.iter().filter(|field| !field.given.is_empty()).count();
            @let wrong = section.fields.iter().any(|field| !field.trouble.is_empty());
            details.part id={ "part-" (id(&section.path)) } open[open || wrong] data-wrong[wrong] {
                summary {
                    span { (section.heading) }
                    @if given > 0 && !open { " " span.given { (given) " set" } }
                }
                @for field in &section.fields { (self::field(field, room)) }
                @if let Some((list, number, "")) = numbered(&section.path) {
                    p.acts {
                        button.quiet type="button" data-list=(list) data-without=(number) { "Take this " (list) " away" }
                    }
                }
            }
        }
        @for (list, _) in lists() {
            p.acts.more { button type="button" data-list=(list) { "Add a " (list) } }
        }
    }
}

/// A name for a path that can be an id.
pub fn id(path: &str) -> String {
    if path.is_empty() { "top".to_owned() } else { path.replace(['.', '_'], "-") }
}

fn field(field: &Field, room: Room<'_>) -> Markup {
    let id = id(&field.path);
    let wrong = !field.trouble.is_empty();
    let described = if wrong { format!("help-{id} trouble-{id}") } else { format!("help-{id}") };
    let pen = Pen { field, id: &id, described: &described, wrong, room };
    let single = pen.is_single();
    html! {
        div.field.wrong[wrong] id={ "field-" (id) } data-key=(field.path) role=[(!single).then_some("group")]
            aria-labelledby=[(!single).then(|| format!("label-{id}"))] {
            @if single {
                label.name for={ "in-" (id) } { (field.label) }
            } @else {
                span.name id={ "label-" (id) } { (field.label) }
            }
            (pen.inputs())
            @if !field.given.is_empty() && matches!(field.shape, Shape::Words(..)) {
                button.quiet type="button" data-clear=(field.path) { "As usual" span.unseen { ": " (field.label) } }
            }
            p.help id={ "help-" (id) } {
                (quoted(field.says))
                @if !field.usual_words.is_empty() { "; usually " (field.usual_words) }
            }
            @if wrong {
                div.trouble id={ "trouble-" (id) } {
                    @for trouble in &field.trouble {
                        p { (sentence(&trouble.message)) @if let Some(hint) = &trouble.hint { " " (sentence(hint)) } }
                    }
                }
            }
        }
    }
}

/// A message as a sentence; what it quotes from the file is set apart.
pub fn sentence(message: &str) -> Markup {
    let mut letters = message.chars();
    let first = letters.next().map(|first| first.to_uppercase().collect::<String>()).unwrap_or_default();
    let text = first + letters.as_str();
    let end = if message.ends_with(['.', '?', '!']) { "" } else { "." };
    html! { (quoted(&text)) (end) }
}

/// A text in which what is quoted from the file is set apart.
fn quoted(text: &str) -> Markup {
    html! {
        @for (k, part) in text.split('`').enumerate() {
            @if k % 2 == 1 { code { (part) } } @else { (part) }
        }
    }
}

/// Draws the inputs of a field.
struct Pen<'f> {
    field: &'f Field,
    id: &'f str,
    described: &'f str,
    wrong: bool,
    room: Room<'f>,
}

impl Pen<'_> {
    /// Whether one label names one input.
    fn is_single(&self) -> bool {
        matches!(
            self.field.shape,
            Shape::Whole(_)
                | Shape::Line(_)
                | Shape::Path(..)
                | Shape::Word(_)
                | Shape::Switch
                | Shape::Length
                | Shape::Font(_)
                | Shape::Numbers(_)
        )
    }

    /// Whether an input is to blame: those that were filled in, or all where none was.
    fn is_wrong(&self, filled: bool) -> bool {
        self.wrong && (filled || self.field.given.is_empty())
    }

    fn inputs(&self) -> Markup {
        let digits = |limit: &crate::spec::limits::Limit| if limit.most > 9_999 { "wide" } else { "short" };
        match &self.field.shape {
            Shape::Whole(limit) => self.text(ONLY, "", "numeric", digits(limit)),
            Shape::Length => self.text(ONLY, "", "text", "wide"),
            Shape::Line(_) | Shape::Numbers(_) => self.text(ONLY, "", "text", "full"),
            Shape::Path(_, PathTo::Table) => self.choice(&[("", "none")], self.room.rosters),
            Shape::Path(_, PathTo::Folder) => self.choice(&[("", "none")], self.room.folders),
            Shape::Word(words) => self.choice(&words.iter().map(|word| (*word, *word)).collect::<Vec<_>>(), &[]),
            Shape::Switch => self.choice(&[("false", "no"), ("true", "yes")], &[]),
            Shape::Font(words) => {
                self.choice(&words.iter().map(|word| (*word, *word)).collect::<Vec<_>>(), self.room.fonts)
            }
            Shape::Range(limit) => html! {
                (self.text("least", "from", "numeric", digits(limit)))
                (self.text("greatest", "to", "numeric", digits(limit)))
            },
            Shape::Bound(_) => self.bound("", ""),
            Shape::Bounds(_) => html! {
                ul.each { @for place in self.places() { li { (self.bound(&format!("{}.", place.key()), place.key())) } } }
            },
            Shape::Digits(_) => html! {
                ul.each.row {
                    @for place in self.places() { li { (self.text(place.key(), place.key(), "numeric", "short")) } }
                }
            },
            Shape::Lists(_) => html! {
                ul.each { @for letter in self.letters() { li { (self.text(letter, letter, "text", "full")) } } }
            },
            Shape::Sheets(words, _) => html! {
                ul.each.narrow { @for word in words { li { (self.text(word, word, "numeric", "short")) } } }
            },
            Shape::Words(words, _) => self.words(words),
        }
    }

    /// The places of the range's numbers, and those that the file speaks of.
    fn places(&self) -> impl Iterator<Item = Place> {
        let speaks = |place: Place| self.field.given.keys().any(|part| part.split('.').next() == Some(place.key()));
        Place::ALL.into_iter().rev().filter(move |place| place.index() < self.room.places || speaks(*place))
    }

    /// The letters of the versions, and those that the file speaks of.
    fn letters(&self) -> impl Iterator<Item = &'static str> {
        let speaks = |letter: &str| self.field.given.contains_key(letter);
        let letters = Version::LETTERS.into_iter().enumerate();
        letters.filter(move |(at, letter)| *at < self.room.versions || speaks(letter)).map(|(_, letter)| letter)
    }

    fn bound(&self, before: &str, place: &str) -> Markup {
        let place = place.replace('_', " ");
        let end = |name: &str| html! { (name) @if !place.is_empty() { span.unseen { " in the " (place) " place" } } };
        html! {
            span.bound {
                @if !place.is_empty() { span.place aria-hidden="true" { (place) } }
                (self.labelled(&format!("{before}min"), &end("at least"), "short"))
                (self.labelled(&format!("{before}max"), &end("at most"), "short"))
            }
        }
    }

    fn labelled(&self, part: &str, label: &Markup, width: &str) -> Markup {
        html! { label.inner { span { (label) } " " (self.input(part, "numeric", width)) } }
    }

    /// A line to type into. Those of several have a label each.
    fn text(&self, part: &str, label: &str, mode: &str, width: &str) -> Markup {
        html! {
            @if label.is_empty() { (self.input(part, mode, width)) } @else {
                label.inner { span { (label.replace('_', " ")) } " " (self.input(part, mode, width)) }
            }
        }
    }

    fn input(&self, part: &str, mode: &str, width: &str) -> Markup {
        let (value, usual) = (self.field.given.get(part), self.field.usual.get(part));
        let id = if part.is_empty() { format!("in-{}", self.id) } else { format!("in-{}-{}", self.id, id(part)) };
        let limits = if let Shape::Line(limit) = &self.field.shape { Some(limit.most) } else { None };
        html! {
            input.(width) id=(id) type="text" inputmode=(mode) data-part=(part) value=[value] placeholder=[usual]
                maxlength=[limits] autocomplete="off" spellcheck="false" aria-describedby=(self.described)
                aria-invalid=[self.is_wrong(value.is_some()).then_some("true")];
        }
    }

    /// One of several words, or of some files; also what else the file gives.
    fn choice(&self, words: &[(&str, &str)], files: &[String]) -> Markup {
        let given = self.field.given.get(ONLY).map(String::as_str);
        let usual = self.field.usual.get(ONLY).map(String::as_str);
        let chosen = given.or(usual).unwrap_or_default();
        // What stands for nothing can be chosen again.
        let silent = usual.is_none() && words.iter().all(|(word, _)| !word.is_empty());
        let known = chosen.is_empty()
            || words.iter().any(|(word, _)| word.eq_ignore_ascii_case(chosen))
            || files.iter().any(|f| f == chosen);
        html! {
            select id={ "in-" (self.id) } data-part=(ONLY) aria-describedby=(self.described)
                aria-invalid=[self.wrong.then_some("true")] {
                @if silent { option value="" selected[chosen.is_empty()] { "not said" } }
                @for (word, shown) in words {
                    option value=(word) selected[word.eq_ignore_ascii_case(chosen)] {
                        (shown) @if usual == Some(*word) { " (usual)" }
                    }
                }
                @for file in files { option value=(file) selected[file == chosen] { (file) } }
                @if !known { option value=(chosen) selected { (chosen) } }
            }
        }
    }

    /// Any of several words.
    fn words(&self, words: &[&str]) -> Markup {
        let given = if self.field.given.is_empty() { &self.field.usual } else { &self.field.given };
        let is_chosen = |word: &str| given.values().any(|given| given.eq_ignore_ascii_case(word));
        let first = given.values().next().map(String::as_str).unwrap_or_default();
        html! {
            ul.words {
                @for word in words {
                    li { label { input type="checkbox" value=(word) checked[is_chosen(word)]; " " (word.replace('-', " ")) } }
                }
            }
            @if ORDERED.contains(&self.field.path.as_str()) {
                label.inner {
                    span { "first" } " "
                    select data-first {
                        @for word in words.iter().filter(|word| is_chosen(word)) {
                            option value=(word) selected[*word == first] { (word) }
                        }
                    }
                }
            }
        }
    }
}
