//! The value of a key as the parts of a form, and back.
//!
//! A key that takes one word or number has one part without a name; a least and a greatest have parts of those names; what
//! is given for places or sheets has parts named after them. What is typed is put into the lesson file as it is: what is
//! wrong with it is said by whoever reads the file, and by nobody else.

use std::collections::BTreeMap;

use serde_json::{Map, Value, json};

use crate::spec::keys::Shape;

/// What stands in the parts of a field; empty parts are missing.
pub type FieldParts = BTreeMap<String, String>;

/// The part of a value that has only one.
pub const ONLY: &str = "";

/// The parts of a value, as a field of this shape shows it.
pub fn parts(shape: &Shape, value: &Value) -> FieldParts {
    let mut parts = FieldParts::new();
    let mut add = |name: String, value: &Value| {
        if let Some(text) = plain(value) {
            parts.insert(name, text);
        }
    };
    match (shape, value) {
        (Shape::Range(_), Value::Array(ends)) => {
            for (name, end) in ["least", "greatest"].into_iter().zip(ends) {
                add(name.to_owned(), end);
            }
        }
        (Shape::Words(..), Value::Array(words)) => {
            for (k, word) in words.iter().enumerate() {
                add(format!("{k:02}"), word);
            }
        }
        (Shape::Numbers(_), Value::Array(numbers)) => {
            let texts: Vec<String> = numbers.iter().filter_map(plain).collect();
            add(ONLY.to_owned(), &Value::String(texts.join(", ")));
        }
        (Shape::Lists(_), Value::Object(lists)) => {
            for (name, numbers) in lists {
                let numbers = numbers.as_array().into_iter().flatten();
                let texts: Vec<String> = numbers.filter_map(plain).collect();
                add(name.clone(), &Value::String(texts.join(", ")));
            }
        }
        (Shape::Bound(_), value) => bound("", value, &mut add),
        (Shape::Bounds(_), Value::Object(places)) => {
            for (place, value) in places {
                bound(&format!("{place}."), value, &mut add);
            }
        }
        (Shape::Digits(_) | Shape::Sheets(..), Value::Object(each)) => {
            for (name, value) in each {
                add(name.clone(), value);
            }
        }
        (_, value) => add(ONLY.to_owned(), value),
    }
    parts.retain(|_, text| !text.is_empty());
    parts
}

fn bound(before: &str, value: &Value, add: &mut impl FnMut(String, &Value)) {
    let Value::Object(ends) = value else { return add(format!("{before}min"), value) };
    for end in ["min", "max"] {
        if let Some(value) = ends.get(end) {
            add(format!("{before}{end}"), value);
        }
    }
}

/// A value as it is typed; none for what no field shows.
fn plain(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(text.clone()),
        Value::Number(_) | Value::Bool(_) => Some(value.to_string()),
        Value::Null | Value::Array(_) | Value::Object(_) => None,
    }
}

/// The value that the parts of a field make; none where all are empty, so that the file stays silent.
pub fn value(shape: &Shape, parts: &FieldParts) -> Option<Value> {
    let part = |name: &str| parts.get(name).map(|text| text.trim()).filter(|text| !text.is_empty());
    match shape {
        Shape::Range(_) => {
            let ends: Vec<Value> = ["least", "greatest"].into_iter().filter_map(part).map(number).collect();
            (!ends.is_empty()).then_some(Value::Array(ends))
        }
        Shape::Words(..) => {
            let words: Vec<Value> = parts.values().filter(|word| !word.is_empty()).map(|word| json!(word)).collect();
            (!words.is_empty()).then_some(Value::Array(words))
        }
        Shape::Numbers(_) => part(ONLY).and_then(numbers),
        Shape::Lists(_) => each(parts.keys().map(String::as_str), |name| part(name).and_then(numbers)),
        Shape::Bound(_) => ends(part("min"), part("max")),
        Shape::Bounds(_) => {
            let names = parts.keys().filter_map(|name| name.rsplit_once('.')).map(|(place, _)| place);
            each(names, |place| ends(part(&format!("{place}.min")), part(&format!("{place}.max"))))
        }
        Shape::Digits(_) | Shape::Sheets(..) => each(parts.keys().map(String::as_str), |name| part(name).map(number)),
        Shape::Whole(_) => part(ONLY).map(number),
        Shape::Switch => part(ONLY).map(|text| match text {
            "true" => json!(true),
            "false" => json!(false),
            other => json!(other),
        }),
        // Spaces at the ends of a line of text are told by its reader, not taken away.
        Shape::Line(_) => parts.get(ONLY).filter(|text| !text.is_empty()).map(|text| json!(text)),
        Shape::Path(..) | Shape::Word(_) | Shape::Length | Shape::Font(_) => part(ONLY).map(|text| json!(text)),
    }
}

fn ends(min: Option<&str>, max: Option<&str>) -> Option<Value> {
    match (min, max) {
        (None, None) => None,
        (Some(min), None) => Some(number(min)),
        _ => {
            let ends = [("min", min), ("max", max)].into_iter();
            Some(ends.filter_map(|(name, end)| Some((name.to_owned(), number(end?)))).collect())
        }
    }
}

fn numbers(text: &str) -> Option<Value> {
    let apart = |c: char| c == ',' || c == ';' || c.is_whitespace();
    let numbers: Vec<Value> = text.split(apart).filter(|text| !text.is_empty()).map(number).collect();
    (!numbers.is_empty()).then_some(Value::Array(numbers))
}

fn each<'n>(names: impl Iterator<Item = &'n str>, value: impl Fn(&str) -> Option<Value>) -> Option<Value> {
    let each: Map<String, Value> = names.filter_map(|name| Some((name.to_owned(), value(name)?))).collect();
    (!each.is_empty()).then_some(Value::Object(each))
}

/// What was typed as a whole number, or as text where it is none.
fn number(text: &str) -> Value {
    text.parse::<i64>().map_or_else(|_| json!(text), |number| json!(number))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::spec::keys::list;

    #[test]
    fn every_example_of_the_reference_comes_back_from_its_parts() {
        for row in list::rows() {
            let table: toml::Table = format!("x = {}", row.example).parse().expect("an example");
            let given: Value = serde_json::to_value(&table["x"]).expect("JSON");
            let shown = parts(&row.shape, &given);
            assert!(!shown.is_empty(), "{}", row.name);
            assert_eq!(value(&row.shape, &shown), Some(given), "{}: {shown:?}", row.name);
            assert_eq!(value(&row.shape, &FieldParts::new()), None);
        }
    }

    #[test]
    fn what_is_no_number_stays_what_was_typed() {
        let typed = FieldParts::from([(ONLY.to_owned(), "a dozen".to_owned())]);
        assert_eq!(value(&Shape::Whole(crate::spec::limits::MINUTES), &typed), Some(json!("a dozen")));
        let typed = FieldParts::from([(ONLY.to_owned(), "640; 460 x".to_owned())]);
        assert_eq!(value(&Shape::Numbers(crate::spec::limits::NUMBER), &typed), Some(json!([640, 460, "x"])));
    }
}
