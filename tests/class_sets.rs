//! Class sets: what the copy room gets, read back from the files with an independent reader.

use crate::support;
use crate::support::plain;
use crate::support::run;
use placewright::sheets::job::PrintSides;
use placewright::sheets::job::backs::Edge;
use placewright::sheets::kinds::ticket::facts;
use placewright::spec::SheetKind;
use plain::{holds, plain};
use support::class::{Shop, lesson};

const TEXT: &str = r#"
title = "Harbour market: matching"
[numbers]
range = [100, 999]
[numbers.sort]
count = 5
[forms]
match = ["numeral", "words", "expanded", "blocks"]
decoys = 3
"#;

fn with(class: &str, print: &str) -> String {
    format!("{TEXT}\n[class]\n{class}\n[print]\n{print}\n")
}

#[test]
fn every_learner_gets_every_page_in_order() {
    let shop = Shop::open();
    let lesson = lesson(&with("learners = 5\nspares = 2\nversions = 3", ""), &["Marrow", "Quill"]);
    let order = shop.order(&lesson);
    for job in &order.jobs {
        let (pages, read) = (job.packet().unwrap().pages, support::pdf::read(&shop.write(job)));
        assert_eq!((pages.len(), read.len()), (job.pages(), job.leaves()));
        let learners: Vec<u32> = pages.iter().filter_map(|page| page.learner).collect();
        assert!(learners.is_sorted() && learners.first() == Some(&1) && learners.last() == Some(&7));
        for (page, read) in pages.iter().zip(&read) {
            let Some(learner) = page.learner else {
                // A slip for each learner, none with a mark.
                assert_eq!(page.sheet, SheetKind::Exit);
                continue;
            };
            let seat = order.seats[learner as usize - 1];
            let has = |want: &str| read.texts.iter().any(|run| run.text.contains(want));
            assert!(has(&format!("{} \u{b7} {learner}", seat.version)), "{} of {learner}", page.name);
            assert!(page.version.is_none_or(|v| v == seat.version));
            for (k, name) in ["Marrow", "Quill"].into_iter().enumerate() {
                assert_eq!(has(name), k + 1 == learner as usize, "{name} on {} of {learner}", page.name);
            }
        }
    }
    assert_eq!(order.seats.len(), 7);
}

#[test]
fn the_ticket_counts_what_the_files_hold() {
    let shop = Shop::open();
    for (class, print) in [
        ("learners = 3\nspares = 0", ""),
        ("learners = 7\nspares = 2\nversions = 2", "sides = \"two\""),
        ("learners = 9\nspares = 1\nversions = 3", "cut = \"stack\""),
        ("learners = 9\nspares = 1\nversions = 3", "cut = \"stack\"\nsides = \"two\""),
    ] {
        let lesson = lesson(&with(class, print), &[]);
        let (desk, order) = (shop.desk(&lesson), shop.order(&lesson));
        let facts = facts::gather(&desk, &order);
        assert_eq!(facts.lines.len(), order.jobs.len());
        let ticket = support::pdf::text(&support::pdf::read(&shop.ticket(&lesson, &order)));
        // A packet a set, where pages go to one learner after the other.
        let sets = order.seats.len();
        assert!(
            !print.is_empty()
                || ticket.split_whitespace().collect::<Vec<_>>().join(" ").contains(&format!("{sets} packets"))
        );
        for (line, job) in facts.lines.iter().zip(&order.jobs) {
            let read = support::pdf::read(&shop.write(job)).len();
            assert_eq!(line.impressions, read, "{class} {print}");
            assert_eq!(line.sheets * if job.sides == PrintSides::One { 1 } else { 2 }, read);
            assert!(ticket.contains(&format!("{}\n", line.file)) && ticket.contains(&format!("\n{}\n", line.sheets)));
        }
        assert!(support::pdf::read(&shop.ticket(&lesson, &order)).len() <= 2, "{class} {print}");
    }
}

#[test]
fn viewer_preferences_say_what_the_ticket_says() {
    let shop = Shop::open();
    for print in ["", "sides = \"two\"\ncut = \"stack\""] {
        let lesson = lesson(&with("learners = 3", print), &[]);
        let order = shop.order(&lesson);
        let job = order.jobs.iter().find(|job| job.file.contains("paper")).unwrap();
        let raw = String::from_utf8_lossy(&plain(&shop.write(job))).into_owned();
        let (duplex, sides) = match job.sides {
            PrintSides::One => ("/Simplex", "one-sided"),
            PrintSides::Two(Edge::Long) => ("/DuplexFlipLongEdge", "two-sided-long-edge"),
            PrintSides::Two(Edge::Short) => ("/DuplexFlipShortEdge", "two-sided-short-edge"),
        };
        assert_eq!(job.sides == PrintSides::One, print.is_empty());
        assert!(raw.contains("/PrintScaling/None") && raw.contains(&format!("/Duplex{duplex}")), "{print} {duplex}");
        let ticket = support::pdf::text(&support::pdf::read(&shop.ticket(&lesson, &order)));
        for word in [sides, "print-scaling=none", "media=na_letter_8.5x11in", "copies", "copy-room-paper.pdf"] {
            assert!(ticket.contains(word), "{word}");
        }
    }
}

/// Bookmarks of piles count from one, pile by pile, each front before its back.
#[test]
fn sheets_of_piles_are_counted() {
    let shop = Shop::open();
    let lesson = lesson(&with("learners = 40\nspares = 0", "cut = \"stack\"\nsides = \"two\""), &[]);
    let order = shop.order(&lesson);
    let pages = order.jobs.iter().flat_map(|job| job.packet().unwrap().pages);
    let names: Vec<String> = pages.map(|page| page.name).filter(|name| name.starts_with("Pile ")).collect();
    let (mut pile, mut sheet, mut piles) = (1, 0, 1);
    for pair in names.chunks(2) {
        let next = format!("Pile {}, sheet 1", pile + 1);
        (pile, sheet) = if pair[0] == next { (pile + 1, 1) } else { (pile, sheet + 1) };
        piles = piles.max(pile);
        let name = format!("Pile {pile}, sheet {sheet}");
        assert_eq!(pair, [name.clone(), name + " (back)"]);
    }
    assert!(names.len() > 8 && piles > 1, "{names:?}");
}

#[test]
fn no_roster_name_leaves_the_page() {
    let shop = Shop::open();
    for print in ["", "cut = \"stack\""] {
        let lesson = lesson(&with("learners = 3", print), &["Wrenholt", "Quillmarsh", "Tansyfield"]);
        let order = shop.order(&lesson);
        for (file, bytes) in order.jobs.iter().map(|job| (job.file, shop.write(job))) {
            let shown = support::pdf::text(&support::pdf::read(&bytes));
            let raw = plain(&bytes);
            // The title is in the metadata, so the search finds what is there.
            assert!(holds(&raw, "Harbour market"), "{file}");
            for name in ["Wrenholt", "Quillmarsh", "Tansyfield"] {
                assert!(shown.contains(name) && !holds(&raw, name) && !file.contains(name), "{name} in {file}");
            }
        }
    }
}

#[test]
fn a_job_is_the_same_page_by_page_and_in_any_number_of_threads() {
    let shop = Shop::open();
    let lesson = lesson(&with("learners = 9\nversions = 2", "cut = \"stack\"\nsides = \"two\""), &["Marrow"]);
    let order = shop.order(&lesson);
    for job in &order.jobs {
        let packet = job.packet().unwrap();
        let bytes = support::pdf::write(&packet, &shop.family, 1);
        assert!(bytes == support::pdf::write(&packet, &shop.family, 4));
        assert!((0..job.pages()).rev().all(|k| job.page(k).unwrap() == packet.pages[k]));
    }
}

#[test]
fn roster_trouble_gives_a_clear_result() {
    let lesson =
        format!("{TEXT}\n[class]\nlearners = 3\nspares = 0\nroster = \"roster.csv\"\n[sheets]\nmake = [\"strips\"]\n");
    let long = "Quillfeather ".repeat(23) + "Q";
    let cases: [(&str, u8, &str, &[&str]); 8] = [
        ("group\nWren\n", 1, "the roster has no column `name`", &[]),
        ("name\nWren\nOtis\nQuill\nTansy\n", 1, "the roster has 4 names but", &[]),
        ("name\nWren\n", 0, "", &["Wren"]),
        (&format!("name\n{long}\n"), 0, "", &["Quillfeather Quill"]),
        ("name\nWren\n\u{5d3}\u{5d5}\u{5d3}\n", 0, "roster.csv:3:1", &["Wren"]),
        ("name\nKai \u{5b50}\nWren\n", 0, "the font has no `\u{5b50}`, so the name `Kai \u{5b50}`", &["Wren"]),
        ("\u{feff}name,group\r\n\"Otis \"\"Ox\"\" B., jr\",a\r\n", 0, "", &["Otis \"Ox\" B., jr"]),
        ("name\n=SUM(A1:A9)\n@Wren\n", 0, "", &["=SUM(A1:A9)", "@Wren"]),
    ];
    for (roster, status, says, prints) in cases {
        let at = tempfile::tempdir().unwrap();
        let path = |name: &str| at.path().join(name);
        std::fs::write(path("lesson.toml"), &lesson).unwrap();
        std::fs::write(path("roster.csv"), roster).unwrap();
        let args = ["typeset".into(), path("lesson.toml"), "--out".into(), path("out")];
        let ran = run::placewright(args).with(status);
        assert!(ran.err.contains(says) && (says.is_empty() == ran.err.is_empty()), "{roster}: {}", ran.err);
        let file = path("out/lesson/copy-room-paper.pdf");
        assert_eq!(file.exists(), status == 0);
        if status == 0 {
            let text = support::pdf::text(&support::pdf::read(&std::fs::read(file).unwrap()));
            assert!(prints.iter().all(|name| text.contains(name)), "{roster}: {text}");
            // Every set is there, named or not.
            assert!(["A \u{b7} 1", "A \u{b7} 2", "A \u{b7} 3"].iter().all(|code| text.contains(code)));
            assert!(!roster.contains(&long) || text.contains('\u{2026}'));
        }
    }
}

#[test]
fn the_ticket_of_a_usual_class_is_one_page() {
    let shop = Shop::open();
    let text = std::fs::read_to_string("samples/harbour.toml").unwrap();
    let lesson = lesson(&text, &[]);
    assert_eq!(support::pdf::read(&shop.ticket(&lesson, &shop.order(&lesson))).len(), 1);
}
