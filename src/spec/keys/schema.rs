//! The keys as a JSON Schema (draft 2020-12): editors that know it complete keys and words and mark what is wrong.
//!
//! It says what can be said of one value at a time. What needs several (a range that goes down, requests that clash) only
//! the program knows.

use serde_json::{Map, Value, json};

use super::kind::Shape;
use super::list::rows;
use super::{Default, Row};
use crate::number::Place;
use crate::spec::limits::Limit;

/// The schema of a lesson file.
pub fn schema() -> Value {
    let mut root = object("A lesson file of Placewright");
    for row in rows() {
        for table in row.tables() {
            let mut at = &mut root;
            for part in table.split('.').filter(|part| !part.is_empty()) {
                let tables = properties(at);
                at = tables.entry(part).or_insert_with(|| object(&format!("The table [{table}]")));
            }
            properties(at).insert(row.name.to_owned(), property(&row));
            if row.default == Default::Needed {
                let needed = at["required"].as_array().cloned().unwrap_or_default();
                at["required"] = needed.into_iter().chain([json!(row.name)]).collect();
            }
        }
    }
    // The table of a key that must be given must be there itself.
    root["required"] = json!(["title", "numbers"]);
    let mut schema =
        json!({ "$schema": "https://json-schema.org/draft/2020-12/schema", "title": "Placewright lesson" });
    if let (Value::Object(schema), Value::Object(root)) = (&mut schema, root) {
        schema.extend(root);
    }
    schema
}

/// The schema as a file.
pub fn text() -> String {
    format!("{:#}\n", schema())
}

fn object(description: &str) -> Value {
    json!({ "description": description, "type": "object", "additionalProperties": false, "properties": {} })
}

fn properties(of: &mut Value) -> &mut Map<String, Value> {
    // Every object here was made by `object`.
    static EMPTY: &str = "properties";
    if !of[EMPTY].is_object() {
        of[EMPTY] = json!({});
    }
    match &mut of[EMPTY] {
        Value::Object(map) => map,
        _ => unreachable!("made an object just now"),
    }
}

fn property(row: &Row) -> Value {
    let mut value = of(&row.shape);
    value["description"] = json!(format!("{}: {}", capital(row.says), row.shape.words()));
    match &row.default {
        Default::Value(default) => value["default"] = default.clone(),
        Default::Worked(how) => {
            value["description"] = json!(format!("{}. If left out: {how}", value["description"].as_str().unwrap_or("")))
        }
        Default::Needed | Default::Nothing => {}
    }
    value
}

fn of(shape: &Shape) -> Value {
    match shape {
        Shape::Whole(limit) => whole(*limit),
        Shape::Line(limit) | Shape::Path(limit) => {
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
        Shape::Bound(limit) => bound(*limit),
        Shape::Digits(limit) => places(&whole(*limit)),
        Shape::Bounds(limit) => places(&bound(*limit)),
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
