//! What plan and cover say, compared with what is in the packet: every sheet, count, page number and answer.
//!
//! The finished pages are read as whoever stands in reads them. A statement with a figure in it that no rule knows is a
//! fault too, so that none is left unread.

mod belongs;
mod cover;
mod packet;
mod plan;
mod read;
mod rules;

use std::collections::BTreeSet;
use std::sync::LazyLock;

use crate::support::answers::{check, figures};
use crate::support::samples;
use crate::support::sheet_words::speaks_of;
use packet::Envelope;
use placewright::measure::Length;
use placewright::number::Form;
use placewright::sheets::page::{Item, Page};
use placewright::spec::{Language, SheetKind};
use read::{Block, blocks, fit};
use rules::{Scene, judge};

/// Lessons of our own, as unlike as they come.
const LESSONS: [(&str, &str); 23] = [
    ("step by step", "[numbers]\nrange = [100, 999]\n[sheets]\ndisplay = \"steps\""),
    ("board and strips only", "grade = \"2\"\n[numbers]\nrange = [100, 999]\n[sheets]\nmake = [\"board\", \"strips\"]"),
    ("ten minutes", "minutes = 10\n[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = 6"),
    ("twenty minutes", "minutes = 20\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 17\nversions = 2"),
    ("ninety minutes", "minutes = 90\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 22\nversions = 2"),
    (
        "large print",
        "paper = \"a4\"\nminutes = 50\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 9\n[print]\ntext = \"large\"",
    ),
    ("one learner", "[numbers]\nrange = [100, 999]\n[class]\nlearners = 1\nspares = 0"),
    (
        "no model numbers",
        "minutes = 40\n[numbers]\nrange = [100, 999]\n[numbers.model]\ncount = 0\n[class]\nlearners = 21\nversions = 2",
    ),
    (
        "words of our own",
        "grade = \"3\"\nminutes = 55\npaper = \"a4\"\n[numbers]\nrange = [1000, 9999]\n[forms]\nmatch = [\"numeral\", \"words\", \"expanded\", \"units\"]\nnames = { numeral = \"Standard form\", words = \"Word form\", expanded = \"Stretched form\" }\n[class]\nlearners = 23\nversions = 2",
    ),
    (
        "guillotine",
        "minutes = 45\n[numbers]\nrange = [10, 99]\n[class]\nlearners = 25\nspares = 3\nversions = 3\n[print]\ncut = \"stack\"\nsides = \"two\"",
    ),
    (
        "checks only",
        "minutes = 15\n[numbers]\nrange = [0, 99]\n[numbers.model]\ncount = 0\n[numbers.sort]\ncount = 0\n[numbers.exit]\ncount = 4",
    ),
    (
        "all morning",
        "minutes = 240\ngrade = \"2\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 20\nversions = 2\n[sheets]\nmake = [\"display\", \"board\", \"strips\", \"exit\", \"key\"]",
    ),
    ("up to ten", "minutes = 25\ngrade = \"1\"\n[numbers]\nrange = [0, 10]\n[class]\nlearners = 12"),
    (
        "strips and key",
        "minutes = 30\ngrade = \"2\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 20\nversions = 2\n[sheets]\nmake = [\"strips\", \"key\"]",
    ),
    (
        "checks, key and tally",
        "minutes = 15\ngrade = \"2\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 25\n[sheets]\nmake = [\"exit\", \"key\", \"tally\"]",
    ),
    (
        "display and checks",
        "minutes = 20\ngrade = \"2\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 20\n[sheets]\nmake = [\"display\", \"exit\"]",
    ),
    (
        "tub of blocks",
        "minutes = 50\n[numbers]\nrange = [100, 999]\nat_most = { hundreds = 6 }\n[sheets]\nmake = [\"record\", \"board\", \"exit\", \"key\"]",
    ),
    (
        "large numbers",
        "grade = \"4\"\nminutes = 60\n[numbers]\nrange = [10000, 999999]\n[forms]\nmatch = [\"numeral\", \"expanded\", \"units\"]\nzero_terms = true\njoiner = \"and\"\n[class]\nlearners = 31",
    ),
    ("four groups", concat!("minutes = 55\npaper = \"letter\"\n", include_str!("truth/groups.toml"))),
    ("four groups on tall paper", concat!("minutes = 60\npaper = \"a4\"\n", include_str!("truth/groups.toml"))),
    (
        "cuatro grupos",
        concat!(
            "language = \"es\"\ngrade = \"2\"\nminutes = 60\npaper = \"letter\"\n",
            include_str!("truth/groups.toml")
        ),
    ),
    ("groups without a tally", concat!("minutes = 50\n", include_str!("truth/two_groups.toml"))),
    (
        "grupos sin lista",
        concat!("language = \"es\"\nminutes = 50\npaper = \"a4\"\n", include_str!("truth/two_groups.toml")),
    ),
];

/// Every sample and every lesson of our own, made once.
fn envelopes() -> &'static [Envelope] {
    static ALL: LazyLock<Vec<Envelope>> = LazyLock::new(|| {
        let samples = samples::files().into_iter().map(|path| {
            let text = std::fs::read_to_string(&path).expect("a sample");
            Envelope::of(&path.file_stem().unwrap().to_string_lossy(), &text, path.parent())
        });
        let own = LESSONS
            .iter()
            .map(|(name, text)| Envelope::of(name, &format!("title = \"The {name} lesson\"\n{text}\n"), None));
        samples.chain(own).collect()
    });
    &ALL
}

fn english() -> impl Iterator<Item = &'static Envelope> {
    envelopes().iter().filter(|held| held.lesson.spec.language.value == Language::En)
}

/// Fails with everything that was found.
fn report(faults: &[String], read: usize) {
    assert!(faults.is_empty(), "{} of {read} statements are not true:\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn what_a_plan_states_is_in_the_packet() {
    let (mut faults, mut read) = (Vec::new(), 0);
    for held in english() {
        let mut scene = Scene { chores: chores(held), ..Scene::default() };
        for block in blocks(held.of_kind(SheetKind::Plan)) {
            if let Block::Paragraph(text) = &block
                && let Some(minutes) = fit("{} minutes", text).or_else(|| fit("{} minute", text))
            {
                scene.minutes = rules::count(minutes[0]);
                continue;
            }
            let label = if let Block::Entry(label, _) = &block { label.as_str() } else { "" };
            if label == "Ask" {
                let [question, expect] = block.texts()[..] else { panic!("{block:?}") };
                let expect = expect.strip_prefix("Expect: ").expect("an answer");
                check(&usual_words(held, question), expect, scene.number, held.lesson.style.zero_terms);
                read += 1;
                continue;
            }
            for text in block.texts() {
                let verdict = match label {
                    "Table" => Some(plan::table(held, &scene, text)),
                    _ => judge(plan::RULES, held, &scene, text),
                };
                match verdict {
                    Some(Ok(())) => read += 1,
                    Some(Err(why)) => faults.push(format!("{}: {text}\n    {why}", held.name)),
                    None if is_time(text) || figures(text).is_empty() || text.starts_with("Thinking:") => {}
                    None => faults.push(format!("{}: {text}\n    nobody checks this", held.name)),
                }
                if let Some(number) = spoken_of(text) {
                    scene.number = number;
                }
            }
        }
    }
    assert!(read > 800, "{read}");
    report(&faults, read);
}

/// A question with the program's words for forms in the place of the class's.
fn usual_words(held: &Envelope, question: &str) -> String {
    let usual = [(Form::Expanded, "expanded form"), (Form::Words, "words"), (Form::Numeral, "figures")];
    usual.iter().fold(question.to_owned(), |text, (form, word)| {
        held.lesson.spec.forms.names.get(*form).map_or(text.clone(), |own| text.replace(&own.to_lowercase(), word))
    })
}

/// The number that a plan goes on to speak of.
fn spoken_of(text: &str) -> Option<u32> {
    let starts = [
        "Write {} where {}",
        "Write {} on the board.",
        "Point to {} again.",
        "Show step 1 of the display for {}: {}",
        "Find the row for {} on {}",
        "Everyone writes {} at {}",
        "The learner writes {} at {}",
    ];
    starts.iter().find_map(|start| fit(start, text)).map(|holes| rules::count(holes[0]))
}

/// "0–3", the clock of a phase.
fn is_time(text: &str) -> bool {
    text.chars().all(|c| c.is_ascii_digit() || c == '\u{2013}')
}

/// The minutes of what is done before the lesson, added up.
fn chores(held: &Envelope) -> u32 {
    let minutes = |block: &Block| match block {
        Block::Entry(label, _) => label.strip_suffix(" min")?.parse::<u32>().ok(),
        _ => None,
    };
    blocks(held.of_kind(SheetKind::Plan)).iter().filter_map(minutes).sum()
}

#[test]
fn the_clock_of_a_plan_runs_from_0_to_the_end() {
    for held in envelopes() {
        let mut end = 0;
        for block in blocks(held.of_kind(SheetKind::Plan)) {
            let Block::Paragraph(text) = &block else { continue };
            let Some((from, to)) = text.split_once('\u{2013}').filter(|_| is_time(text)) else { continue };
            let (from, to): (u32, u32) = (from.parse().expect("minutes"), to.parse().expect("minutes"));
            // A phase that goes on over a page is named again.
            assert!(from == end || to == end, "{}: {text} after {end}", held.name);
            end = end.max(to);
        }
        assert_eq!(end, held.lesson.spec.minutes.value, "{}", held.name);
    }
}

#[test]
fn what_a_cover_states_is_in_the_packet() {
    let (mut faults, mut read) = (Vec::new(), 0);
    for held in english() {
        for block in blocks(held.of_kind(SheetKind::Cover)) {
            // Its tables are read by themselves.
            let texts = if matches!(block, Block::Row(_)) { Vec::new() } else { block.texts() };
            for text in texts {
                match judge(cover::RULES, held, &Scene::default(), text) {
                    Some(Ok(())) => read += 1,
                    Some(Err(why)) => faults.push(format!("{}: {text}\n    {why}", held.name)),
                    None if figures(text).is_empty() || text.contains(&*held.lesson.spec.title.value) => {}
                    None => faults.push(format!("{}: {text}\n    nobody checks this", held.name)),
                }
            }
        }
    }
    assert!(read > 100, "{read}");
    report(&faults, read);
}

/// It is read at a glance, and is the page to leave on the desk.
#[test]
fn every_cover_is_one_page() {
    let long: Vec<_> = envelopes().iter().filter(|held| held.of_kind(SheetKind::Cover).count() != 1).collect();
    assert!(long.is_empty(), "{:?}", long.iter().map(|held| &held.name).collect::<Vec<_>>());
}

/// The rows of a cover's tables without their heads: the packet's pages, what is laid out, the pages of each letter.
fn tables(held: &Envelope) -> [Vec<Vec<String>>; 3] {
    let mut tables: Vec<Vec<Vec<String>>> = Vec::new();
    for block in blocks(held.of_kind(SheetKind::Cover)) {
        let Block::Row(cells) = block else { continue };
        let letter = cells[0].len() == 1 && cells[0].starts_with(char::is_uppercase);
        if letter || cells[0].starts_with(|c: char| c.is_ascii_digit()) {
            tables.last_mut().expect("a head").push(cells);
        } else {
            tables.push(Vec::new());
        }
    }
    if held.lesson.groups.is_empty() {
        tables.push(Vec::new());
    }
    tables.try_into().expect("two tables, and with groups a third")
}

/// "30–31 (1 copy)": the pages, and of how many copies, where that is said.
fn copied(cell: &str) -> (&str, Option<u32>) {
    cell.split_once(" (").map_or((cell, None), |(range, copies)| (range, figures(copies).first().copied()))
}

#[test]
fn a_cover_lists_every_page_and_no_other_with_the_copies_that_the_class_needs() {
    for held in envelopes() {
        let mut next = held.of_kind(SheetKind::Cover).count() + 1;
        let [listed, _, lettered] = tables(held);
        let mut of_letters = BTreeSet::new();
        for cells in lettered {
            let mut cells = cells;
            // Numbers of learners are read by themselves.
            if held.lesson.shares().iter().all(|share| share.learners.len() == 1) {
                cells.remove(2);
            }
            let [letter, whose, copies, of_sheets @ ..] = cells.as_slice() else { panic!("{cells:?}") };
            let group = held.lesson.groups.iter().find(|g| g.versions.iter().any(|v| v.to_string() == *letter));
            let rest = ["Everyone else", "Los dem\u{e1}s"].contains(&whose.as_str());
            assert_eq!(group.expect("a group").name.as_ref(), Some(whose).filter(|_| !rest), "{}", held.name);
            for cell in of_sheets.iter().filter(|cell| !cell.is_empty()) {
                let (range, own) = copied(cell);
                let said = own.map_or(copies.clone(), |own| own.to_string());
                for folio in rules::pages(range) {
                    let page = &held.pages[folio - 1];
                    assert_eq!(page.version.map(|v| v.to_string()).as_ref(), Some(letter), "{}: {cell}", held.name);
                    assert_eq!(cover::needed(held, folio).to_string(), said, "{}: {cell}", held.name);
                    assert!(of_letters.insert(folio), "{}: page {folio} twice", held.name);
                }
            }
        }
        for cells in listed {
            let [range, what, copies] = cells.as_slice() else { panic!("{cells:?}") };
            let below = what.ends_with(": see below") || what.ends_with(": ver abajo");
            for folio in rules::pages(range) {
                assert_eq!(folio, next, "{}: {range} {what}", held.name);
                next += 1;
                let page = &held.pages[folio - 1];
                assert_eq!(Envelope::folio(page), Some(folio.to_string()), "{}: {}", held.name, page.name);
                if below {
                    assert!(of_letters.remove(&folio) && copies.is_empty(), "{}: page {folio} {what}", held.name);
                    continue;
                }
                // The same page in the lesson's second language follows it.
                let second = held.lesson.second().is_some();
                assert!(
                    page.name.starts_with(what) || second && page.sheet == SheetKind::Family,
                    "{}: page {folio} is `{}`, not `{what}`",
                    held.name,
                    page.name
                );
                let learners = placewright::sheets::of_learners().any(|kind| kind == page.sheet);
                let needed = if learners { cover::needed(held, folio) } else { 0 };
                let needed = if needed > 0 { needed.to_string() } else { String::new() };
                assert_eq!(*copies, needed, "{}: {range} {what}", held.name);
            }
        }
        assert_eq!(next, held.pages.len() + 1, "{}", held.name);
        assert!(of_letters.is_empty(), "{}: {of_letters:?} are listed twice", held.name);
    }
}

#[test]
fn what_a_cover_has_laid_out_is_in_the_copy_rooms_files() {
    let mut faults = Vec::new();
    for held in english() {
        let mut listed = Vec::new();
        let [_, laid, _] = tables(held);
        for cells in laid {
            let [count, what] = cells.as_slice() else { panic!("{cells:?}") };
            let count: u32 = count.parse().expect("a count");
            let mut wrong = |why: String| faults.push(format!("{}: {count} {what}\n    {why}", held.name));
            if let Some(holes) = fit("packets ({})", what).or_else(|| fit("packet ({})", what)) {
                let (sheets, letters) = holes[0].split_once("; letters ").unwrap_or((holes[0], ""));
                let sheets: BTreeSet<SheetKind> = rules::listed(sheets).into_iter().map(rules::sheet).collect();
                if !held.packets().contains(&sheets) {
                    wrong(format!("packets hold {:?}", held.packets()));
                }
                for kind in &sheets {
                    if held.copies(*kind) != count as usize {
                        wrong(format!("{} of {} are printed", held.copies(*kind), kind.word()));
                    }
                }
                let printed: Vec<String> = held.letters(SheetKind::Board).iter().map(ToString::to_string).collect();
                if !letters.is_empty() && rules::letters(letters) != printed {
                    wrong(format!("{printed:?} are printed"));
                }
                listed.extend(sheets);
                continue;
            }
            if what.starts_with("sheets of paper") || what.starts_with("sheet of paper") {
                let plan = read::whole(held.of_kind(SheetKind::Plan));
                if !plan.contains("paper and a pencil") && !plan.contains("paper folded") {
                    wrong("the plan uses none".to_owned());
                }
                continue;
            }
            let Some(kind) = rules::named(what).filter(|_| !what.starts_with("envelope")) else {
                let share = if what.contains("class tub") { held.share(SheetKind::Mat) } else { 1 };
                if count != held.learners().div_ceil(share) {
                    wrong(format!("there are {} learners", held.learners()));
                }
                continue;
            };
            listed.push(kind);
            let copies = held.copies(kind);
            // Slips fill their pages, and so do blocks: there may be more.
            let right = if kind == SheetKind::Exit { copies >= count as usize } else { copies == count as usize };
            if !right {
                wrong(format!("{copies} are printed"));
            }
            if let Some(share) = what.split_once("one for ").map(|(_, rest)| figures(rest)[0])
                && share != held.share(kind)
            {
                wrong(format!("{} share one", held.share(kind)));
            }
            if let Some(pages) = what.split_once(" pages each").and_then(|(front, _)| figures(front).pop())
                && pages as usize != held.pages_of(kind)
            {
                wrong(format!("one has {} pages", held.pages_of(kind)));
            }
            if let Some(letters) = what.split_once("letters ").map(|(_, rest)| rest.trim_end_matches(')')) {
                let printed: Vec<String> = held.letters(kind).iter().map(ToString::to_string).collect();
                if rules::letters(letters) != printed {
                    wrong(format!("{printed:?} are printed"));
                }
            }
        }
        let together: Vec<_> = held.packets().into_iter().flatten().collect();
        let apart = laid_apart(held).into_iter().filter(|kind| together.contains(kind));
        faults.extend(apart.map(|kind| format!("{}: {} come in packets", held.name, kind.word())));
        for kind in placewright::sheets::of_learners().filter(|kind| held.has(*kind) != listed.contains(kind)) {
            faults.push(format!("{}: {} is listed or in the packet, not both", held.name, kind.word()));
        }
    }
    report(&faults, 0);
}

/// The sheets that a cover has laid out in piles of their own.
fn laid_apart(held: &Envelope) -> Vec<SheetKind> {
    let [_, laid, _] = tables(held);
    let single = laid.iter().filter(|cells| !cells[1].starts_with("packet") && !cells[1].starts_with("envelope"));
    single.filter_map(|cells| rules::named(&cells[1])).collect()
}

#[test]
fn no_page_names_a_sheet_that_is_not_there() {
    let mut faults = Vec::new();
    for held in english() {
        // The page for home has cards of its own.
        let pages: Vec<&Page> = held.pages.iter().filter(|page| page.sheet != SheetKind::Family).collect();
        let missing: Vec<SheetKind> = SheetKind::ALL.into_iter().filter(|kind| !held.has(*kind)).collect();
        for page in pages {
            let of_plan = matches!(page.sheet, SheetKind::Plan | SheetKind::Cover);
            for block in blocks([page]) {
                for text in block.texts().into_iter().filter(|text| !text.contains(&*held.lesson.spec.title.value)) {
                    // A wrong or right form of a number may be a picture, which is told by its pieces.
                    let pieces = !of_plan
                        || held.lesson.has_tub()
                        || text.contains(';')
                        || ["If the strip", "Check "].iter().any(|start| text.starts_with(start));
                    let words = || text.split(|c: char| !(c.is_alphanumeric() || c == '-')).map(str::to_lowercase);
                    for kind in missing.iter().filter(|kind| !(pieces && **kind == SheetKind::Blocks)) {
                        if let Some(word) = words().find(|word| speaks_of(*kind).contains(&word.as_str())) {
                            let (kind, page) = (kind.word(), &page.name);
                            faults.push(format!("{}, {page}: {text}\n    {word}: {kind} is not made", held.name));
                        }
                    }
                }
            }
        }
    }
    report(&faults, 0);
}

#[test]
fn letters_of_slips_are_the_same_on_key_and_tally() {
    for held in
        english().filter(|held| held.has(SheetKind::Key) && held.has(SheetKind::Tally) && !held.lesson.slips.is_empty())
    {
        let slips = held.slips();
        assert!(!slips.is_empty(), "{}: no slips", held.name);
        let tally = read::whole(held.of_kind(SheetKind::Tally));
        for (letter, slip) in &slips {
            assert!(
                tally.contains(&format!("{letter}\n{slip}: ")) || tally.contains(&format!("{letter} {slip}: ")),
                "{}: {letter} {slip}\n{tally}",
                held.name
            );
        }
    }
}

#[test]
fn no_last_page_is_nearly_empty() {
    let mut faults = Vec::new();
    for held in envelopes() {
        for (kind, share) in [(SheetKind::Plan, 3), (SheetKind::SmallGroups, 4), (SheetKind::Key, 4)] {
            // A board's key has a page of its own; what all share goes on over several.
            let all: Vec<&Page> = held.of_kind(kind).collect();
            let name = all.last().map(|page| page.name.as_str());
            let shared = |page: &&Page| kind != SheetKind::Key || Some(page.name.as_str()) == name;
            let pages: Vec<&Page> = all.iter().copied().filter(shared).collect();
            let Some(last) = pages.last().filter(|_| pages.len() > 1) else { continue };
            let mut lowest = Length::ZERO;
            for node in last.layers.iter().flat_map(|layer| &layer.nodes) {
                node.each(&mut |item| {
                    // The foot is small.
                    if let Item::Text(text) = item
                        && text.at.y < last.size.height - Length::mm(20)
                    {
                        lowest = lowest.max(text.at.y);
                    }
                });
            }
            if lowest < last.size.height.scaled(1, share) {
                faults.push(format!(
                    "{}: {kind:?}: {lowest} of {} on page {}",
                    held.name,
                    last.size.height,
                    pages.len()
                ));
            }
        }
    }
    report(&faults, envelopes().len());
}
