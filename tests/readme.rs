//! The README: every command in it runs, every lesson in it is read, and every path in it is there.

use crate::support::run;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::sync::Arc;

use placewright::diag::Source;
use placewright::spec;
use run::process;

const README: &str = include_str!("../README.md");

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The code blocks in a language.
fn blocks(language: &str) -> Vec<&'static str> {
    let fence = format!("```{language}\n");
    README.split(&fence).skip(1).filter_map(|rest| rest.split("```").next()).collect()
}

#[test]
fn every_command_runs() {
    let at = tempfile::tempdir().expect("a folder");
    fs::create_dir(at.path().join("samples")).expect("made");
    for entry in fs::read_dir(root().join("samples")).expect("samples") {
        let path = entry.expect("an entry").path();
        if path.is_file() {
            let text = fs::read(&path).expect("read");
            // A class of two runs the same commands sooner.
            let text = String::from_utf8(text).expect("UTF-8");
            let text: String = text
                .lines()
                .map(|line| if line.starts_with("learners = ") || line.starts_with("spares = ") { "" } else { line })
                .flat_map(|line| [line, "\n"])
                .collect();
            let text = text.replace("[class]", "[class]\nlearners = 2\nspares = 0").replace("roster = ", "# roster = ");
            fs::write(at.path().join("samples").join(path.file_name().expect("a name")), text).expect("written");
        }
    }
    let mut ran = 0;
    for line in blocks("sh").into_iter().flat_map(str::lines) {
        if line == "cargo test" {
            continue;
        }
        let line = line.replace("cargo run --release --", "placewright");
        let mut words: Vec<&str> = line.split_whitespace().collect();
        assert_eq!(words.remove(0), "placewright", "{line}");
        if words[0] == "preview" && !words.contains(&"--only") {
            words.extend(["--pages", "1"]);
        }
        process(at.path(), &words).with(0);
        ran += 1;
    }
    assert!(ran >= 8, "{ran}");
    for path in ["out/harbour/teacher.pdf", "out/my-class/index.html", "packets/beehives/contents.json"] {
        assert!(at.path().join(path).exists(), "{path}");
    }
}

#[test]
fn every_lesson_is_read() {
    let lessons = blocks("toml");
    assert_eq!(lessons.len(), 4);
    for text in lessons {
        let source = Arc::new(Source { name: "README.md".to_owned(), text: text.to_owned() });
        assert!(spec::read(&source).is_ok(), "{text}");
    }
}

#[test]
fn every_path_is_there() {
    let quoted: BTreeSet<&str> =
        README.split('`').skip(1).step_by(2).filter(|text| text.starts_with("samples/")).collect();
    assert!(quoted.len() >= 10, "{quoted:?}");
    for path in quoted {
        assert!(root().join(path).is_file(), "{path}");
    }
    let links: Vec<&str> = README
        .split("](")
        .skip(1)
        .filter_map(|rest| rest.split(')').next())
        .filter(|to| !to.starts_with("http"))
        .collect();
    assert!(links.len() >= 6);
    for link in links {
        let size = fs::metadata(root().join(link)).unwrap_or_else(|error| panic!("{link}: {error}")).len();
        assert!(size < 40_000 || !link.ends_with(".png"), "{link}: {size} bytes");
    }
}

#[test]
fn every_command_and_file_of_the_program_is_told_of() {
    let help = process(root(), &["--help"]).with(0).out;
    let commands = help.split("Commands:").nth(1).and_then(|rest| rest.split("Options:").next()).expect("commands");
    for command in commands.lines().filter_map(|line| line.strip_prefix("  ")?.split_whitespace().next()) {
        assert!(README.contains(&format!("| `{command}` |")), "{command}");
    }
    let listed: Vec<String> = fs::read_dir(root().join("samples"))
        .expect("samples")
        .filter_map(|entry| entry.expect("an entry").file_name().into_string().ok())
        .filter(|name| name.ends_with(".toml"))
        .collect();
    assert!(listed.len() >= 8);
    for name in listed {
        assert!(README.contains(&format!("`samples/{name}`")), "{name}");
    }
}

#[test]
fn the_clash_is_told_and_nothing_is_written() {
    let at = tempfile::tempdir().expect("a folder");
    let lesson = root().join("samples/cannot-be-made/clash.toml");
    let ran = process(at.path(), &["typeset", lesson.to_str().expect("UTF-8")]).with(1);
    assert!(ran.out.is_empty() && ran.err.contains("error: "), "{ran:?}");
    assert!(!at.path().join("out").exists());
}
