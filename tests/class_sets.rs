//! Class sets: what the copy room gets, read back from the files with an independent reader.

mod support;

use std::io::Read;

use placewright::pdf;
use placewright::sheets::backs::Edge;
use placewright::sheets::copyroom::PrintSides;
use placewright::sheets::ticket::facts;
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
        assert!(learners.is_sorted() && learners.len() == pages.len());
        for (page, read) in pages.iter().zip(&read) {
            let learner = page.learner.unwrap();
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

/// The file with every deflated stream laid open, except what pages draw: streams with text between `BT` and `ET`.
fn plain(file: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    let find = |from: usize, what: &[u8]| file[from..].windows(what.len()).position(|w| w == what).map(|k| from + k);
    let mut at = 0;
    while let Some(start) = find(at, b"stream\n") {
        let end = find(start, b"endstream").unwrap();
        out.extend(&file[at..start]);
        let mut open = Vec::new();
        if flate2::read::ZlibDecoder::new(&file[start + 7..end]).read_to_end(&mut open).is_err() {
            open = file[start..end].to_vec();
        }
        let drawn = |word: &[u8]| open.split(u8::is_ascii_whitespace).any(|token| token == word);
        if !(drawn(b"BT") && drawn(b"ET")) {
            out.extend(open);
        }
        at = end + 9;
    }
    out.extend(&file[at..]);
    out
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
            let holds = |text: &str| {
                let wide: Vec<u8> = text.encode_utf16().flat_map(u16::to_be_bytes).collect();
                let hex: String = wide.iter().map(|b| format!("{b:02x}")).collect();
                let lower = raw.to_ascii_lowercase();
                [text.as_bytes(), &wide].iter().any(|w| raw.windows(w.len()).any(|r| r == *w))
                    || lower.windows(hex.len()).any(|r| r == hex.as_bytes())
            };
            // The title is in the metadata, so the search finds what is there.
            assert!(holds("Harbour market"), "{file}");
            for name in ["Wrenholt", "Quillmarsh", "Tansyfield"] {
                assert!(shown.contains(name) && !holds(name) && !file.contains(name), "{name} in {file}");
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
        let one = pdf::Options { threads: 1, ..pdf::Options::default() };
        let four = pdf::Options { threads: 4, ..pdf::Options::default() };
        let bytes = pdf::write(&packet, &shop.family, &one).unwrap();
        assert!(bytes == pdf::write(&packet, &shop.family, &four).unwrap());
        assert!((0..job.pages()).rev().all(|k| job.page(k).unwrap() == packet.pages[k]));
    }
}
