//! Pictures of the pages: what is written, what the page that shows them says, and whether others draw the same.

use crate::support::html;
use crate::support::run;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

use html::elements;
use run::process;
use tempfile::TempDir;

const LESSON: &str = "title = \"Tram <stops> & \\\"bells\\\"\"\npaper = \"a4\"\n[numbers]\nrange = [10, 99]\n\
                      [numbers.sort]\ncount = 4\n[class]\nlearners = 2\nspares = 0\n\
                      [sheets]\nmake = [\"display\", \"board\", \"strips\", \"key\"]\n";

fn folder(lesson: &str) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("tram.toml"), lesson).expect("written");
    folder
}

/// Every file below a folder, by its path from there.
fn files(folder: &Path) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for entry in fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry")) {
        let name = entry.file_name().into_string().expect("UTF-8");
        if entry.path().is_dir() {
            all.extend(files(&entry.path()).into_iter().map(|inner| format!("{name}/{inner}")));
        } else {
            all.insert(name);
        }
    }
    all
}

/// The pictures of a folder.
fn pictures(out: &Path) -> Vec<String> {
    files(out).into_iter().filter(|name| name.ends_with(".svg")).collect()
}

fn contents(out: &Path) -> serde_json::Value {
    let text = fs::read_to_string(out.join("contents.json")).expect("contents");
    serde_json::from_str(&text).expect("JSON")
}

#[test]
fn every_page_is_pictured_where_all_are_asked_for() {
    let at = folder(LESSON);
    let ran = process(at.path(), &["preview", "tram.toml", "--all"]).with(0);
    let out = at.path().join("out/tram");
    let pages = contents(&out)["pages"].as_array().expect("pages").len();
    assert_eq!(pictures(&out).len(), pages);
    assert!(out.join("index.html").exists());
    assert!(ran.out.contains(&format!("{pages} pages pictured")) && ran.err.is_empty(), "{ran:?}");
    // A4: 210 mm are 595.276 points.
    let svg = fs::read_to_string(out.join(&pictures(&out)[0])).expect("a picture");
    assert!(svg.contains("width=\"595.276pt\"") || svg.contains("height=\"595.276pt\""), "{svg:.300}");
}

#[test]
fn one_learner_a_version_stands_for_the_class() {
    let at = folder(&LESSON.replace("learners = 2", "learners = 30\nversions = 3"));
    process(at.path(), &["preview", "tram.toml"]).with(0);
    let out = at.path().join("out/tram");
    let contents = contents(&out);
    let pages = contents["pages"].as_array().expect("pages");
    let shown = |name: &str| pictures(&out).iter().filter(|picture| picture.contains(name)).count();
    // The teacher's packet is pictured whole, and of the class set each version once.
    assert_eq!(shown("teacher"), pages.iter().filter(|page| page["file"] == "teacher.pdf").count());
    let copies: Vec<_> = pages.iter().filter(|page| page["file"] == "copy-room-paper.pdf").collect();
    let of_one = copies.iter().filter(|page| page["learner"] == 1).count();
    assert!(of_one > 1 && copies.len() >= of_one * 30);
    // And the proof.
    assert_eq!(shown("copy-room-paper"), of_one * 3 + 1);
    let pictured: BTreeSet<String> = pictures(&out)
        .iter()
        .filter_map(|name| name.strip_prefix("pictures/copy-room-paper-")?.strip_suffix(".svg")?.parse::<usize>().ok())
        .filter_map(|page| copies[page - 1]["version"].as_str().map(str::to_owned))
        .collect();
    assert_eq!(pictured.into_iter().collect::<Vec<_>>(), ["A", "B", "C"]);
    let page = fs::read_to_string(out.join("index.html")).expect("a page");
    assert!(page.contains("one learner of each version"));
}

#[test]
fn the_page_says_which_numbers_and_why_and_how_to_get_others() {
    let at = folder(LESSON);
    process(at.path(), &["preview", "tram.toml", "--seed", "4"]).with(0);
    let out = at.path().join("out/tram");
    let page = fs::read_to_string(out.join("index.html")).expect("a page");
    let contents = contents(&out);
    for number in contents["numbers"]["sort"]["A"].as_array().expect("numbers") {
        assert!(page.contains(&format!("<dt>{number}</dt><dd>")), "{number}");
    }
    assert!(page.contains("<var>LESSON</var> --seed 5") && page.contains("one of "));
    assert!(page.contains("--all") && page.contains("--only board"));
    // What it names runs.
    let again = process(at.path(), &["preview", "tram.toml", "--seed", "5"]).with(0);
    assert!(again.err.is_empty());
}

#[test]
fn the_page_is_whole_and_can_be_read_without_eyes() {
    let at = folder(LESSON);
    process(at.path(), &["preview", "tram.toml"]).with(0);
    let out = at.path().join("out/tram");
    let written = files(&out);
    let page = fs::read_to_string(out.join("index.html")).expect("a page");
    let all = elements(&page);
    let named = |name: &str| all.iter().filter(|element| element.name == name).collect::<Vec<_>>();
    assert_eq!(named("html")[0].get("lang"), Some("en"));
    assert_eq!(named("h1").len(), 1);
    assert_eq!(named("h1")[0].text, "Tram &lt;stops&gt; &amp; &quot;bells&quot;");
    // Headings go down one level at a time.
    let levels: Vec<u32> =
        all.iter().filter_map(|element| element.name.strip_prefix('h').and_then(|level| level.parse().ok())).collect();
    assert!(levels[0] == 1 && levels.windows(2).all(|pair| pair[1] <= pair[0] + 1), "{levels:?}");
    let ids: Vec<&str> = all.iter().filter_map(|element| element.get("id")).collect();
    assert_eq!(ids.iter().collect::<BTreeSet<_>>().len(), ids.len(), "ids are different");
    for link in named("a") {
        let to = link.get("href").expect("a link leads somewhere");
        let known = to.strip_prefix('#').map_or_else(|| written.contains(to), |id| ids.contains(&id));
        assert!(known, "{to}");
    }
    for section in named("section") {
        assert!(ids.contains(&section.get("aria-labelledby").expect("a section is named")));
    }
    let images = named("img");
    for image in &images {
        assert!(written.contains(image.get("src").expect("a file")));
        assert!(image.get("alt").is_some_and(|alt| alt.starts_with("Page ") && alt.len() > 20), "{image:?}");
        assert!(image.get("width").is_some() && image.get("height").is_some());
    }
    // Every picture has a link of its own, and no two are called the same within a file.
    let alts: BTreeSet<(&str, &str)> =
        images.iter().map(|image| (image.get("src").expect("a file"), image.get("alt").expect("a text"))).collect();
    assert_eq!(alts.len(), images.len());
    for word in ["<script", "http:", "https:", "javascript:", "@import", "url("] {
        assert!(!page.contains(word), "{word}");
    }
    assert!(
        page.contains("actual size")
            && page.contains("<dd>the teacher</dd>")
            && page.contains("<dd>the copy room</dd>")
    );
}

#[test]
fn only_and_pages_choose_what_is_pictured() {
    let at = folder(LESSON);
    process(at.path(), &["typeset", "tram.toml"]).with(0);
    let whole = fs::read(at.path().join("out/tram/teacher.pdf")).expect("a packet");
    process(at.path(), &["preview", "tram.toml", "--only", "board", "--all"]).with(0);
    let contents = fs::read_to_string(at.path().join("out/tram/contents.json")).expect("contents");
    let contents: serde_json::Value = serde_json::from_str(&contents).expect("JSON");
    let boards = contents["pages"].as_array().expect("pages").iter().filter(|page| page["sheet"] == "board").count();
    let pictures = |at: &TempDir| pictures(&at.path().join("out/tram"));
    assert_eq!(pictures(&at).len(), boards);
    assert_eq!(fs::read(at.path().join("out/tram/teacher.pdf")).expect("a packet"), whole, "packets stay whole");
    process(at.path(), &["preview", "tram.toml", "--pages", "2"]).with(0);
    assert!(pictures(&at).iter().all(|name| name.trim_end_matches(".svg").ends_with('2')), "{:?}", pictures(&at));
    let ran = process(at.path(), &["preview", "tram.toml", "--pages", "900"]).with(2);
    assert!(ran.err.contains("no page of the lesson is pictured"), "{}", ran.err);
    process(at.path(), &["preview", "tram.toml", "--pages", "3-1"]).with(2);
    process(at.path(), &["preview", "tram.toml", "--pages", "1", "--all"]).with(2);
    // What is made without pictures leaves no old ones behind.
    process(at.path(), &["typeset", "tram.toml"]).with(0);
    assert!(pictures(&at).is_empty() && !at.path().join("out/tram/index.html").exists());
}

#[test]
fn the_same_lesson_gives_the_same_pictures() {
    let at = folder(LESSON);
    for out in ["one", "two"] {
        process(at.path(), &["preview", "tram.toml", "--out", out, "--pages", "1-2"]).with(0);
    }
    for name in files(&at.path().join("one/tram")) {
        let read = |out: &str| fs::read(at.path().join(out).join("tram").join(&name)).expect("written");
        assert_eq!(read("one"), read("two"), "{name}");
    }
}

#[test]
fn notes_among_the_pictures_are_left_alone() {
    let at = folder(LESSON);
    let preview = ["preview", "tram.toml", "--only", "board"];
    process(at.path(), &preview).with(0);
    let note = at.path().join("out/tram/pictures/note.txt");
    fs::write(&note, "mine").expect("written");
    let ran = process(at.path(), &preview).with(3);
    assert!(ran.err.contains("pictures/note.txt` was not written by Placewright"), "{}", ran.err);
    process(at.path(), &["preview", "tram.toml", "--only", "board", "--force"]).with(0);
    assert_eq!(fs::read(&note).expect("kept"), b"mine");
}

#[test]
fn names_are_pictured_but_not_told() {
    let at = folder(&LESSON.replace("learners = 2", "roster = \"names.csv\""));
    fs::write(at.path().join("names.csv"), "name\nWrenna\nOtis\n").expect("written");
    process(at.path(), &["preview", "tram.toml", "--only", "board"]).with(0);
    let page = fs::read_to_string(at.path().join("out/tram/index.html")).expect("a page");
    assert!(!page.contains("Wrenna") && page.contains("keep them in the room"));
}

/// Headless Chromium opens the page: every picture loads and nothing is complained about.
#[test]
fn a_browser_shows_the_page() {
    let browsers = ["chromium", "chromium-browser", "google-chrome", "chrome"];
    let Some(browser) = browsers.iter().find(|name| Command::new(name).arg("--version").output().is_ok()) else {
        eprintln!("skipped: no Chromium is installed");
        return;
    };
    let at = folder(LESSON);
    process(at.path(), &["preview", "tram.toml"]).with(0);
    let out = at.path().join("out/tram");
    let picture = at.path().join("page.png");
    let ran = Command::new(browser)
        .args(["--headless", "--no-sandbox", "--disable-gpu", "--enable-logging=stderr", "--window-size=1280,4000"])
        // Nothing of the browser's own may reach for the network.
        .args(["--disable-background-networking", "--disable-component-update", "--disable-sync", "--no-first-run"])
        .arg(format!("--user-data-dir={}", at.path().join("profile").display()))
        .arg(format!("--screenshot={}", picture.display()))
        .arg(format!("file://{}", out.join("index.html").display()))
        .output()
        .expect("the browser runs");
    let said = String::from_utf8_lossy(&ran.stderr);
    assert!(ran.status.success() && !said.contains("CONSOLE") && !said.contains("ERR_FILE"), "{said}");
    let reader = png::Decoder::new(std::io::BufReader::new(fs::File::open(picture).expect("a picture")));
    assert_eq!(reader.read_info().expect("a PNG").info().width, 1280);
}

/// Pages as pixels, where the program was built with the feature: the size is the paper's at the resolution asked for.
#[cfg(feature = "png")]
#[test]
fn pages_are_pictured_as_pixels() {
    let at = folder(LESSON);
    process(at.path(), &["preview", "tram.toml", "--png=40"]).with(0);
    let out = at.path().join("out/tram");
    let pictures: Vec<String> = files(&out).into_iter().filter(|name| name.ends_with(".png")).collect();
    assert!(pictures.len() > 3 && self::pictures(&out).is_empty(), "{pictures:?}");
    let file = fs::File::open(out.join(&pictures[0])).expect("opened");
    let reader = png::Decoder::new(std::io::BufReader::new(file)).read_info().expect("a PNG");
    // A4 at 40 dots to the inch: 210 mm are 330.7, 297 mm are 467.7.
    let size = (reader.info().width, reader.info().height);
    assert!(size == (331, 468) || size == (468, 331), "{size:?}");
    process(at.path(), &["preview", "tram.toml", "--png=5000"]).with(2);
    // The other kind of picture replaces them.
    process(at.path(), &["preview", "tram.toml"]).with(0);
    assert!(files(&out).iter().all(|name| !name.ends_with(".png")));
}
