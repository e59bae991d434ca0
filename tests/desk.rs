//! What a teacher does at the desk, request by request: the lesson file stays the one truth.

use std::collections::BTreeSet;
use std::fs;
use std::io::Cursor;
use std::path::Path;

use serde_json::{Value, json};
use tempfile::TempDir;

use crate::support::desk::{Desk, Page};
use crate::support::run::process;

const LESSON: &str = "# Ours.\ntitle = \"Tram stops\" # the line\n\n[numbers]\nrange = [100, 999]\n# At the end.\n[numbers.sort]\ncount = 5\n\n\
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
    let html = page.get("/").text();
    let view = page.get("/view").json();
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
fn made(page: &Page<'_>) -> String {
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
fn saving_keeps_comments_and_order() {
    let (at, desk) = scene(LESSON);
    let page = desk.enter();
    page.fill("numbers.sort.count", json!({ "": "6" }));
    page.fill("numbers.sort.zeros", json!({ "tens.min": "1" }));
    page.fill("minutes", json!({ "": "60" }));
    assert_eq!(page.does("/save", json!({ "name": "tram.toml" }))["told"], Value::Null);
    let want = LESSON
        .replace("# the line\n", "# the line\nminutes = 60\n")
        .replace("count = 5\n", "count = 6\nzeros = { tens = 1 }\n");
    assert_eq!(fs::read_to_string(at.path().join("tram.toml")).unwrap(), want);
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
fn a_file_that_others_change_is_asked_about_and_nothing_is_lost() {
    let (at, desk) = scene(LESSON);
    let page = desk.enter();
    let file = at.path().join("tram.toml");
    page.fill("minutes", json!({ "": "61" }));
    let (mine, theirs) = (page.text(), LESSON.replace("Tram stops", "Ferry stops"));
    fs::write(&file, &theirs).unwrap();
    assert_eq!(page.get("/here").json()["theirs"], true);
    assert!(page.view()["bar"].as_str().unwrap().contains("changed by another program"));
    // Saving asks too, and writes nothing before the answer.
    assert_eq!(page.does("/save", json!({ "name": "tram.toml" }))["told"]["there"], true);
    assert_eq!(fs::read_to_string(&file).unwrap(), theirs);
    // Theirs: mine is one step back.
    page.does("/theirs", json!({}));
    assert_eq!((page.text(), page.view()["saved"].clone()), (theirs.clone(), json!(true)));
    page.does("/back", json!({}));
    assert_eq!(page.text(), mine);
    // Mine: theirs is one step back.
    fs::write(&file, theirs.replace("Ferry", "Train")).unwrap();
    assert_eq!(page.get("/here").json()["theirs"], true);
    assert_eq!(page.does("/save", json!({ "name": "tram.toml", "over": true }))["told"], Value::Null);
    assert_eq!(fs::read_to_string(&file).unwrap(), mine);
    page.does("/back", json!({}));
    assert!(page.text().contains("Train stops"), "{}", page.text());
}

#[test]
fn another_file_is_replaced_only_when_asked() {
    let (at, desk) = scene(LESSON);
    fs::write(at.path().join("other.toml"), "title = \"Other\"\n").unwrap();
    let page = desk.enter();
    assert_eq!(page.does("/save", json!({ "name": "other.toml" }))["told"]["there"], true);
    assert_eq!(fs::read_to_string(at.path().join("other.toml")).unwrap(), "title = \"Other\"\n");
    assert_eq!(page.does("/save", json!({ "name": "other.toml", "over": true }))["told"], Value::Null);
    assert_eq!(fs::read_to_string(at.path().join("other.toml")).unwrap(), LESSON);
    page.does("/back", json!({}));
    assert_eq!(page.text(), "title = \"Other\"\n");
}

#[test]
fn no_file_outside_the_folder_is_read_or_written() {
    let outer = tempfile::tempdir().unwrap();
    let at = outer.path().join("ours");
    fs::create_dir(&at).unwrap();
    fs::write(outer.path().join("secret.toml"), "title = \"Secret\"\n").unwrap();
    fs::write(outer.path().join("names.csv"), "name\nSecretive\n").unwrap();
    fs::write(at.join("tram.toml"), LESSON).unwrap();
    fs::write(at.join("names.csv"), "name\nZoë\nJosé\n").unwrap();
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(outer.path().join("secret.toml"), at.join("link.toml")).unwrap();
        std::os::unix::fs::symlink(outer.path().join("names.csv"), at.join("link.csv")).unwrap();
        std::os::unix::fs::symlink(outer.path(), at.join("up")).unwrap();
    }
    let desk = Desk::open(&at, &["tram.toml"]);
    let page = desk.enter();
    let begin = page.get("/begin").text();
    assert!(begin.contains("tram.toml") && !begin.contains("link.toml") && !begin.contains("secret"), "{begin}");
    let absolute = outer.path().join("secret.toml");
    for name in ["../secret.toml", "link.toml", "up/secret.toml", absolute.to_str().unwrap(), "/etc/passwd", "", ".."] {
        for path in ["/open", "/save"] {
            let told = page.does(path, json!({ "name": name, "over": true }));
            assert!(told["told"].is_string() && !told.to_string().contains("Secret"), "{path} {name}: {told}");
        }
    }
    assert_eq!(fs::read_to_string(outer.path().join("secret.toml")).unwrap(), "title = \"Secret\"\n");
    for name in ["../names.csv", "link.csv", "up/names.csv", "/etc/passwd", "../not-there.csv"] {
        page.fill("class.roster", json!({ "": name }));
        let view = page.view();
        let standing = view["standing"].as_str().unwrap();
        assert!(standing.contains("outside the folder"), "{name}: {standing}");
        assert!(!view.to_string().contains("Secretive") && !standing.contains("root:"), "{name}");
        page.fill("class.roster", json!({}));
        for (key, file) in [("print.font", "../secret.ttf"), ("sheets.layouts", "..")] {
            page.fill(key, json!({ "": file }));
            assert!(page.view()["standing"].as_str().unwrap().contains("outside the folder"), "{key}");
            page.fill(key, json!({}));
        }
    }
    page.fill("class.roster", json!({ "": "names.csv" }));
    assert!(page.view()["standing"].as_str().unwrap().contains("can be made"));
}

#[test]
fn names_are_on_pages_and_nowhere_else() {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), LESSON).unwrap();
    fs::write(at.path().join("class.csv"), "name\nZoë Brücke\nÓscar Ñandú\n").unwrap();
    let desk = Desk::open(at.path(), &["tram.toml"]);
    let page = desk.enter();
    page.fill("class.roster", json!({ "": "class.csv" }));
    page.fill("sheets.make", json!({ "00": "record", "01": "tally" }));
    let view = page.view();
    assert!(view["standing"].as_str().unwrap().contains("can be made"), "{view}");
    for name in ["Zoë", "Brücke", "Óscar", "Ñandú"] {
        assert!(!view.to_string().contains(name) && !page.get("/").text().contains(name), "{name}");
    }
    let pages = view["pages"].as_str().unwrap();
    let pictures: Vec<&str> = pages.split("src=\"").skip(1).map(|part| part.split('"').next().unwrap()).collect();
    let all: String = pictures.iter().map(|picture| page.get(picture).text()).collect();
    assert!(all.contains("Zoë Brücke") && all.contains("Óscar Ñandú"), "no picture says the names of the class list");
    page.does("/save", json!({ "name": "tram.toml" }));
    assert!(!fs::read_to_string(at.path().join("tram.toml")).unwrap().contains("Zoë"));
    let files: BTreeSet<String> =
        fs::read_dir(at.path()).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    assert_eq!(files, BTreeSet::from(["class.csv".to_owned(), "tram.toml".to_owned()]));
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
        if packets.contains(": setting") {
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

#[cfg(unix)]
#[test]
fn a_folder_that_cannot_be_written_to_loses_nothing() {
    use std::os::unix::fs::PermissionsExt;
    let (at, desk) = scene(LESSON);
    let page = desk.enter();
    let mode = |mode: u32| fs::set_permissions(at.path(), fs::Permissions::from_mode(mode)).unwrap();
    mode(0o555);
    if fs::write(at.path().join("probe"), "").is_ok() {
        eprintln!("skipped: this user may write everywhere");
        return mode(0o755);
    }
    page.fill("minutes", json!({ "": "62" }));
    let told = page.does("/save", json!({ "name": "tram.toml" }));
    assert!(told["told"].as_str().unwrap().contains("cannot be written"), "{told}");
    page.does("/make", json!({}));
    assert!(made(&page).contains("cannot write"), "{}", made(&page));
    assert!(page.text().contains("minutes = 62"));
    mode(0o755);
}

#[test]
fn two_desks_are_open_at_once_and_a_port_is_taken_once() {
    let (at, desk) = scene(LESSON);
    let (page, other) = (desk.enter(), Desk::open(at.path(), &["tram.toml"]));
    let second = other.enter();
    assert_ne!(desk.host, other.host);
    // A browser sends the cookies of both to each.
    let both = format!("{}; {}", page.cookie, second.cookie);
    for desk in [&desk, &other] {
        assert_eq!(desk.ask("GET", "/", &[("Host", &desk.host), ("Cookie", &both)], b"").status, 200);
        let swapped = if desk.host == other.host { &page.cookie } else { &second.cookie };
        assert_eq!(desk.ask("GET", "/", &[("Host", &desk.host), ("Cookie", swapped)], b"").status, 403);
    }
    page.fill("minutes", json!({ "": "63" }));
    page.does("/save", json!({ "name": "tram.toml" }));
    assert_eq!(second.get("/here").json()["theirs"], true);
    let port = desk.host.rsplit(':').next().unwrap();
    let ran = process(at.path(), &["desk", "--no-browser", "--port", port]).with(3);
    assert!(ran.err.contains("another program, perhaps another desk") && ran.err.contains("--port"), "{}", ran.err);
}

#[test]
fn it_ends_when_the_page_is_closed() {
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), LESSON).unwrap();
    let mut desk = Desk::open(at.path(), &["tram.toml", "--linger", "2"]);
    let page = desk.enter();
    page.view();
    page.does("/left", json!({}));
    assert_eq!(desk.ended(20), Some(0));

    // What is not saved is waited for, unless the page was closed.
    let mut desk = Desk::open(at.path(), &["tram.toml", "--linger", "1"]);
    let page = desk.enter();
    page.fill("minutes", json!({ "": "64" }));
    std::thread::sleep(std::time::Duration::from_secs(3));
    assert_eq!(page.get("/here").status, 200);
    page.does("/left", json!({}));
    assert_eq!(desk.ended(20), Some(0));
}

#[cfg(unix)]
#[test]
fn ctrl_c_ends_it() {
    let (_at, mut desk) = scene(LESSON);
    let kill = std::process::Command::new("kill").args(["-INT", &desk.id().to_string()]).status();
    if !kill.is_ok_and(|status| status.success()) {
        eprintln!("skipped: no kill");
        return;
    }
    assert_eq!(desk.ended(20), Some(0));
}

#[cfg(target_os = "linux")]
#[test]
fn a_double_click_opens_the_desk_in_the_browser() {
    use std::os::unix::fs::PermissionsExt;
    use std::process::{Command, Stdio};
    let at = tempfile::tempdir().unwrap();
    let opener = at.path().join("xdg-open");
    fs::write(&opener, "#!/bin/sh\nprintf '%s' \"$1\" > opened.part && mv opened.part opened\n").unwrap();
    fs::set_permissions(&opener, fs::Permissions::from_mode(0o755)).unwrap();
    let path = format!("{}:/usr/bin:/bin", at.path().display());
    let start = |screen: bool| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_placewright"));
        command.current_dir(at.path()).env("PATH", &path).env_remove("DISPLAY").env_remove("WAYLAND_DISPLAY");
        if screen {
            command.env("DISPLAY", ":0");
        }
        command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
    };
    // Without a screen it is a script, which is told what to type.
    assert_eq!(start(false).wait().unwrap().code(), Some(2));
    let mut child = start(true);
    let opened = at.path().join("opened");
    for _ in 0..200 {
        if opened.exists() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
    }
    let address = read(&opened);
    child.kill().unwrap();
    child.wait().unwrap();
    assert!(address.starts_with("http://127.0.0.1:") && address.contains("/?key="), "{address}");
}

#[cfg(target_os = "linux")]
fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_default()
}
