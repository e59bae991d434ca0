//! Lines as teachers type them, what is said about each, and what it says to write instead.
//!
//! `tests/messages/lines.table` is the table: a damaged line with the section it stands in, then the message, then the line
//! to write; `perhaps` where something else could be meant. Each lesson is mended by doing what its message says, once.
//! To add a line, write it there, run `REPLACE=1 cargo test --test all repairs`, and read what was written.

use std::fmt::Write;
use std::fs;

use serde_json::Value;

use crate::support::run::{placewright, process};

const TABLE: &str = "tests/messages/lines.table";
const TITLE: &str = "title = \"Frogs\"";
const RANGE: &str = "range = [100, 999]";

/// A lesson in which one line is as it was typed.
fn lesson(place: &str, typed: &str) -> String {
    let about = |word: &str| typed.to_lowercase().trim_start_matches('"').starts_with(word);
    let title = place == "top" && (about("tit") || about("ttile"));
    let range = place == "[numbers]" && (about("ra") || about("rn"));
    let (mut text, mut section) = (String::new(), String::new());
    let mut add = |line: &str| writeln!(text, "{line}").unwrap();
    if !title {
        add(TITLE);
    }
    if place == "top" {
        add(typed);
    }
    add(if place == "header" { typed } else { "[numbers]" });
    if !range {
        add(RANGE);
    }
    if place == "[numbers]" {
        add(typed);
    } else if place.starts_with('[') {
        section = format!("{place}\n{typed}\n");
    }
    text + &section
}

/// The message and the line to write of the only finding, and the lesson mended by it.
fn said(at: &std::path::Path, text: &str) -> Result<(String, String, String), String> {
    fs::write(at.join("x.toml"), text).unwrap();
    let path = at.join("x.toml");
    let ran = placewright(["check", "--format", "json", path.to_str().unwrap()]);
    let value: Value = serde_json::from_str(&ran.out).unwrap();
    let finding = &value["findings"][0];
    let message = finding["message"].as_str().ok_or_else(|| format!("nothing is wrong with\n{text}"))?;
    let fix = finding.get("fix").ok_or_else(|| format!("no repair: {message}\n{text}"))?;
    let (line, new) = (fix["line"].as_u64().unwrap() as usize, fix["text"].as_str().unwrap());
    let mut lines: Vec<&str> = text.lines().collect();
    lines[line - 1] = new;
    let word = if fix["sure"] == true { "write" } else { "perhaps" };
    Ok((message.to_owned(), format!("{word}: {new}"), lines.join("\n") + "\n"))
}

#[test]
fn every_line_is_mended_by_doing_what_its_message_says() {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("names.csv"), "name\nWren\n").unwrap();
    let table = fs::read_to_string(TABLE).unwrap();
    let (mut written, mut wrong, mut rows) = (String::new(), Vec::new(), 0);
    for row in table.lines().filter(|line| !line.starts_with(' ')) {
        let (place, typed) = row.split_once(" | ").expect(row);
        rows += 1;
        match said(at.path(), &lesson(place, typed)) {
            Ok((message, write, mended)) => {
                assert!(!message.contains("TOML") && !message.ends_with('.'), "{message}");
                writeln!(written, "{row}\n    {message}\n    {write}").unwrap();
                // A path of another machine is read, and the file it names is not here.
                let elsewhere = typed.contains("C:\\");
                fs::write(at.path().join("x.toml"), &mended).unwrap();
                let ran = placewright(["numbers", at.path().join("x.toml").to_str().unwrap()]);
                if ran.status != 0 && !(elsewhere && ran.err.contains("cannot read")) {
                    wrong.push(format!("{row}: not mended by\n{mended}{}", ran.err));
                }
            }
            Err(why) => {
                writeln!(written, "{row}").unwrap();
                wrong.push(format!("{row}: {why}"));
            }
        }
    }
    if std::env::var_os("REPLACE").is_some() {
        fs::write(TABLE, &written).unwrap();
    }
    assert!(wrong.is_empty(), "{}\n{} of {rows} lines", wrong.join("\n"), wrong.len());
    assert!(rows >= 120, "{rows}");
    assert!(fs::read_to_string(TABLE).unwrap() == written, "REPLACE=1 accepts what is said now");
}

#[test]
fn fix_writes_what_is_sure_and_shows_the_difference() {
    let at = tempfile::tempdir().unwrap();
    let damaged =
        "# ours\r\ntitle: “Frogs”\r\n[numbers]\r\nrange = 100–999   # three digits\r\n[print]\r\nmargin = 10\r\n";
    fs::write(at.path().join("x.toml"), damaged).unwrap();
    let ran = process(at.path(), &["check", "--fix", "x.toml"]).with(1);
    let want = concat!(
        "x.toml: repaired\n",
        "     2 - title: “Frogs”\n       + title = \"Frogs\"\n",
        "     4 - range = 100–999   # three digits\n       + range = [100, 999]   # three digits\n\n",
    );
    assert_eq!(ran.out, want);
    // What is a guess is only proposed.
    assert!(ran.err.contains("perhaps: margin = \"10 mm\""), "{}", ran.err);
    let text = String::from_utf8(fs::read(at.path().join("x.toml")).unwrap()).unwrap();
    let mended = damaged.replace("title: “Frogs”", "title = \"Frogs\"").replace("100–999", "[100, 999]");
    assert_eq!(text, mended);

    fs::write(at.path().join("x.toml"), text.replace("margin = 10", "margin = \"10 mm\"")).unwrap();
    let before = fs::read(at.path().join("x.toml")).unwrap();
    assert!(!process(at.path(), &["check", "--fix", "x.toml"]).with(0).out.contains("repaired"));
    assert_eq!(fs::read(at.path().join("x.toml")).unwrap(), before);
    process(at.path(), &["check", "--fix", "-"]).with(2);
    process(at.path(), &["check", "--fix", "no.toml"]).with(3);
}

#[test]
fn programs_are_told_what_was_repaired() {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("x.toml"), "title = Frogs\n[numbers]\nrange = [10, 99]\n").unwrap();
    let ran = process(at.path(), &["check", "--fix", "--format", "json", "x.toml"]).with(0);
    let value: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(value["fixed"], serde_json::json!([{ "line": 1, "old": "title = Frogs", "new": "title = \"Frogs\"" }]));
}
