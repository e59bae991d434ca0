//! The program from outside: exit status, streams and files.

use crate::support::run;
use std::fs;
use std::path::Path;

use run::process;
use serde_json::Value;
use tempfile::TempDir;

const LESSON: &str = "title = \"Tram stops\"\n[numbers]\nrange = [100, 999]\n";

/// A folder with lessons in it.
fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("folders");
        fs::write(path, text).expect("written");
    }
    folder
}

/// The names in a folder, in order.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("a folder");
    let mut names: Vec<String> =
        entries.map(|entry| entry.expect("an entry").file_name().into_string().expect("UTF-8")).collect();
    names.sort();
    names
}

fn bytes(folder: &TempDir, name: &str) -> Vec<u8> {
    fs::read(folder.path().join(name)).expect(name)
}

#[test]
fn typeset_writes_packets_and_says_which() {
    let at = folder(&[("tram.toml", LESSON)]);
    let ran = process(at.path(), &["typeset", "tram.toml"]).with(0);
    assert_eq!(names(at.path()), ["out", "tram.toml"]);
    assert_eq!(names(&at.path().join("out")), ["tram"]);
    let written = names(&at.path().join("out/tram"));
    assert!(written.contains(&"teacher.pdf".to_owned()) && written.contains(&"contents.json".to_owned()));
    for name in &written {
        assert!(ran.out.contains(&format!("out/tram/{name}")), "{}", ran.out);
    }
    assert!(bytes(&at, "out/tram/teacher.pdf").starts_with(b"%PDF-"));
    assert_eq!(process(at.path(), &["typeset", "-q", "tram.toml"]).with(0).out, "");
}

#[test]
fn the_same_lesson_gives_the_same_bytes() {
    let at = folder(&[("tram.toml", LESSON), ("b/tram.toml", LESSON)]);
    process(at.path(), &["typeset", "tram.toml", "--out", "one"]).with(0);
    process(at.path(), &["typeset", "b/tram.toml", "--out", "two"]).with(0);
    process(at.path(), &["typeset", "tram.toml", "--out", "three", "--seed", "2"]).with(0);
    for name in names(&at.path().join("one/tram")) {
        assert_eq!(bytes(&at, &format!("one/tram/{name}")), bytes(&at, &format!("two/tram/{name}")), "{name}");
    }
    let contents = |out: &str| -> Value {
        serde_json::from_slice(&bytes(&at, &format!("{out}/tram/contents.json"))).expect("JSON")
    };
    assert_ne!(contents("one")["numbers"], contents("three")["numbers"]);
    assert_eq!(contents("three")["seed"], 2);
}

#[test]
fn contents_json_is_as_promised() {
    let lesson = format!("{LESSON}[class]\nversions = 2\n");
    let at = folder(&[("tram.toml", &lesson)]);
    process(at.path(), &["typeset", "tram.toml"]).with(0);
    let contents: Value = serde_json::from_slice(&bytes(&at, "out/tram/contents.json")).expect("JSON");
    let keys: Vec<&String> = contents.as_object().expect("an object").keys().collect();
    assert_eq!(keys[..6], ["title", "seed", "paper", "numbers", "decoys", "pages"]);
    let sort = contents["numbers"]["sort"].as_object().expect("sort");
    assert_eq!(sort.keys().collect::<Vec<_>>(), ["A", "B"]);
    assert!(sort.values().all(|numbers| numbers.as_array().is_some_and(|n| n.len() == 8)));
    let decoy = &contents["decoys"]["A"][0];
    assert_eq!(decoy.as_object().expect("a decoy").keys().collect::<Vec<_>>(), ["of", "form", "text", "slip"]);
    let page = &contents["pages"][0];
    let keys: Vec<&String> = page.as_object().expect("a page").keys().collect();
    assert_eq!(keys, ["file", "page", "sheet", "version", "learner", "stock", "kit"]);
    assert_eq!(page["page"], 1);
    // Each check is listed with its numbers, the exit number of the same place among them.
    let checks = contents["checks"].as_array().expect("checks");
    let exit = contents["numbers"]["exit"].as_array().expect("exit numbers");
    assert_eq!(checks.len(), exit.len());
    for ((check, number), mark) in checks.iter().zip(exit).zip(1..) {
        assert_eq!(check["check"], mark);
        assert!(check["numbers"].as_array().expect("numbers").contains(number), "{check}");
    }
}

#[test]
fn numbers_and_check_talk_to_programs() {
    let at = folder(&[("tram.toml", LESSON)]);
    let numbers = process(at.path(), &["numbers", "--format", "json", "tram.toml"]).with(0);
    let value: Value = serde_json::from_str(&numbers.out).expect("JSON");
    assert_eq!(value["numbers"]["model"].as_array().map(Vec::len), Some(3));
    let solutions = value["solutions"]["sort"].as_str().expect("a string");
    assert!(solutions.bytes().all(|digit| digit.is_ascii_digit()), "{solutions}");
    let first = value["numbers"]["model"][0].to_string();
    assert!(value["why"][&first].is_array(), "{value}");

    let check = process(at.path(), &["check", "--format", "json", "tram.toml"]).with(0);
    let value: Value = serde_json::from_str(&check.out).expect("JSON");
    assert_eq!((value["assumed"]["minutes"].as_u64(), value["assumed"]["paper"].as_str()), (Some(55), Some("letter")));
    assert_eq!(value["findings"], Value::Array(Vec::new()));
    assert_eq!(names(at.path()), ["tram.toml"]);
}

#[test]
fn results_and_talk_have_their_own_streams() {
    let at = folder(&[("bad.toml", "title = 1\n"), ("tram.toml", LESSON)]);
    let ran = process(at.path(), &["check", "tram.toml"]).with(0);
    assert!(ran.err.is_empty() && ran.out.contains("can be made") && ran.out.contains("minutes = 55"), "{ran:?}");
    let ran = process(at.path(), &["check", "bad.toml"]).with(1);
    assert!(ran.out.is_empty() && ran.err.contains("bad.toml:1:9: error: "), "{ran:?}");
    let colour = process(at.path(), &["check", "--color", "always", "bad.toml"]).with(1);
    assert!(colour.err.contains("\u{1b}[1;31merror") && !ran.err.contains('\u{1b}'), "{colour:?}");
    let short = process(at.path(), &["check", "-q", "bad.toml"]).with(1);
    assert_eq!(short.err.lines().count(), 2, "{short:?}");
}

#[test]
fn one_bad_lesson_does_not_stop_the_others() {
    let at = folder(&[("a.toml", "title = 1\n"), ("b.toml", LESSON), ("c.toml", LESSON)]);
    let ran = process(at.path(), &["typeset", "--only", "board", "a.toml", "b.toml", "no.toml", "c.toml"]).with(3);
    assert_eq!(names(&at.path().join("out")), ["b", "c"]);
    assert!(ran.err.contains("cannot read `no.toml`: there is no such file or folder"), "{}", ran.err);
    process(at.path(), &["typeset", "--only", "board", "a.toml", "b.toml"]).with(1);
    let json = process(at.path(), &["check", "--format", "json", "a.toml", "b.toml"]).with(1);
    let lines: Vec<Value> = json.out.lines().map(|line| serde_json::from_str(line).expect("JSON")).collect();
    assert_eq!(lines.iter().map(|v| v["lesson"].as_str()).collect::<Vec<_>>(), [Some("a.toml"), Some("b.toml")]);
}

#[test]
fn wrong_usage_is_two() {
    let at = folder(&[("a/x.toml", LESSON), ("b/X.toml", LESSON), ("..toml", LESSON)]);
    #[track_caller]
    fn case(at: &TempDir, args: &[&str], says: &str) {
        let ran = process(at.path(), args).with(2);
        assert!(ran.out.is_empty() && ran.err.contains(says), "{args:?}: {}", ran.err);
        assert!(!at.path().join("out").exists());
    }
    case(&at, &[], "Usage");
    case(&at, &["typset", "a/x.toml"], "typeset");
    case(&at, &["typeset"], "LESSON");
    case(&at, &["typeset", "a/x.toml", "b/X.toml"], "would both be written into");
    case(&at, &["check", "--seed", "-1", "a/x.toml"], "--seed");
    case(&at, &["check", "--only", "bord", "a/x.toml"], "did you mean `board`?");
    case(&at, &["check", "--format", "xml", "a/x.toml"], "human");
    assert!(process(at.path(), &["--help"]).with(0).out.contains("Examples:"));
    assert!(process(at.path(), &["--version"]).with(0).out.starts_with("placewright 0."));
}

#[test]
fn a_name_cannot_lead_outside() {
    // `..toml` has the stem `.`, `...toml` the stem `..`.
    let at = folder(&[("..toml", LESSON), ("...toml", LESSON), ("in/.placewright-x.toml", LESSON)]);
    for lesson in ["..toml", "...toml", "in/.placewright-x.toml", ".."] {
        let ran = process(at.path(), &["typeset", lesson, "--out", "deep/out"]).with(2);
        assert!(ran.err.contains("cannot be the name of a folder"), "{}", ran.err);
    }
    assert_eq!(names(at.path()), ["...toml", "..toml", "in"]);
}

#[test]
fn other_peoples_files_are_left_alone() {
    let at = folder(&[("tram.toml", LESSON), ("out/tram/teacher.pdf", "mine")]);
    let ran = process(at.path(), &["typeset", "--only", "board", "tram.toml"]).with(3);
    assert!(ran.err.contains("`out/tram/teacher.pdf` was not written by Placewright"), "{}", ran.err);
    assert!(ran.err.contains("--force"), "{}", ran.err);
    assert_eq!(bytes(&at, "out/tram/teacher.pdf"), b"mine");
    assert_eq!(names(&at.path().join("out/tram")), ["teacher.pdf"]);
    assert_eq!(names(&at.path().join("out")), ["tram"]);
    process(at.path(), &["typeset", "--only", "board", "--force", "tram.toml"]).with(0);
    assert!(bytes(&at, "out/tram/teacher.pdf").starts_with(b"%PDF-"));
}

#[test]
fn our_own_packets_are_replaced_as_a_whole() {
    let at = folder(&[("tram.toml", LESSON)]);
    process(at.path(), &["typeset", "--only", "board", "tram.toml"]).with(0);
    let all = names(&at.path().join("out/tram"));
    // A packet of an older run that this lesson no longer has.
    fs::copy(at.path().join("out/tram/teacher.pdf"), at.path().join("out/tram/older.pdf")).expect("copied");
    process(at.path(), &["typeset", "--only", "board", "tram.toml", "--seed", "5"]).with(0);
    assert_eq!(names(&at.path().join("out/tram")), all);
    assert_eq!(names(&at.path().join("out")), ["tram"]);
}

#[test]
fn force_keeps_what_is_not_in_the_way() {
    let at = folder(&[("tram.toml", LESSON), ("out/tram/notes/monday.txt", "bring scissors")]);
    process(at.path(), &["typeset", "--only", "board", "tram.toml"]).with(3);
    process(at.path(), &["typeset", "--only", "board", "tram.toml", "--force"]).with(0);
    assert_eq!(bytes(&at, "out/tram/notes/monday.txt"), b"bring scissors");
    assert!(bytes(&at, "out/tram/teacher.pdf").starts_with(b"%PDF-"));
    assert_eq!(names(&at.path().join("out")), ["tram"]);
}

#[test]
fn what_cannot_be_written_is_three() {
    let at = folder(&[("tram.toml", LESSON), ("file", "mine"), ("out/tram", "mine")]);
    #[track_caller]
    fn case(at: &TempDir, out: &str, says: &str) {
        let ran = process(at.path(), &["typeset", "--only", "board", "tram.toml", "--out", out]).with(3);
        assert!(ran.out.is_empty(), "{}", ran.out);
        assert_eq!(ran.err, format!("error: {says}\n"), "{out}");
    }
    case(&at, "file", "cannot write `file/tram`: a part of its path is not a folder");
    case(&at, "file/deeper", "cannot write `file/deeper/tram`: a part of its path is not a folder");
    case(&at, "out", "cannot write `out/tram`: it is a file, not a folder");
    assert_eq!(bytes(&at, "file"), b"mine");
    assert_eq!(bytes(&at, "out/tram"), b"mine");
    assert_eq!(names(at.path()), ["file", "out", "tram.toml"]);
}

#[cfg(unix)]
#[test]
fn links_are_not_followed_out_of_the_folder() {
    let at = folder(&[("tram.toml", LESSON), ("else/keep.txt", "mine")]);
    fs::create_dir(at.path().join("out")).expect("made");
    std::os::unix::fs::symlink(at.path().join("else"), at.path().join("out/tram")).expect("linked");
    let ran = process(at.path(), &["typeset", "--only", "board", "tram.toml", "--force"]).with(3);
    assert_eq!(ran.err, "error: cannot write `out/tram`: it is a link, not a folder\n");
    assert_eq!(names(&at.path().join("else")), ["keep.txt"]);
}

#[test]
fn what_cannot_be_read_is_three() {
    let at = folder(&[("tram.toml", LESSON), ("empty/x.txt", ""), ("big.toml", &"# big\n".repeat(200_000))]);
    #[track_caller]
    fn case(at: &TempDir, args: &[&str], says: &str) {
        let ran = process(at.path(), args).with(3);
        assert!(ran.err.starts_with(&format!("error: {says}\n")), "{args:?}: {}", ran.err);
    }
    case(&at, &["check", "no.toml"], "cannot read `no.toml`: there is no such file or folder");
    case(&at, &["check", "empty"], "cannot read `empty`: it is a folder");
    case(&at, &["check", "tram.toml/x.toml"], "cannot read `tram.toml/x.toml`: a part of its path is not a folder");
    case(&at, &["check", "big.toml"], "cannot read `big.toml`: it is larger than 1,048,576 bytes");
    case(&at, &["check", "--layouts", "empty", "tram.toml"], "there is no layout file in `empty`");
    case(&at, &["check", "--layouts", "no", "tram.toml"], "cannot read `no`: there is no such file or folder");
}

#[test]
fn a_lesson_names_layouts_of_its_own() {
    let wide = "[length]\ntallest = \"6 parsecs\"\n";
    let named = format!("{LESSON}\n[sheets]\nmake = [\"board\"]\nlayouts = \"own\"\n");
    let missing = named.replace("own", "gone");
    let at =
        folder(&[("tram.toml", &named), ("gone.toml", &missing), ("own/board.toml", wide), ("plain/strips.toml", "")]);
    // The mistake is found in the lesson's own layout file; another folder on the command line is taken instead.
    let ran = process(at.path(), &["check", "tram.toml"]).with(1);
    assert!(ran.err.contains("own/board.toml:2:") && ran.err.contains("parsecs"), "{}", ran.err);
    process(at.path(), &["check", "tram.toml", "--layouts", "plain"]).with(0);
    let ran = process(at.path(), &["check", "gone.toml"]).with(3);
    assert!(ran.err.contains("cannot read `gone`") && ran.err.contains("layouts = \"gone\""), "{}", ran.err);
}

#[test]
fn paths_with_spaces_and_letters_of_all_kinds() {
    let at = folder(&[("ma leçon/números 1.toml", LESSON)]);
    let ran =
        process(at.path(), &["typeset", "--only", "board", "ma leçon/números 1.toml", "--out", "für die 2b"]).with(0);
    assert!(ran.out.contains("für die 2b/números 1/teacher.pdf"), "{}", ran.out);
    assert!(at.path().join("für die 2b/números 1/contents.json").exists());
}

#[test]
fn a_roster_seats_the_class_and_stays_out_of_contents() {
    let lesson = format!("{LESSON}[class]\nroster = \"names.csv\"\n");
    let at = folder(&[("in/tram.toml", &lesson), ("in/names.csv", "name\nWrenna\nOtis\n")]);
    let ran = process(at.path(), &["check", "--format", "json", "in/tram.toml"]).with(0);
    let value: Value = serde_json::from_str(&ran.out).expect("JSON");
    assert_eq!(value["assumed"]["class.learners"], 2);
    process(at.path(), &["typeset", "--only", "board", "in/tram.toml"]).with(0);
    let contents = String::from_utf8(bytes(&at, "out/tram/contents.json")).expect("UTF-8");
    assert!(!contents.contains("Wrenna") && !contents.contains("Otis"));
}

#[test]
fn only_makes_one_sheet() {
    let at = folder(&[("tram.toml", LESSON), ("none.toml", &format!("{LESSON}[numbers.sort]\ncount = 0\n"))]);
    process(at.path(), &["typeset", "tram.toml", "--only", "board"]).with(0);
    let contents: Value = serde_json::from_slice(&bytes(&at, "out/tram/contents.json")).expect("JSON");
    let pages = contents["pages"].as_array().expect("pages");
    // No proof either: what is asked for, and nothing else.
    assert!(!pages.is_empty() && pages.iter().all(|page| page["sheet"] == "board"), "{contents}");
    let ran = process(at.path(), &["check", "none.toml", "--only", "board"]).with(1);
    assert!(ran.err.contains("nothing to put on the sheet `board`"), "{}", ran.err);
}

#[test]
fn sheets_lists_what_can_be_made() {
    let ran = process(Path::new("."), &["sheets"]).with(0);
    assert_eq!(ran.out.lines().count(), 18, "{}", ran.out);
    assert!(ran.out.lines().any(|line| line.starts_with("board") && !line.contains("not made yet")), "{}", ran.out);
    let ran = process(Path::new("."), &["sheets", "--format", "json"]).with(0);
    let value: Value = serde_json::from_str(&ran.out).expect("JSON");
    assert_eq!(value["sheets"].as_array().map(Vec::len), Some(18));
}

#[test]
fn a_folder_full_of_layouts_is_refused() {
    let at = folder(&[("tram.toml", LESSON)]);
    (0..60).for_each(|k| fs::write(at.path().join(format!("sheet{k}.toml")), "").expect("written"));
    let ran = process(at.path(), &["check", "tram.toml", "--layouts", "."]).with(3);
    assert!(ran.err.contains("there are more than 50 layout files in `.`"), "{}", ran.err);
}

#[test]
fn rosters_are_read_however_they_are_stored() {
    let lesson = format!("{LESSON}[class]\nroster = \"names.csv\"\n");
    let at = folder(&[("tram.toml", &lesson)]);
    let text = "name\r\nZoë\r\nOtis\r\n";
    let utf_16: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    let windows: Vec<u8> = text.chars().map(|c| u8::try_from(u32::from(c)).expect("Latin-1")).collect();
    for bytes in [text.as_bytes().to_vec(), [b"\xff\xfe", utf_16.as_slice()].concat(), utf_16, windows] {
        fs::write(at.path().join("names.csv"), bytes).expect("written");
        let ran = process(at.path(), &["check", "--format", "json", "tram.toml"]).with(0);
        let value: Value = serde_json::from_str(&ran.out).expect("JSON");
        assert_eq!((&value["assumed"]["class.learners"], &value["findings"]), (&2.into(), &Value::Array(Vec::new())));
    }
    fs::write(at.path().join("names.csv"), b"PK\x03\x04 and so on").expect("written");
    let ran = process(at.path(), &["check", "tram.toml"]).with(3);
    assert!(
        ran.err.contains("`names.csv` is a spreadsheet") && ran.err.contains("pick CSV as the type"),
        "{}",
        ran.err
    );
}

#[test]
fn a_roster_of_few_names_is_a_warning() {
    let lesson = format!("{LESSON}[class]\nlearners = 24\nroster = \"names.csv\"\n");
    let at = folder(&[("tram.toml", &lesson), ("names.csv", "name\nWren\nOtis\n")]);
    let ran = process(at.path(), &["numbers", "tram.toml"]).with(0);
    assert!(ran.err.contains("tram.toml:5:12: warning: the roster has 2 names for 24 learners"), "{}", ran.err);
    fs::write(at.path().join("tram.toml"), lesson.replace("24", "2")).expect("written");
    assert_eq!(process(at.path(), &["numbers", "tram.toml"]).with(0).err, "");
}

#[test]
fn words_are_taken_in_capitals_and_in_both_spellings() {
    for (key, word) in [("paper", "Letter"), ("paper", "A4")] {
        let at = folder(&[("tram.toml", &format!("{key} = \"{word}\"\n{LESSON}"))]);
        process(at.path(), &["numbers", "tram.toml"]).with(0);
    }
    for (key, word) in [("ink", "color"), ("ink", "gray"), ("ink", "Colour"), ("cut", "Stack"), ("font", "Andika")] {
        let at = folder(&[("tram.toml", &format!("{LESSON}[print]\n{key} = \"{word}\"\n"))]);
        process(at.path(), &["numbers", "tram.toml"]).with(0);
    }
}
