//! The word bank: what it says of a numeral is what the numeral is called, and it has the words that learners need.

use placewright::lesson::Lesson;
use placewright::lesson::words::{self, BankOf};
use placewright::spec::SheetKind;

use crate::support::class::Shop;
use crate::support::packets::{self, masters, texts};
use crate::support::setup::{self, planned};

fn lesson(top: &str, numbers: &str) -> Lesson {
    planned(&format!(
        "title = \"Beans\"\nseed = 1\n{top}\n[numbers]\n{numbers}\n[sheets]\nmake = [\"record\", \"word-bank\", \"board\"]\n"
    ))
}

/// The words of a numeral, in each language.
fn said(lesson: &Lesson, numeral: &str) -> Vec<(String, Option<String>)> {
    let groups = words::groups(lesson, BankOf::Given);
    let entries = groups.into_iter().flat_map(|group| group.words).filter(|entry| entry.numeral == numeral);
    entries.map(|entry| (entry.first, entry.second)).collect()
}

#[test]
fn a_hundred_is_one_hundred_and_cien() {
    let hundreds = "range = [101, 199]\nmodel.count = 1\nsort.count = 3\nexit.count = 0";
    let both = said(&lesson("second_language = \"es\"", hundreds), "100");
    assert_eq!(both, [("one hundred".to_owned(), Some("cien, ciento\u{2026}".to_owned()))]);
    assert_eq!(said(&lesson("", hundreds), "100"), [("one hundred".to_owned(), None)]);
    let spanish: Vec<String> =
        said(&lesson("language = \"es\"", hundreds), "100").into_iter().map(|(word, _)| word).collect();
    assert_eq!(spanish, ["cien, ciento\u{2026}"]);
}

/// "Veintiuno" loses its ending before "mil" and has an accent then (Real Academia Española, Ortografía 2010): the short word is
/// what learners have to spell.
#[test]
fn short_words_stand_beside_the_long_ones() {
    let lesson = lesson(
        "language = \"es\"",
        "range = [21000, 31000]\nmodel.count = 0\nsort = { count = 2, always = [21000, 31000] }\nexit.count = 0",
    );
    let first = |numeral| said(&lesson, numeral).into_iter().map(|(word, _)| word).collect::<Vec<_>>();
    assert_eq!(first("21"), ["veintiuno, veintiún\u{2026}"]);
    assert_eq!(first("1"), ["uno, un\u{2026}"]);
}

fn text(lesson: &Lesson) -> String {
    let shop = Shop::open();
    let pages = masters(&shop.desk(lesson), SheetKind::WordBank).expect("a bank");
    texts(&pages).join("\n")
}

/// Where the recording sheet has a row for a number of the learner's own, the bank has the words of every number to choose.
#[test]
fn a_number_of_ones_own_can_be_spelled() {
    let lesson = lesson("", "range = [100, 999]\nmodel.count = 1\nsort.count = 3\nexit.count = 0");
    let text = text(&lesson);
    let words: Vec<&str> = text.lines().collect();
    // The words of 101 to 999, from the numbers' own names.
    for word in ["one", "nine", "ten", "eleven", "eighteen", "nineteen", "twenty", "fifty", "ninety", "one hundred"] {
        assert!(words.contains(&word), "{word} is missing from {words:?}");
    }
}

/// Whatever number a lesson has, on the display, in a set, in a group's or in the quick check: every word of its name is on the page.
#[test]
fn every_number_of_the_lesson_can_be_spelled() {
    let group = "[class]\nlearners = 12\n[[group]]\nname = \"Herons\"\nlearners = 4\nrange = [1000, 4999]\n";
    let thousands = "range = [1000, 9999]\nmodel.count = 3\nsort.count = 6\nexit.count = 4";
    for (numbers, rest) in [
        ("range = [100, 999]\nmodel.count = 1\nsort.count = 2\nexit.count = 6", ""),
        ("range = [100, 599]\nmodel.count = 2\nsort.count = 6\nexit.count = 3", group),
        (thousands, ""),
        ("range = [10000, 999999]\nmodel.count = 2\nsort.count = 6\nexit.count = 4", ""),
    ] {
        for top in ["", "language = \"es\"", "language = \"es\"\nsecond_language = \"en\"", "second_language = \"es\""]
        {
            let lesson = planned(&format!(
                "title = \"Beans\"\nseed = 5\n{top}\n[numbers]\n{numbers}\n[sheets]\nmake = [\"record\", \"word-bank\", \
                 \"board\", \"exit\"]\n{rest}"
            ));
            let text = text(&lesson);
            let there: Vec<&str> = text.split([' ', '\n', '\u{a0}']).map(bare).collect();
            let chosen = &lesson.chosen;
            let asked = lesson.checks.iter().flat_map(|check| &check.questions).map(|question| &question.of);
            let all = chosen.model.iter().chain(chosen.sort.iter().flatten()).chain(&chosen.exit).chain(asked);
            for number in all {
                for style in [Some(lesson.style), lesson.style.in_second()].into_iter().flatten() {
                    let words = style.words(*number);
                    for word in words.split([' ', '-']).map(bare).filter(|word| !["y", "and"].contains(word)) {
                        assert!(there.contains(&word), "{word} of {words} is missing: {top} {numbers}\n{text}");
                    }
                }
            }
        }
    }
}

/// A word without what joins it to others.
fn bare(word: &str) -> &str {
    word.trim_matches([',', '.', '\u{2026}'])
}

/// A number of their own in a range of six digits: all words up to nineteen, the tens, and what follows a full thousand.
#[test]
fn own_numbers_of_a_wide_range_have_their_words() {
    for (top, range, words) in [
        ("language = \"es\"", "[10000, 999999]", ["seis", "once", "diecinueve", "cincuenta", "ciento", "mil"]),
        (
            "language = \"es\"\nsecond_language = \"en\"",
            "[100, 999]",
            ["dos", "once", "trece", "treinta", "ciento", "setenta"],
        ),
        ("", "[1000, 9999]", ["three", "eleven", "nineteen", "fifty", "hundred", "thousand"]),
    ] {
        let lesson = lesson(top, &format!("range = {range}\nmodel.count = 1\nsort.count = 3\nexit.count = 0"));
        let text = text(&lesson);
        let there: Vec<&str> = text.split([' ', '\n', '\u{a0}']).map(bare).collect();
        assert!(words.iter().all(|word| there.contains(word)), "{top} {range}: {there:?}");
    }
}

/// Also where the lesson has no model numbers to show it with.
#[test]
fn how_words_join_is_told_and_gives_no_answer_away() {
    for (top, joined) in [("", "Join tens and ones with a hyphen: "), ("language = \"es\"", "Del 31 al 99, ")] {
        let lesson = lesson(
            top,
            "range = [100, 999]\nmodel.count = 0\nsort = { count = 2, always = [131, 147] }\nexit.count = 0",
        );
        let bank = words::groups(&lesson, BankOf::Given);
        let notes = words::notes(&lesson, BankOf::Given, &bank);
        let (note, _) = notes.iter().find(|(note, _)| note.starts_with(joined)).expect("a note");
        assert!(note.ends_with('.'), "{note}");
        let shown = note.trim_end_matches('.').rsplit(": ").next().expect("a number");
        let met = lesson.chosen.sort.iter().flatten().map(|number| lesson.style.words(*number));
        assert!(met.into_iter().all(|words| !words.ends_with(shown)), "{note}");
    }
}

/// A rule that is shown with words which stand nowhere on the page only raises a question.
#[test]
fn a_rule_is_shown_with_words_of_the_page() {
    let mut told = 0;
    for (top, range, always) in [
        ("language = \"es\"", "[700, 799]", "[731, 745]"),
        ("language = \"es\"", "[20, 99]", "[24, 36]"),
        ("language = \"es\"\nsecond_language = \"en\"", "[20, 99]", "[24, 36]"),
        ("", "[700, 799]", "[731, 745]"),
    ] {
        let lesson = lesson(
            top,
            &format!("range = {range}\nmodel.count = 0\nsort = {{ count = 2, always = {always} }}\nexit.count = 0"),
        );
        let bank = words::groups(&lesson, BankOf::Given);
        let entries = bank.iter().flat_map(|group| &group.words);
        let texts = entries.flat_map(|entry| [Some(&entry.first), entry.second.as_ref()]).flatten();
        let there: Vec<String> =
            texts.flat_map(|text| text.split([' ', ',', '\u{2026}', '-'])).map(str::to_owned).collect();
        for (note, _) in words::notes(&lesson, BankOf::Given, &bank) {
            told += 1;
            let shown = note.trim_end_matches('.').rsplit(": ").next().expect("a number");
            let mut words = shown.split([' ', '-']).filter(|word| !["y", "and"].contains(word));
            assert!(words.all(|word| there.iter().any(|text| text == word)), "{note} {there:?}");
        }
    }
    assert!(told >= 3, "{told} rules");
}

/// One that is wider than its column by less than a hundredth of a millimetre.
#[test]
fn a_heading_has_no_less_room_than_was_reckoned() {
    let text = "title = \"El mercado de flores: decenas y unidades\"\ngrade = \"1\"\nminutes = 40\npaper = \"a4\"\nlanguage = \"es\"\n\
                seed = 12\n[numbers]\nrange = [10, 99]\n[numbers.model]\ncount = 2\nteens = 1\n[numbers.sort]\ncount = 6\n\
                teens = 2\nsame_digits = 2\n[numbers.exit]\ncount = 3\n[forms]\nmatch = [\"numeral\", \"words\", \"units\", \
                \"blocks\"]\ndecoys = 3\n[class]\nlearners = 16\nversions = 2\n";
    let laid = packets::all(&planned(text), &setup::family(), &[SheetKind::WordBank]);
    assert!(laid.is_ok(), "{:?}", laid.err());
}

/// A heading of the program's own is nothing that a teacher can change: whatever the range, paper and language, the page is laid.
#[test]
fn headings_never_stop_a_lesson() {
    let family = setup::family();
    for paper in ["letter", "a4"] {
        for language in ["en", "es"] {
            for text in ["standard", "large"] {
                for range in ["[0, 10]", "[0, 30]", "[10, 39]", "[10, 99]", "[0, 120]", "[100, 999]"] {
                    let lesson = planned(&format!(
                        "title = \"Beans\"\nseed = 12\npaper = \"{paper}\"\nlanguage = \"{language}\"\n[numbers]\nrange = {range}\n\
                         [print]\ntext = \"{text}\"\n"
                    ));
                    let laid = packets::all(&lesson, &family, &[SheetKind::WordBank]);
                    assert!(laid.is_ok(), "{paper} {language} {text} {range}: {:?}", laid.err());
                }
            }
        }
    }
}

/// A list that a heading promises has no holes: teens and tens, as far as the lesson's numbers go.
#[test]
fn a_family_of_words_is_whole() {
    let teens = ["10", "11", "12", "13", "14", "15", "16", "17", "18", "19"];
    let tens = ["20", "30", "40", "50", "60", "70", "80", "90"];
    for (top, range, always, whole) in [
        ("", "[100, 999]", "[211, 340]", [&teens[..], &tens[..]].concat()),
        ("language = \"es\"", "[100, 999]", "[211, 340]", [&teens[..], &tens[1..]].concat()),
        ("", "[10, 15]", "[11, 13]", teens.to_vec()),
        ("", "[20, 59]", "[24, 36]", tens[..4].to_vec()),
    ] {
        let text =
            format!("range = {range}\nmodel.count = 0\nsort = {{ count = 2, always = {always} }}\nexit.count = 0");
        let bank = words::groups(&lesson(top, &text), BankOf::Given);
        let there: Vec<&str> = bank.iter().flat_map(|group| &group.words).map(|entry| entry.numeral.as_str()).collect();
        let holes: Vec<&&str> = whole.iter().filter(|word| !there.contains(word)).collect();
        assert!(holes.is_empty(), "{top} {range}: {holes:?} of {there:?}");
        let more: Vec<&&str> = there
            .iter()
            .filter(|n| n.len() == 2 && n.ends_with('0') && tens.contains(n) && !whole.contains(n))
            .collect();
        assert!(more.is_empty() || top.contains("es"), "{top} {range}: {more:?}");
    }
}
