//! Class sets: what the copy room gets, read back from the files with an independent reader.

use crate::support;
use crate::support::plain;
use crate::support::run;
use placewright::lesson::Version;
use placewright::lesson::deal;
use placewright::lesson::job::{Edge, PrintSides};
use placewright::measure::{Point, Rect, Size};
use placewright::sheets::files::PacketKind;
use placewright::sheets::packets::Packet;
use placewright::sheets::page::{Item, Node, Page, Tag};
use placewright::spec::SheetKind;
use plain::{holds, plain};
use std::collections::{BTreeMap, BTreeSet};
use support::class::{Shop, lesson};
use support::packets::Laid;

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
    let seats = deal::deal(5, 2, 3);
    for packet in &shop.copies(&lesson) {
        let (pages, read) = (Laid::new(packet).pages, support::pdf::read(&shop.write(packet)));
        assert_eq!((pages.len(), read.len()), (packet.len(), packet.sheets()));
        let learners: Vec<u32> = pages.iter().filter_map(|page| page.learner).collect();
        let all = learners.is_sorted() && learners.first() == Some(&1) && learners.last() == Some(&7);
        assert!(all || packet.kind == PacketKind::Card);
        for (page, read) in pages.iter().zip(&read) {
            let Some(learner) = page.learner else {
                // The proof, a slip for each learner, and kits, which learners share: none with a learner's mark.
                let shared = SheetKind::KITS.contains(&page.sheet);
                assert!(shared || matches!(page.sheet, SheetKind::Exit | SheetKind::Ticket), "{}", page.name);
                continue;
            };
            let seat = seats[learner as usize - 1];
            let has = |want: &str| read.texts.iter().any(|run| run.text.contains(want));
            assert!(has(&format!("{} \u{b7} {learner}", seat.version)), "{} of {learner}", page.name);
            assert!(page.version.is_none_or(|v| v == seat.version));
            for (k, name) in ["Marrow", "Quill"].into_iter().enumerate() {
                assert_eq!(has(name), k + 1 == learner as usize, "{name} on {} of {learner}", page.name);
            }
        }
    }
}

/// What pages say, however it is broken into lines.
fn said(pages: &[support::pdf::Page]) -> String {
    support::pdf::text(pages).split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn boards_and_plan_explain_the_marks_on_backs_where_there_are_any() {
    let shop = Shop::open();
    for (print, marked) in
        [("", false), ("cut = \"stack\"", false), ("sides = \"two\"", true), ("cut = \"stack\"\nsides = \"two\"", true)]
    {
        let lesson = lesson(&with("learners = 4\nversions = 2", print), &[]);
        assert_eq!(lesson.marks_strips(), marked);
        let packets = shop.packets(&lesson);
        let backs = packets.iter().flat_map(|packet| Laid::new(packet).pages);
        let marks = backs.filter(|page| page.sheet == SheetKind::Strips && page.name.ends_with("(back)"));
        assert_eq!(marks.filter(|page| !page.layers.is_empty()).count() > 0, marked, "{print}");
        let teacher = packets.iter().find(|packet| packet.kind == PacketKind::Teacher).expect("a teacher's packet");
        let read = support::pdf::read(&shop.write(teacher));
        for (index, entry) in teacher.entries().enumerate() {
            let text = said(&read[index..=index]);
            if entry.sheet == SheetKind::Board {
                assert_eq!(text.contains("same mark"), marked, "{text}");
            }
        }
        let plan = teacher.entries().take_while(|entry| entry.sheet == SheetKind::Plan).count();
        assert_eq!(said(&read[..plan]).contains("same mark"), marked);
    }
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
        let ticket = support::pdf::text(&support::pdf::read(&shop.ticket(&lesson)));
        // A packet a set, where pages go to one learner after the other.
        let sets = lesson.spec.class.learners.value + lesson.spec.class.spares.value;
        assert!(
            !print.is_empty()
                || ticket.split_whitespace().collect::<Vec<_>>().join(" ").contains(&format!("{sets} packets"))
        );
        for packet in &shop.copies(&lesson) {
            let read = support::pdf::read(&shop.write(packet)).len();
            let sheets = if packet.sides == PrintSides::One { read } else { read / 2 };
            assert_eq!(packet.sheets(), sheets, "{class} {print}");
            let file = packet.file();
            assert!(
                ticket.contains(&format!("{file}\n")) && ticket.contains(&format!("\n{sheets}\n{read}\n")),
                "{file}"
            );
        }
        assert!(
            support::pdf::read(&shop.ticket(&lesson)).len() <= if print.contains("stack") { 5 } else { 2 },
            "{class} {print}"
        );
    }
}

/// A slip-sheet lies before each part that the ticket lists, on a sheet of its own, and says of what follows what the ticket says.
#[test]
fn slip_sheets_part_what_the_ticket_lists() {
    let shop = Shop::open();
    for print in ["", "sides = \"two\"", "cut = \"stack\"\nsides = \"two\""] {
        let class = "learners = 9\nspares = 1\nversions = 3";
        let without = lesson(&with(class, print), &[]);
        let lesson = lesson(&with(class, &format!("{print}\nslip_sheets = true")), &[]);
        let ticket = said(&support::pdf::read(&shop.ticket(&lesson)));
        let bare: Vec<usize> = shop.copies(&without).iter().map(Packet::sheets).collect();
        for (packet, bare) in shop.copies(&lesson).iter().zip(bare) {
            let a_leaf = if packet.sides == PrintSides::One { 1 } else { 2 };
            let (laid, read) = (Laid::new(packet), support::pdf::read(&shop.write(packet)));
            let slips: Vec<usize> = (0..laid.pages.len()).filter(|k| laid.pages[*k].name == "Slip-sheet").collect();
            assert_eq!(packet.sheets(), bare + slips.len(), "{class} {print}");
            assert!(!slips.is_empty() && slips.iter().all(|k| k % a_leaf == 0), "{print}: {slips:?}");
            for &k in &slips {
                let said = said(&read[k..=k]);
                let (_, after) = said.split_once("After this sheet: sheet").expect("where the part is");
                let first: usize = after.trim_start_matches('s').split_whitespace().next().unwrap().parse().unwrap();
                assert_eq!((first - 1) * a_leaf, k + a_leaf, "{said}");
                // The words of the ticket, in capitals only at their start.
                let what = said.split("After this sheet").next().unwrap().trim();
                assert!(ticket.contains(&what[1..]), "{what} is not in {ticket}");
            }
        }
    }
}

/// Behind the strips of one row lies one mark, behind those of others another, and behind each decoy one of its own, whatever page
/// a strip is on: also where pages hold text and pictures, or the strips of one page of the board.
#[test]
fn one_mark_a_row_behind_strips_on_any_page() {
    let shop = Shop::open();
    let long = TEXT.replace("[100, 999]", "[1000, 9999]").replace(", \"blocks\"", "");
    let many = TEXT.replace("count = 5", "count = 9");
    let mut mixed = 0;
    for text in [TEXT, &many, &long.replace("count = 5", "count = 12")] {
        let text = format!("{text}\n[class]\nlearners = 2\nspares = 0\nversions = 2\n[print]\nsides = \"two\"\n");
        let lesson = lesson(&text, &[]);
        let mut marks: BTreeMap<(Version, Option<usize>), BTreeSet<String>> = BTreeMap::new();
        let mut pieces = 0;
        for packet in shop.copies(&lesson) {
            let PrintSides::Two(edge) = packet.sides else { continue };
            let pages = Laid::new(&packet).pages;
            for pair in pages.chunks(2).filter(|pair| pair[0].sheet == SheetKind::Strips && pair[0].learner.is_some()) {
                let version = pair[0].version.expect("a version");
                let set = lesson.sets.iter().find(|set| set.version == version).expect("a set");
                let figures = figures(&pair[1]);
                let fronts: Vec<_> = pair[0].layers.iter().flat_map(|layer| &layer.pieces).collect();
                mixed += usize::from(fronts.iter().any(|piece| piece.rect.width() != fronts[0].rect.width()));
                for piece in fronts {
                    let place = edge.behind(piece.rect, pair[0].size);
                    let (name, _) = figures.iter().find(|(_, at)| place.contains(*at)).expect("a mark");
                    let number: usize = piece.name.trim_start_matches("strip ").parse().expect("a number");
                    let strip = &set.strips[number - 1];
                    let decoy = strip.row.is_none().then_some(100 + number);
                    marks.entry((version, strip.row.or(decoy))).or_default().insert(name.clone());
                    pieces += 1;
                }
            }
        }
        assert_eq!(pieces, lesson.sets.iter().map(|set| set.strips.len()).sum::<usize>());
        assert!(marks.values().all(|names| names.len() == 1), "{marks:#?}");
        for version in lesson.sets.iter().map(|set| set.version) {
            let all: Vec<_> = marks.iter().filter(|((of, _), _)| *of == version).map(|(_, names)| names).collect();
            assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), all.len(), "{marks:#?}");
        }
    }
    assert!(mixed > 0, "no page held strips of two sizes");
}

/// The figures of a page: what a listener hears of each, and where its first shape is.
fn figures(page: &Page) -> Vec<(String, Rect)> {
    fn gather(node: &Node, found: &mut Vec<(String, Rect)>) {
        match node {
            Node::Tagged(Tag::Figure(name), nodes) => {
                let mut first = None;
                nodes.iter().for_each(|node| node.each(&mut |item| first = first.or_else(|| shape(item))));
                found.extend(first.map(|rect| (name.clone(), rect)));
            }
            Node::Tagged(_, nodes) => nodes.iter().for_each(|node| gather(node, found)),
            _ => {}
        }
    }
    let mut found = Vec::new();
    page.layers.iter().flat_map(|layer| &layer.nodes).for_each(|node| gather(node, &mut found));
    found
}

/// A rectangle inside a shape.
fn shape(item: &Item) -> Option<Rect> {
    let around = |at: Point| Rect::new(at, Size::default());
    match item {
        Item::Circle { centre, .. } => Some(around(*centre)),
        Item::Polygon { points, .. } => points.iter().map(|at| around(*at)).reduce(Rect::union),
        _ => None,
    }
}

/// Ticket, print command and file agree on sides and edge, whatever way the pages are held.
#[test]
fn viewer_preferences_say_what_the_ticket_says() {
    let shop = Shop::open();
    let mut edges = Vec::new();
    for print in ["", "sides = \"two\"", "sides = \"two\"\ncut = \"stack\""] {
        for paper in ["letter", "a4", "tabloid"] {
            let text = with("learners = 3", print).replace("title =", &format!("paper = \"{paper}\"\ntitle ="));
            let lesson = lesson(&text, &[]);
            let ticket = support::pdf::text(&support::pdf::read(&shop.ticket(&lesson)));
            let commands = ticket.split_once("Ready to run").expect("commands").1.replace("\\\n", "");
            for packet in &shop.copies(&lesson) {
                let raw = String::from_utf8_lossy(&plain(&shop.write(packet))).into_owned();
                let (duplex, sides) = match packet.sides {
                    PrintSides::One => ("/Simplex", "one-sided"),
                    PrintSides::Two(Edge::Long) => ("/DuplexFlipLongEdge", "two-sided-long-edge"),
                    PrintSides::Two(Edge::Short) => ("/DuplexFlipShortEdge", "two-sided-short-edge"),
                };
                edges.push(sides);
                assert!(
                    raw.contains("/PrintScaling/None") && raw.contains(&format!("/Duplex{duplex}")),
                    "{print} {duplex}"
                );
                let command =
                    commands.split(" -n 1").find(|command| command.contains(packet.file())).expect("a command");
                assert!(command.contains(&format!("sides={sides}")), "{command} for {}", packet.file());
            }
            for word in ["print-scaling=none", "print-color-mode=monochrome", "copies", "copy-room-paper"] {
                assert!(ticket.contains(word), "{word}");
            }
        }
    }
    assert!(["one-sided", "two-sided-long-edge", "two-sided-short-edge"].iter().all(|edge| edges.contains(edge)));
}

/// Bookmarks of piles count from one, pile by pile, each front before its back.
#[test]
fn sheets_of_piles_are_counted() {
    let shop = Shop::open();
    let lesson = lesson(&with("learners = 40\nspares = 0", "cut = \"stack\"\nsides = \"two\""), &[]);
    let copies = shop.copies(&lesson);
    let pages = copies.iter().flat_map(|packet| Laid::new(packet).pages);
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
        // Kits on card are nobody's own.
        let own = |packet: &&Packet<'_>| {
            packet.entries().any(|entry| entry.learner.is_some() || entry.sheet == SheetKind::Strips)
        };
        let copies = shop.copies(&lesson);
        for (file, bytes) in copies.iter().filter(own).map(|packet| (packet.file(), shop.write(packet))) {
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
    for packet in &shop.copies(&lesson) {
        let laid = Laid::new(packet);
        assert!(laid.bytes(&shop.family, 1) == laid.bytes(&shop.family, 4));
        assert!((0..packet.len()).rev().all(|k| *packet.page(k).unwrap() == laid.pages[k]));
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
        // A roster with fewer names than learners gets a word of its own; besides it there is what each case says.
        let told = |kind: &str| ran.err.matches(kind).count();
        let short = usize::from(ran.err.contains(" for 3 learners"));
        assert_eq!(short, usize::from(status == 0), "{roster}: {}", ran.err);
        let others = told(": warning: ") + told(": error: ") - short;
        assert!(ran.err.contains(says) && (says.is_empty() == (others == 0)), "{roster}: {}", ran.err);
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
fn the_ticket_of_a_usual_class_is_a_sheet_of_paper() {
    let shop = Shop::open();
    let text = std::fs::read_to_string("samples/harbour.toml").unwrap();
    let lesson = lesson(&text, &[]);
    assert!(support::pdf::read(&shop.ticket(&lesson)).len() <= 2);
}

/// 24 learners and 2 spares: one board and one page of strips each where boxes and strips can still be read, kits shared.
#[test]
fn no_learner_gets_two_pages_where_one_holds_all() {
    let sheets = |sample: &str| {
        let path = format!("{}/samples/{sample}.toml", env!("CARGO_MANIFEST_DIR"));
        let sample = support::samples::lay(std::path::Path::new(&path));
        let copies =
            sample.packets.iter().filter(|laid| ["copy-room-paper.pdf", "copy-room-card.pdf"].contains(&laid.file()));
        let copies: Vec<&Laid> = copies.collect();
        let of_first = copies.iter().flat_map(|laid| &laid.pages).filter(|page| page.learner == Some(1));
        let count = |kind| of_first.clone().filter(|page| page.sheet == kind).count();
        (count(SheetKind::Board), count(SheetKind::Strips), copies.iter().map(|laid| laid.pages.len()).sum::<usize>())
    };
    let (boards, strips, all) = sheets("harbour");
    assert!((boards, strips) == (1, 1) && all <= 140, "{boards} boards, {strips} strips, {all} sheets");
    // Text and pictures in different numbers of columns share a page.
    assert_eq!((sheets("orchard").1, sheets("panaderia").1), (1, 1));
}
