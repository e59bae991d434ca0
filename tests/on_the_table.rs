//! A plan asks for nothing that was not shown, lays out nothing that no step uses, and says of whose numbers it speaks.

mod pieces;

use crate::support::answers::{counted, figures, spelled};
use crate::support::packets::{masters, texts};
use crate::support::{means, setup};
use std::collections::BTreeSet;
use std::sync::LazyLock;

use placewright::lesson::Lesson;
use placewright::lesson::job::{FileFacts, JobFacts, PartFacts, PartKind, PrintSides, Stock};
use placewright::lesson::teach::{self, Means, Step, materials};
use placewright::lesson::timing::{self, Phase};
use placewright::number::{Form, Number, traded};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec::{Keep, SheetKind};
use placewright::wording::plan::{Chore, Deed, Laid, Said, Thing};

/// Numbers of a lesson: its range, model numbers, two sets, exit numbers.
type Numbers = ((u32, u32), &'static [u32], [&'static [u32]; 2], &'static [u32]);
const NUMBERS: [Numbers; 5] = [
    ((10, 99), &[40, 18], [&[14, 41, 70, 11], &[27, 72, 50, 63]], &[13, 30]),
    ((100, 999), &[600, 621], [&[820, 548, 802, 479], &[750, 507, 260, 423]], &[911, 264]),
    ((100, 999), &[300, 600], [&[200, 500, 700, 900], &[400, 800, 100, 600]], &[911, 264]),
    ((1_000, 9_999), &[4_210, 5_055], [&[6_007, 1_350, 6_070], &[2_480, 2_048, 9_100]], &[3_008]),
    ((10_000, 999_999), &[24_507], [&[120_350, 102_350, 18_018], &[77_410, 74_710, 500_500]], &[999_999]),
];
const FORMS: [&str; 3] = [
    "[\"numeral\", \"words\", \"expanded\", \"blocks\"]",
    "[\"numeral\", \"regrouped\", \"untraded\", \"expanded\"]",
    "[\"numeral\", \"words\", \"untraded\"]",
];
const LARGE: [&str; 2] = ["[\"numeral\", \"words\", \"expanded\"]", "[\"numeral\", \"regrouped\", \"expanded\"]"];
const MAKE: [&str; 3] = [
    "",
    "[sheets]\nmake = [\"board\", \"strips\", \"exit\", \"key\"]\n",
    "[sheets]\nmake = [\"mat\", \"record\", \"board\", \"tally\"]\n",
];

/// Lessons as unlike as they come, with their text: made once.
fn lessons() -> &'static [(String, Lesson)] {
    static ALL: LazyLock<Vec<(String, Lesson)>> = LazyLock::new(|| {
        let mut all = Vec::new();
        for ((least, most), model, sort, exit) in NUMBERS {
            let forms = if most > 9_999 { &LARGE[..] } else { &FORMS[..] };
            for (k, minutes) in [10, 20, 50].into_iter().enumerate() {
                for (j, forms) in forms.iter().enumerate() {
                    for (i, make) in MAKE.into_iter().enumerate() {
                        // Each of these with every kind of sheets, in turn.
                        let turns = [(model, TUB), (model, ""), (&[][..], ""), (&[][..], TUB)];
                        let (model, tub) = turns[(k + j + 2 * i) % 4];
                        let text = format!(
                            "title = \"Crates\"\nminutes = {minutes}\nseed = 9\n[numbers]\nrange = [{least}, {most}]\n{tub}\
                         [numbers.model]\ncount = {}\n[numbers.sort]\ncount = {}\n[numbers.exit]\ncount = {}\n\
                         [forms]\nmatch = {forms}\n[class]\nversions = 2\n{make}",
                            model.len(),
                            sort[0].len(),
                            exit.len()
                        );
                        let lesson = setup::with(&text, model, &sort, exit);
                        all.push((text, lesson));
                    }
                }
            }
        }
        all
    });
    &ALL
}

const TUB: &str = "at_most = { ones = 19, tens = 19, hundreds = 19 }\n";

/// What is done, said or asked, phase by phase, in order.
fn told(lesson: &Lesson) -> Vec<(Phase, Vec<String>)> {
    let texts = |steps: &[Step]| {
        let told = steps.iter().map(|step| means::told(lesson, step));
        told.filter(|texts| !texts.is_empty()).map(|texts| texts.join(" ")).collect()
    };
    means::plan(lesson).phases.iter().map(|part| (part.phase, texts(&part.steps))).collect()
}

fn trades(lesson: &Lesson) -> bool {
    lesson.matched().iter().any(|form| form.is_traded()) && lesson.spec.sheets.make.value.contains(&SheetKind::Board)
}

#[test]
fn whoever_fills_in_or_matches_a_trade_has_seen_one() {
    let mut read = 0;
    for (name, lesson) in lessons().iter().filter(|(_, lesson)| trades(lesson)) {
        let mut seen = false;
        for (phase, texts) in told(lesson) {
            let own = texts.iter().position(|text| {
                text.contains("the other boxes")
                    || text.contains("Find the strips")
                    || text.contains("the same number in one row")
            });
            for (k, text) in texts.iter().enumerate() {
                seen |= text.contains("rade") && text.contains("is still");
                assert!(own != Some(k) || seen, "{name}\n{phase:?}: {text}: no trade was shown");
                read += usize::from(own == Some(k));
            }
        }
    }
    assert!(read > 60, "{read}");
}

/// Some number that learners match or write is shown with several pieces traded.
fn trades_several(lesson: &Lesson) -> bool {
    let trading = lesson.style.trading;
    let several = |n: Number, counted: Option<[u32; 6]>| counted.is_some_and(|c| traded(n, &c).iter().sum::<u32>() > 1);
    let forms = lesson.matched();
    let mut rows = lesson.sets.iter().flat_map(|set| &set.rows).copied();
    rows.any(|n| {
        forms.contains(&Form::Regrouped) && several(n, trading.regrouped(n))
            || forms.contains(&Form::Untraded) && several(n, trading.pictured(n))
    })
}

/// Kits hold ten more than a digit needs: several pieces are traded without them, and it is shown how before a strip has it.
#[test]
fn several_pieces_are_traded_in_the_head_and_shown_first() {
    let mut read = 0;
    for (name, lesson) in lessons().iter().filter(|(_, lesson)| trades(lesson) && trades_several(lesson)) {
        let mut seen = false;
        for (phase, texts) in told(lesson) {
            for text in texts {
                seen |= text.starts_with("Several pieces, in the head: ");
                let own = ["the other boxes", "Find the strips", "the same number in one row", "strips belong to"];
                assert!(seen || !own.iter().any(|own| text.contains(own)), "{name}\n{phase:?}: {text}");
                let more = text.split_once(" and trade ").filter(|_| !text.contains("one after another"));
                assert!(more.is_none_or(|(_, trade)| trade.starts_with("1 ")), "{name}\n{phase:?}: {text}");
                read += usize::from(seen);
            }
        }
        assert!(seen, "{name}");
    }
    assert!(read > 60, "{read}");
}

/// The first trade of a lesson is one trade, and right.
#[test]
fn the_first_trade_that_is_shown_is_a_single_one() {
    for (name, lesson) in lessons().iter().filter(|(_, lesson)| trades(lesson)) {
        let told = told(lesson);
        let mut texts = told.iter().flat_map(|(_, texts)| texts);
        let Some(text) = texts.find(|text| text.contains("is still")) else { panic!("{name}: no trade") };
        let told = text.split_once("there now: ").or_else(|| text.split_once("have now? ")).expect("what is there").1;
        let (now, number) = told.split_once(". It is still ").expect("the number again");
        assert_eq!(counted(now), figures(number)[0], "{name}: {text}");
        let trades = ["Trade with the blocks: ", "Trade in the drawing: ", "and trade "];
        assert!(trades.iter().any(|start| text.contains(start)), "{name}: {text}");
        assert_eq!(text.matches(" for 10 ").count() + text.matches(" and draw 10 ").count(), 1, "{name}: {text}");
    }
}

#[test]
fn every_kit_sheet_that_is_printed_is_used_in_a_step() {
    let mut used = BTreeSet::new();
    for (name, lesson) in lessons() {
        let job = means::printed(lesson, &[]);
        let texts: Vec<String> = told(lesson)
            .into_iter()
            .filter(|(phase, _)| *phase != Phase::Clearing)
            .flat_map(|(_, texts)| texts)
            .collect();
        // Larger numbers have no blocks, and none are printed.
        let large = |kind| kind == SheetKind::Blocks && lesson.greatest().value() > 9_999;
        for sheet in job.sheets.iter().filter(|sheet| sheet.keep == Keep::Kit && !large(sheet.kind)) {
            let words: &[&str] = match sheet.kind {
                SheetKind::Mat => &[" column", "on the mat", "on a mat"],
                SheetKind::Blocks => &["build it"],
                SheetKind::Layered => &["Lay the card"],
                SheetKind::WordBank => &["word bank"],
                kind => panic!("a kit of {}", kind.word()),
            };
            let is_used = texts.iter().any(|text| words.iter().any(|word| text.contains(word)));
            assert!(is_used, "{name}\nno step uses {}:\n{}", sheet.kind.word(), texts.join("\n"));
            used.insert(sheet.kind);
        }
    }
    assert_eq!(used.len(), 4, "{used:?}");
}

#[test]
fn a_question_on_numbers_of_one_set_says_which_set() {
    let mut read = 0;
    for (name, lesson) in lessons() {
        let common: BTreeSet<u32> = lesson.chosen.model.iter().map(|n| n.value()).collect();
        let all: BTreeSet<u32> = lesson.sets.iter().flat_map(|set| &set.rows).map(|n| n.value()).collect();
        let mut written = BTreeSet::new();
        for text in told(lesson).into_iter().flat_map(|(_, texts)| texts) {
            let on_board = ["Write these numbers on the board: ", "Everyone writes ", "Write ", "Lay the cards "];
            let text = text.trim_start_matches("Turn the paper over. ").to_owned();
            if on_board.iter().any(|start| text.starts_with(start)) {
                written.extend(figures(&text));
            }
            let Some((question, _)) = text.split_once('?') else { continue };
            let own = |n: &u32| all.contains(n) && !common.contains(n) && !written.contains(n);
            // The question itself shows what it is about.
            if !text.contains("What went wrong?") && figures(question).iter().any(own) && lesson.sets.len() > 1 {
                read += 1;
                assert!(question.starts_with("Set "), "{name}\n{text}");
            }
        }
    }
    assert!(read > 30, "{read}");
}

/// What a key says below its answered boards.
fn key(lesson: &Lesson) -> String {
    let (layouts, family) = (Layouts::read(&[]).expect("layouts"), setup::family());
    let pages = masters(&Desk::new(lesson, &layouts, &family), SheetKind::Key).expect("a key");
    texts(&pages).join(" ")
}

#[test]
fn a_key_takes_any_right_trade_where_one_is_written() {
    let ((least, most), model, sort, exit) = NUMBERS[1];
    let lesson = |minutes: u32, forms: &str| {
        let text = format!(
            "title = \"Crates\"\nminutes = {minutes}\nseed = 9\n[numbers]\nrange = [{least}, {most}]\n[numbers.model]\ncount = 2\n\
             [numbers.sort]\ncount = 4\n[numbers.exit]\ncount = 2\n[forms]\nmatch = {forms}\n[class]\nversions = 2\n\
             [sheets]\nmake = [\"board\", \"strips\", \"exit\", \"key\"]"
        );
        setup::with(&text, model, &sort, exit)
    };
    let told = key(&lesson(20, FORMS[1]));
    let (_, other) = told.split_once("Other trades are right too: ").expect("a word on other trades");
    let (number, other) = other.split_once(" is also ").expect("another trade");
    let other = other.split_once('.').expect("a sentence").0;
    assert_eq!(counted(other), figures(number)[0], "{told}");
    assert!(
        !told.replace(&format!("is also {other}"), "").contains(other),
        "the other is the one on the board: {told}"
    );
    // Where strips are cut it is said of those who write instead, and where nothing is traded, of nobody.
    assert!(key(&lesson(60, FORMS[1])).contains("Written instead of matched, other trades are right too: "));
    assert!(
        !key(&lesson(20, FORMS[0])).contains("other trades") && !key(&lesson(20, FORMS[0])).contains("Other trades")
    );
}

#[test]
fn what_belongs_in_a_row_without_numeral_is_told_with_it() {
    let ((least, most), model, sort, exit) = NUMBERS[1];
    for given in ["words", "blocks"] {
        let text = format!(
            "title = \"Crates\"\nminutes = 60\n[numbers]\nrange = [{least}, {most}]\n[numbers.model]\ncount = 2\n[numbers.sort]\n\
             count = 4\n[numbers.exit]\ncount = 2\n[forms]\nmatch = [\"{given}\", \"numeral\", \"expanded\"]\n[class]\nversions = 2"
        );
        let lesson = setup::with(&text, model, &sort, exit);
        let told = told(&lesson);
        let (_, sorting) = told.iter().find(|(phase, _)| *phase == Phase::Sorting).expect("sorting");
        let first =
            |set: &[u32]| sorting.iter().any(|text| text.contains("first row") && figures(text).contains(&set[0]));
        assert!(first(sort[0]) && first(sort[1]), "{given}: {sorting:#?}");
        assert!(!sorting.iter().any(|text| text.contains("strips belong to")), "{given}: {sorting:#?}");
    }
}

#[test]
fn a_lesson_on_trading_asks_for_trades_to_its_end() {
    let mut read = 0;
    for (name, lesson) in lessons().iter().filter(|(_, lesson)| lesson.teaches_trading()) {
        for (phase, texts) in told(lesson) {
            let asks = match phase {
                Phase::Sorting | Phase::Writing => ["else can we show", "strips belong to"],
                Phase::Sharing => ["and trade ", "and trade "],
                _ => continue,
            };
            assert!(
                texts.iter().any(|text| asks.iter().any(|ask| text.contains(ask))),
                "{name}\n{phase:?}: {texts:#?}"
            );
            read += 1;
        }
    }
    assert!(read > 40, "{read}");
}

#[test]
fn who_draws_on_the_recording_sheet_was_told_how() {
    let mut read = 0;
    for (name, lesson) in lessons().iter().filter(|(_, lesson)| lesson.greatest().value() <= 9_999) {
        let texts: Vec<String> = told(lesson).into_iter().flat_map(|(_, texts)| texts).collect();
        let fills =
            |text: &String| text.contains("row of the recording sheet") || text.starts_with("Find the row for ");
        if texts.iter().any(fills) {
            let draws = |text: &String| text.starts_with("Draw ") || text.contains("draw ");
            assert!(texts.iter().any(draws), "{name}\n{texts:#?}");
            read += 1;
        }
    }
    assert!(read > 40, "{read}");
}

#[test]
fn the_last_question_does_not_answer_itself() {
    let mut read = 0;
    for (name, lesson) in lessons() {
        for text in
            told(lesson).into_iter().flat_map(|(_, texts)| texts).filter(|text| text.starts_with("Which digit of "))
        {
            let number = figures(&text)[0].to_string();
            let digit = text.split_once("worth? ").expect("an answer").1.chars().next().expect("a digit");
            assert_eq!(number.matches(digit).count(), 1, "{name}\n{text}");
            read += 1;
        }
    }
    assert!(read > 10, "{read}");
}

/// What is in a packet lies on no table before the packet is given out.
#[test]
fn no_sheet_lies_there_before_the_packet_that_holds_it() {
    let mut read = 0;
    for (name, lesson) in lessons() {
        let kinds = [SheetKind::Record, SheetKind::Board, SheetKind::Strips, SheetKind::Practice];
        let kinds: Vec<SheetKind> =
            kinds.into_iter().filter(|kind| lesson.spec.sheets.make.value.contains(kind)).collect();
        let part = PartFacts { kind: PartKind::Packets { kinds, learners: Vec::new() }, pages: (1, 1), sheets: (1, 1) };
        let file = FileFacts {
            file: "copy-room-paper.pdf",
            stock: Stock::Paper,
            sides: PrintSides::One,
            colour: false,
            pages: 1,
            parts: vec![part],
        };
        let job = JobFacts { files: vec![file], ..means::printed(lesson, &[]) };
        let questions = timing::questions(&lesson.spec);
        for part in teach::plan(&Means { lesson, job: &job, questions, own_rows: true }).phases {
            let laid = lesson.wording().table(&part.table, lesson.spec.class.learners.value);
            for step in &part.steps {
                let Step::Do(Deed::GivePackets { sheets, .. }) = step else { continue };
                if sheets.len() > 1 {
                    for sheet in sheets {
                        let sheet = lesson.wording().sheet_in_text(*sheet, 1);
                        assert!(!laid.contains(sheet), "{name}\n{laid}");
                    }
                    assert!(laid.contains("a packet") && !laid.contains("of strips"), "{name}\n{laid}");
                    read += 1;
                }
            }
        }
    }
    assert!(read > 40, "{read}");
}

/// What is said of every row of the recording sheet: filled in, left for another day, or for whoever has time.
#[test]
fn no_row_of_the_recording_sheet_is_forgotten() {
    let mut read = 0;
    for (name, lesson) in lessons().iter().filter(|(_, lesson)| lesson.chosen.model.len() > 1) {
        let texts: Vec<String> = told(lesson).into_iter().flat_map(|(_, texts)| texts).collect();
        if texts.iter().any(|text| text.starts_with("Find the row for ")) {
            let rest = ["The other rows of", "fills in another row", "Learners do ", "in the last row"];
            assert!(texts.iter().any(|text| rest.iter().any(|rest| text.contains(rest))), "{name}\n{texts:#?}");
            read += 1;
        }
    }
    assert!(read >= 20, "{read}");
}

#[test]
fn words_are_asked_for_where_somebody_writes_or_matches_them() {
    let (mut asked, mut answered) = (0, 0);
    for (name, lesson) in lessons() {
        let words = lesson.matched().contains(&Form::Words);
        for (phase, texts) in told(lesson) {
            let matching = matches!(phase, Phase::Sorting | Phase::Writing);
            for text in &texts {
                if text.contains("in words?") {
                    assert!(words || !matching, "{name}\n{text}");
                    asked += 1;
                }
                // What belongs to a number, or shows it too, is said in words where they are matched.
                if matching && (text.contains("strips belong to") || text.contains("else can we show")) {
                    let (question, answer) = text.split_once("? ").expect("an answer");
                    let said = answer.to_lowercase();
                    assert_eq!(said.contains(&spelled(figures(question)[0])), words, "{name}\n{text}");
                    answered += 1;
                }
            }
        }
    }
    assert!(asked > 60 && answered > 150, "{asked} {answered}");
}

#[test]
fn a_set_from_the_tub_builds_all_that_is_built_today() {
    let mut read = 0;
    for (name, lesson) in lessons().iter().filter(|(_, lesson)| {
        lesson.has_tub()
            && lesson.greatest().value() <= 9_999
            && !lesson.spec.sheets.make.value.contains(&SheetKind::Blocks)
    }) {
        let job = means::printed(lesson, &[]);
        let means = Means { lesson, job: &job, questions: 4, own_rows: true };
        let things = materials(&means, false);
        let plan = means::plan(lesson);
        let counted = things
            .iter()
            .filter_map(|(_, thing)| if let Thing::TubBlocks(_, held) = thing { Some(held) } else { None })
            .collect::<Vec<_>>();
        let laid = plan.before.iter().any(|(chore, _)| matches!(chore, Chore::CountOut(..)));
        let used = plan.phases.iter().flat_map(|part| &part.table).any(|laid| matches!(laid, Laid::TubBlocks(_)));
        assert_eq!((counted.len(), laid), (usize::from(used), used), "{name}: {counted:?}");
        let [held] = counted[..] else { continue };
        // What is built and traded today; tomorrow's groups count out their own.
        let mut built = BTreeSet::new();
        for step in plan.phases.iter().flat_map(|part| &part.steps) {
            match step {
                Step::Do(Deed::Build { number, .. }) => drop(built.insert(*number)),
                Step::Do(Deed::TradeBlocks(_, counts)) => {
                    assert!(counts.iter().zip(held).all(|(need, has)| need <= has), "{name}: {counts:?} from {held:?}");
                }
                _ => {}
            }
        }
        assert!(!built.is_empty(), "{name}: nothing is built");
        for number in &built {
            for (place, digit) in number.digits() {
                assert!(held[place.index()] >= u32::from(digit), "{name}: {number} from {held:?}");
            }
        }
        // Ten cubes lie along a rod to show that they are as much.
        assert!(held[1] == 0 || held[0] >= 10, "{name}: {held:?}");
        read += 1;
    }
    assert!(read > 5, "{read}");
}

/// What was drawn is not drawn once more on the same sheet, and a form is looked out for only where it is asked for.
#[test]
fn a_drawn_number_is_written_on_the_other_side() {
    let drawn = |language: &str| {
        setup::planned(&format!(
            "title = \"Kites\"\nlanguage = \"{language}\"\nminutes = 40\n[numbers]\nrange = [100, 699]\n[sheets]\nmake = [\"board\", \"strips\"]\n"
        ))
    };
    for (language, over, spell) in [
        ("en", "Turn the paper over.", "how to spell a word"),
        ("es", "Den vuelta a la hoja.", "c\u{f3}mo se escribe una palabra"),
    ] {
        let lesson = drawn(language);
        let plan = means::plan(&lesson);
        let guided = plan.phases.iter().find(|part| part.phase == Phase::Guided).expect("an example together");
        let draws = |step: &&Step| matches!(step, Step::Say(Said::Draw(_) | Said::DrawMarks(_)));
        assert!(!guided.steps.iter().any(|step| draws(&step)), "{:?}", guided.steps);
        let told: Vec<String> = guided.steps.iter().flat_map(|step| means::told(&lesson, step)).collect();
        let form = if language == "en" { "in expanded form" } else { "en forma desarrollada" };
        assert!(told.iter().any(|text| text.starts_with(over) && text.contains(form)), "{told:?}");
        // No word bank is printed.
        assert!(told.iter().any(|text| text.contains(spell)), "{told:?}");
    }
}
