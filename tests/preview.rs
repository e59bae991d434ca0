//! Pictures of the pages: what is written, what the page that shows them says, and whether others draw the same.

use crate::support::html;
use crate::support::run;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;
use std::process::Command;

use html::elements;
use placewright::raster;
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

#[test]
fn every_page_is_pictured_and_shown() {
    let at = folder(LESSON);
    let ran = process(at.path(), &["preview", "tram.toml", "--dpi", "40"]).with(0);
    let out = at.path().join("out/tram");
    let written = files(&out);
    let contents = fs::read_to_string(out.join("contents.json")).expect("contents");
    let contents: serde_json::Value = serde_json::from_str(&contents).expect("JSON");
    let pages = contents["pages"].as_array().expect("pages").len();
    let pictures = written.iter().filter(|name| name.ends_with(".png") && !name.ends_with("-all.png")).count();
    assert_eq!(pictures, pages, "{written:?}");
    assert!(written.contains("pictures/teacher-all.png") && written.contains("index.html"), "{written:?}");
    assert!(ran.out.contains(&format!("{pages} pages pictured")) && ran.err.is_empty(), "{ran:?}");
    // A4 at 40 dots to the inch: 210 mm are 330.7, 297 mm are 467.7.
    let png = png::Decoder::new(std::io::BufReader::new(
        fs::File::open(out.join(written.iter().find(|name| name.starts_with("pictures/teacher-")).expect("a page")))
            .expect("opened"),
    ));
    let reader = png.read_info().expect("a PNG");
    let size = (reader.info().width, reader.info().height);
    assert!(size == (331, 468) || size == (468, 331), "{size:?}");
}

#[test]
fn the_page_is_whole_and_can_be_read_without_eyes() {
    let at = folder(LESSON);
    process(at.path(), &["preview", "tram.toml", "--dpi", "24"]).with(0);
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
    assert!(page.contains("actual size") && page.contains("for the teacher") && page.contains("for the copy room"));
}

#[test]
fn only_and_pages_choose_what_is_pictured() {
    let at = folder(LESSON);
    process(at.path(), &["typeset", "tram.toml"]).with(0);
    let whole = fs::read(at.path().join("out/tram/teacher.pdf")).expect("a packet");
    process(at.path(), &["preview", "tram.toml", "--only", "board", "--dpi", "24"]).with(0);
    let contents = fs::read_to_string(at.path().join("out/tram/contents.json")).expect("contents");
    let contents: serde_json::Value = serde_json::from_str(&contents).expect("JSON");
    let boards = contents["pages"].as_array().expect("pages").iter().filter(|page| page["sheet"] == "board").count();
    let pictures = |at: &TempDir| {
        let all = files(&at.path().join("out/tram"));
        all.into_iter().filter(|name| name.ends_with(".png") && !name.ends_with("-all.png")).collect::<Vec<_>>()
    };
    assert_eq!(pictures(&at).len(), boards);
    assert_eq!(fs::read(at.path().join("out/tram/teacher.pdf")).expect("a packet"), whole, "packets stay whole");
    process(at.path(), &["preview", "tram.toml", "--pages", "2", "--dpi", "24"]).with(0);
    assert!(pictures(&at).iter().all(|name| name.trim_end_matches(".png").ends_with('2')), "{:?}", pictures(&at));
    let ran = process(at.path(), &["preview", "tram.toml", "--pages", "900"]).with(2);
    assert!(ran.err.contains("no page of the lesson is pictured"), "{}", ran.err);
    process(at.path(), &["preview", "tram.toml", "--pages", "3-1"]).with(2);
    process(at.path(), &["preview", "tram.toml", "--dpi", "5000"]).with(2);
    // What is made without pictures leaves no old ones behind.
    process(at.path(), &["typeset", "tram.toml"]).with(0);
    assert!(pictures(&at).is_empty() && !at.path().join("out/tram/index.html").exists());
}

#[test]
fn the_same_lesson_gives_the_same_pictures() {
    let at = folder(LESSON);
    for out in ["one", "two"] {
        process(at.path(), &["preview", "tram.toml", "--out", out, "--pages", "1-2", "--dpi", "50"]).with(0);
    }
    for name in files(&at.path().join("one/tram")) {
        let read = |out: &str| fs::read(at.path().join(out).join("tram").join(&name)).expect("written");
        assert_eq!(read("one"), read("two"), "{name}");
    }
}

#[test]
fn notes_among_the_pictures_are_left_alone() {
    let at = folder(LESSON);
    let preview = ["preview", "tram.toml", "--only", "board", "--dpi", "24"];
    process(at.path(), &preview).with(0);
    let note = at.path().join("out/tram/pictures/note.txt");
    fs::write(&note, "mine").expect("written");
    let ran = process(at.path(), &preview).with(3);
    assert!(ran.err.contains("pictures/note.txt` was not written by Placewright"), "{}", ran.err);
    process(at.path(), &["preview", "tram.toml", "--only", "board", "--dpi", "24", "--force"]).with(0);
    assert_eq!(fs::read(&note).expect("kept"), b"mine");
}

#[test]
fn names_are_pictured_but_not_told() {
    let at = folder(&LESSON.replace("learners = 2", "roster = \"names.csv\""));
    fs::write(at.path().join("names.csv"), "name\nWrenna\nOtis\n").expect("written");
    process(at.path(), &["preview", "tram.toml", "--only", "board", "--dpi", "24"]).with(0);
    let page = fs::read_to_string(at.path().join("out/tram/index.html")).expect("a page");
    assert!(!page.contains("Wrenna") && page.contains("keep them in the room"));
}

/// Poppler's `pdftoppm` draws the same pages: the mean difference of the greys is small.
#[test]
fn pictures_agree_with_another_renderer() {
    if Command::new("pdftoppm").arg("-v").output().is_err() {
        eprintln!("skipped: pdftoppm is not installed");
        return;
    }
    let at = folder(&LESSON.replace("a4", "letter"));
    process(at.path(), &["typeset", "tram.toml"]).with(0);
    let file = at.path().join("out/tram/teacher.pdf");
    let contents = fs::read_to_string(at.path().join("out/tram/contents.json")).expect("contents");
    let contents: serde_json::Value = serde_json::from_str(&contents).expect("JSON");
    for sheet in ["display", "board", "strips"] {
        let pages = contents["pages"].as_array().expect("pages");
        let page = pages.iter().position(|page| page["sheet"] == sheet && page["file"] == "teacher.pdf");
        let page = page.expect("a page of the sheet");
        let ours = raster::draw(fs::read(&file).expect("read"), page, 96).expect("drawn");
        let mut reader = png::Decoder::new(std::io::Cursor::new(ours)).read_info().expect("a PNG");
        let mut greys = vec![0; reader.output_buffer_size().expect("a size")];
        let info = reader.next_frame(&mut greys).expect("pixels");
        assert_eq!(info.color_type, png::ColorType::Grayscale, "{sheet}");
        let number = (page + 1).to_string();
        let theirs = Command::new("pdftoppm")
            .args(["-r", "96", "-gray", "-f", &number, "-l", &number])
            .arg(&file)
            .output()
            .expect("pdftoppm runs");
        let (width, height, theirs) = pgm(&theirs.stdout);
        assert_eq!((info.width, info.height), (width, height), "{sheet}");
        let width = width as usize;
        let mean = difference(&greys, theirs, width, 1);
        let blank = difference(&vec![255; greys.len()], theirs, width, 1);
        let ink = difference(&greys, theirs, width, 8);
        eprintln!("{sheet}: mean difference {mean:.3} of 255, of 8 x 8 dots {ink:.3}, of a blank page {blank:.3}");
        // Edges differ dot by dot, because Poppler moves thin lines and letters to whole dots and we do not; where ink is
        // and how much of it there is must agree.
        assert!(mean < 4.0 && ink < blank / 5.0, "{sheet}: {mean}, {ink} of {blank}");
    }
}

/// The mean difference of the mean greys of squares of so many dots, whole squares only.
fn difference(ours: &[u8], theirs: &[u8], width: usize, side: usize) -> f64 {
    let squares = |greys: &[u8]| -> Vec<f64> {
        let columns = width / side;
        let mut sums = vec![0.0; columns * (greys.len() / width / side)];
        for (k, grey) in greys.iter().enumerate() {
            let (column, row) = (k % width / side, k / width / side);
            if column < columns && row * columns + column < sums.len() {
                sums[row * columns + column] += f64::from(*grey) / (side * side) as f64;
            }
        }
        sums
    };
    let (ours, theirs) = (squares(ours), squares(theirs));
    ours.iter().zip(&theirs).map(|(a, b)| (a - b).abs()).sum::<f64>() / ours.len() as f64
}

/// Reads a binary PGM: width, height and greys.
fn pgm(bytes: &[u8]) -> (u32, u32, &[u8]) {
    let mut words = bytes.splitn(4, |byte| byte.is_ascii_whitespace());
    let mut word = || std::str::from_utf8(words.next().expect("a head")).expect("ASCII").to_owned();
    assert_eq!(word(), "P5");
    let (width, height) = (word().parse().expect("a width"), word().parse().expect("a height"));
    let greys = words.next().expect("pixels").strip_prefix(b"255\n").expect("a depth");
    (width, height, greys)
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
    process(at.path(), &["preview", "tram.toml", "--dpi", "40"]).with(0);
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
