//! The desk in a browser, as a teacher has it: by mouse, by keys alone, on a phone and in the dark.
//!
//! Where no browser is installed these are skipped, and say so. The rules of accessibility are those of axe-core (WCAG 2.2,
//! A and AA, and its best practices); `.ci/axe` fetches it, and without it that test is skipped.

use std::fs;
use std::path::PathBuf;

use serde_json::Value;
use tempfile::TempDir;

use crate::support::browser::Browser;
use crate::support::desk::Desk;

const LESSON: &str = "# Ours.\ntitle = \"Tram stops\"\n\n[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = 5\n\n\
    [class]\nlearners = 2\nspares = 0\n\n[sheets]\nmake = [\"record\", \"board\", \"strips\", \"tally\"]\n";

fn scene(args: &[&str]) -> Option<(TempDir, Desk, Browser)> {
    let mut browser = Browser::start()?;
    let at = tempfile::tempdir().unwrap();
    fs::write(at.path().join("tram.toml"), LESSON).unwrap();
    fs::write(at.path().join("class.csv"), "name\nZoë Brücke\nÓscar Ñandú\n").unwrap();
    let desk = Desk::open(at.path(), args);
    browser.go(&format!("http://{}{}", desk.host, desk.entry));
    Some((at, desk, browser))
}

const MADE: &str = "document.querySelector('#standing .lead')?.textContent.includes('can be made')";
const IDLE: &str = "!document.querySelector('#pages').hasAttribute('aria-busy')";

/// Clicks what a query finds.
#[track_caller]
fn click(browser: &mut Browser, query: &str) {
    browser.until(&format!("document.querySelector({query:?}) && !document.querySelector({query:?}).disabled"));
    browser.js(&format!("document.querySelector({query:?}).click()"));
}

/// Fills in a field as someone who types.
fn fill(browser: &mut Browser, query: &str, text: &str) {
    browser.js(&format!(
        "{{ const at = document.querySelector({query:?}); at.closest('details').open = true; at.focus(); at.select(); }}"
    ));
    browser.types(text);
}

/// The numbers of a set, in order.
fn numbers(browser: &mut Browser, set: usize) -> Vec<String> {
    let list = browser.js(&format!(
        "[...document.querySelectorAll('#numbers .set')[{set}].querySelectorAll('strong')].map((n) => n.textContent)"
    ));
    list.as_array().unwrap().iter().map(|number| number.as_str().unwrap().to_owned()).collect()
}

#[test]
fn from_nothing_to_files_in_the_browser() {
    let Some((at, desk, mut browser)) = scene(&[]) else { return };
    assert_eq!(browser.js("location.pathname + location.search"), "/", "the key stays in the address");
    click(&mut browser, "[data-begin='tens']");
    browser.until(MADE);
    fill(&mut browser, "#in-title", "Ferry stops");
    fill(&mut browser, "#in-class-learners", "2");
    fill(&mut browser, "#in-class-spares", "0");
    browser.until("document.querySelector('#bar h1').textContent === 'ferry-stops.toml'");
    browser.until("document.querySelector('#in-class-spares').value === '0'");
    browser.until(MADE);
    // What is typed is not disturbed by what comes back.
    assert_eq!(browser.js("document.activeElement.id"), "in-class-spares");
    browser.until(
        "[...document.images].filter((i) => i.loading === 'lazy' && i.complete && i.naturalWidth > 100).length > 2",
    );

    let before = (numbers(&mut browser, 0), numbers(&mut browser, 1));
    click(&mut browser, "#numbers [data-role='numbers.sort'][data-act='another']");
    browser.until(&format!(
        "document.querySelectorAll('#numbers .set')[1].textContent.includes({:?}) === false",
        before.1[0]
    ));
    let after = (numbers(&mut browser, 0), numbers(&mut browser, 1));
    assert_eq!(after.1.iter().filter(|number| !before.1.contains(number)).count(), 1, "{before:?} {after:?}");
    assert_eq!(
        {
            let mut set = after.0.clone();
            set.sort();
            set
        },
        {
            let mut set = before.0.clone();
            set.sort();
            set
        }
    );

    click(&mut browser, "[data-save]");
    click(&mut browser, "[data-named]");
    browser.until("document.querySelector('.state').textContent === 'saved'");
    assert!(fs::read_to_string(at.path().join("ferry-stops.toml")).unwrap().contains("Ferry stops"));
    click(&mut browser, "[data-go='/make']");
    browser.until("document.querySelector('#packets a[href=\"/file/teacher.pdf\"]')");
    assert!(at.path().join("out/ferry-stops/teacher.pdf").exists());
    // The browser's own viewer, from which it is printed.
    let kind = browser.js("fetch('/file/teacher.pdf').then((a) => a.headers.get('content-type'))");
    assert_eq!(kind, "application/pdf");
    browser.go(&format!("http://{}/file/teacher.pdf", desk.host));
    browser.until("document.querySelector('embed, pdf-viewer') || document.contentType === 'application/pdf'");
    let complaints: Vec<&String> = browser.complaints.iter().filter(|text| text.contains("Security Policy")).collect();
    assert!(complaints.is_empty(), "{complaints:?}");
}

#[test]
fn a_clash_comes_and_goes_and_a_roster_has_accents() {
    let Some((_at, _desk, mut browser)) = scene(&["tram.toml"]) else { return };
    browser.until(MADE);
    fill(&mut browser, "#in-numbers-sort-teens-min", "4");
    // What can be is made before the next edit, or both are one.
    browser.until("document.querySelector('#text').value.includes('teens')");
    browser.until(MADE);
    let before = numbers(&mut browser, 1);
    fill(&mut browser, "#in-numbers-sort-zeros-tens-min", "3");
    browser.until("document.querySelector('#standing .trouble')");
    assert_eq!(browser.js("document.querySelector('#in-numbers-sort-teens-min').getAttribute('aria-invalid')"), "true");
    assert_eq!(
        browser.js("document.querySelector('#field-numbers-sort-zeros .trouble').textContent.length > 20"),
        true
    );
    assert_eq!(numbers(&mut browser, 1), before, "the last good numbers stay");
    assert_eq!(browser.js("document.querySelector('[data-go=\"/make\"]').disabled"), true);
    click(&mut browser, "[data-go='/back']");
    browser.until(MADE);
    assert_eq!(browser.js("document.querySelectorAll('.trouble').length"), 0);
    // Undo was pressed in the field's own page: the field shows what the lesson says now.
    browser.until("document.querySelector('#in-numbers-sort-zeros-tens-min').value === ''");

    browser.js("{ const at = document.querySelector('#in-class-roster'); at.value = 'class.csv';
           at.dispatchEvent(new Event('change', { bubbles: true })); }");
    browser.until("document.querySelector('#text').value.includes('class.csv')");
    browser.until(MADE);
    browser.until("document.querySelector('#in-class-roster').value === 'class.csv'");
    let names = browser.js("(async () => { const found = [];
           for (const img of document.querySelectorAll('#pages img'))
             found.push(await (await fetch(img.getAttribute('src'))).text());
           return found.join(' '); })()");
    let names = names.as_str().unwrap();
    assert!(names.contains("Zoë Brücke") && names.contains("Óscar Ñandú"));
    assert_eq!(browser.js("document.documentElement.outerHTML.includes('Zoë')"), false);
    assert!(browser.complaints.iter().all(|text| !text.contains("Exception")), "{:?}", browser.complaints);
}

#[test]
fn keys_alone_are_enough() {
    let Some((at, _desk, mut browser)) = scene(&[]) else { return };
    browser.tab_to("at.dataset.begin === 'teens'");
    browser.key("Enter", 13, "\r");
    browser.until(MADE);
    browser.tab_to("at.id === 'in-title'");
    browser.call(
        "Input.dispatchKeyEvent",
        serde_json::json!({ "type": "keyDown", "key": "a", "commands": ["selectAll"] }),
    );
    browser.types("By keys");
    browser.until("document.querySelector('#bar h1').textContent === 'by-keys.toml'");
    browser.until(IDLE);
    browser.tab_to("at.dataset.act === 'keep'");
    browser.key(" ", 32, " ");
    browser.until("document.querySelector('#numbers [aria-pressed=true]')");
    // A page is looked at, turned and put away, and focus comes back to it.
    browser.tab_to("at.dataset.page");
    browser.key("Enter", 13, "\r");
    browser.until("document.querySelector('#large').open && document.querySelector('#large-sheet').naturalWidth > 100");
    let first = browser.js("document.querySelector('#large-name').textContent");
    browser.key("ArrowRight", 39, "");
    browser.until(&format!("document.querySelector('#large-name').textContent !== {first}"));
    browser.key("Escape", 27, "");
    browser.until("!document.querySelector('#large').open && document.activeElement.dataset.page");
    browser.tab_to("'save' in at.dataset");
    browser.key("Enter", 13, "\r");
    browser.until("!document.querySelector('#name-asked').hidden");
    browser.until("document.activeElement.id === 'name-given'");
    browser.key("Enter", 13, "\r");
    browser.until("document.querySelector('.state').textContent === 'saved'");
    assert!(at.path().join("by-keys.toml").exists());
}

#[test]
fn what_is_asked_stays_until_it_is_answered() {
    let Some((at, _desk, mut browser)) = scene(&["tram.toml"]) else { return };
    let file = at.path().join("other.toml");
    fs::write(&file, "title = \"Other\"\n").unwrap();
    browser.until(MADE);
    click(&mut browser, "[data-saveas]");
    browser.js("document.querySelector('#name-given').value = 'other'");
    // Meanwhile the page is drawn anew.
    fs::write(at.path().join("tram.toml"), "title = \"Theirs\"\n").unwrap();
    browser.until("document.querySelector(\"[data-go='/theirs']\")");
    assert_eq!(
        browser.js(
            "document.querySelector('#name-given').checkVisibility() && document.querySelector('#name-given').value"
        ),
        "other"
    );
    click(&mut browser, "[data-named]");
    browser.until("document.querySelector('#name-again button')");
    fs::remove_file(at.path().join("tram.toml")).unwrap();
    browser.until("document.querySelector('.state').textContent.includes('no longer there')");
    assert_eq!(fs::read_to_string(&file).unwrap(), "title = \"Other\"\n");
    click(&mut browser, "#name-again button");
    browser.until("document.querySelector('.state').textContent === 'saved' && !document.querySelector('#name-again')");
    assert_eq!(fs::read_to_string(&file).unwrap(), LESSON);
}

#[test]
fn what_is_folded_stays_folded_unless_something_goes_wrong_in_it() {
    let Some((_at, desk, mut browser)) = scene(&["tram.toml"]) else { return };
    let open = |part: &str| format!("document.querySelector('#part-{part}').open");
    browser.size(360, 740);
    browser.go(&format!("http://{}/", desk.host));
    browser.until(MADE);
    browser.until(IDLE);
    assert_eq!(browser.js(&open("numbers-sort")), false, "a small screen begins folded");
    browser.size(1280, 900);
    browser.reload();
    browser.until(MADE);
    browser.js(&format!("{} = false; {} = true", open("numbers-sort"), open("print")));
    fill(&mut browser, "#in-minutes", "58");
    browser.until("document.querySelector('#text').value.includes('minutes = 58')");
    browser.until(IDLE);
    assert_eq!((browser.js(&open("numbers-sort")), browser.js(&open("print"))), (false.into(), true.into()));
    // A clash that comes of another part opens it, and what the message names is led to.
    browser.js(
        "{ const at = document.querySelector('#text'); at.value = at.value.replace('count = 5', 'count = 5\\nteens = 9');
           document.querySelector('[data-text]').click(); }",
    );
    browser.until("document.querySelector('#standing .trouble a')");
    assert_eq!(browser.js(&open("numbers-sort")), true);
    browser.js(&format!("{} = false", open("numbers-sort")));
    click(&mut browser, "#standing .trouble a");
    assert_eq!(browser.js(&open("numbers-sort")), true);
    assert_eq!(browser.js("document.activeElement.closest('.field').id"), "field-numbers-sort-teens");
}

#[test]
fn a_large_class_shows_how_far_its_files_are_and_can_be_stopped() {
    let Some((at, _desk, mut browser)) = scene(&["tram.toml"]) else { return };
    let lesson = LESSON.replace("learners = 2", "learners = 20000").replace("\"record\", ", "");
    let axe = axe();
    browser.until(MADE);
    browser.js(&format!(
        "{{ document.querySelector('#text').value = {lesson:?}; document.querySelector('[data-text]').click(); }}"
    ));
    browser.until("document.querySelector('#standing').textContent.includes('20000') || document.querySelector('#pages').textContent.includes('the others look alike')");
    let progress = "document.querySelector('#packets progress')?.position > 0";
    for (dark, width) in [(false, 1280), (true, 360)] {
        browser.dark(dark);
        browser.size(width, 800);
        click(&mut browser, "[data-go='/make']");
        browser.until(progress);
        assert_eq!(browser.js("document.documentElement.scrollWidth <= innerWidth"), true);
        if let Some(axe) = &axe {
            no_violation(&mut browser, axe, &format!("progress, {width} wide, dark: {dark}"));
        }
        // The page is at work and still to be worked with.
        fill(&mut browser, "#in-title", &format!("Island {width}"));
        browser.until(&format!("document.querySelector('#text').value.includes('Island {width}')"));
        click(&mut browser, "[data-go='/stop']");
        browser.until("document.querySelector('#packets .trouble')?.textContent.includes('topped')");
        assert_eq!(browser.js("document.querySelector('#packets progress')"), Value::Null);
    }
    assert!(!at.path().join("out/tram").exists());
}

/// The file of axe-core, where it was fetched.
fn axe() -> Option<String> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("target/axe/package/axe.min.js");
    let text = fs::read_to_string(&path).ok();
    if text.is_none() {
        eprintln!("skipped: no axe-core (.ci/axe fetches it)");
    }
    text
}

#[track_caller]
fn no_violation(browser: &mut Browser, axe: &str, what: &str) {
    browser.js(&format!("{axe}; 0"));
    let found = browser.js(
        "axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations.map((v) => v.id + ': ' + v.help + ' ' +
           v.nodes.slice(0, 3).map((n) => n.html.slice(0, 200) + ' ' + n.failureSummary).join(' | ')))",
    );
    assert_eq!(found, Value::Array(Vec::new()), "{what}");
}

#[test]
fn everyone_can_use_it() {
    let Some(axe) = axe() else { return };
    let Some((_at, desk, mut browser)) = scene(&["tram.toml"]) else { return };
    for (dark, width) in [(false, 1280), (true, 360)] {
        let what = |state: &str| format!("{state}, {width} wide, dark: {dark}");
        browser.dark(dark);
        browser.size(width, 800);
        browser.go(&format!("http://{}/begin", desk.host));
        no_violation(&mut browser, &axe, &what("beginning"));
        browser.go(&format!("http://{}/", desk.host));
        browser.until(MADE);
        browser.js("document.querySelectorAll('details').forEach((part) => { part.open = true; })");
        no_violation(&mut browser, &axe, &what("a lesson"));
        // Nothing is wider than the screen (WCAG 2.2, 1.4.10).
        assert_eq!(browser.js("document.documentElement.scrollWidth <= innerWidth"), true, "{}", what("a lesson"));
        fill(&mut browser, "#in-numbers-sort-teens-min", "9");
        browser.until("document.querySelector('#standing .trouble')");
        no_violation(&mut browser, &axe, &what("a clash"));
        browser.js("document.querySelector('#name-asked').hidden = false");
        no_violation(&mut browser, &axe, &what("a name is asked for"));
        click(&mut browser, "[data-go='/back']");
        browser.until(MADE);
        click(&mut browser, "#pages [data-page]");
        browser.until("document.querySelector('#large').open");
        no_violation(&mut browser, &axe, &what("a large page"));
    }
    click(&mut browser, "[value='close']");
    click(&mut browser, "[data-go='/make']");
    browser.until("document.querySelector('#packets a')");
    no_violation(&mut browser, &axe, "files");
}

#[test]
fn what_is_typed_quickly_is_all_there() {
    let Some((_at, _desk, mut browser)) = scene(&["tram.toml"]) else { return };
    browser.until(MADE);
    // Faster than lessons are worked out: the newest wins, and nothing typed is lost on the way.
    for k in 0..12 {
        fill(&mut browser, "#in-minutes", &(50 + k).to_string());
        fill(&mut browser, "#in-title", &format!("Stop {k}"));
    }
    browser.until("document.querySelector('#text').value.includes('minutes = 61') && document.querySelector('#text').value.includes('Stop 11')");
    browser.until(MADE);
    let shown = browser
        .js("['bar', 'form', 'standing', 'numbers', 'pages'].map((id) => document.getElementById(id).textContent)");
    browser.js("document.activeElement.blur()");
    browser.reload();
    browser.until(MADE);
    let again = browser
        .js("['bar', 'form', 'standing', 'numbers', 'pages'].map((id) => document.getElementById(id).textContent)");
    assert_eq!(shown, again);
}
