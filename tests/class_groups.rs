//! Groups of the class: each keeps its own requests, letters and checks run on, and no learner's page tells a group.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::support::explained::explained;
use crate::support::packets;
use crate::support::run::placewright;
use crate::support::samples;
use placewright::diag::Source;
use placewright::lesson::choose::Demand;
use placewright::lesson::groups::SlipLesson;
use placewright::lesson::{self, Lesson, Role, practice};
use placewright::measure::Rect;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::number::{Number, Slip};
use placewright::rng::Stream;
use placewright::sheets::files::PacketKind;
use placewright::sheets::page::{Item, Page};
use placewright::spec::{self, SheetKind};
use placewright::wording::{English, GroupSteps as _};

fn planned(text: &str) -> Lesson {
    let source = Arc::new(Source { name: "lesson.toml".to_owned(), text: text.to_owned() });
    let spec = spec::read(&source).unwrap_or_else(|found| panic!("{text}\n{found:?}"));
    lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|found| panic!("{text}\n{found:?}"))
}

/// A lesson file at random with one to four groups, some of them the whole class.
fn file(stream: &mut Stream) -> String {
    let ranges = ["[10, 99]", "[100, 999]", "[20, 160]", "[1000, 9999]", "[100, 400]"];
    let seed = stream.below(1 << 40);
    let (range, versions) = (ranges[stream.index(5)], 1 + stream.index(3));
    let groups = 1 + stream.index(4);
    let rest = stream.index(2) * 8;
    let mut text = format!("title = \"T\"\nseed = {seed}\n[numbers]\nrange = {range}\n");
    text.push_str(&format!("[class]\nlearners = {}\nversions = {versions}\n", groups * 5 + rest));
    for k in 0..groups {
        text.push_str(&format!("[[group]]\nname = \"G{k}\"\nlearners = 5\n"));
        text.push_str(match stream.index(6) {
            0 => "closer = true\n",
            1 => "further = true\n",
            2 => "range = [10, 60]\nsort = { count = 5, zeros = { ones = 1 } }\n",
            3 => "range = [200, 480]\ndecoys = 2\nversions = 2\n",
            4 => "range = [1000, 3000]\nmatch = [\"numeral\", \"words\", \"regrouped\"]\n",
            _ => "thousands = \"none\"\nexit = { count = 2 }\n",
        });
    }
    text
}

/// A note says that a sheet is left out only where it is: also where a group alone has more rows than there is time for.
#[test]
fn no_sheet_is_said_to_be_left_out_that_is_made() {
    let lesson = planned(
        "title = \"Kite tails\"\nminutes = 30\n[numbers]\nrange = [100, 999]\nsort.count = 3\nexit.count = 1\n\
         model.count = 2\n[class]\nlearners = 20\n[[group]]\nname = \"Gulls\"\nlearners = 8\nsort.count = 12\n",
    );
    let made = lesson.spec.sheets.make.value.contains(&SheetKind::Strips);
    let notes = lesson.chosen.notes.join("\n");
    assert!(notes.contains("of 12 rows"), "{notes}");
    assert_eq!(made, !notes.contains("no strips"), "{notes}");
    assert_eq!(lesson.spec.sheets, lesson.fullest.sheets);
}

#[test]
fn every_group_keeps_its_requests_in_random_lessons() {
    let mut stream = Stream::new(21, "lessons with groups");
    let (mut shuffled, mut whole) = (0, 0);
    for _ in 0..40 {
        let text = file(&mut stream);
        let lesson = planned(&text);
        let (mut learners, mut letters, mut marks) = (Vec::<u32>::new(), Vec::<u8>::new(), Vec::<u32>::new());
        for group in &lesson.groups {
            learners.extend(&group.learners);
            letters.extend(group.versions.iter().map(|version| version.0));
            marks.extend(&group.checks);
            let demand = Demand::new(&group.numbers, Role::Sort);
            let mut met = BTreeSet::new();
            for set in lesson.sets.iter().filter(|set| group.versions.contains(&set.version)) {
                let rows: Vec<Number> = set.rows.clone();
                assert!(demand.holds(&rows), "{text}\n{group:?}\n{rows:?}");
                assert_eq!(set.decoys().len(), group.forms.decoys.value as usize, "{text}");
                assert_eq!([vec![set.given], set.forms.clone()].concat(), group.forms.matched.value);
                met.extend(rows);
            }
            assert!(Demand::new(&group.numbers, Role::Exit).holds(&group.exit), "{text}\n{group:?}");
            let asked: Vec<_> = lesson.checks.iter().filter(|check| group.checks.contains(&check.mark)).collect();
            assert_eq!(asked.len(), group.checks.len());
            let (least, most) = group.numbers.range.value;
            for question in asked.iter().flat_map(|check| &check.questions) {
                assert!((least..=most).contains(&question.of), "{text}\n{question:?}");
            }
            // The model numbers are the class's; a group's own are others where its range has others.
            let told = lesson.chosen.notes.iter().any(|note| note.contains("model numbers too"));
            assert!(told || lesson.chosen.model.iter().all(|number| !met.contains(number)), "{text}");
        }
        learners.sort_unstable();
        assert_eq!(learners, (1..=lesson.spec.class.learners.value).collect::<Vec<_>>(), "{text}");
        assert_eq!(letters, (0..lesson.sets.len() as u8).collect::<Vec<_>>(), "{text}");
        assert_eq!(marks, (1..=lesson.checks.len() as u32).collect::<Vec<_>>(), "{text}");
        let names: Vec<_> = lesson.groups.iter().map(|group| group.name.clone()).collect();
        shuffled += usize::from(!names.is_sorted() && !names.iter().rev().is_sorted());
        whole += usize::from(names.iter().all(Option::is_some));
    }
    assert!(shuffled > 6 && whole > 6, "{shuffled} {whole}");
}

#[test]
fn the_seed_shuffles_whose_letters_come_first() {
    let first = |seed: u32| {
        let text = format!(
            "title = \"T\"\nseed = {seed}\n[numbers]\nrange = [100, 999]\nsort = {{ count = 3 }}\n[class]\nlearners = 9\n\
             [[group]]\nname = \"One\"\nlearners = 3\n[[group]]\nname = \"Two\"\nlearners = 3\n"
        );
        planned(&text).groups[0].name.clone()
    };
    let mut met: BTreeMap<Option<String>, u32> = BTreeMap::new();
    (0..60).for_each(|seed| *met.entry(first(seed)).or_default() += 1);
    // Twenty each, within four standard deviations (3.7 each).
    assert!(met.len() == 3 && met.values().all(|count| (5..=35).contains(count)), "{met:?}");
}

/// The places and sizes on a page, and its texts without what differs by number: digits, signs and number words.
fn look(page: &Page) -> (Vec<Rect>, BTreeSet<String>) {
    let mut rects = Vec::new();
    let mut texts = BTreeSet::new();
    for layer in &page.layers {
        rects.extend(layer.boxes.iter().copied());
        rects.extend(layer.pieces.iter().map(|piece| piece.rect));
        rects.extend(layer.marks.iter().map(|mark| mark.frame));
        for node in &layer.nodes {
            node.each(&mut |item| {
                if let Item::Text(text) = item {
                    texts.extend(text.text.split(' ').map(str::to_owned));
                }
            });
        }
    }
    texts.retain(|word| !is_number(word));
    (rects, texts)
}

/// Whether a word is a numeral, a sign, a letter before a choice, or part of number words.
fn is_number(word: &str) -> bool {
    let parts = [
        "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
        "hundred", "hundreds", "tens", "ones", "thousand",
    ];
    let spelled =
        |part: &str| parts.contains(&part) || part.ends_with("teen") || part.ends_with("ty") || part.is_empty();
    word.chars().all(|c| c.is_ascii_digit() || ",.+?".contains(c)) || word.split('-').all(spelled)
}

// Two groups of equally many learners, rows and decoys: their pages are the same but for the numbers.
#[test]
fn learners_pages_differ_by_group_in_nothing_but_numbers() {
    let text = "title = \"Tickets\"\nseed = 3\n[numbers]\nrange = [100, 999]\nsort = { count = 5 }\nexit = { count = 2 }\n\
                [forms]\nmatch = [\"numeral\", \"words\", \"expanded\"]\ndecoys = 3\n[class]\nlearners = 12\n\
                [sheets]\nmake = [\"board\", \"strips\", \"exit\", \"key\", \"practice\"]\n\
                [[group]]\nname = \"Gulls\"\nlearners = 6\nrange = [100, 300]\n\
                [[group]]\nname = \"Petrels\"\nlearners = 6\nrange = [600, 999]\n";
    let lesson = planned(text);
    assert_eq!(lesson.groups.len(), 2);
    let family = bundled(Bundled::Andika).unwrap();
    let packet = packets::one(&lesson, &family, PacketKind::Teacher);
    for kind in [SheetKind::Board, SheetKind::Strips, SheetKind::Exit, SheetKind::Practice] {
        let of = |group: usize| -> Vec<_> {
            let versions = &lesson.groups[group].versions;
            let mine = packet.pages.iter().filter(|page| page.sheet == kind);
            let mine = mine.filter(|page| page.version.is_some_and(|version| versions.contains(&version)));
            let letters: Vec<String> = versions.iter().map(ToString::to_string).collect();
            let look = |page: &Page| {
                let (rects, mut texts) = look(page);
                texts.retain(|word| !letters.contains(word));
                // A bare letter is a choice of the check.
                texts.retain(|word| word.len() > 1);
                (page.size, page.stock, rects, texts)
            };
            mine.map(look).collect()
        };
        assert!(!of(0).is_empty(), "{kind:?}");
        let (one, other) = (of(0), of(1));
        assert_eq!(one.len(), other.len(), "{kind:?}");
        for (one, other) in one.iter().zip(&other) {
            assert_eq!((one.0, one.1, &one.2), (other.0, other.1, &other.2), "{kind:?}");
            // The questions are the same words, whatever the order in which they are broken.
            if kind != SheetKind::Exit {
                assert_eq!(one.3, other.3, "{kind:?}");
            }
        }
    }
}

#[test]
fn no_learners_page_names_a_group_and_everyone_gets_their_own() {
    let folder = tempfile::tempdir().expect("a folder");
    let ran = placewright(["typeset", "samples/ferry.toml", "--out", folder.path().to_str().expect("UTF-8")]);
    assert_eq!(ran.status, 0, "{ran:?}");
    let made = folder.path().join("ferry");
    let contents: serde_json::Value =
        serde_json::from_str(&std::fs::read_to_string(made.join("contents.json")).unwrap()).unwrap();
    // The roster as this test reads it.
    let roster = std::fs::read_to_string("samples/ferry-roster.csv").unwrap();
    let group: Vec<&str> = roster.lines().skip(1).map(|line| line.split_once(',').unwrap().1).collect();
    let mut seen: BTreeMap<u64, BTreeSet<&str>> = BTreeMap::new();
    for page in contents["pages"].as_array().unwrap() {
        let (Some(version), Some(learner)) = (page["version"].as_str(), page["learner"].as_u64()) else { continue };
        let Some(own) = group.get(usize::try_from(learner).unwrap() - 1) else { continue };
        assert_eq!(contents["versions"][version].as_str().unwrap_or(""), *own, "{page}");
        seen.entry(learner).or_default().insert(page["sheet"].as_str().unwrap());
    }
    assert_eq!(seen.len(), group.len());
    let own = ["board", "strips", "practice"];
    assert!(seen.values().all(|sheets| own.iter().all(|sheet| sheets.contains(sheet))), "{seen:?}");
    let counts: Vec<u64> =
        contents["groups"].as_array().unwrap().iter().map(|g| g["learners"].as_u64().unwrap()).collect();
    assert_eq!(counts.iter().sum::<u64>(), group.len() as u64);
    for file in ["copy-room-paper.pdf", "copy-room-card.pdf"] {
        let pages = crate::support::pdf::read(&std::fs::read(made.join(file)).unwrap());
        for run in pages.iter().flat_map(|page| &page.texts) {
            for word in ["Terns", "Petrels", "closer", "further", "group", "level"] {
                assert!(!run.text.contains(word), "{file}: {}", run.text);
            }
        }
    }
    let teacher = crate::support::pdf::read(&std::fs::read(made.join("teacher.pdf")).unwrap());
    let told = |word: &str| teacher.iter().flat_map(|page| &page.texts).any(|run| run.text.contains(word));
    assert!(told("Terns") && told("Petrels"), "the key says whose letters are whose");
    // The tally has beside each name the number and the letter that is on the learner's own pages.
    let names = roster.lines().skip(1).map(|line| line.split_once(',').unwrap().0);
    for (learner, name) in (1..).zip(names) {
        let mine = contents["pages"].as_array().unwrap().iter().filter(|page| page["learner"] == learner);
        let letters: BTreeSet<&str> = mine.filter_map(|page| page["version"].as_str()).collect();
        assert_eq!(letters.len(), 1, "{name} has one letter on everything: {letters:?}");
        let line = [learner.to_string(), name.to_owned(), (*letters.first().unwrap()).to_owned()];
        let beside = |page: &crate::support::pdf::Page| {
            page.texts.windows(3).any(|runs| runs.iter().map(|run| run.text.trim()).eq(line.iter().map(String::as_str)))
        };
        assert!(teacher.iter().any(beside), "{line:?}");
    }
    // Whoever copies the masters by hand makes a slip for everyone in each group: two are on a page of this check.
    let ticket = crate::support::pdf::read(&std::fs::read(made.join("copy-room-ticket.pdf")).unwrap());
    let ticket: Vec<&str> = ticket.iter().flat_map(|page| &page.texts).map(|run| run.text.as_str()).collect();
    let ticket = ticket.join(" ");
    for group in contents["groups"].as_array().unwrap() {
        let (checks, learners) = (group["checks"].as_array().unwrap(), group["learners"].as_u64().unwrap());
        let called = format!("quick checks {} to {}: pages ", checks[0], checks[checks.len() - 1]);
        let (_, rest) = ticket.split_once(&called).unwrap_or_else(|| panic!("no `{called}` in {ticket}"));
        let (pages, copies) = rest.split_once(" \u{d7} ").unwrap();
        let copies: String = copies.chars().take_while(char::is_ascii_digit).collect();
        let (first, last) = pages.split_once('\u{2013}').unwrap();
        let pages = last.parse::<u64>().unwrap() + 1 - first.parse::<u64>().unwrap();
        assert_eq!(copies.parse::<u64>().unwrap(), learners.div_ceil(pages * 2), "{called}{pages} pages");
    }
    // One table answers a question of all checks, whichever group they are for.
    let begins = |text: &str, word: &str| text.contains(word) && !text.ends_with("(goes on)");
    let heads = |word: &str| teacher.iter().flat_map(|page| &page.texts).filter(|run| begins(&run.text, word)).count();
    assert_eq!((heads("Question 1: "), heads("Quick checks: right answers")), (1, 1));
    // No page is empty: each has more on it than head and foot.
    assert!(teacher.iter().all(|page| page.texts.len() > 3), "an empty page");
}

#[test]
fn closer_and_further_are_worked_out_from_the_class() {
    let of = |range: &str, start: &str, forms: &str| {
        let text = format!(
            "title = \"T\"\n[numbers]\nrange = {range}\nsort = {{ count = 6 }}\n[forms]\nmatch = {forms}\ndecoys = 3\n\
             [[group]]\nname = \"G\"\nlearners = 5\n{start} = true\n"
        );
        let lesson = planned(&text);
        let group = lesson.groups.iter().find(|group| group.name.is_some()).unwrap();
        let (least, most) = group.numbers.range.value;
        let note = lesson.chosen.notes.iter().any(|note| note.contains(start));
        assert!(note, "{:?}", lesson.chosen.notes);
        (least.value(), most.value(), group.numbers.sort.count.value, group.forms.decoys.value)
    };
    let words = "[\"numeral\", \"words\", \"expanded\"]";
    assert_eq!(of("[100, 999]", "closer", words), (10, 99, 4, 0));
    assert_eq!(of("[1000, 9999]", "closer", words), (100, 999, 4, 0));
    assert_eq!(of("[10, 99]", "closer", words), (10, 54, 4, 0));
    assert_eq!(of("[100, 999]", "further", words), (1_000, 9_999, 7, 5));
    assert_eq!(of("[10, 99]", "further", words), (100, 999, 7, 5));
    let blocks = "[\"numeral\", \"blocks\", \"words\"]";
    let (least, most, ..) = of("[1000, 9999]", "further", blocks);
    assert!(least > 1_000 && most == 9_999, "pictures end at 9,999");
}

#[test]
fn every_group_practices_with_its_own_numbers_and_the_key_answers_them() {
    let text = "title = \"Tickets\"\nseed = 4\n[numbers]\nrange = [100, 499]\nsort = { count = 5 }\nexit = { count = 2 }\n\
                [class]\nlearners = 15\nversions = 2\n[sheets]\nmake = [\"board\", \"strips\", \"exit\", \"key\", \"practice\"]\n\
                [[group]]\nname = \"Gulls\"\nlearners = 5\nrange = [10, 99]\n\
                [[group]]\nname = \"Petrels\"\nlearners = 5\nrange = [1000, 9999]\nthousands = \"none\"\n";
    let lesson = planned(text);
    let family = bundled(Bundled::Andika).unwrap();
    let packet = packets::one(&lesson, &family, PacketKind::Teacher);
    let practiced: Vec<&Page> = packet.pages.iter().filter(|page| page.sheet == SheetKind::Practice).collect();
    assert_eq!(practiced.iter().filter_map(|page| page.version).count(), lesson.sets.len());
    let key = packets::texts(packet.pages.iter().filter(|page| page.sheet == SheetKind::Key)).join(" ");
    assert_eq!(lesson.parts().len(), 3);
    for part in lesson.parts() {
        let exercises = practice::exercises(&lesson, &part);
        assert!(exercises.len() > 5, "{exercises:?}");
        let (least, most) = part.numbers.range.value;
        for exercise in &exercises {
            // The lesser of two numbers with digits exchanged may be smaller than any of the range.
            let greatest = exercise.numbers().into_iter().max().unwrap();
            assert!((least..=most).contains(&greatest), "{exercise:?}");
        }
        let letters: Vec<String> = part.versions.iter().map(ToString::to_string).collect();
        assert!(key.contains(&format!("Practice {}: right answers", letters.join(" and "))), "{key}");
        for version in part.versions {
            let page = practiced.iter().find(|page| page.version == Some(*version)).expect("a master");
            let said = packets::texts([*page]).join(" ");
            for exercise in &exercises {
                if let practice::Exercise::Worth(of, place) = exercise {
                    let numeral = part.style.numeral(*of);
                    assert!(said.contains(&numeral), "{said}");
                    let worth = Number::new(u32::from(of.digit(*place)) * place.worth()).unwrap();
                    assert!(key.contains(&part.style.numeral(worth)), "{exercise:?}");
                }
            }
        }
    }
}

#[test]
fn small_groups_have_numbers_for_everyone_who_can_show_the_slip() {
    let text = "title = \"Tickets\"\nseed = 4\n[numbers]\nrange = [100, 499]\nsort = { count = 5 }\nexit = { count = 2 }\n\
                [class]\nlearners = 15\n[[group]]\nname = \"Gulls\"\nlearners = 5\nrange = [10, 49]\n\
                [[group]]\nname = \"Petrels\"\nlearners = 5\nrange = [1000, 4999]\n\
                [sheets]\nmake = [\"board\", \"strips\", \"exit\", \"key\", \"tally\", \"small-groups\"]\n";
    numbers_for_everyone(&planned(text));
    // What the practice shows is talked about, too.
    let practised = text.replace("\"small-groups\"", "\"small-groups\", \"practice\"");
    numbers_for_everyone(&planned(&practised));
}

fn numbers_for_everyone(lesson: &Lesson) {
    let mut told = BTreeSet::new();
    for part in lesson.parts() {
        // What this part's own strips and checks show, read off again.
        let sets = lesson.sets.iter().filter(|set| part.versions.contains(&set.version));
        let mut slips: BTreeSet<Slip> = sets.flat_map(|set| set.decoys()).map(|decoy| decoy.slip).collect();
        let checks = lesson.checks.iter().filter(|check| part.checks.contains(&check.mark));
        for question in checks.flat_map(|check| &check.questions) {
            slips.extend(question.wrong().map(|(_, _, slip)| slip));
        }
        if lesson.makes(SheetKind::Practice) {
            let exercises = practice::exercises(lesson, &part);
            slips.extend(exercises.iter().flat_map(|one| one.wrong(lesson, part.style)).map(|(_, slip)| slip));
        }
        let lessons = lesson::groups::lessons(lesson, &part);
        assert_eq!(lessons.iter().map(|lesson| lesson.slip).collect::<BTreeSet<_>>(), slips);
        let (least, most) = part.numbers.range.value;
        for SlipLesson { slip, trials, letter, .. } in lessons {
            assert_eq!(lesson.letter(slip), Some(letter));
            // A slip that few numbers of a range show is shown by others of as many digits.
            let length = |number: &Number| number.to_string().len();
            let near = (length(&least)..=length(&most)).collect::<Vec<_>>();
            assert!(trials.len() == 3 && trials.iter().all(|t| near.contains(&length(&t.of))), "{slip:?} {trials:?}");
            for trial in &trials {
                let wrong = trial.wrong.as_ref();
                assert!(wrong.is_none_or(|wrong| explained(trial.task, trial.of, wrong, part.style) == Some(slip)));
            }
            told.insert(slip);
        }
    }
    assert_eq!(told, lesson.slips.iter().map(|in_play| in_play.slip).collect());
    let family = bundled(Bundled::Andika).unwrap();
    let packet = packets::one(lesson, &family, PacketKind::Teacher);
    let said = packets::texts(packet.pages.iter().filter(|page| page.sheet == SheetKind::SmallGroups)).join(" ");
    for part in lesson.parts() {
        assert!(said.contains(part.name.unwrap_or("Everyone else")), "{said}");
        for own in lesson::groups::lessons(lesson, &part) {
            for trial in &own.trials {
                assert!(
                    said.contains(&English.shown_in(trial.of, trial.task, own.tools_of_each, part.style)),
                    "{trial:?}"
                );
            }
        }
    }
}

// Three groups with other forms and other sizes of numbers: what is said to all holds for all.
#[test]
fn the_plan_says_nothing_of_all_that_is_true_of_some() {
    let text = "title = \"Beads\"\nminutes = 40\nseed = 3\n[numbers]\nrange = [10, 60]\nmodel = { count = 2 }\nsort = { count = 4 }\n\
                [class]\nlearners = 9\n[print]\ntext = \"large\"\n[sheets]\nmake = [\"display\", \"board\", \"strips\"]\n\
                [[group]]\nname = \"Reds\"\nlearners = 1\ncloser = true\nmatch = [\"numeral\", \"expanded\", \"regrouped\"]\n\
                [[group]]\nname = \"Blues\"\nlearners = 4\nfurther = true\n";
    let lesson = planned(text);
    let family = bundled(Bundled::Andika).unwrap();
    let packet = packets::one(&lesson, &family, PacketKind::Substitute);
    let of = |kind| packet.pages.iter().filter(move |page| page.sheet == kind);
    let boards: BTreeMap<_, usize> = of(SheetKind::Board).fold(BTreeMap::new(), |mut counts, page| {
        *counts.entry(page.version).or_default() += 1;
        counts
    });
    assert_eq!(
        boards.values().copied().collect::<BTreeSet<_>>(),
        BTreeSet::from([1, 2]),
        "boards of one and of two pages"
    );
    let said = packets::texts(of(SheetKind::Cover).chain(of(SheetKind::Plan))).join(" ");
    assert!(!said.contains("board of 2 pages") && !said.contains("boards (2 pages each"), "{said}");
    // Words are no strips of one group.
    assert!(!said.contains("Begin with the number words"), "{said}");
    assert!(said.contains("regrouped forms"), "{said}");
    // Without a copier nobody is asked for a form that the group does not work with.
    assert!(said.contains("Learners write their own in expanded form."), "{said}");
    // A number of a group alone is not spoken of to the class.
    let plan = packets::texts(of(SheetKind::Plan)).join(" ");
    let class: BTreeSet<Number> = lesson.chosen.model.iter().copied().collect();
    let own = lesson.chosen.sort.iter().flatten().filter(|number| !class.contains(number));
    for number in own.filter(|number| number.value() > 60) {
        let opening = plan.split(" the model number").next().unwrap();
        assert!(!opening.contains(&number.to_string()), "{number}: {opening}");
    }
}

#[test]
fn the_key_and_the_cover_speak_of_checks_only_where_there_are_some() {
    let family = bundled(Bundled::Andika).unwrap();
    for (count, sheets) in
        [(0, "\"board\", \"strips\", \"key\", \"practice\""), (2, "\"board\", \"strips\", \"exit\", \"key\"")]
    {
        let lesson = planned(&format!(
            "title = \"T\"\n[numbers]\nrange = [100, 999]\nsort = {{ count = 4 }}\nexit = {{ count = {count} }}\n[sheets]\nmake = [{sheets}]\n"
        ));
        let packet = packets::one(&lesson, &family, PacketKind::Substitute);
        let of = |kind| packet.pages.iter().filter(move |page| page.sheet == kind);
        let said = packets::texts(of(SheetKind::Cover).chain(of(SheetKind::Key))).join(" ");
        assert_eq!(said.contains("quick check"), count > 0, "{said}");
    }
}

// From the substitute's packet the first set of each group is copied: who has another one, on the list or on a name, gets it too.
#[test]
fn the_cover_says_which_set_stands_in_for_those_that_are_not_here() {
    let family = bundled(Bundled::Andika).unwrap();
    let cover = |lesson: &Lesson| {
        let packet = packets::one(lesson, &family, PacketKind::Substitute);
        packets::texts(packet.pages.iter().filter(|page| page.sheet == SheetKind::Cover)).join(" ")
    };
    let said = cover(&samples::lesson("ferry"));
    for row in ["C\u{2013}D Everyone else", "E\u{2013}F Terns", "All of a row get its first set."] {
        assert!(said.contains(row), "{row}: {said}");
    }
    // A group has one name, wherever the class is spoken of.
    let two = "title = \"T\"\nminutes = 50\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 19\n[sheets]\nmake = [\"board\", \"strips\"]\n\
               [[group]]\nname = \"Terns\"\nlearners = 6\ncloser = true\n";
    for (language, lead, rest) in
        [("en", "The group Terns: ", "Everyone else: "), ("es", "El grupo Terns: ", "Los dem\u{e1}s: ")]
    {
        let said = cover(&planned(&format!("language = \"{language}\"\n{two}")));
        assert!(said.contains(lead) && said.contains(rest), "{said}");
        assert!(!said.contains(" for Terns") && !said.contains(" para Terns"), "{said}");
    }
}

// A group that matches other forms is not promised what the class trains.
#[test]
fn what_a_group_can_do_is_what_it_trained() {
    let lesson = planned(
        "title = \"T\"\nminutes = 50\n[numbers]\nrange = [100, 999]\n[forms]\nmatch = [\"numeral\", \"regrouped\"]\n[class]\nlearners = 12\n\
         [[group]]\nname = \"Terns\"\nlearners = 6\nrange = [10, 99]\nmatch = [\"numeral\", \"words\", \"expanded\"]\n",
    );
    let said: BTreeMap<bool, String> =
        lesson.parts().into_iter().map(|part| (part.name.is_some(), lesson.part_can(&part))).collect();
    assert_eq!(said[&true], "I can say how many tens and ones a number has.");
    assert_eq!(said[&false], "I can trade and still have the same number.");
    assert_eq!(lesson.can(), "I can say what each digit of my numbers is worth.");
}

// Nobody hunts for wrong strips who has none: all boards say the same, and it is true of each.
#[test]
fn a_board_without_decoys_has_no_strips_put_aside() {
    let family = bundled(Bundled::Andika).unwrap();
    for language in ["en", "es"] {
        let lesson = planned(&format!(
            "title = \"T\"\nminutes = 60\nlanguage = \"{language}\"\n[numbers]\nrange = [100, 999]\nsort.count = 6\n[class]\nlearners = 12\n\
             [[group]]\nname = \"Terns\"\nlearners = 4\ncloser = true\n"
        ));
        let decoys = |set: &lesson::SortSet| set.strips.iter().any(|strip| strip.row.is_none());
        assert!(lesson.sets.iter().any(decoys) && !lesson.sets.iter().all(decoys));
        let packet = packets::one(&lesson, &family, PacketKind::Teacher);
        let said = packets::texts(packet.pages.iter().filter(|page| page.sheet == SheetKind::Board)).join(" ");
        let conditional =
            if language == "en" { "If one fits no row, put it aside." } else { "Si una no va en ninguna fila" };
        assert!(said.contains(conditional) && !said.contains("Put aside") && !said.contains("Aparta"), "{said}");
    }
}
