//! What plan and cover say, compared with what is in the packet: every sheet, count, page number and answer.
//!
//! The finished pages are read as whoever stands in reads them. A statement with a figure in it that no rule knows is a
//! fault too, so that none is left unread.

mod belongs;
mod cover;
mod cover_tables;
mod es_cover;
mod es_plan;
mod goals;
mod late;
mod packet;
mod plan;
mod read;
mod rules;
mod stated;
mod tongue;
mod uncut;

use std::sync::LazyLock;

use crate::support::answers::figures;
use crate::support::samples;
use crate::support::sheet_words::speaks_of;
use packet::Envelope;
use placewright::measure::Length;
use placewright::number::Form;
use placewright::sheets::page::{Item, Page};
use placewright::spec::{Language, SheetKind};
use read::{Block, blocks, fit};
use rules::Scene;
use tongue::Tongue;

/// Lessons of our own, as unlike as they come.
const LESSONS: [(&str, &str); 30] = [
    ("step by step", "[numbers]\nrange = [100, 999]\n[sheets]\ndisplay = \"steps\""),
    ("board and strips only", "grade = \"2\"\n[numbers]\nrange = [100, 999]\n[sheets]\nmake = [\"board\", \"strips\"]"),
    (
        "no time to cut",
        "minutes = 20\ngrade = \"2\"\n[numbers]\nrange = [100, 599]\n[numbers.sort]\ncount = 6\n[class]\nlearners = 22\nversions = 2\n[sheets]\nmake = [\"board\", \"strips\"]",
    ),
    ("groups in twenty-five minutes", concat!("minutes = 25\npaper = \"letter\"\n", include_str!("truth/groups.toml"))),
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
    (
        "tablero y tiras",
        "language = \"es\"\ngrade = \"2\"\nminutes = 20\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 17\nversions = 2\n[sheets]\nmake = [\"board\", \"strips\"]",
    ),
    (
        "millares paso a paso",
        "language = \"es\"\ngrade = \"3\"\nminutes = 90\npaper = \"a4\"\n[numbers]\nrange = [1000, 9999]\n[forms]\nmatch = [\"numeral\", \"words\", \"expanded\", \"units\"]\nnames = { expanded = \"Suma de partes\" }\n[class]\nlearners = 22\nversions = 2\n[sheets]\ndisplay = \"steps\"",
    ),
    (
        "un solo estudiante",
        "language = \"es\"\nminutes = 45\n[numbers]\nrange = [10, 99]\n[forms]\nmatch = [\"numeral\", \"regrouped\", \"words\"]\n[class]\nlearners = 1\nspares = 0",
    ),
    (
        "guillotina",
        "language = \"es\"\nminutes = 45\n[numbers]\nrange = [100, 999]\nat_most = { hundreds = 6 }\n[class]\nlearners = 25\nspares = 3\nversions = 3\n[print]\ncut = \"stack\"\nsides = \"two\"",
    ),
    (
        "solo controles",
        "language = \"es\"\ngrade = \"4\"\nminutes = 15\n[numbers]\nrange = [10000, 999999]\n[numbers.model]\ncount = 0\n[numbers.sort]\ncount = 0\n[numbers.exit]\ncount = 4",
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

/// Fails with everything that was found.
fn report(faults: &[String], read: u32) {
    assert!(faults.is_empty(), "{} of {read} statements are not true:\n{}", faults.len(), faults.join("\n"));
}

#[test]
fn what_a_plan_states_is_in_the_packet() {
    let (mut faults, mut read) = (Vec::new(), [0; 2]);
    for held in envelopes() {
        let spanish = usize::from(held.lesson.spec.language.value == Language::Es);
        read[spanish] += plan_read(held, &mut faults);
    }
    assert!(read[0] > 800 && read[1] > 300, "{read:?}");
    report(&faults, read.iter().sum());
}

/// Reads a plan statement by statement. Gives how many were read and are true.
fn plan_read(held: &Envelope, faults: &mut Vec<String>) -> u32 {
    let tongue = Tongue::of(held);
    let mut read = 0;
    let mut scene = Scene { chores: chores(held), ..Scene::default() };
    for block in blocks(held.of_kind(SheetKind::Plan)) {
        if let Block::Paragraph(text) = &block
            && let Some(minutes) = tongue.minutes.iter().find_map(|words| fit(words, text))
        {
            scene.minutes = rules::count(minutes[0]);
            continue;
        }
        let label = if let Block::Entry(label, _) = &block { label.as_str() } else { "" };
        if label == tongue.ask {
            let [question, expect] = block.texts()[..] else { panic!("{block:?}") };
            let expect = expect.strip_prefix(tongue.expect).expect("an answer");
            let (asked, zeros) = (usual_words(held, question), held.lesson.style.zero_terms);
            // It stops at the first answer that is wrong: the others are read all the same.
            match std::panic::catch_unwind(|| (tongue.check)(&asked, expect, scene.number, zeros)) {
                Ok(()) => read += 1,
                Err(_) => faults.push(format!("{}: {question} {expect}", held.name)),
            }
            continue;
        }
        for text in block.texts() {
            let verdict = match label {
                label if label == tongue.table => Some(stated::table(held, text)),
                _ => tongue.judge(SheetKind::Plan, held, &scene, text),
            };
            read += u32::from(matches!(verdict, Some(Ok(()))));
            faults.extend(fault(held, text, verdict));
            if let Some(number) = tongue.spoken_of(text) {
                scene.number = number;
            }
        }
    }
    read
}

/// What is wrong with a statement: it is not true, or has a figure and no rule reads it. What a learner thinks when a slip is made is
/// of every lesson, and the title is the teacher's own.
fn fault(held: &Envelope, text: &str, verdict: Option<rules::Check>) -> Option<String> {
    match verdict {
        Some(Ok(())) => None,
        Some(Err(why)) => Some(format!("{}: {text}\n    {why}", held.name)),
        None if is_time(text) || figures(text).is_empty() || text.starts_with(Tongue::of(held).thinking) => None,
        None if text.contains(&*held.lesson.spec.title.value) => None,
        None => Some(format!("{}: {text}\n    nobody checks this", held.name)),
    }
}

/// No sentence goes unread because nobody thought of it.
#[test]
fn a_sentence_with_a_figure_that_no_rule_reads_is_a_fault() {
    let texts = ["Hop 7 times round the room.", "Salten 7 veces alrededor del sal\u{f3}n."];
    for (language, text) in [Language::En, Language::Es].into_iter().zip(texts) {
        let held = envelopes().iter().find(|held| held.lesson.spec.language.value == language).expect("a lesson");
        for sheet in [SheetKind::Plan, SheetKind::Cover] {
            let verdict = Tongue::of(held).judge(sheet, held, &Scene::default(), text);
            let fault = fault(held, text, verdict).expect("a fault");
            assert!(fault.contains("nobody checks this"), "{fault}");
            assert_eq!(self::fault(held, &text.replace('7', "some"), None), None);
        }
        // And what one reads is compared: a count that is not the class's is one too.
        let [plan, cover] = if language == Language::En {
            [
                "Count the scissors back in: 99 pairs, closed.",
                "Read the plan on pages 98\u{2013}99: bold lines are said aloud, and each question has its answer beside it.",
            ]
        } else {
            [
                "Cuente las tijeras al recogerlas: 99, cerradas.",
                "Lea el plan en las p\u{e1}ginas 98\u{2013}99: las l\u{ed}neas en negrita se dicen en voz alta, y cada pregunta lleva al lado su respuesta.",
            ]
        };
        for (sheet, text) in [(SheetKind::Plan, plan), (SheetKind::Cover, cover)] {
            let verdict = Tongue::of(held).judge(sheet, held, &Scene::default(), text);
            assert!(matches!(verdict, Some(Err(_))), "{text}: {verdict:?}");
        }
    }
}

/// A question with the program's words for forms in the place of the class's.
fn usual_words(held: &Envelope, question: &str) -> String {
    let usual = [(Form::Expanded, "expanded form"), (Form::Words, "words"), (Form::Numeral, "figures")];
    usual.iter().fold(question.to_owned(), |text, (form, word)| {
        held.lesson.spec.forms.names.get(*form).map_or(text.clone(), |own| text.replace(&own.to_lowercase(), word))
    })
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
    let (mut faults, mut read) = (Vec::new(), [0; 2]);
    for held in envelopes() {
        let spanish = usize::from(held.lesson.spec.language.value == Language::Es);
        for block in blocks(held.of_kind(SheetKind::Cover)) {
            // Its tables are read by themselves.
            let texts = if matches!(block, Block::Row(_)) { Vec::new() } else { block.texts() };
            for text in texts {
                let verdict = Tongue::of(held).judge(SheetKind::Cover, held, &Scene::default(), text);
                read[spanish] += u32::from(matches!(verdict, Some(Ok(()))));
                faults.extend(fault(held, text, verdict));
            }
        }
    }
    assert!(read[0] > 100 && read[1] > 40, "{read:?}");
    report(&faults, read.iter().sum());
}

/// It is read at a glance, and is the page to leave on the desk.
#[test]
fn every_cover_is_one_page() {
    let long: Vec<_> = envelopes().iter().filter(|held| held.of_kind(SheetKind::Cover).count() != 1).collect();
    assert!(long.is_empty(), "{:?}", long.iter().map(|held| &held.name).collect::<Vec<_>>());
}

#[test]
fn no_page_names_a_sheet_that_is_not_there() {
    let mut faults = Vec::new();
    for held in envelopes() {
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
                        || ["If the strip", "Check ", "Si la tira", "Control "]
                            .iter()
                            .any(|start| text.starts_with(start));
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

/// Wrong words that name a number: the key says which, beside the strip.
#[test]
fn a_key_says_what_wrong_words_name() {
    let mut read = 0;
    let english = |held: &&Envelope| held.lesson.spec.language.value == Language::En && !held.lesson.style.and;
    for held in envelopes().iter().filter(english).filter(|held| held.has(SheetKind::Key)) {
        let rows: Vec<Vec<String>> = blocks(held.of_kind(SheetKind::Key))
            .into_iter()
            .filter_map(|block| if let Block::Row(cells) = block { Some(cells) } else { None })
            .collect();
        let strips = held.lesson.sets.iter().flat_map(|set| &set.strips);
        let wrong = strips.filter(|strip| strip.form == Form::Words && strip.wrong.is_some());
        for text in wrong.filter_map(|strip| strip.content.line()) {
            let Some(number) = (0..=9_999).find(|n| crate::support::answers::spelled(*n) == text) else { continue };
            // Where no decoy is a picture each strip says by itself what it shows.
            for cells in rows.iter().filter(|cells| cells.len() == 5 && cells[0] == text) {
                assert_eq!(cells[1].replace(',', ""), number.to_string(), "{}: {cells:?}", held.name);
                read += 1;
            }
        }
    }
    assert!(read > 3, "{read}");
}

#[test]
fn letters_of_slips_are_the_same_on_key_and_tally() {
    for held in envelopes()
        .iter()
        .filter(|held| held.has(SheetKind::Key) && held.has(SheetKind::Tally) && !held.lesson.slips.is_empty())
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
    report(&faults, 0);
}

/// What lies on the table is not taken out of a packet again.
#[test]
fn no_sheet_is_taken_out_of_a_packet_twice() {
    let starts = [
        "Learners take {} out of their packets.",
        "The learner takes {} out of the packet.",
        "Los estudiantes sacan {} de su paquete.",
        "El estudiante saca {} del paquete.",
    ];
    let mut read = 0;
    // Long enough for the practice page, which then goes home.
    let long = Envelope::of(
        "long",
        "title = \"Long\"\nminutes = 120\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 9\n[sheets]\n\
         make = [\"record\", \"board\", \"strips\", \"exit\", \"key\", \"practice\", \"family\"]\n",
        None,
    );
    let plan = read::whole(long.of_kind(SheetKind::Plan));
    assert!(plan.contains("works on the practice page"), "{plan}");
    for held in envelopes().iter().chain([&long]) {
        let mut out = Vec::new();
        for block in blocks(held.of_kind(SheetKind::Plan)) {
            for text in block.texts() {
                let said = starts.iter().find_map(|start| fit(start, text)).map(|holes| holes[0]);
                let now = text.split_once("They take out ").or_else(|| text.split_once("Sacan "));
                let Some(said) = said.or(now.and_then(|(_, rest)| rest.split([',', '.']).next())) else { continue };
                for kind in rules::listed(said).into_iter().filter_map(rules::named) {
                    assert!(!out.contains(&kind), "{}: {text}", held.name);
                    out.push(kind);
                    read += 1;
                }
            }
        }
    }
    assert!(read > 60, "{read}");
}
