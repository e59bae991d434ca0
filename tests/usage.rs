//! What can be typed, and what is said when it makes no sense.

use std::collections::BTreeSet;
use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

use crate::support::run::{placewright, process};
use serde_json::Value;
use tempfile::TempDir;

const LESSON: &str = "title = \"Tram stops\"\n[numbers]\nrange = [10, 99]\n[class]\nlearners = 2\nspares = 0\n";

fn folder() -> TempDir {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), LESSON).unwrap();
    at
}

/// The words of all sheets with a page in a folder's `contents.json`.
fn sheets(folder: &Path) -> BTreeSet<String> {
    let contents: Value = serde_json::from_slice(&fs::read(folder.join("contents.json")).unwrap()).unwrap();
    contents["pages"].as_array().unwrap().iter().map(|page| page["sheet"].as_str().unwrap().to_owned()).collect()
}

#[test]
fn a_lesson_comes_from_standard_input() {
    for command in ["typeset", "preview", "check", "numbers"] {
        let at = folder();
        let mut child = Command::new(env!("CARGO_BIN_EXE_placewright"))
            .args([command, "-", "--only", "board"])
            .current_dir(at.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        child.stdin.take().unwrap().write_all(LESSON.as_bytes()).unwrap();
        let ran = child.wait_with_output().unwrap();
        assert!(ran.status.success(), "{command}: {}", String::from_utf8_lossy(&ran.stderr));
        let writes = matches!(command, "typeset" | "preview");
        assert_eq!(at.path().join("out/lesson/teacher.pdf").exists(), writes, "{command}");
    }
}

#[test]
fn only_takes_several_sheets() {
    let at = folder();
    for (k, args) in [&["--only", "board,strips"][..], &["--only", "board", "--only", "strips"]].into_iter().enumerate()
    {
        let out = k.to_string();
        process(at.path(), &[&["typeset", "tram.toml", "--out", &out], args].concat()).with(0);
        let made = sheets(&at.path().join(out).join("tram"));
        assert_eq!(made.into_iter().collect::<Vec<_>>(), ["board", "strips"]);
    }
    let cover = process(at.path(), &["typeset", "tram.toml", "--only", "cover,mat,ticket", "--out", "c"]).with(0);
    assert!(cover.out.contains("substitute.pdf") && cover.out.contains("copy-room-ticket.pdf"), "{}", cover.out);
    process(at.path(), &["check", "tram.toml", "--only", "board,bord"]).with(2);
    process(at.path(), &["check", "tram.toml", "--only", "Board"]).with(0);
}

#[test]
fn only_leaves_the_rest_of_an_earlier_packet_in_place() {
    let at = folder();
    process(at.path(), &["typeset", "tram.toml"]).with(0);
    let out = at.path().join("out/tram");
    let before = fs::read(out.join("teacher.pdf")).unwrap();
    let ran = process(at.path(), &["typeset", "tram.toml", "--only", "board"]).with(3);
    assert!(ran.err.contains("`out/tram` holds a packet with more sheets than board"), "{}", ran.err);
    assert_eq!(fs::read(out.join("teacher.pdf")).unwrap(), before);
    assert!(out.join("substitute.pdf").exists() && sheets(&out).contains("strips"));
    process(at.path(), &["typeset", "tram.toml", "--only", "board", "--out", "again"]).with(0);
    process(at.path(), &["typeset", "tram.toml", "--only", "board", "--force"]).with(0);
    // What only holds boards is replaced by boards.
    process(at.path(), &["typeset", "tram.toml", "--only", "board", "--seed", "2"]).with(0);
    assert_eq!(sheets(&out).len(), 1);
}

#[test]
fn a_packet_of_another_lesson_is_replaced_with_a_word() {
    let at = folder();
    let typeset = |lesson: &str| process(at.path(), &["typeset", lesson, "--only", "board"]).with(0).err;
    assert_eq!(typeset("tram.toml"), "");
    assert_eq!(typeset("tram.toml"), "");
    fs::create_dir(at.path().join("b")).unwrap();
    fs::write(at.path().join("b/tram.toml"), LESSON.replace("Tram", "Ferry")).unwrap();
    assert_eq!(typeset("b/tram.toml"), "note: `out/tram` held the packet of \"Tram stops\", which was replaced\n");
}

#[test]
fn wrong_usage_talks_to_programs_too() {
    #[track_caller]
    fn case(args: &[&str], message: &str, hint: &str) {
        let ran = placewright(args.iter().chain(&["--format", "json"])).with(2);
        assert_eq!(ran.err, "", "{args:?}");
        let value: Value = serde_json::from_str(&ran.out).unwrap();
        let finding = &value["findings"][0];
        assert_eq!((finding["severity"].as_str(), &finding["file"]), (Some("error"), &Value::Null));
        assert_eq!(finding["message"], message, "{args:?}");
        assert!(finding["hint"].as_str().unwrap().contains(hint), "{finding}");
    }
    case(&["typset", "x.toml"], "unrecognized subcommand 'typset'", "'typeset'");
    case(&["check"], "the following required arguments were not provided: <LESSON>...", "placewright help");
    case(&["check", "--only", "bord", "x.toml"], "invalid value 'bord' for '--only <SHEET>'", "did you mean `board`?");
    case(&[], "a command is missing", "placewright help");
}

#[test]
fn help_is_a_command_and_stays_plain_when_asked() {
    let ran = placewright(["help"]).with(0);
    assert!(ran.out.contains("Commands:") && ran.out.contains("Examples:"));
    assert_eq!(placewright(["help", "typeset"]).with(0).out, placewright(["typeset", "--help"]).with(0).out);
    assert!(placewright(["--help", "--color", "always"]).with(0).out.contains('\u{1b}'));
    assert!(!placewright(["--color=never", "--help"]).with(0).out.contains('\u{1b}'));
    for late in [&["help", "typeset", "--color", "never"][..], &["help", "--color=never", "typeset"]] {
        assert_eq!(placewright(late).with(0).out, placewright(["typeset", "--help"]).with(0).out);
    }
    placewright(["help", "typeset", "--nothing"]).with(2);
}

#[cfg(unix)]
#[test]
fn help_at_a_terminal_is_as_wide_and_as_plain_as_asked() {
    for (width, args) in [(48, &["--help"][..]), (60, &["typeset", "--help"]), (60, &["help", "preview"])] {
        let Some(help) =
            crate::support::terminal::Terminal::wide(Path::new("."), &[&["--color", "never"], args].concat(), width)
        else {
            eprintln!("skipped: no pseudo-terminal");
            return;
        };
        let (status, screen) = help.end();
        assert_eq!(status, Some(0));
        assert!(!screen.contains('\u{1b}'), "{screen}");
        let longest = screen.lines().max_by_key(|line| line.trim_end().chars().count()).unwrap();
        assert!(longest.trim_end().chars().count() <= usize::from(width), "{longest}\n{screen}");
        assert!(screen.lines().count() > 20, "{screen}");
    }
}

#[test]
fn the_manual_refers_to_no_page_but_itself() {
    let text = placewright(["manual"]).with(0).out;
    assert!(!text.contains("placewright\\-") && !text.contains("(1)"), "{text}");
    for command in ["START", "CHECK", "TYPESET", "COMPLETIONS", "MANUAL"] {
        assert!(text.contains(&format!(".SH \"{command}\"")), "{command}");
    }
    let Ok(mut groff) = Command::new("groff")
        .args(["-man", "-Tutf8", "-ww", "-z"])
        .stdin(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
    else {
        eprintln!("skipped: no groff");
        return;
    };
    groff.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
    let ran = groff.wait_with_output().unwrap();
    assert!(ran.status.success() && ran.stderr.is_empty(), "{}", String::from_utf8_lossy(&ran.stderr));
}
