//! The keys as a JSON Schema (draft 2020-12): editors that know it complete keys and words and mark what is wrong.
//!
//! It says what can be said of one value at a time. What needs several (a range that goes down, requests that clash) only
//! the program knows.

use serde_json::{Map, Value, json};

use super::key::{Default, GROUP, KeyRow};
use super::kind::Shape;
use super::list::rows;
use crate::number::Place;
use crate::spec::limits::Limit;

/// The schema of a lesson file.
pub fn schema() -> Value {
    let mut schema =
        json!({ "$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Placewright lesson" });
    if let (Value::Object(schema), Value::Object(root)) = (&mut schema, table("")) {
        schema.extend(root);
    }
    schema
}

/// The schema as a file.
pub fn text() -> String {
    format!("{:#}\n", schema())
}

/// A table with its keys, then the tables inside it.
fn table(name: &str) -> Value {
    let rows: Vec<(String, KeyRow)> =
        rows().into_iter().flat_map(|row| row.tables().into_iter().map(move |of| (of, row.clone()))).collect();
    let mut properties = Map::new();
    let mut required = Vec::new();
    for (of, row) in &rows {
        if of == name {
            properties.insert(row.name.to_owned(), property(row));
            required.extend((row.default == Default::Needed).then_some(row.name));
        } else if let Some(inner) = inner(name, of).filter(|inner| !properties.contains_key(*inner)) {
            let path = if name.is_empty() { inner.to_owned() } else { format!("{name}.{inner}") };
            let table = table(&path);
            // A table that lacks a key which must be given must be there itself.
            if path == GROUP {
                properties.insert(inner.to_owned(), json!({ "type": "array", "items": table }));
                continue;
            }
            required.extend(table.get("required").map(|_| inner));
            properties.insert(inner.to_owned(), table);
        }
    }
    let says = if name.is_empty() { "A lesson file of Placewright".to_owned() } else { format!("The table [{name}]") };
    let mut table = json!({
        "description": says, "type": "object", "additionalProperties": false, "properties": properties,
    });
    if !required.is_empty() {
        table["required"] = json!(required);
    }
    table
}

/// The first part of a table's name after that of the table around it.
fn inner<'n>(around: &str, name: &'n str) -> Option<&'n str> {
    let rest = if around.is_empty() { name } else { name.strip_prefix(around)?.strip_prefix('.')? };
    rest.split('.').next().filter(|part| !part.is_empty())
}

fn property(row: &KeyRow) -> Value {
    let mut value = of(&row.shape);
    let mut says = format!("{}: {}", capital(row.says), row.shape.words());
    match &row.default {
        Default::Value(default) => value["default"] = default.clone(),
        Default::Worked(how) => says = format!("{says}. If left out: {how}"),
        Default::Needed | Default::Nothing => {}
    }
    value["description"] = json!(says);
    value
}

fn of(shape: &Shape) -> Value {
    match shape {
        Shape::Whole(limit) => whole(*limit),
        Shape::Line(limit) | Shape::Path(limit, _) => {
            json!({ "type": "string", "minLength": limit.least, "maxLength": limit.most })
        }
        Shape::Word(words) => json!({ "type": "string", "enum": words }),
        Shape::Words(words, limit) => json!({
            "type": "array", "items": { "type": "string", "enum": words }, "uniqueItems": true,
            "minItems": limit.least, "maxItems": limit.most,
        }),
        Shape::Switch => json!({ "type": "boolean" }),
        Shape::Length => json!({ "type": "string", "pattern": "^\\s*[0-9].*(mm|cm|in|pt)\\s*$" }),
        Shape::Font(words) => json!({ "type": "string", "examples": words }),
        Shape::Range(limit) => json!({ "type": "array", "items": whole(*limit), "minItems": 2, "maxItems": 2 }),
        Shape::Numbers(limit) => json!({ "type": "array", "items": whole(*limit) }),
        Shape::Lists(limit) => json!({
            "type": "object", "additionalProperties": false,
            "patternProperties": { "^[A-Z]$": { "type": "array", "items": whole(*limit) } },
        }),
        Shape::Bound(limit) => bound(*limit),
        Shape::Digits(limit) => places(&whole(*limit)),
        Shape::Bounds(limit) => places(&bound(*limit)),
        Shape::Sheets(words, limit) => {
            let sheets: Map<String, Value> = words.iter().map(|word| ((*word).to_owned(), whole(*limit))).collect();
            json!({ "type": "object", "additionalProperties": false, "properties": sheets })
        }
    }
}

fn whole(limit: Limit) -> Value {
    json!({ "type": "integer", "minimum": limit.least, "maximum": limit.most })
}

fn bound(limit: Limit) -> Value {
    let ends = json!({ "min": whole(limit), "max": whole(limit) });
    let both = json!({ "type": "object", "additionalProperties": false, "minProperties": 1, "properties": ends });
    json!({ "oneOf": [whole(limit), both] })
}

fn places(value: &Value) -> Value {
    let places: Map<String, Value> = Place::ALL.iter().map(|place| (place.key().to_owned(), value.clone())).collect();
    json!({ "type": "object", "additionalProperties": false, "properties": places })
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}
