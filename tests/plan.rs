//! The teaching plan: times that add up, answers worked out again from the numeral alone, nothing said of what is not there.

use crate::support::answers::{check, figures, parts};
use crate::support::sentences::{sentences, word_count};
use crate::support::sheet_words::speaks_of;
use crate::support::{means, setup};
use std::collections::{BTreeMap, BTreeSet};

use placewright::lesson::Lesson;
use placewright::lesson::teach::{self, LONGEST, Means, Seen, Step, Teaching, materials};
use placewright::lesson::timing::{self, Phase, StripUse};
use placewright::number::Slip;
use placewright::spec::{Cut, FormNames, Given, Joiner, SheetKind};
use placewright::wording::plan::{Reply, Thing};
use placewright::wording::{English, ReadIn, Slips, Tools};
use setup::{lesson, plain, spec};

/// Lessons of every kind: minutes, model, sort sets, exit.
type Setup = (u32, &'static [u32], &'static [&'static [u32]], &'static [u32]);
const LESSONS: [Setup; 18] = [
    (50, &[406, 383, 617], &[&[640, 604, 460, 222], &[383, 338, 833, 500]], &[911, 264, 170, 305]),
    (45, &[40, 18, 88], &[&[14, 41, 70, 11, 80]], &[13, 30]),
    (45, &[100, 400, 900], &[&[200, 300, 600, 800]], &[700]),
    (30, &[400, 406], &[&[640, 604, 460, 406]], &[911]),
    (90, &[406, 383, 617], &[&[640, 604, 460, 222, 111, 208, 280, 802]], &[911, 264, 170, 305]),
    (120, &[811], &[&[118, 181]], &[888]),
    (50, &[1_010, 8_888, 2_011], &[&[1_101, 1_011, 1_110, 9_999], &[4_050, 5_040, 4_500, 1_000]], &[3_008, 3_080]),
    (50, &[24_507, 811_011], &[&[100_000, 120_350, 102_350, 18_018]], &[999_999, 500_500]),
    (50, &[7, 8, 0], &[&[1, 2, 3, 4, 5]], &[6, 9]),
    (20, &[0], &[], &[]),
    (20, &[], &[&[640, 604, 460]], &[]),
    (15, &[], &[], &[911, 264]),
    (50, &[406, 383, 617, 911, 222, 500], &[&[640, 604]], &[]),
    (10, &[], &[], &[8]),
    (10, &[406, 383, 617], &[&[640, 604, 460, 222, 111, 208, 280, 802]], &[911, 264, 170, 305]),
    (50, &[878_878], &[&[777_777, 373_373]], &[111_111]),
    (50, &[11, 12], &[&[13, 14, 15, 16]], &[17, 18]),
    (40, &[444, 555], &[&[777, 888, 999]], &[333]),
];

fn lessons() -> Vec<Lesson> {
    let mut all = Vec::new();
    for (minutes, model, sort, exit) in LESSONS {
        all.push(plain(minutes, model, sort, exit));
        let mut other = spec(minutes, model, sort, exit);
        other.forms.joiner.value = Joiner::And;
        other.print.cut.value = Cut::Stack;
        other.class.learners.value = 1;
        other.class.spares.value = 1;
        other.sheets.make.value = vec![SheetKind::Board];
        all.push(lesson(other, model, sort, exit).expect("a lesson"));
        let mut bare = spec(minutes, model, sort, exit);
        bare.sheets.make.value = vec![SheetKind::Strips, SheetKind::Exit, SheetKind::Record];
        bare.forms.zero_terms.value = true;
        all.push(lesson(bare, model, sort, exit).expect("a lesson"));
        let mut matching = spec(minutes, model, sort, exit);
        matching.sheets.make.value = vec![SheetKind::Board, SheetKind::Strips];
        matching.print.cut.value = Cut::Stack;
        all.push(lesson(matching, model, sort, exit).expect("a lesson"));
    }
    all
}

/// What a grown-up reads of a step: what it says, the answer where there is one.
fn read(lesson: &Lesson, step: &Step) -> Vec<String> {
    let (wording, usage) = (lesson.wording(), lesson.usage());
    match step {
        Step::Do(_) | Step::Say(_) | Step::Ask(_) => means::told(lesson, step),
        Step::Watch { seen, wrong, tools, letter, .. } => {
            let shown = wording.content(&wrong.content);
            let slip = wording.slip_named(wrong.slip, *letter);
            let what = match *seen {
                Seen::Work => wording.if_you_see(&shown, wrong.of, &slip, &usage),
                Seen::Strip(set) => wording.if_you_see_strip(&shown, wrong.of, &slip, set, &usage),
                Seen::Choice { check, question, letter } => {
                    wording.if_you_see_choice(check, question, letter, &shown, &slip)
                }
            };
            vec![what, wording.thinking_and_next(wrong.slip, *tools)]
        }
    }
}

/// Every text of a plan and of what is laid out for it.
fn texts(lesson: &Lesson, plan: &Teaching) -> Vec<String> {
    let (wording, usage) = (lesson.wording(), lesson.usage());
    let learners = lesson.spec.class.learners.value;
    let mut texts: Vec<String> = plan.aims.iter().map(|aim| wording.aim(aim, &usage)).collect();
    texts.extend(plan.before.iter().map(|(chore, _)| wording.chore(chore, &usage)));
    texts.extend(plan.shortcuts.iter().map(|shortcut| wording.shortcut(*shortcut).to_owned()));
    texts.extend(plan.shorter.iter().map(|short| wording.short(short)));
    for part in &plan.phases {
        texts.push(wording.table(&part.table, learners));
        texts.extend(part.steps.iter().flat_map(|step| read(lesson, step)));
    }
    let job = means::printed(lesson, &[]);
    for (_, thing) in
        materials(&Means { lesson, job: &job, questions: timing::questions(&lesson.spec), own_rows: true }, true)
    {
        let (what, note) = wording.thing(&thing);
        texts.extend([what, note]);
    }
    texts.retain(|text| !text.is_empty());
    texts
}

/// Questions with their answers, in order.
fn questions(lesson: &Lesson) -> Vec<Reply> {
    let steps = means::plan(lesson).phases.into_iter().flat_map(|part| part.steps);
    let asked = steps.filter_map(|step| if let Step::Ask(asked) = step { Some(asked) } else { None });
    asked.map(|asked| lesson.wording().ask(&asked, &lesson.usage())).collect()
}

#[test]
fn minutes_add_up_and_no_phase_is_empty() {
    for (_, model, sort, exit) in LESSONS {
        // Times follow from the minutes, and no number does.
        let mut lesson = plain(60, model, sort, exit);
        for minutes in 10..=120 {
            lesson.spec.minutes.value = minutes;
            lesson.fullest.minutes.value = minutes;
            let shares = timing::share(&lesson.spec);
            assert_eq!(shares.iter().map(|(_, share)| share).sum::<u32>(), minutes, "{shares:?}");
            assert!(shares.iter().all(|(_, share)| *share >= 1), "{shares:?}");
            let phases: Vec<Phase> = shares.iter().map(|(phase, _)| *phase).collect();
            assert!(phases.is_sorted(), "{phases:?}");
            // Whatever the time, each role that the lesson has is met.
            assert_eq!(phases.contains(&Phase::Building), !model.is_empty());
            assert_eq!(phases.contains(&Phase::Sorting), !sort.is_empty());
            assert_eq!(phases.contains(&Phase::Exit), !exit.is_empty());
            let mut plan = means::plan(&lesson).phases.into_iter();
            let end = plan.try_fold(0, |start, part| (part.start == start).then_some(start + part.minutes));
            assert_eq!(end, Some(minutes));
        }
    }
}

// Common practice, no source: in grade 2, 24 pieces cut and 24 boxes matched do not fit into 17 minutes.
#[test]
fn cutting_and_matching_get_the_time_they_take() {
    let rows: &[u32] = &[101, 102, 103, 104, 105, 106, 107, 108];
    for minutes in 40..=120 {
        let mut spec = spec(minutes, &[406], &[rows], &[911]);
        spec.forms.decoys.value = 4;
        let load = timing::load(&spec, minutes);
        let sorting = timing::share(&spec).into_iter().find(|(phase, _)| *phase == Phase::Sorting).expect("sorting").1;
        assert_eq!(load.strips, StripUse::Cut);
        // 28 pieces at 3.5 a minute, boxes at 2 a minute.
        assert!(sorting >= 8 + (load.rows * 3).div_ceil(2), "{sorting} minutes for {load:?}");
    }
}

#[test]
fn less_time_means_fewer_rows_first() {
    let (_, model, _, exit) = LESSONS[4];
    let sort: &[&[u32]] = LESSONS[4].2;
    let whole = spec(120, model, sort, exit);
    let least = timing::least(&whole);
    let full = timing::load(&whole, least);
    assert_eq!((full.rows, full.models, full.questions), (8, 3, timing::questions(&whole)));
    let mut rows = 8;
    for minutes in (10..least).rev() {
        let load = timing::load(&whole, minutes);
        // Model numbers, the example and the cutting give way only once few rows are left.
        if load.models < 3 || !load.together || load.strips != StripUse::Cut {
            break;
        }
        assert!(load.rows <= rows && load.rows < 8, "{minutes}: {load:?}");
        rows = load.rows;
    }
    assert_eq!(rows, 3);
    let short = spec(20, model, sort, exit);
    let told = timing::told(&short, 6).expect("too short for all");
    assert!(told.starts_with(&format!("20 minutes are short for this lesson, which takes {least}: ")), "{told}");
    assert_eq!(timing::told(&spec(least, model, sort, exit), 6), None);
}

/// Of first numbers a check has fewer questions than of others: the note counts those that are printed.
#[test]
fn a_note_counts_the_questions_that_a_check_has() {
    for range in ["[0, 20]", "[10, 20]", "[10, 15]", "[10, 99]"] {
        let lesson = setup::planned(&format!("title = \"Snails\"\nminutes = 30\n[numbers]\nrange = {range}\n"));
        let notes = lesson.chosen.notes.join(" ");
        let told = notes.split(" questions").next().and_then(|text| text.rsplit(' ').next()).expect("a count");
        let asked = lesson.checks.iter().map(|check| check.questions.len()).max();
        assert_eq!(told.parse().ok(), asked, "{range}: {notes}");
    }
}

/// How many words more than one the unit forms of a sentence have ("3 hundreds 0 tens 6 ones"): each is seen as one thing.
fn in_units(sentence: &str) -> usize {
    let places = ["hundred", "hundreds", "ten", "tens", "thousand", "thousands", "one", "ones"];
    let (mut inside, mut more) = (false, 0);
    for word in sentence.split_whitespace() {
        let count = word.bytes().all(|byte| byte.is_ascii_digit());
        more += usize::from(inside && (count || places.contains(&word.trim_end_matches([':', '.', ',']))));
        inside = count || inside && places.contains(&word);
    }
    more
}

#[test]
fn sentences_are_short_and_agree() {
    let an = ["8", "11", "18"];
    for lesson in lessons() {
        for text in texts(&lesson, &means::plan(&lesson)) {
            // The forms of a number are read one by one.
            for sentence in sentences(&text).flat_map(|sentence| sentence.split("; ")) {
                // A slip's thinking and next step are labelled.
                let label = usize::from(sentence.starts_with("Thinking:") || sentence.starts_with("Next:"));
                let words = word_count(sentence).saturating_sub(in_units(sentence));
                assert!(words <= LONGEST + label, "{words} words: {sentence}");
            }
            assert!(!text.contains("  ") && text.trim() == text, "spaces: {text:?}");
            let words: Vec<&str> = text.split(' ').collect();
            for pair in words.windows(2) {
                let number = pair[1].trim_matches(|c: char| !c.is_ascii_digit());
                let whole = number.len() == pair[1].trim_end_matches(['.', ',', '?', ':']).len() && !number.is_empty();
                if whole && pair[0] == "a" {
                    assert!(!number.starts_with('8') && !an.contains(&number), "a {number}: {text}");
                }
                if whole && pair[0] == "an" {
                    assert!(number.starts_with('8') || number.starts_with("11") || number.starts_with("18"), "{text}");
                }
                let noun = pair[1].trim_end_matches(['.', ',', '?', ':', ';']);
                let plural = ["flats", "rods", "cubes", "learners", "pairs", "thousand-blocks", "minutes", "pieces"];
                assert!(!(pair[0] == "1" && plural.contains(&noun)), "1 with a plural: {text}");
                assert!(pair[0] != "0" || !plural.contains(&noun), "none is not built: {text}");
                let singular = ["flat", "rod", "cube", "learner", "pair", "minute", "piece"];
                let count: Option<u32> = pair[0].parse().ok();
                assert!(count.is_none_or(|n| n == 1) || !singular.contains(&noun), "plural missing: {text}");
            }
        }
    }
}

#[test]
fn nothing_is_said_of_a_sheet_that_is_not_there() {
    for lesson in lessons() {
        let made = &lesson.spec.sheets.make.value;
        for text in texts(&lesson, &means::plan(&lesson)) {
            // A wrong or right form of a number may be a picture, which is told by its pieces.
            let told_by_pieces = text.contains(';') || text.starts_with("If the strip") || text.starts_with("Check ");
            for kind in SheetKind::ALL.into_iter().filter(|kind| !made.contains(kind)) {
                if kind == SheetKind::Blocks && told_by_pieces {
                    continue;
                }
                let words = text.split(|c: char| !(c.is_alphanumeric() || c == '-')).map(str::to_lowercase);
                for word in words {
                    assert!(!speaks_of(kind).contains(&word.as_str()), "{} is not made: {text}", kind.word());
                }
            }
        }
    }
}

#[test]
fn every_kit_sheet_is_used_by_a_step() {
    for (minutes, model, sort, exit) in LESSONS {
        if model.is_empty() && sort.is_empty() {
            continue;
        }
        let lesson = plain(minutes, model, sort, exit);
        let steps: Vec<String> = means::plan(&lesson)
            .phases
            .iter()
            .flat_map(|part| &part.steps)
            .flat_map(|step| read(&lesson, step))
            .collect();
        let all = steps.join("\n").to_lowercase();
        for (kind, used) in [(SheetKind::Record, "recording sheet"), (SheetKind::WordBank, "point to the word bank")] {
            assert!(!lesson.spec.sheets.make.value.contains(&kind) || all.contains(used), "{minutes}: {used}\n{all}");
        }
        assert!(
            !lesson.spec.sheets.make.value.contains(&SheetKind::Mat) || all.contains("column") || all.contains("mat")
        );
        let several = |n: &u32| n.to_string().chars().filter(|c| *c != '0').count() > 1;
        let first = if model.is_empty() { sort[0] } else { model };
        if first.iter().take(1).any(several) && lesson.spec.sheets.make.value.contains(&SheetKind::Layered) {
            assert!(all.contains("lay the cards"), "{all}");
        }
    }
}

#[test]
fn every_answer_is_right() {
    let mut checked = 0;
    for lesson in lessons().iter().filter(|lesson| !lesson.style.and) {
        // The number that is shown before anything is asked.
        let shown = texts(lesson, &means::plan(lesson))
            .into_iter()
            .find(|text| text.starts_with("Write ") && text.contains(" where "));
        let read = shown.map_or(0, |text| figures(&text)[0]);
        for Reply { question, expect } in questions(lesson) {
            check(&question, &expect, read, lesson.style.zero_terms);
            checked += 1;
        }
    }
    assert!(checked > 400, "{checked}");
}

#[test]
fn no_question_is_asked_twice_and_no_number_written_twice() {
    for lesson in lessons() {
        let mut asked = BTreeMap::new();
        for Reply { question, .. } in questions(&lesson) {
            *asked.entry(question).or_insert(0) += 1;
        }
        assert!(asked.values().all(|count| *count == 1), "{asked:?}");
        let all = texts(&lesson, &means::plan(&lesson));
        for number in &lesson.chosen.model {
            let numeral = lesson.style.numeral(*number);
            let wrote = |text: &&String| {
                text.starts_with(&format!("Write {numeral} on the board"))
                    || text.starts_with(&format!("Write {numeral} where"))
                    || text.starts_with(&format!("Write {numeral} and build"))
            };
            assert!(all.iter().filter(wrote).count() <= 1, "{numeral}: {all:?}");
        }
    }
}

#[test]
fn slips_are_explained_once() {
    for lesson in lessons() {
        let mut named: BTreeSet<Slip> = BTreeSet::new();
        for step in means::plan(&lesson).phases.iter().flat_map(|part| &part.steps) {
            if let Step::Watch { wrong, told, .. } = step {
                assert_eq!(!named.insert(wrong.slip), *told, "{wrong:?}");
            }
        }
    }
}

#[test]
fn slips_speak_in_short_sentences() {
    for slip in Slip::all() {
        for text in [English.slip_thinking(slip, ReadIn::Hundreds), English.slip_next(slip, Tools::ALL)] {
            assert!(sentences(text).all(|sentence| word_count(sentence) <= LONGEST), "{text}");
        }
    }
}

#[test]
fn the_plan_speaks_of_the_lessons_own_numbers() {
    for (minutes, model, sort, exit) in LESSONS {
        let lesson = plain(minutes, model, sort, exit);
        let own: BTreeSet<u32> = model.iter().chain(sort.iter().copied().flatten()).chain(exit).copied().collect();
        // Parts of the lesson's numbers, and those numbers without their zeros.
        let mut known = own.clone();
        for n in &own {
            known.extend(parts(*n));
            known.extend(n.to_string().replace('0', "").parse::<u32>());
        }
        for Reply { question, .. } in questions(&lesson) {
            if question.starts_with("Someone laid the strip") {
                continue;
            }
            // Counts and digits are small; anything with two digits or more is a number of the lesson.
            for number in figures(&question).into_iter().filter(|n| *n > 9) {
                assert!(known.contains(&number), "{number} is not in the lesson: {question}");
            }
        }
    }
}

fn all(lesson: &Lesson) -> String {
    texts(lesson, &means::plan(lesson)).join("\n")
}

#[test]
fn a_zero_is_built_by_an_empty_column() {
    let all = all(&plain(50, &[406], &[], &[]));
    assert!(
        all.contains(
            "build it: 4 flats in the hundreds column and 6 cubes in the ones column. Leave the tens column empty."
        ),
        "{all}"
    );
    assert!(all.contains("Without it we would read 46."), "{all}");
}

#[test]
fn numbers_above_the_blocks_are_written_in_columns() {
    for (minutes, model, sort, exit) in LESSONS.iter().filter(|(_, model, ..)| model.iter().any(|n| *n > 9_999)) {
        let all = all(&plain(*minutes, model, sort, exit));
        for word in ["flat", "rod", "cube", "tub"] {
            assert!(
                !all.split(|c: char| !c.is_alphabetic()).any(|w| w == word || w == format!("{word}s")),
                "{word}: {all}"
            );
        }
        assert!(all.contains("one digit in each column") && all.contains("periods of three digits"), "{all}");
    }
}

#[test]
fn a_repeated_digit_is_asked_about_by_its_place() {
    let lesson = plain(50, &[444], &[], &[]);
    let all = all(&lesson);
    assert!(all.contains("444 has three 4s. From left to right they are worth 400, 40 and 4."), "{all}");
    assert!(all.contains("What is the 4 in the hundreds place of 444 worth?"), "{all}");
    for text in texts(&lesson, &means::plan(&lesson)) {
        assert!(!text.contains("the 4 in 444") && !text.contains("In 444 the 4"), "{text}");
    }
}

#[test]
fn only_the_marks_that_a_number_needs_are_drawn() {
    let all = all(&plain(50, &[105], &[], &[]));
    assert!(all.contains("Draw a square for each hundred and a dot for each one."), "{all}");
}

#[test]
fn the_same_digit_is_compared_where_the_numbers_allow_it() {
    let all = |model: &[u32]| all(&plain(50, model, &[], &[]));
    assert!(all(&[406, 640]).contains("Is the 4 worth the same in 406 and in 640?"));
    assert!(all(&[383]).contains("383 has two 3s. From left to right they are worth 300 and 3."));
    assert!(!all(&[123, 456]).contains("worth the same"));
}

#[test]
fn strips_that_are_cut_already_are_not_cut_again() {
    let (minutes, model, sort, exit) = LESSONS[0];
    let mut stacked = spec(minutes, model, sort, exit);
    stacked.print.cut.value = Cut::Stack;
    let all = all(&lesson(stacked, model, sort, exit).expect("a lesson"));
    assert!(
        all.contains("a pile of cut strips") && !all.contains("scissors") && !all.contains("sit down to cut"),
        "{all}"
    );
}

#[test]
fn pages_a_learner_and_joined_mats_are_said() {
    let (minutes, model, sort, exit) = LESSONS[6];
    let lesson = plain(minutes, model, sort, exit);
    let pages = [(SheetKind::Mat, 2), (SheetKind::Blocks, 3), (SheetKind::Board, 2), (SheetKind::Strips, 2)];
    let job = means::printed(&lesson, &pages);
    let plan = teach::plan(&Means { lesson: &lesson, job: &job, questions: 3, own_rows: true });
    // What is cut before the lesson lies there as pieces: only what stays whole, or is cut in the lesson, has pages.
    for (_, thing) in materials(&Means { lesson: &lesson, job: &job, questions: 3, own_rows: true }, true) {
        if let Thing::Sheet { sheet, pages, .. } = thing {
            let told = [SheetKind::Mat, SheetKind::Board, SheetKind::Strips].contains(&sheet);
            assert_eq!(pages, if told { 2 } else { 1 }, "{sheet:?}");
        }
    }
    let all = texts(&lesson, &plan).join("\n");
    for said in [
        "a place-value mat with its 2 pages joined",
        "Trim and join the 2 pages of each place-value mat with tape: 26 in all.",
        "Cut out the blocks: 78 sheets make 26 sets, each of 72 pieces.",
        "a sorting board of 2 pages, 2 pages of strips, scissors",
        "Mats not joined: lay the pages side by side.",
    ] {
        assert!(all.contains(said), "{said}: {all}");
    }
}

#[test]
fn a_class_calls_forms_what_it_likes() {
    let (minutes, model, sort, exit) = LESSONS[0];
    let mut named = spec(minutes, model, sort, exit);
    let name = |name: &str| Given::read(name.to_owned(), 0..1);
    named.forms.names = FormNames::new(BTreeMap::from([
        (placewright::number::Form::Numeral, name("Standard form")),
        (placewright::number::Form::Expanded, name("Sum of parts")),
    ]));
    let all = all(&lesson(named, model, sort, exit).expect("a lesson"));
    assert!(all.contains("in sum of parts?") && all.contains("shows standard form."), "{all}");
    assert!(!all.contains("expanded form"), "{all}");
}
