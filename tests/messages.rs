//! Bad lesson files and exactly what is said about each.
//!
//! A case is a file `tests/messages/NAME.toml`; the exit status and the message stand beside it in `NAME.txt`. To add one,
//! write the lesson, run `REPLACE=1 cargo test messages`, and read what was written. Each case runs `typeset`: it
//! must fail, must not panic, and must write nothing.

use crate::support::run;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use run::placewright;

const FOLDER: &str = "tests/messages";

fn names(ending: &str) -> BTreeSet<String> {
    let entries = fs::read_dir(FOLDER).expect("the folder of messages");
    let names = entries.map(|entry| entry.expect("an entry").file_name().into_string().expect("UTF-8"));
    names.filter_map(|name| name.strip_suffix(ending).map(str::to_owned)).collect()
}

/// Exit status and talk of `typeset`, after checking that nothing was written.
fn said(name: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let out = folder.path().join("out");
    let ran = placewright(["typeset", &format!("{FOLDER}/{name}.toml"), "--out", out.to_str().expect("UTF-8")]);
    assert!(ran.status != 0 && ran.out.is_empty(), "{name}: {ran:?}");
    assert!(fs::read_dir(folder.path()).expect("the folder").next().is_none(), "{name} wrote something");
    format!("exit status {}\n{}", ran.status, ran.err)
}

#[test]
fn every_bad_lesson_gets_its_message() {
    let replace = std::env::var_os("REPLACE").is_some();
    let mut wrong = Vec::new();
    for name in names(".toml") {
        let path = Path::new(FOLDER).join(format!("{name}.txt"));
        let said = said(&name);
        if replace {
            fs::write(&path, &said).expect("written");
        }
        let wanted = fs::read_to_string(&path).unwrap_or_default();
        if said != wanted {
            wrong.push(format!("{name}:\n--- wanted\n{wanted}--- said\n{said}"));
        }
    }
    assert!(wrong.is_empty(), "{}\nREPLACE=1 accepts what is said now", wrong.join("\n"));
}

#[test]
fn there_are_many_and_none_is_left_over() {
    let (lessons, messages) = (names(".toml"), names(".txt"));
    assert!(lessons.len() >= 40, "only {}", lessons.len());
    assert_eq!(lessons, messages);
}

#[test]
fn programs_get_the_same_findings() {
    for name in names(".toml") {
        let ran = placewright(["check", "--format", "json", &format!("{FOLDER}/{name}.toml")]);
        let value: serde_json::Value = serde_json::from_str(&ran.out).unwrap_or_else(|e| panic!("{name}: {e}"));
        let findings = value["findings"].as_array().expect("findings");
        assert!(!findings.is_empty() && ran.err.is_empty(), "{name}: {ran:?}");
        for finding in findings {
            assert_eq!(finding["severity"], "error", "{name}");
            let message = finding["message"].as_str().expect("a message");
            assert!(!message.ends_with('.') && !message.starts_with(char::is_uppercase), "{name}: {message}");
        }
    }
}
