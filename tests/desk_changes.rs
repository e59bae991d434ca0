//! A thousand changes at the desk, one after the other: the page is always what loading it again shows.

use placewright::rng::Stream;
use placewright::spec::keys::{Shape, list};
use serde_json::{Value, json};

use crate::desk::{loaded, scene};

/// A field filled in at random: mostly with what can be given, sometimes with something else.
fn filling(stream: &mut Stream, shape: &Shape) -> Value {
    let number = |stream: &mut Stream| match stream.below(12) {
        0 => "x".to_owned(),
        1 => String::new(),
        k => (k - 1).to_string(),
    };
    let word = |stream: &mut Stream, words: &[&str]| match stream.below(12) {
        0 => "wrod".to_owned(),
        _ => words[stream.index(words.len())].to_owned(),
    };
    match shape {
        Shape::Range(_) => {
            let ranges = [(10, 99), (100, 999), (0, 20), (99, 10), (1000, 9999)];
            let (least, greatest) = ranges[stream.index(ranges.len())];
            json!({ "least": least.to_string(), "greatest": greatest.to_string() })
        }
        Shape::Bound(_) => json!({ "min": number(stream), "max": number(stream) }),
        Shape::Bounds(_) => json!({ "tens.min": number(stream), "ones.max": number(stream) }),
        Shape::Digits(_) => json!({ "tens": number(stream), "hundreds": number(stream) }),
        Shape::Lists(_) => json!({ "A": format!("{} {}", number(stream), number(stream)), "B": number(stream) }),
        Shape::Sheets(words, _) => json!({ words[stream.index(words.len())]: number(stream) }),
        Shape::Words(words, _) => {
            let mut words: Vec<String> = (0..stream.below(5)).map(|_| word(stream, words)).collect();
            words.dedup();
            words.iter().enumerate().map(|(k, word)| (format!("{k:02}"), json!(word))).collect()
        }
        Shape::Word(words) | Shape::Font(words) => json!({ "": word(stream, words) }),
        Shape::Switch => json!({ "": word(stream, &["true", "false"]) }),
        Shape::Numbers(_) => json!({ "": format!("{} {}", number(stream), number(stream)) }),
        Shape::Length => json!({ "": word(stream, &["6 mm", "0.5 in", "12"]) }),
        Shape::Line(_) | Shape::Path(..) | Shape::Whole(_) => json!({ "": number(stream) }),
    }
}

#[test]
fn after_a_thousand_changes_the_page_is_what_loading_it_shows() {
    let (_at, desk) = scene(
        "title = \"T\"\n[numbers]\nrange = [10, 99]\nmodel.count = 0\nexit.count = 0\nsort.count = 2\n[class]\nlearners = 1\nspares = 0\n[sheets]\nmake = [\"record\"]\n",
    );
    let page = desk.enter();
    let mut stream = Stream::new(20, "desk");
    let fields: Vec<(String, Shape)> = list::rows()
        .into_iter()
        .flat_map(|row| row.tables().into_iter().map(move |table| (table, row.clone())))
        .map(|(table, row)| {
            (if table.is_empty() { row.name.to_owned() } else { format!("{table}.{}", row.name) }, row.shape)
        })
        // These make work for minutes, or stand in a list that is empty.
        .filter(|(key, _)| !key.starts_with("class.") && !key.starts_with("group") && key != "sheets.make")
        .collect();
    let mut last = 0;
    for k in 0..1_000 {
        match stream.below(12) {
            0 => drop(page.does("/back", json!({}))),
            1 => drop(page.does("/forth", json!({}))),
            2 => drop(page.does("/number", json!({ "act": "fresh" }))),
            _ => {
                let (key, shape) = &fields[stream.index(fields.len())];
                let parts = if stream.below(4) == 0 { json!({}) } else { filling(&mut stream, shape) };
                let told = page.does("/edit", json!({ "key": key, "parts": parts, "typing": stream.below(3) == 0 }));
                let revision = told["revision"].as_u64().unwrap();
                assert!(revision >= last, "{key}");
                last = revision;
            }
        }
        // Between these, changes come faster than lessons are worked out.
        if k % 50 == 49 {
            page.view();
            loaded(&page);
        }
    }
    // Another desk that is given the text alone says the same of it.
    let text = page.text();
    let (_at, other) = scene(&text);
    let again = other.enter();
    let (mine, theirs) = (page.view(), again.view());
    // It has no pages from before.
    let standing = |view: &Value| view["standing"].as_str().unwrap().split("<p>Below are").next().unwrap().to_owned();
    let made = |view: &Value| view["standing"].as_str().unwrap().contains("can be made");
    assert_eq!(standing(&mine).trim_end_matches("</div>"), standing(&theirs).trim_end_matches("</div>"), "{text}");
    assert!(!made(&mine) || mine["numbers"] == theirs["numbers"], "{text}");
}
