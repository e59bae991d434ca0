//! `contents.json`: what a lesson's packets hold, for programs.
//!
//! In: a lesson and its packets. Out: the text of the file, keys in a fixed order, nothing that differs from machine to
//! machine, and no name of a learner.

use std::io::{self, Write};

use serde_json::{Map, Value, json};

use crate::lesson::exit::Check;
use crate::lesson::{Lesson, LessonGroup, Role, Version};
use crate::number::{Content, Number};
use crate::sheets::packets::Packet;

/// The name of the file.
pub const FILE: &str = "contents.json";

/// What tells a file of this program from others. It stands at the end, so that the keys of the contract come first.
pub const MARK: &str = "\"made_by\": \"Placewright ";

/// Writes the file: one object, each page on a line of its own, a line end at the end. Pages are written as they come: a
/// class of thousands has a million.
pub fn write(out: &mut (impl Write + ?Sized), lesson: &Lesson, packets: &[Packet<'_>]) -> io::Result<()> {
    let spec = &lesson.spec;
    let keys = [
        ("title", json!(spec.title.value)),
        ("seed", json!(spec.seed.value)),
        ("paper", json!(spec.paper.value.word())),
        ("numbers", numbers(lesson)),
        ("decoys", decoys(lesson)),
    ];
    out.write_all(b"{\n")?;
    for (key, value) in keys {
        writeln!(out, "  {}: {value},", json!(key))?;
    }
    out.write_all(b"  \"pages\": [")?;
    let mut between = "\n";
    for packet in packets {
        for (number, page) in (1..).zip(packet.entries()) {
            let row = json!({
                "file": packet.file(),
                "page": number,
                "sheet": page.sheet.word(),
                "version": page.version.map(|version| version.to_string()),
                "learner": page.learner,
                "stock": page.stock.word(),
                "kit": page.kit,
            });
            write!(out, "{between}    {row}")?;
            between = ",\n";
        }
    }
    let end = if between == "\n" { "" } else { "\n  " };
    writeln!(out, "{end}],\n  \"checks\": {},", checks(lesson))?;
    if !lesson.groups.is_empty() {
        writeln!(out, "  \"groups\": {},\n  \"versions\": {},", groups(lesson), versions(lesson))?;
    }
    writeln!(out, "  {MARK}{}\"\n}}", env!("CARGO_PKG_VERSION"))
}

/// The chosen numbers by role, the sort numbers by version, and those of the warm-up where it is made.
pub fn numbers(lesson: &Lesson) -> Value {
    let chosen = &lesson.chosen;
    let list = |numbers: &[Number]| -> Value { numbers.iter().map(|number| number.value()).collect() };
    let sort = (0..).map(Version).zip(&chosen.sort).filter(|(_, numbers)| !numbers.is_empty());
    let sort: Map<String, Value> = sort.map(|(version, numbers)| (version.to_string(), list(numbers))).collect();
    let mut numbers = json!({ Role::Model.word(): list(&chosen.model), Role::Exit.word(): list(&chosen.exit), Role::Sort.word(): sort });
    if let Some(week) = &lesson.warm_up {
        numbers["warm_up"] = week.days.iter().map(|day| day.number.value()).collect();
    }
    numbers
}

/// The quick checks by their numbers, each with the numbers that it asks about, in its order.
fn checks(lesson: &Lesson) -> Value {
    let values = |check: &Check| check.numbers().iter().map(|number| number.value()).collect::<Vec<_>>();
    lesson.checks.iter().map(|check| json!({ "check": check.mark, "numbers": values(check) })).collect()
}

/// Who has which versions, exit numbers and quick checks; the name is null for everyone in no group.
pub fn groups(lesson: &Lesson) -> Value {
    let of = |group: &LessonGroup| {
        let (least, most) = group.numbers.range.value;
        json!({
            "name": group.name,
            "learners": group.learners.len(),
            "range": [least.value(), most.value()],
            "versions": group.versions.iter().map(ToString::to_string).collect::<Vec<_>>(),
            "exit": group.exit.iter().map(|number| number.value()).collect::<Vec<_>>(),
            "checks": group.checks,
            "solutions": group.solutions.iter().map(|(role, n)| (role.word().to_owned(), json!(n))).collect::<Map<_, _>>(),
        })
    };
    lesson.groups.iter().map(of).collect()
}

/// The group of each version; null for everyone in no group.
fn versions(lesson: &Lesson) -> Value {
    let of = |group: &LessonGroup| {
        let name = json!(group.name);
        group.versions.iter().map(move |version| (version.to_string(), name.clone())).collect::<Vec<_>>()
    };
    Value::Object(lesson.groups.iter().flat_map(of).collect())
}

/// The decoys by version, in the order of the strips.
fn decoys(lesson: &Lesson) -> Value {
    let sets = lesson.sets.iter().map(|set| {
        let decoys = set.strips.iter().filter_map(|strip| {
            let (of, slip) = strip.wrong?;
            let text = match strip.content.line() {
                Some(line) => line.to_owned(),
                None => strip.content.text(lesson.style.names),
            };
            let mut decoy = json!({ "of": of.value(), "form": strip.form.word(), "text": text, "slip": slip.word() });
            // The same words in the second language.
            if let (Content::Both([_, second]), Some(keys)) = (&strip.content, decoy.as_object_mut()) {
                keys.insert("text2".to_owned(), json!(second));
            }
            Some(decoy)
        });
        (set.version.to_string(), decoys.collect())
    });
    Value::Object(sets.collect())
}
