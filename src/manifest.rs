//! `contents.json`: what a lesson's packets hold, for programs.
//!
//! In: a lesson and its packets. Out: the text of the file, keys in a fixed order, nothing that differs from machine to
//! machine, and no name of a learner.

use serde_json::{Map, Value, json};

use crate::lesson::{Chosen, Lesson, Role, Version};
use crate::number::{Content, Number};
use crate::sheets::sheaf::Sheaf;

/// The name of the file.
pub const FILE: &str = "contents.json";

/// What tells a file of this program from others. It stands at the end, so that the keys of the contract come first.
pub const MARK: &str = "\"made_by\": \"Placewright ";

/// Writes the file: one object, each page on a line of its own, a line end at the end.
pub fn write(lesson: &Lesson, packets: &[Sheaf<'_>]) -> String {
    let pages = packets.iter().flat_map(|packet| {
        (1..).zip(packet.entries()).map(|(number, page)| {
            json!({
                "file": packet.file(),
                "page": number,
                "sheet": page.sheet.word(),
                "version": page.version.map(|version| version.to_string()),
                "learner": page.learner,
                "stock": page.stock.word(),
            })
        })
    });
    let spec = &lesson.spec;
    let mut text = String::from("{\n");
    let mut line = |key: &str, value: &str| {
        text.push_str("  ");
        text.push_str(&json!(key).to_string());
        text.push_str(": ");
        text.push_str(value);
        text.push_str(",\n");
    };
    line("title", &json!(spec.title.value).to_string());
    line("seed", &json!(spec.seed.value).to_string());
    line("paper", &json!(spec.paper.value.word()).to_string());
    line("numbers", &numbers(&lesson.chosen).to_string());
    line("decoys", &decoys(lesson).to_string());
    line("pages", &lines(pages));
    text.push_str("  ");
    text.push_str(MARK);
    text.push_str(env!("CARGO_PKG_VERSION"));
    text.push_str("\"\n}\n");
    text
}

/// The values as a list with one on each line.
fn lines(values: impl Iterator<Item = Value>) -> String {
    let mut text = String::new();
    for value in values {
        text.push_str(if text.is_empty() { "[\n    " } else { ",\n    " });
        text.push_str(&value.to_string());
    }
    text.push_str(if text.is_empty() { "[]" } else { "\n  ]" });
    text
}

/// The chosen numbers by role, the sort numbers by version.
pub fn numbers(chosen: &Chosen) -> Value {
    let list = |numbers: &[Number]| -> Value { numbers.iter().map(|number| number.value()).collect() };
    let sort = (0..).map(Version).zip(&chosen.sort).filter(|(_, numbers)| !numbers.is_empty());
    let sort: Map<String, Value> = sort.map(|(version, numbers)| (version.to_string(), list(numbers))).collect();
    json!({ Role::Model.word(): list(&chosen.model), Role::Exit.word(): list(&chosen.exit), Role::Sort.word(): sort })
}

/// The decoys by version, in the order of the strips.
fn decoys(lesson: &Lesson) -> Value {
    let sets = lesson.sets.iter().map(|set| {
        let decoys = set.strips.iter().filter_map(|strip| {
            let (of, slip) = strip.wrong?;
            let text = match &strip.content {
                Content::Text(text) => text.clone(),
                Content::Blocks(_) => strip.content.aloud(),
            };
            Some(json!({ "of": of.value(), "form": strip.form.word(), "text": text, "slip": slip.name() }))
        });
        (set.version.to_string(), decoys.collect())
    });
    Value::Object(sets.collect())
}
