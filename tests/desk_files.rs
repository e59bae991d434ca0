//! The desk and the files of its folder: what it reads, writes and asks about, and what it never touches.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use serde_json::{Value, json};

use crate::desk::{LESSON, made, scene};
use crate::support::desk::Desk;

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
    assert!(made(&page).contains("annot write"), "{}", made(&page));
    assert!(page.text().contains("minutes = 62"));
    mode(0o755);
}

#[test]
fn a_lesson_like_one_in_another_folder_finds_what_that_one_names() {
    let at = tempfile::tempdir().unwrap();
    let week = at.path().join("week 1");
    fs::create_dir_all(week.join("ours")).unwrap();
    let named = LESSON
        .replace("[class]\n", "[class]\nroster = \"class.csv\"\n")
        .replace("make =", "layouts = \"ours\"\nmake =");
    fs::write(week.join("tram.toml"), named.replace("learners = 2\n", "")).unwrap();
    fs::write(week.join("class.csv"), "name\nZoë\nJosé\n").unwrap();
    let layouts = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    fs::copy(layouts.join("strips.toml"), week.join("ours/strips.toml")).unwrap();
    let desk = Desk::open(at.path(), &[]);
    let page = desk.enter();
    page.does("/begin", json!({ "name": "week 1/tram.toml", "act": "like" }));
    let view = page.view();
    assert!(view["standing"].as_str().unwrap().contains("can be made"), "{}{}", view["standing"], page.text());
    assert!(page.text().contains("roster = \"week 1/class.csv\"\n"), "{}", page.text());
    assert!(page.text().contains("layouts = \"week 1/ours\"\n"), "{}", page.text());
}

#[test]
fn files_and_folders_are_offered_where_they_are_asked_for() {
    let (at, desk) = scene(LESSON);
    fs::create_dir(at.path().join("ours")).unwrap();
    fs::write(at.path().join("ours/board.toml"), "").unwrap();
    fs::write(at.path().join("class.csv"), "name\nZoë\nJosé\n").unwrap();
    let page = desk.enter();
    let form = page.view()["form"].as_str().unwrap().to_owned();
    let offered = |id: &str| {
        let at = form.find(&format!("<select id=\"{id}\"")).unwrap();
        let select = &form[at..at + form[at..].find("</select>").unwrap()];
        select.split("value=\"").skip(1).map(|part| part.split('"').next().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(offered("in-class-roster"), ["", "class.csv"]);
    assert_eq!(offered("in-sheets-layouts"), ["", "ours"]);
}

#[test]
fn a_file_that_is_taken_away_is_not_saved_any_more() {
    let (at, desk) = scene(LESSON);
    let page = desk.enter();
    let file = at.path().join("tram.toml");
    page.view();
    fs::remove_file(&file).unwrap();
    assert_eq!(page.get("/here").json()["saved"], false);
    let view = page.view();
    assert!(view["saved"] == false && view["bar"].as_str().unwrap().contains("no longer there"), "{}", view["bar"]);
    assert_eq!(page.does("/save", json!({ "name": "tram.toml" }))["told"], Value::Null);
    assert_eq!((fs::read_to_string(&file).unwrap().as_str(), page.view()["saved"].clone()), (LESSON, json!(true)));
    // What somebody else puts in its place is asked about like any other change.
    fs::remove_file(&file).unwrap();
    page.get("/here");
    fs::write(&file, "title = \"Theirs\"\n").unwrap();
    assert_eq!(page.does("/save", json!({ "name": "tram.toml" }))["told"]["there"], true);
}

#[cfg(unix)]
#[test]
fn packets_follow_no_link_out_of_the_folder() {
    let (at, desk) = scene(LESSON);
    let elsewhere = tempfile::tempdir().unwrap();
    let page = desk.enter();
    std::os::unix::fs::symlink(elsewhere.path(), at.path().join("out")).unwrap();
    page.does("/make", json!({}));
    assert!(made(&page).contains("leads out of the folder"), "{}", made(&page));
    assert_eq!(fs::read_dir(elsewhere.path()).unwrap().count(), 0);
    // Nor does reading them.
    fs::remove_file(at.path().join("out")).unwrap();
    page.does("/make", json!({}));
    assert!(made(&page).contains("/file/teacher.pdf"), "{}", made(&page));
    fs::rename(at.path().join("out/tram"), elsewhere.path().join("tram")).unwrap();
    std::os::unix::fs::symlink(elsewhere.path().join("tram"), at.path().join("out/tram")).unwrap();
    assert_eq!(page.get("/file/teacher.pdf").status, 404);
    // Where somebody asked for a folder elsewhere, that is where they go.
    let other = Desk::open(at.path(), &["tram.toml", "--out", elsewhere.path().join("mine").to_str().unwrap()]);
    let page = other.enter();
    page.does("/make", json!({}));
    made(&page);
    assert_eq!(page.get("/file/teacher.pdf").status, 200);
}
