//! A first lesson: `start` with and without questions, and the whole way to pictures at a terminal.

#[cfg(unix)]
use crate::support::run;
use crate::support::terminal;
use std::fs;

use run::process;

#[test]
fn without_a_terminal_nothing_is_asked() {
    let at = tempfile::tempdir().expect("a folder");
    let ran = process(at.path(), &["start"]).with(0);
    let name = "hundreds-tens-and-ones.toml";
    assert!(ran.out.contains(&format!("placewright typeset {name}")) && ran.err.is_empty(), "{ran:?}");
    process(at.path(), &["check", name]).with(0);
    let text = fs::read_to_string(at.path().join(name)).expect("written");
    assert!(text.contains("range = [100, 999]") && text.contains("learners = 24"), "{text}");
}

#[test]
fn flags_answer_the_questions() {
    let at = tempfile::tempdir().expect("a folder");
    let args = ["start", "my class.toml", "--title", "Tram \"stops\"", "--range", "10-99", "--learners", "7"];
    let more = ["--language", "es", "--second-language", "en", "--cut", "stack", "--paper", "a4", "--large"];
    let ran = process(at.path(), &[&args[..], &more[..]].concat()).with(0);
    assert!(ran.out.contains("placewright check \"my class.toml\""), "{}", ran.out);
    let text = fs::read_to_string(at.path().join("my class.toml")).expect("written");
    for line in [
        "range = [10, 99]",
        "learners = 7",
        "cut = \"stack\"",
        "paper = \"a4\"",
        "\nlanguage = \"es\"",
        "\nsecond_language = \"en\"",
        "text = \"large\"",
    ] {
        assert!(text.contains(line), "{line}: {text}");
    }
    for (flag, value) in [("--range", "9-1"), ("--paper", "a5"), ("--learners", "0"), ("--title", ""), ("--cut", "saw")]
    {
        process(at.path(), &["start", "other.toml", flag, value]).with(2);
    }
    let same = process(at.path(), &["start", "other.toml", "--language", "es", "--second-language", "es"]).with(1);
    assert!(same.err.contains("the lesson's first language already"), "{}", same.err);
    assert!(!at.path().join("other.toml").exists());
}

#[test]
fn a_file_is_never_replaced_unasked() {
    let at = tempfile::tempdir().expect("a folder");
    fs::write(at.path().join("x.toml"), "mine").expect("written");
    let ran = process(at.path(), &["start", "x.toml"]).with(3);
    assert!(ran.err.contains("`x.toml` is there already") && ran.err.contains("--force"), "{}", ran.err);
    assert_eq!(fs::read(at.path().join("x.toml")).expect("kept"), b"mine");
    process(at.path(), &["start", "x.toml", "--force"]).with(0);
    process(at.path(), &["check", "x.toml"]).with(0);
    process(at.path(), &["start", "no/x.toml"]).with(3);
}

/// What Enter answers at a terminal, then the packets, then their pictures.
#[cfg(unix)]
#[test]
fn three_commands_from_nothing_to_pictures() {
    let at = tempfile::tempdir().expect("a folder");
    let Some(mut start) = terminal::Terminal::start(at.path(), &["start", "tram.toml"]) else {
        eprintln!("skipped: no pseudo-terminal");
        return;
    };
    start.wait_for("What is the lesson called?");
    start.press("Tram stops\r");
    start.wait_for("Which language on paper?");
    start.press("\r");
    start.wait_for("A second language beside it?");
    // The last of the list, one up from the first.
    start.press("\u{1b}[A\r");
    start.wait_for("Which numbers?");
    // One up from 100 to 999: 10 to 99.
    start.press("\u{1b}[A\r");
    start.wait_for("How many learners?");
    start.press("3\r");
    start.wait_for("Who cuts the strips?");
    start.press("\r");
    start.wait_for("Which paper?");
    start.press("\r");
    start.wait_for("Large print?");
    start.press("\r");
    start.wait_for("placewright typeset tram.toml");
    let (status, screen) = start.end();
    assert_eq!(status, Some(0), "{screen}");
    let text = fs::read_to_string(at.path().join("tram.toml")).expect("written");
    for line in
        ["title = \"Tram stops\"", "range = [10, 99]", "learners = 3", "cut = \"scissors\"", "paper = \"letter\""]
    {
        assert!(text.contains(line), "{line}: {text}");
    }

    let mut typeset = terminal::Terminal::start(at.path(), &["typeset", "tram.toml"]).expect("a terminal");
    typeset.wait_for("sheets of paper");
    let (status, screen) = typeset.end();
    assert!(status == Some(0) && screen.contains("teacher.pdf: setting"), "progress is shown: {screen}");
    assert!(screen.contains("\u{1b}[1mfile"), "the head of the table is bold: {screen}");

    let mut preview = terminal::Terminal::start(at.path(), &["preview", "tram.toml"]).expect("a terminal");
    preview.wait_for("pictured");
    assert_eq!(preview.end().0, Some(0));
    assert!(at.path().join("out/tram/index.html").exists());
}

#[cfg(unix)]
#[test]
fn a_no_keeps_the_file_that_is_there() {
    let at = tempfile::tempdir().expect("a folder");
    fs::write(at.path().join("x.toml"), "mine").expect("written");
    let Some(mut start) = terminal::Terminal::start(at.path(), &["start", "x.toml"]) else {
        eprintln!("skipped: no pseudo-terminal");
        return;
    };
    start.wait_for("What is the lesson called?");
    start.press("\r");
    start.wait_for("x.toml is there already. Replace it?");
    start.press("\r");
    start.wait_for("Nothing was written.");
    assert_eq!(start.end().0, Some(0));
    assert_eq!(fs::read(at.path().join("x.toml")).expect("kept"), b"mine");
}

#[cfg(unix)]
#[test]
fn answers_are_read_as_people_give_them() {
    let at = tempfile::tempdir().expect("a folder");
    let Some(mut start) = terminal::Terminal::start(at.path(), &["start", "x.toml", "--color", "never"]) else {
        eprintln!("skipped: no pseudo-terminal");
        return;
    };
    start.wait_for("What is the lesson called?");
    start.press("\r");
    start.wait_for("Which language on paper?");
    start.press("\r");
    start.wait_for("A second language beside it?");
    start.press("\r");
    start.wait_for("Which numbers?");
    // The last of the list: numbers of one's own, with a dash as word processors type it.
    start.press("\u{1b}[A\u{1b}[A\u{1b}[A\r");
    start.wait_for("From which number to which?");
    start.press("100–500\r");
    start.wait_for("How many learners?");
    start.press("twenty\r");
    start.wait_for("expected a whole number from 1 to 20,000 in digits, such as 24");
    start.press("20\r");
    start.wait_for("Who cuts the strips?");
    start.press("\r");
    start.wait_for("Which paper?");
    start.press("\r");
    start.wait_for("Large print?");
    start.press("maybe\r");
    start.wait_for("expected yes or no");
    start.press("no\r");
    start.wait_for("placewright typeset x.toml");
    let (status, screen) = start.end();
    assert_eq!(status, Some(0), "{screen}");
    let coloured = ["\u{1b}[32m", "\u{1b}[33m", "\u{1b}[36m", "\u{1b}[38", "\u{1b}[1m", "\u{1b}[0m"]
        .iter()
        .any(|code| screen.contains(code));
    assert!(!coloured, "no colours: {screen:?}");
    let text = fs::read_to_string(at.path().join("x.toml")).expect("written");
    assert!(text.contains("range = [100, 500]") && text.contains("learners = 20"), "{text}");
}

#[cfg(unix)]
#[test]
fn ctrl_c_gives_the_cursor_back_and_writes_nothing() {
    let at = tempfile::tempdir().expect("a folder");
    let Some(mut start) = terminal::Terminal::start(at.path(), &["start", "x.toml"]) else {
        eprintln!("skipped: no pseudo-terminal");
        return;
    };
    start.wait_for("What is the lesson called?");
    start.press("\r");
    // It is hidden while a list is there to choose from.
    start.wait_for("\u{1b}[?25l");
    start.wait_for("Spanish (español)");
    start.press("\u{3}");
    start.wait_for("stopped; nothing was written");
    let (status, screen) = start.end();
    assert_eq!(status, Some(130), "{screen}");
    let (hidden, given) = (screen.rfind("\u{1b}[?25l"), screen.rfind("\u{1b}[?25h"));
    assert!(given > hidden, "{screen:?}");
    assert!(!at.path().join("x.toml").exists());
}

#[cfg(unix)]
#[test]
fn a_missing_folder_is_told_before_any_question() {
    let at = tempfile::tempdir().expect("a folder");
    let Some(start) = terminal::Terminal::start(at.path(), &["start", "no/x.toml"]) else {
        eprintln!("skipped: no pseudo-terminal");
        return;
    };
    let (status, screen) = start.end();
    assert_eq!(status, Some(3), "{screen}");
    assert!(screen.contains("there is no folder `no`") && !screen.contains("What is the lesson called?"), "{screen}");
}
