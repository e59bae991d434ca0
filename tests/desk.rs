//! What a teacher does at the desk, request by request: the lesson file stays the one truth.

use std::collections::BTreeSet;
use std::fs;
use std::io::Cursor;

use serde_json::{Value, json};
use tempfile::TempDir;

use crate::support::desk::{Desk, Page};
use crate::support::run::process;

pub const LESSON: &str = "# Ours.\ntitle = \"Tram stops\" # the line\n\n[numbers]\nrange = [100, 999]\n# At the end.\n[numbers.sort]\ncount = 5\n\n\
    [class]\nlearners = 2\nspares = 0\n\n[sheets]\nmake = [\"record\", \"board\", \"strips\"]\n";

/// A desk with a lesson on it.
pub fn scene(lesson: &str) -> (TempDir, Desk) {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), lesson).unwrap();
    let desk = Desk::open(at.path(), &["tram.toml"]);
    (at, desk)
}

/// The numbers that are shown, set by set.
fn numbers(view: &Value) -> Vec<Vec<u32>> {
    let html = view["numbers"].as_str().unwrap();
    let sets = html.split("<h3>").skip(1);
    let number = |part: &str| part.split("</strong>").next()?.replace([',', '\u{202f}'], "").parse().ok();
    sets.map(|set| set.split("<strong>").skip(1).filter_map(number).collect()).collect()
}

/// The parts of the page as a browser that loads it again gets them.
pub fn loaded(page: &Page<'_>) -> Vec<(&'static str, String)> {
    let view = page.view();
    let html = page.get("/").text();
    ["bar", "form", "standing", "packets", "numbers", "pages"]
        .map(|part| {
            let shown = view[part].as_str().unwrap().to_owned();
            assert!(html.contains(&shown), "{part} differs from what loading the page shows");
            (part, shown)
        })
        .to_vec()
}

#[test]
fn from_nothing_to_files_on_disk() {
    let at = tempfile::tempdir().unwrap();
    let desk = Desk::open(at.path(), &[]);
    let page = desk.enter();
    assert!(page.get("/").text().contains("Begin a new one"));
    page.does("/begin", json!({ "name": "hundreds" }));
    page.fill("class.learners", json!({ "": "2" }));
    page.fill("class.spares", json!({ "": "0" }));
    page.fill("title", json!({ "": "Market stalls" }));
    let view = page.view();
    assert!(view["standing"].as_str().unwrap().contains("can be made"), "{view}");
    assert_eq!(view["saved"], false);
    let name = "market-stalls.toml";
    assert!(view["bar"].as_str().unwrap().contains(name));
    assert_eq!(page.does("/save", json!({ "name": name }))["told"], Value::Null);
    assert_eq!(page.view()["saved"], true);
    let text = fs::read_to_string(at.path().join(name)).unwrap();
    assert!(text.contains("title = \"Market stalls\"") && text.contains("#: ") && text == page.text(), "{text}");
    // What the desk shows is what the other commands make of the file.
    let told = process(at.path(), &["numbers", "--format", "json", name]).with(0).out;
    let told: Value = serde_json::from_str(&told).unwrap();
    let set = |value: &Value| value.as_array().unwrap().iter().map(|n| n.as_u64().unwrap() as u32).collect::<Vec<_>>();
    let want = vec![set(&told["numbers"]["model"]), set(&told["numbers"]["sort"]["A"]), set(&told["numbers"]["exit"])];
    assert_eq!(numbers(&view), want);

    page.does("/make", json!({}));
    let packets = made(&page);
    process(at.path(), &["typeset", "--out", "again", name]).with(0);
    let folder = at.path().join("out/market-stalls");
    let mut files = BTreeSet::new();
    for entry in fs::read_dir(at.path().join("again/market-stalls")).unwrap() {
        let file = entry.unwrap().file_name().into_string().unwrap();
        let (ours, theirs) = (fs::read(folder.join(&file)).unwrap(), at.path().join("again/market-stalls").join(&file));
        assert!(ours == fs::read(theirs).unwrap(), "{file}");
        files.extend(file.ends_with(".pdf").then_some(file));
    }
    let mut zip = zip::ZipArchive::new(Cursor::new(page.get("/all.zip").body)).unwrap();
    assert_eq!(zip.len(), files.len());
    for file in files {
        assert!(packets.contains(&format!("/file/{file}")), "{file} is not offered");
        let bytes = fs::read(folder.join(&file)).unwrap();
        let (shown, saved) = (page.get(&format!("/file/{file}")), page.get(&format!("/save/{file}")));
        assert!(shown.body == bytes && saved.body == bytes, "{file}");
        assert_eq!(
            (shown.header("content-type"), shown.header("content-disposition")),
            (Some("application/pdf"), Some("inline"))
        );
        assert!(saved.header("content-disposition").unwrap().starts_with("attachment"));
        let mut zipped = Vec::new();
        std::io::copy(&mut zip.by_name(&format!("market-stalls/{file}")).unwrap(), &mut zipped).unwrap();
        assert!(zipped == bytes, "{file} in the archive");
    }
    assert_eq!(page.get("/file/contents.json").status, 404);
}

/// Waits until the packets are made or refused; the part of the page that says so.
pub fn made(page: &Page<'_>) -> String {
    for _ in 0..600 {
        let view = page.get("/view").json();
        let packets = view["packets"].as_str().unwrap();
        if view["busy"] == false && !packets.is_empty() {
            return packets.to_owned();
        }
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
    panic!("nothing was made");
}

#[test]
fn a_number_is_exchanged_and_the_others_stay() {
    let (_at, desk) = scene(LESSON);
    let page = desk.enter();
    let before = numbers(&page.view());
    let out = before[1][2];
    page.does("/number", json!({ "act": "another", "role": "numbers.sort", "number": out }));
    let after = numbers(&page.view());
    let set = |numbers: &[u32]| numbers.iter().copied().collect::<BTreeSet<u32>>();
    assert_eq!((set(&before[0]), set(&before[2])), (set(&after[0]), set(&after[2])));
    let (old, new) = (set(&before[1]), set(&after[1]));
    assert!(!new.contains(&out) && old.difference(&new).count() == 1 && new.len() == old.len(), "{old:?} {new:?}");

    // A number that is kept stays when all others are new; those that were only held do not.
    let kept = after[1][0];
    page.does("/number", json!({ "act": "fresh" }));
    page.does("/number", json!({ "act": "keep", "role": "numbers.exit", "number": numbers(&page.view())[2][0] }));
    let held = numbers(&page.view())[2][0];
    page.does("/number", json!({ "act": "fresh" }));
    let fresh = numbers(&page.view());
    assert!(fresh[2].contains(&held), "{held} {fresh:?}");
    assert!(set(&fresh[1]).intersection(&new).count() < 3, "{kept} {fresh:?}");
    page.does("/number", json!({ "act": "let-go", "role": "numbers.exit", "number": held }));
    assert!(!page.text().contains("always"), "{}", page.text());
    for (act, role) in
        [("another", "cover"), ("keep", ""), ("keep", "numbers"), ("keep", "title"), ("burn", "numbers.sort")]
    {
        assert_eq!(page.post("/number", &json!({ "act": act, "role": role, "number": 5 })).status, 404, "{act}");
    }
}

#[test]
fn keeping_a_number_changes_no_other_and_what_is_only_held_gives_way() {
    let (_at, desk) = scene(LESSON);
    let page = desk.enter();
    let set = |view: &Value, k: usize| numbers(view)[k].iter().copied().collect::<BTreeSet<u32>>();
    let pressed = |view: &Value| view["numbers"].as_str().unwrap().matches("aria-pressed=\"true\"").count();
    let before = page.view();
    // Whichever is kept: the others stay, and only this one is marked.
    for k in 0..3 {
        for number in numbers(&before)[k].clone() {
            let role = ["numbers.model", "numbers.sort", "numbers.exit"][k];
            page.does("/number", json!({ "act": "keep", "role": role, "number": number }));
            let after = page.view();
            assert!((0..3).all(|k| set(&before, k) == set(&after, k)), "{number}: {}", page.text());
            assert_eq!(pressed(&after), 1, "{number}");
            page.does("/back", json!({}));
        }
    }
    let (out, kept) = (numbers(&before)[1][0], numbers(&before)[1][1]);
    page.does("/number", json!({ "act": "keep", "role": "numbers.sort", "number": kept }));
    page.does("/number", json!({ "act": "another", "role": "numbers.sort", "number": out }));
    assert_eq!(pressed(&page.view()), 1);
    // Nobody asked for the others by name, so they are in nobody's way.
    page.fill("numbers.sort.count", json!({ "": "3" }));
    let view = page.view();
    let standing = view["standing"].as_str().unwrap();
    assert!(standing.contains("can be made") && standing.contains("chosen anew"), "{standing}{}", page.text());
    assert!(set(&view, 1).contains(&kept) && !set(&view, 1).contains(&out) && set(&view, 1).len() == 3);
    loaded(&page);
    page.does("/back", json!({}));
    assert!(page.view()["standing"].as_str().unwrap().contains("can be made") && pressed(&page.view()) == 1);
}

#[test]
fn groups_come_and_go_and_have_numbers_of_their_own() {
    let (_at, desk) = scene(&LESSON.replace("learners = 2", "learners = 4"));
    let page = desk.enter();
    page.does("/list", json!({ "name": "group", "act": "add" }));
    page.fill("group.0.name", json!({ "": "Gulls" }));
    page.fill("group.0.learners", json!({ "": "2" }));
    page.fill("group.0.range", json!({ "least": "10", "greatest": "99" }));
    let view = page.view();
    assert!(view["standing"].as_str().unwrap().contains("can be made"), "{}{}", view["standing"], page.text());
    let numbers = view["numbers"].as_str().unwrap();
    assert!(numbers.contains(", Gulls") && numbers.contains("data-role=\"group.0.sort\""), "{numbers}");
    let theirs = numbers.split("data-role=\"group.0.sort\" data-number=\"").nth(1).unwrap().split('"').next().unwrap();
    let theirs: u32 = theirs.parse().unwrap();
    page.does("/number", json!({ "act": "keep", "role": "group.0.sort", "number": theirs }));
    page.does("/number", json!({ "act": "fresh" }));
    let view = page.view();
    let pressed = format!("data-role=\"group.0.sort\" data-number=\"{theirs}\" aria-pressed=\"true\"");
    assert!(view["numbers"].as_str().unwrap().contains(&pressed), "{}", page.text());
    loaded(&page);
    page.does("/list", json!({ "name": "group", "act": "remove", "number": 0 }));
    assert!(!page.text().contains("Gulls"));
    assert_eq!(page.post("/list", &json!({ "name": "numbers", "act": "remove" })).status, 404);
}

#[test]
fn where_no_other_number_would_do_none_is_exchanged() {
    let lesson = "title = \"T\"\n[numbers]\nrange = [10, 13]\nmodel.count = 0\nexit.count = 0\nsort.count = 4\n[sheets]\nmake = [\"record\"]\n";
    let (_at, desk) = scene(lesson);
    let page = desk.enter();
    page.view();
    let told = page.does("/number", json!({ "act": "another", "role": "numbers.sort", "number": 12 }));
    assert!(told["told"].as_str().unwrap().contains("no other number"), "{told}");
    assert_eq!(page.text(), lesson);
}

#[test]
fn a_clash_is_told_at_the_requests_and_the_pages_stay() {
    let (_at, desk) = scene(LESSON);
    let page = desk.enter();
    let good = page.view();
    page.fill("numbers.sort.teens", json!({ "min": "4" }));
    page.fill("numbers.sort.zeros", json!({ "tens.min": "3" }));
    let view = page.view();
    let (standing, form) = (view["standing"].as_str().unwrap(), view["form"].as_str().unwrap());
    assert!(standing.contains("cannot be made") && standing.contains("would work"), "{standing}");
    for field in ["trouble-numbers-sort-teens", "trouble-numbers-sort-zeros"] {
        assert!(form.contains(&format!("<div class=\"trouble\" id=\"{field}\">")), "{field}");
    }
    // Those from before, a little paler.
    assert_eq!(numbers(&view), numbers(&good));
    assert!(view["pages"].as_str().unwrap().contains("class=\"earlier\""));
    assert!(view["bar"].as_str().unwrap().contains("data-go=\"/make\" disabled"), "{}", view["bar"]);
    let picture = view["pages"].as_str().unwrap().split("src=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    assert!(page.get(&picture).text().starts_with("<svg "));
    page.does("/back", json!({}));
    assert!(page.view()["standing"].as_str().unwrap().contains("can be made"));
    loaded(&page);
}

#[test]
fn a_text_that_is_no_lesson_is_shown_and_put_right() {
    let (_at, desk) = scene("title : Tram\n[numbers\nrange = 100-999\n");
    let page = desk.enter();
    let view = page.view();
    assert!(view["form"].as_str().unwrap().contains("cannot be shown as a form"), "{view}");
    page.does("/mend", json!({}));
    let view = page.view();
    assert!(view["standing"].as_str().unwrap().contains("can be made"), "{}", page.text());
    page.does("/text", json!({ "text": LESSON }));
    assert_eq!(page.text(), LESSON);
    page.does("/back", json!({}));
    page.does("/back", json!({}));
    assert!(page.text().starts_with("title : Tram"));
    page.does("/forth", json!({}));
    page.does("/forth", json!({}));
    assert_eq!(page.text(), LESSON);
}

#[test]
fn what_is_typed_is_undone_as_a_whole() {
    let (_at, desk) = scene(LESSON);
    let page = desk.enter();
    for typed in ["M", "Ma", "Mar", "Market"] {
        page.does("/edit", json!({ "key": "title", "parts": { "": typed }, "typing": true }));
    }
    page.fill("minutes", json!({ "": "70" }));
    page.does("/back", json!({}));
    assert!(page.text().contains("title = \"Market\""));
    page.does("/back", json!({}));
    assert_eq!(page.text(), LESSON);
}

#[test]
fn making_can_be_stopped_and_leaves_what_was_there() {
    let lesson = LESSON.replace("learners = 2", "learners = 20000").replace("\"record\", ", "");
    let (at, desk) = scene(&lesson);
    let page = desk.enter();
    page.view();
    let folder = at.path().join("out/tram");
    fs::create_dir_all(&folder).unwrap();
    page.does("/make", json!({}));
    let mut seen = false;
    for _ in 0..600 {
        let view = page.get("/view").json();
        let packets = view["packets"].as_str().unwrap().to_owned();
        if packets.contains("<progress max=") {
            seen = true;
            break;
        }
        assert_eq!(view["busy"], true, "{packets}");
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    assert!(seen, "no progress was shown");
    page.does("/stop", json!({}));
    assert!(made(&page).contains("topped"), "{}", made(&page));
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 0);
    let left: Vec<_> = fs::read_dir(at.path().join("out")).unwrap().map(|entry| entry.unwrap().file_name()).collect();
    assert_eq!(left, ["tram"]);
    assert_eq!(page.get("/all.zip").status, 404);
}
