//! Small groups ask for nothing that the kits cannot do: blocks and cards are counted on the sheets that are cut.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::LazyLock;

use placewright::lesson::groups::{self, SlipLesson};
use placewright::lesson::teach::Step;
use placewright::lesson::{Lesson, Wrong};
use placewright::number::{Content, Form, Number, Place, Slip, Task};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec::SheetKind;
use placewright::wording::plan::Deed;
use placewright::wording::{BlocksOut, English, GroupSteps};

use crate::support::packets::{masters, texts};
use crate::support::setup::{family, number, planned};
use crate::support::{in_play, means};

/// Lessons of every size of number, with blocks from sheets, from a tub and without.
fn lessons() -> Vec<Lesson> {
    let kits = "make = [\"mat\", \"blocks\", \"layered\", \"record\", \"board\", \"strips\", \"exit\", \"key\", \"tally\", \"small-groups\"]";
    let none = "make = [\"board\", \"strips\", \"exit\", \"key\", \"tally\", \"small-groups\"]";
    let tub = "make = [\"mat\", \"board\", \"strips\", \"exit\", \"key\", \"tally\", \"small-groups\"]";
    let traded = "match = [\"numeral\", \"regrouped\", \"untraded\", \"expanded\"]";
    let usual = "match = [\"numeral\", \"words\", \"expanded\", \"units\"]";
    let mut all = Vec::new();
    for seed in 1..=2 {
        for learners in [1, 20] {
            for (range, forms, most, sheets) in [
                ("[10, 99]", usual, "", kits),
                ("[0, 120]", usual, "", kits),
                ("[100, 999]", usual, "", kits),
                ("[1000, 9999]", usual, "", kits),
                ("[2000, 2600]", usual, "", kits),
                (
                    "[10000, 99999]",
                    usual,
                    "",
                    "make = [\"mat\", \"layered\", \"board\", \"strips\", \"exit\", \"key\", \"small-groups\"]",
                ),
                ("[120, 499]", traded, "", kits),
                ("[120, 499]", traded, "at_most = { hundreds = 6, tens = 19, ones = 19 }", tub),
                ("[100, 999]", usual, "at_most = { hundreds = 6, tens = 9, ones = 9 }", tub),
                ("[10, 99]", usual, "", none),
                ("[100, 999]", usual, "", none),
            ] {
                let text = format!(
                    "title = \"Crates\"\nseed = {seed}\n[numbers]\nrange = {range}\n{most}\n[class]\nlearners = {learners}\n\
                     [forms]\n{forms}\n[sheets]\n{sheets}\n"
                );
                let mut lesson = planned(&text);
                lesson.slips = in_play::all();
                all.push(lesson);
            }
        }
    }
    all
}

/// What the learners' sheets hold: pieces by name, counted where they are cut.
fn pieces(lesson: &Lesson, kind: SheetKind) -> BTreeMap<String, u32> {
    if !lesson.spec.sheets.make.value.contains(&kind) {
        return BTreeMap::new();
    }
    let (layouts, family) = (Layouts::read(&[]).unwrap(), family());
    let desk = Desk::new(lesson, &layouts, &family);
    let mut counted = BTreeMap::new();
    for page in masters(&desk, kind).expect("pages") {
        for piece in page.layers.iter().flat_map(|layer| &layer.pieces) {
            *counted.entry(piece.name.clone()).or_default() += 1;
        }
    }
    counted
}

const KINDS: [(&str, &str); 4] =
    [("thousand-block", "thousands"), ("flat", "hundreds"), ("rod", "tens"), ("cube", "ones")];

/// What one child or one table has of each kind; no limit where the class's tub is not counted.
fn held(lesson: &Lesson) -> [u32; 4] {
    let cut = pieces(lesson, SheetKind::Blocks);
    if !cut.is_empty() {
        return KINDS.map(|(kind, _)| cut.get(kind).copied().unwrap_or(0));
    }
    let tub = &lesson.spec.numbers.at_most;
    KINDS.map(|(_, place)| {
        let place = Place::ALL.into_iter().find(|known| known.key() == place).unwrap();
        tub.iter().find(|(known, _)| **known == place).map_or(99, |(_, most)| u32::from(most.value))
    })
}

/// "4 flats and 6 cubes", read back: all that is named in a text.
fn named(text: &str) -> [u32; 4] {
    let words: Vec<&str> = text.split([' ', ',', '.', ':', ';']).filter(|word| !word.is_empty()).collect();
    let mut counts = [0; 4];
    for pair in words.windows(2) {
        let Ok(count) = pair[0].parse::<u32>() else { continue };
        if let Some(kind) = KINDS.iter().position(|(kind, _)| pair[1] == *kind || pair[1] == format!("{kind}s")) {
            counts[kind] += count;
        }
    }
    counts
}

fn within(counts: [u32; 4], held: [u32; 4]) -> bool {
    counts.iter().zip(held).all(|(count, most)| *count <= most)
}

fn digits(of: Number) -> [u32; 4] {
    [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones].map(|place| u32::from(of.digit(place)))
}

/// Every lesson with its small groups, made once for all tests.
fn taught() -> &'static [(Lesson, Vec<SlipLesson>)] {
    static TAUGHT: LazyLock<Vec<(Lesson, Vec<SlipLesson>)>> = LazyLock::new(|| {
        let with = |lesson: Lesson| {
            let own = groups::lessons(&lesson, &lesson.whole());
            (lesson, own)
        };
        lessons().into_iter().map(with).collect()
    });
    &TAUGHT
}

/// Every slip's lesson of every lesson, with what is built first.
fn each(mut check: impl FnMut(&Lesson, &SlipLesson, &str)) {
    for (lesson, all) in taught() {
        for own in all {
            let Some(step) = own.step(&lesson.style) else { continue };
            check(lesson, own, &English.group_build(&step));
        }
    }
}

#[test]
fn what_is_built_can_be_built_with_what_lies_there() {
    let (mut built, mut two_sets, mut drawn) = (0, 0, 0);
    let mut known: BTreeMap<String, [u32; 4]> = BTreeMap::new();
    each(|lesson, own, text| {
        let key =
            format!("{:?}{:?}{:?}", lesson.chosen, lesson.spec.sheets.make.value, lesson.spec.numbers.at_most.len());
        let held = *known.entry(key).or_insert_with(|| held(lesson));
        let first = &own.trials[0];
        let what = format!("{:?}, a set of {held:?}: {text}", own.slip);
        if named(text) == [0; 4] {
            assert!(!text.contains("cubes along"), "{what}");
            drawn += u32::from(text.contains("Draw") || text.contains("Show"));
        } else if let Some((one, two)) = text.split_once("from a second set") {
            assert!(lesson.spec.class.learners.value > 1, "{what}");
            assert!(within(named(one), held) && within(named(two), held), "{what}");
            two_sets += 1;
        } else if matches!(own.slip, Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew) {
            let counted = first.task.counted(first.of, &lesson.style).expect("a trade");
            assert!(within(digits(first.of), held), "{what}");
            assert!(within([counted[3], counted[2], counted[1], counted[0]], held), "{what}");
        } else {
            assert!(within(named(text), held), "{what}");
            built += 1;
        }
        if text.contains("cubes along a rod") {
            assert!(within([0, 0, 1, 10], held), "{what}");
        }
        if text.contains("a rod beside a cube") {
            assert!(within([0, 0, 1, 1], held), "{what}");
        }
        if let Some((_, other)) = text.split_once("change it to ").filter(|_| text.contains("Build")) {
            let other = other.trim_end_matches('.').replace(',', "").parse().expect("a numeral");
            assert!(within(digits(number(other)), held), "{what}");
        }
        // What each learner does by itself.
        for trial in &own.trials {
            let Task::Forms { shown, asked } = trial.task else { continue };
            let pictures = [shown, asked].into_iter().filter(|form| form.is_picture());
            for form in pictures.filter(|_| own.tools_of_each.blocks) {
                let Some(Content::Blocks(counts)) = form.content(trial.of, &lesson.style) else { continue };
                assert!(within(counts, held), "{what}: {trial:?}");
            }
        }
    });
    assert!(built > 150 && two_sets > 2 && drawn > 50, "{built} {two_sets} {drawn}");
}

#[test]
fn cards_that_are_stacked_are_in_the_kit() {
    let (mut stacked, mut added) = (0, 0);
    let mut known: BTreeMap<String, BTreeMap<String, u32>> = BTreeMap::new();
    each(|lesson, own, text| {
        let Some((_, cards)) = text.split_once("layered cards ") else {
            added += u32::from(text.contains("Add them up."));
            return;
        };
        let kit = known.entry(format!("{:?}", lesson.chosen)).or_insert_with(|| pieces(lesson, SheetKind::Layered));
        let cards = cards.split_once(". Lay").expect("cards").0.replace(" and ", ", ");
        let mut sum = 0;
        for card in cards.split(", ").map(|card| card.replace(',', "")) {
            assert!(kit.contains_key(&format!("card {card}")), "no card {card}: {text} {kit:?}");
            sum += card.parse::<u32>().unwrap();
        }
        assert_eq!(sum, own.trials[0].of.value());
        stacked += 1;
    });
    assert!(stacked > 25 && added > 5, "{stacked} {added}");
}

#[test]
fn all_that_lies_on_the_table_is_named_above() {
    for (lesson, all) in taught() {
        let table = groups::table(lesson, &all.iter().collect::<Vec<_>>());
        let texts: Vec<String> =
            all.iter().filter_map(|own| own.step(&lesson.style)).map(|step| English.group_build(&step)).collect();
        let speak = |word: &str| texts.iter().any(|text| text.contains(word));
        assert_eq!(table.cards, speak("layered cards"));
        assert_eq!(table.blocks == BlocksOut::TwoSets, speak("second set"));
        assert!(!speak("on the mat") || table.mat);
        assert!(!texts.iter().any(|text| named(text) != [0; 4]) || table.blocks != BlocksOut::None, "{texts:?}");
    }
}

/// Of how many of each place a text like "1 hundred 16 tens 4 ones" speaks, the ones first.
fn counts(text: &str) -> Option<[u32; 4]> {
    let words: Vec<&str> = text.split(' ').collect();
    let mut counts = [0; 4];
    for pair in words.chunks(2) {
        let [count, unit] = pair else { return None };
        let place =
            ["one", "ten", "hundred", "thousand"].iter().position(|name| unit.trim_end_matches('s') == *name)?;
        counts[place] = count.parse().ok()?;
    }
    Some(counts)
}

#[test]
fn one_piece_is_traded_it_is_named_and_the_slip_alone_makes_the_wrong_answer() {
    let mut seen = BTreeSet::new();
    each(|lesson, own, _| {
        for trial in &own.trials {
            let (Task::Forms { asked: Form::Regrouped, .. }, Some(wrong)) = (trial.task, &trial.wrong) else {
                continue;
            };
            let text = |content: &Content| content.text(lesson.style.names);
            let (Some(right), Some(got)) = (counts(&text(&trial.right)), counts(&text(wrong))) else { continue };
            let [thousands, hundreds, tens, ones] = digits(trial.of);
            let plain = [ones, tens, hundreds, thousands];
            let gives = (1..4)
                .find(|at| right[*at] + 1 == plain[*at])
                .unwrap_or_else(|| panic!("{:?}: {trial:?}", lesson.spec.numbers.range.value));
            let mut traded = plain;
            traded[gives] -= 1;
            traded[gives - 1] += 10;
            assert_eq!(right, traded, "{trial:?}");
            let mut slipped = traded;
            match own.slip {
                Slip::NotTakenAway => slipped[gives] += 1,
                Slip::OneForOne => slipped[gives - 1] -= 9,
                Slip::OneTooFew => slipped[gives - 1] -= 1,
                other => panic!("{other:?}"),
            }
            assert_eq!(got, slipped, "{trial:?}");
            let show = English.shown_in(trial.of, trial.task, own.tools_of_each, &lesson.style);
            let names = ["ones", "tens", "hundreds", "thousands"];
            let trade = format!(": trade 1 {} for {}", names[gives].trim_end_matches('s'), names[gives - 1]);
            assert!(show.ends_with(&trade), "{show}");
            seen.insert(own.slip);
        }
        // The answer is computed from the number and the trade that the question names.
        if let (Slip::OneForOne | Slip::OneTooFew | Slip::NotTakenAway, Some(step)) =
            (own.slip, own.step(&lesson.style))
        {
            let (question, answer) = (English.group_question(&step), English.group_answer(&step));
            let now = answer.split_once("Now we have ").expect("an answer").1.trim_end_matches('.');
            let sum =
                |counts: [u32; 4]| counts.iter().zip([1, 10, 100, 1_000]).map(|(n, worth)| n * worth).sum::<u32>();
            assert_eq!(counts(now).map(sum).unwrap_or(step.of.value()), step.of.value(), "{answer}");
            assert!(question.contains("trade 1 "), "{question}");
        }
    });
    assert_eq!(seen.len(), 3);
}

#[test]
fn a_question_about_ten_or_more_follows_a_picture_with_ten_or_more() {
    let mut asked = 0;
    each(|lesson, own, text| {
        if matches!(own.slip, Slip::CountsSideBySide | Slip::TenLeftOut) {
            let figures = text.split([' ', ',']).filter_map(|word| word.parse::<u32>().ok());
            assert!(figures.into_iter().any(|count| count >= 10), "{text}");
            assert!(!text.contains(&lesson.style.numeral(own.trials[0].of)), "{text}");
            asked += 1;
        }
    });
    assert!(asked > 50, "{asked}");
}

#[test]
fn what_is_asked_about_was_shown() {
    let mut met = BTreeSet::new();
    each(|lesson, own, text| {
        let step = own.step(&lesson.style).unwrap();
        let (question, answer) = (English.group_question(&step), English.group_answer(&step));
        let all = format!("{text} | {question} | {answer}");
        let of = step.of;
        match own.slip {
            Slip::ZeroDropped | Slip::ZeroMoved => {
                // Wherever a column is said to be empty, nothing lies there.
                assert!(text.contains("column"), "{all}");
                let zeros = of.to_string().matches('0').count();
                assert_eq!(question.contains("Which columns are"), zeros > 1, "{all}");
            }
            Slip::TeenTy => {
                let both = question.split_once("Listen: ").unwrap().1.split_once(". Which").unwrap().0;
                let (one, two) = both.split_once(", ").unwrap();
                assert!(text.starts_with(&format!("Say {one} and {two} slowly.")), "{all}");
                // The question is not answered by repeating one of the two: each has its own digit there.
                assert!(answer.to_lowercase().starts_with(&format!("{one} has a")), "{all}");
                assert!(answer.contains(&format!(", and {two} a")) && !question.contains(" or "), "{all}");
            }
            Slip::TeenReversed => {
                let teen = question.split_once("Which digit of ").unwrap().1.split_once(' ').unwrap().0;
                assert!(lesson.style.words(of).contains(teen) && teen.ends_with("teen"), "{all}");
            }
            Slip::CountedAlike => assert!(!all.contains("picture"), "{all}"),
            Slip::FromTheOnes => {
                let Task::Greater(other) = step.task else { panic!("{all}") };
                let (a, b) = (of.to_string(), other.to_string());
                let at = a.bytes().zip(b.bytes()).position(|(one, two)| one != two).unwrap();
                let place = Place::ALL[a.len() - 1 - at].key().replace('_', " ");
                assert!(answer.starts_with(&format!("The {place},")), "{all}");
                assert!(question.starts_with("Which place decides"), "{all}");
                for trial in
                    own.trials.iter().filter(|_| a.len() > 2 && lesson.spec.numbers.range.value.0 == number(100))
                {
                    let Task::Greater(other) = trial.task else { panic!("{all}") };
                    let (greater, lesser) = (trial.of.max(other).value(), trial.of.min(other).value());
                    assert!(lesser % 10 > greater % 10, "no last digit tempts in {greater} and {lesser}");
                }
            }
            Slip::PlaceWordWritten => {
                let words = lesson.style.words(of);
                for word in ["hundred", "thousand"] {
                    assert_eq!(
                        answer.to_lowercase().split('.').next().unwrap().contains(word),
                        words.contains(word),
                        "{all}"
                    );
                }
            }
            Slip::ReadInPieces => {
                assert_eq!(text.contains("say thousand"), of.value() >= 10_000, "{all}");
                assert_eq!(answer.contains("thousand. All of it"), of.value() >= 10_000, "{all}");
            }
            _ => {}
        }
        assert!(!all.contains("learner's answer") && !all.contains("both words"), "{all}");
        met.insert(own.slip);
    });
    assert_eq!(met.len(), in_play::all().len());
}

/// Lessons on trading, with blocks from sheets and from a tub.
fn on_trading() -> Vec<Lesson> {
    let mut all = Vec::new();
    for seed in 1..=12 {
        for (range, most) in [("[120, 499]", ""), ("[1000, 9999]", "at_most = { thousands = 3 }"), ("[120, 499]", TUB)]
        {
            let blocks = if most == TUB { "" } else { "\"blocks\", " };
            all.push(planned(&format!(
                "title = \"Crates\"\nminutes = 60\nseed = {seed}\n[numbers]\nrange = {range}\n{most}\n[forms]\n\
                 match = [\"numeral\", \"regrouped\", \"untraded\", \"expanded\"]\ndecoys = 4\n\
                 [sheets]\nmake = [\"mat\", {blocks}\"record\", \"board\", \"strips\", \"exit\", \"key\"]"
            )));
        }
    }
    all
}

const TUB: &str = "at_most = { hundreds = 6, tens = 19, ones = 19 }";

/// What a wrong answer's trade needs at the end of it, where it has one.
fn needed(lesson: &Lesson, wrong: &Wrong) -> Option<[u32; 4]> {
    let [ones, tens, hundreds, thousands, ..] = wrong.task.counted(wrong.of, &lesson.style)?;
    Some([thousands, hundreds, tens, ones])
}

#[test]
fn a_plan_trades_with_blocks_only_where_the_kit_holds_them() {
    let mut with = 0;
    for lesson in on_trading() {
        let held = held(&lesson);
        let plan = means::plan(&lesson);
        for step in plan.phases.iter().flat_map(|part| &part.steps) {
            match step {
                Step::Watch { wrong, tools, .. } => {
                    let Some(needs) = needed(&lesson, wrong) else { continue };
                    assert!(!tools.blocks || within(needs, held), "{:?}: {needs:?} of {held:?}", wrong.slip);
                    with += u32::from(tools.blocks);
                }
                Step::Do(Deed::TradeBlocks(_, [ones, tens, hundreds, thousands, ..])) => {
                    assert!(within([*thousands, *hundreds, *tens, *ones], held), "{step:?} of {held:?}");
                }
                _ => {}
            }
        }
    }
    assert!(with > 20, "{with}");
}

#[test]
fn a_key_helps_with_blocks_only_where_the_kit_holds_them() {
    let (mut with, mut without) = (0, 0);
    let (layouts, family) = (Layouts::read(&[]).unwrap(), family());
    for lesson in on_trading() {
        let Some(kept) = lesson.slips.iter().find(|in_play| in_play.slip == Slip::NotTakenAway) else { continue };
        // What helps has to help with each of them.
        let needs: Vec<[u32; 4]> = kept.seen.iter().filter_map(|wrong| needed(&lesson, wrong)).collect();
        let fits = needs.iter().all(|needs| within(*needs, held(&lesson)));
        let pages = masters(&Desk::new(&lesson, &layouts, &family), SheetKind::Key).expect("a key");
        let told = texts(&pages).join(" ");
        assert_eq!(told.contains("Trade with blocks"), fits, "{needs:?} of {:?}", held(&lesson));
        *(if fits { &mut with } else { &mut without }) += 1;
    }
    assert!(with > 2 && without > 2, "{with}, {without}");
}
