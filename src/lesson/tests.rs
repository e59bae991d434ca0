//! Tests of how a lesson is planned: what it settles, its sets, and how its mistakes are reported.

use super::*;
use crate::diag::FilePlace;
use crate::number::{Form, Number, Style};
use crate::spec;
use crate::wording::English;

fn source(text: &str) -> Arc<Source> {
    Arc::new(Source { name: "lesson.toml".to_owned(), text: text.to_owned() })
}

/// A lesson of given sort numbers, as though they had been chosen.
fn lesson(text: &str, sort: &[&[u32]], roster: &[&str]) -> Result<Lesson, Vec<Diagnostic>> {
    let source = source(text);
    let spec = spec::read(&source).expect("a good lesson file");
    let numbers = |set: &&[u32]| set.iter().filter_map(|&value| Number::new(value)).collect();
    let chosen = Chosen {
        model: Vec::new(),
        sort: sort.iter().map(numbers).collect(),
        exit: Vec::new(),
        why: [].into(),
        solutions: [].into(),
        notes: Vec::new(),
    };
    with_numbers(&source, spec, chosen, roster.iter().map(|&name| name.to_owned()).collect())
}

#[track_caller]
fn refuses(result: Result<Lesson, Vec<Diagnostic>>, at: (usize, usize), message: &str, hint: &str) {
    let found = result.expect_err("no lesson");
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].problem.message, message);
    assert_eq!(found[0].problem.hint.as_deref(), Some(hint));
    assert_eq!(found[0].place.as_ref().map(FilePlace::line_column), Some(at));
}

const HARBOUR: &str = "title = \"Harbour stalls\"\n[numbers]\nrange = [0, 999]\nsort = { count = 4 }\n";
const SET: &[u32] = &[640, 406, 383, 614];

#[test]
fn less_time_never_means_more_to_do() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/samples");
    let samples = std::fs::read_dir(folder).expect("samples").map(|entry| entry.expect("an entry").path());
    for path in samples.filter(|path| path.extension().is_some_and(|ending| ending == "toml")) {
        let text = std::fs::read_to_string(&path).expect("a sample");
        let spec = spec::read(&source(&text)).expect("a lesson");
        let mut before: Option<Load> = None;
        for minutes in (10..=timing::least(&spec) + 5).rev() {
            let load = timing::load(&spec, minutes);
            let more = |of: fn(&Load) -> u32| before.is_some_and(|before| of(&load) > of(&before));
            let grows = more(|load| load.rows) || more(|load| load.models) || more(|load| load.questions);
            assert!(!grows, "{path:?}, {minutes} minutes: {load:?} after {before:?}");
            before = Some(load);
        }
    }
}

#[test]
fn every_version_has_its_strips_and_decoys() {
    let text = format!("{HARBOUR}[forms]\ndecoys = 3\n[class]\nversions = 2");
    let lesson = lesson(&text, &[SET, &[911, 505, 264, 120]], &[]).unwrap();
    let versions: Vec<String> = lesson.sets.iter().map(|set| set.version.to_string()).collect();
    assert_eq!(versions, ["A", "B"]);
    for set in &lesson.sets {
        assert_eq!(set.forms, [Form::Words, Form::Expanded, Form::Blocks]);
        assert_eq!((set.decoys().len(), set.strips.len()), (3, 4 * 3 + 3));
    }
    assert_eq!(lesson.sets[0].rows.iter().map(|row| row.value()).collect::<Vec<_>>(), SET);
}

#[test]
fn the_seed_shuffles_strips_and_picks_decoys() {
    let sets = |seed: u32| lesson(&format!("seed = {seed}\n{HARBOUR}"), &[SET], &[]).unwrap().sets;
    assert_eq!(sets(1), sets(1));
    assert_ne!(sets(1), sets(2));
    // Two versions of the same numbers are shuffled apart.
    let twice = lesson(HARBOUR, &[SET, SET], &[]).unwrap().sets;
    assert_ne!(twice[0].strips, twice[1].strips);
}

#[test]
fn the_style_is_the_files() {
    let style = |forms: &str| lesson(&format!("{HARBOUR}[forms]\n{forms}"), &[SET], &[]).unwrap().style;
    let trading = style("").trading;
    assert_eq!(style(""), Style { trading, ..Style::plain(&English) });
    let asked = style("joiner = \"and\"\nzero_terms = true\nthousands = \"space\"");
    assert_eq!(asked, Style { and: true, zero_terms: true, thousands: Some('\u{202f}'), ..style("") });
    assert_eq!(style("thousands = \"none\"").thousands, None);
}

#[test]
fn no_sort_numbers_no_sets() {
    assert_eq!(lesson(HARBOUR, &[], &[]).unwrap().sets, []);
    assert_eq!(lesson(HARBOUR, &[&[], &[]], &[]).unwrap().sets, []);
}

#[test]
fn too_many_decoys() {
    let text = format!("{HARBOUR}[forms]\nmatch = [\"words\", \"numeral\"]\ndecoys = 9");
    refuses(
        lesson(&text, &[&[7, 8, 30, 9]], &[]),
        (7, 10),
        "`forms.decoys` asks for 9 different decoys, but slips make only 2 of the sort numbers",
        "expected at most 2; another seed, more numbers or more forms may give more",
    );
    let two = format!("{text}\n[class]\nversions = 2");
    refuses(
        lesson(&two, &[&[640, 406, 383, 614], &[1, 2, 3, 4]], &[]),
        (7, 10),
        "`forms.decoys` asks for 9 different decoys, but no slip makes one of set B",
        "expected 0; another seed, more numbers or more forms may give more",
    );
}

#[test]
fn assumed_decoys_give_way() {
    let few = lesson(HARBOUR, &[&[4, 20, 7, 8]], &[]).unwrap();
    assert_eq!(few.chosen.notes, [] as [&str; 0]);
    let two = lesson(&format!("{HARBOUR}[forms]\nmatch = [\"blocks\", \"numeral\"]"), &[&[1, 2, 30, 4]], &[]).unwrap();
    assert_eq!(two.chosen.notes, ["the sort sets have only 1 decoy: slips make no more of these numbers"]);
    let lesson = lesson(HARBOUR, &[&[1, 2, 3, 4]], &[]).unwrap();
    assert_eq!((lesson.spec.forms.decoys.value, lesson.sets[0].decoys().len()), (0, 0));
    assert_eq!(lesson.chosen.notes, ["the sort sets have no decoys: slips make none of these numbers"]);
}

#[test]
fn a_roster_counts_the_learners() {
    let learners = |text: &str, roster: &[&str]| lesson(text, &[SET], roster).unwrap().spec.class.learners.value;
    assert_eq!(learners(HARBOUR, &["Ada", "Bo", "Cy"]), 3);
    assert_eq!(learners(&format!("{HARBOUR}[class]\nlearners = 5"), &["Ada", "Bo", "Cy"]), 5);
    refuses(
        lesson(&format!("{HARBOUR}[class]\nlearners = 2"), &[SET], &["Ada", "Bo", "Cy"]),
        (6, 12),
        "the roster has 3 names but `class.learners` is 2",
        "set it to 3, or leave it out to take the roster's",
    );
}

#[test]
fn mistakes_come_together() {
    let text = format!("{HARBOUR}[forms]\ndecoys = 60\n[class]\nlearners = 1");
    assert_eq!(lesson(&text, &[SET], &["Ada", "Bo"]).unwrap_err().len(), 2);
}

#[test]
fn pictures_end_at_9999() {
    let found = lesson(HARBOUR, &[&[12_345]], &[]).unwrap_err();
    assert_eq!(found[0].problem.message, "12,345 has no block picture");
    // The forms are assumed here, so that no place in the file is to blame.
    assert_eq!(found[0].place, None);
}

fn planned(text: &str, roster: &[&str]) -> Result<Lesson, Vec<Diagnostic>> {
    let source = source(text);
    let spec = spec::read(&source).expect("a good lesson file");
    plan(&source, spec, roster.iter().map(|&name| name.to_owned()).collect::<Vec<String>>())
}

#[test]
fn a_whole_lesson_is_planned() {
    let text = format!("{HARBOUR}model = {{ count = 2, zeros = {{ tens = 1 }} }}\n[class]\nversions = 3");
    let lesson = planned(&text, &["Ada", "Bo"]).unwrap();
    assert_eq!((lesson.sets.len(), lesson.roster.len(), lesson.spec.class.learners.value), (3, 2, 2));
    for (set, rows) in lesson.sets.iter().zip(&lesson.chosen.sort) {
        assert_eq!(&set.rows, rows);
        assert_eq!(set.strips.len(), rows.len() * set.forms.len() + lesson.spec.forms.decoys.value as usize);
    }
    assert_eq!(planned(&text, &["Ada", "Bo"]).unwrap(), lesson);
}

#[test]
fn clashes_and_other_mistakes_come_together() {
    // 10 shows a zero and 11 repeats a digit, but no single number does both.
    let sort = "sort = { count = 1, repeats = 1, zeros = { ones = 1 } }";
    let text = format!("title = \"Tram stops\"\n[numbers]\nrange = [10, 13]\n{sort}\n[class]\nlearners = 1");
    let found = planned(&text, &["Ada", "Bo"]).unwrap_err();
    let about = |what: &str| found.iter().filter(|d| d.problem.message.contains(what)).count();
    assert_eq!([about("sort"), about("roster")], [1, 1], "{found:?}");
}

/// Who has a number that no blocks show is said, and where the file says so.
#[test]
fn a_number_without_blocks_has_a_place_in_the_file() {
    let make = "[sheets]\nmake = [\"blocks\", \"board\"]\n";
    let class = format!(
        "title = \"Big\"\n[numbers]\nrange = [10000, 49999]\n[forms]\nmatch = [\"numeral\", \"words\"]\n{make}"
    );
    let group = format!(
        "title = \"Big\"\n[numbers]\nrange = [100, 999]\n[forms]\nmatch = [\"numeral\", \"words\"]\n[class]\nlearners = 9\n{make}\
         [[group]]\nname = \"Terns\"\nlearners = 3\nrange = [20000, 49999]\n"
    );
    for (text, lead, at) in
        [(class, "", "[\"blocks\", \"board\"]"), (group, "in the group `Terns`: ", "[20000, 49999]")]
    {
        let found = planned(&text, &[]).unwrap_err();
        let place = found[0].place.as_ref().expect("a place");
        assert_eq!(&text[place.span.clone()], at, "{found:?}");
        let message = &found[0].problem.message;
        assert!(message.starts_with(lead) && message.contains("has no blocks: they end at 9999"), "{message}");
    }
}
