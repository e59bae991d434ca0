//! The words of a word bank, in one language or side by side in two.
//!
//! In: the lesson. Out: groups of entries, and how words join. With one language, groups are the language's own kinds of words.
//! With two, each numeral has one entry with its words in both: a numeral that one language has a word for, such as 200 in
//! Spanish, shows what the other says.

use std::collections::{BTreeMap, BTreeSet};

use super::{Lesson, fresh};
use crate::number::{Number, Style};
use crate::spec::{Language, Pool};
use crate::wording::learner::BankGroup;
use crate::wording::{self, Wording};

/// Entries that stand together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WordGroup {
    /// What heads its words: what they are, or their language.
    pub title: String,
    /// What heads the words of the second language.
    pub second: Option<String>,
    /// Its entries.
    pub words: Vec<WordEntry>,
}

/// A numeral with its words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WordEntry {
    /// In figures.
    pub numeral: String,
    /// In the lesson's language.
    pub first: String,
    /// In the second one.
    pub second: Option<String>,
}

/// How words join, and the language of that where it is not the lesson's.
pub type WordNote = (String, Option<Language>);

/// Which numbers' words a bank holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BankOf {
    /// Those that learners are given to read and write, and no others: where the page has no room for more.
    Fewest,
    /// Those, and what else stands under the same headings: a list with holes is no help in the next lesson.
    Given,
    /// All that they may choose from: where a row waits for a number of their own.
    Any,
    /// Of these the ones that others are made from: without those from 21 to 29, which some languages write as one word each.
    Most,
}

/// The words that these numbers of a lesson need.
pub fn groups(lesson: &Lesson, of: BankOf) -> Vec<WordGroup> {
    let mut numbers: Vec<Number> = fresh::met(lesson).into_iter().collect();
    let named = |value: u32| of == BankOf::Most && (21..30).contains(&(value % 100));
    let left_out = |number: &Number| named(number.value()) || named(number.value() / NEAR);
    if matches!(of, BankOf::Any | BankOf::Most) && !numbers.is_empty() {
        numbers.extend(choosable(lesson).into_iter().filter(|number| !left_out(number)));
    }
    // In two languages a heading is a language, and promises nothing else.
    if of != BankOf::Fewest && lesson.second().is_none() {
        let rest = families(lesson, &numbers);
        numbers.extend(rest.into_iter().filter(|number| !left_out(number)));
    }
    let own = lesson.wording().bank(&numbers, &lesson.style);
    let (Some(second), Some(style)) = (lesson.second(), lesson.style.in_second()) else {
        let entry = |(numeral, first)| WordEntry { numeral, first, second: None };
        let group = |group: BankGroup| WordGroup {
            title: group.title.to_owned(),
            second: None,
            words: group.words.into_iter().map(entry).collect(),
        };
        return own.into_iter().map(group).collect();
    };
    let other = wording::of(second);
    let mut rows: BTreeMap<u32, [Vec<String>; 2]> = BTreeMap::new();
    for (k, groups) in [own, other.bank(&numbers, &style)].into_iter().enumerate() {
        for (numeral, word) in groups.into_iter().flat_map(|group| group.words) {
            rows.entry(value(&numeral)).or_default()[k].push(word);
        }
    }
    let said = |words: Vec<String>, value: u32, style: &Style| {
        let name = style.names.cardinal(value, style.and);
        // A word that is part of the numeral's name, as "hundred" is, stands with the rest of it.
        if words.iter().all(|word| name.split(' ').any(|part| part == word)) { name } else { words.join(", ") }
    };
    let title = |of: Language| wording::of(of).capital(wording::of(of).language(of));
    let (first, second) = (title(lesson.spec.language.value), title(second));
    let mut groups: Vec<(u32, WordGroup)> = Vec::new();
    for (value, [own, others]) in rows {
        let numeral = Number::new(value).map_or_else(String::new, |number| lesson.style.numeral(number));
        let entry =
            WordEntry { numeral, first: said(own, value, &lesson.style), second: Some(said(others, value, &style)) };
        let kind = kind(value);
        match groups.last_mut() {
            Some((of, group)) if *of == kind => group.words.push(entry),
            _ => groups
                .push((kind, WordGroup { title: first.clone(), second: Some(second.clone()), words: vec![entry] })),
        }
    }
    groups.into_iter().map(|(_, group)| group).collect()
}

/// Whatever stands under the same headings as the words of these numbers, as far as the lesson's numbers go; teens as a whole, since
/// their heading names the first and the last.
fn families(lesson: &Lesson, numbers: &[Number]) -> Vec<Number> {
    const TEN: u32 = 10;
    const NINETEEN: u32 = 19;
    let greatest = lesson.greatest().value();
    let most = if greatest < TEN { greatest } else { greatest.max(NINETEEN) };
    let stand_alone = (1..100).chain((100..=NEAR).step_by(100)).filter_map(Number::new);
    let bank = |numbers: &[Number]| lesson.wording().bank(numbers, &lesson.style);
    let values = |group: &BankGroup| group.words.iter().map(|(numeral, _)| value(numeral)).collect::<Vec<_>>();
    let needed: BTreeSet<u32> = bank(numbers).iter().flat_map(values).collect();
    let mut all: Vec<Vec<u32>> = bank(&stand_alone.collect::<Vec<_>>()).iter().map(values).collect();
    all.retain(|family| family.iter().any(|value| needed.contains(value)));
    all.into_iter().flatten().filter(|value| *value <= most).filter_map(Number::new).collect()
}

/// The numbers that learners may choose from, or of a wide range enough to have all its words.
fn choosable(lesson: &Lesson) -> Vec<Number> {
    let mut numbers = Vec::new();
    for part in lesson.parts() {
        let pool = Pool::new(part.numbers);
        let (least, most) = part.numbers.range.value;
        let (least, most) = (least.value(), most.value());
        let first = least..=most.min(least + NEAR);
        let last = (most.saturating_sub(NEAR)).max(first.end() + 1)..=most;
        let values = first.chain((least.div_ceil(NEAR)..=most / NEAR).map(|n| n * NEAR)).chain(last);
        numbers.extend(values.filter_map(Number::new).filter(|number| pool.holds(*number)));
    }
    numbers
}

/// Numbers in a row that have all words below a thousand.
const NEAR: u32 = 1_000;

/// So many of the numbers that nobody meets are looked at for one that shows how words join.
const SHOWN: usize = 300;

/// How words join in each language, shown with numbers that learners meet before they sort, or with numbers that they do not
/// meet: no answer of a board or a check is given away. The words of such a number stand in the bank, unless it leaves out
/// those that the rule is for.
pub fn notes(lesson: &Lesson, of: BankOf, bank: &[WordGroup]) -> Vec<WordNote> {
    let met = fresh::met(lesson);
    let there: BTreeSet<u32> = bank.iter().flat_map(|group| &group.words).map(|entry| value(&entry.numeral)).collect();
    let unmet: Vec<Number> = choosable(lesson).into_iter().filter(|number| !met.contains(number)).collect();
    let told = |words: &dyn Wording, style: &Style| {
        let stands = |number: &Number| {
            let needed = || words.bank(&[*number], style).into_iter().flat_map(|group| group.words);
            of == BankOf::Most || needed().all(|(numeral, _)| there.contains(&value(&numeral)))
        };
        let first = |shows: &dyn Fn(Number) -> bool| {
            let others = unmet.iter().copied().filter(stands).take(SHOWN);
            lesson.chosen.model.iter().copied().filter(stands).chain(others).find(|number| shows(*number))
        };
        words.bank_notes(&first, style)
    };
    let mut notes: Vec<WordNote> = told(lesson.wording(), &lesson.style).into_iter().map(|note| (note, None)).collect();
    if let (Some(second), Some(style)) = (lesson.second(), lesson.style.in_second()) {
        let others = told(wording::of(second), &style);
        notes.extend(others.into_iter().map(|note| (note, Some(second))));
    }
    notes
}

/// The value of a numeral, whatever marks its thousands.
fn value(numeral: &str) -> u32 {
    numeral.chars().filter_map(|c| c.to_digit(10)).fold(0, |value, digit| value * 10 + digit)
}

/// Which kind of words a numeral has, in every language that is known here: ones, those up to thirty, whole tens, the rest.
fn kind(value: u32) -> u32 {
    match value {
        0..10 => 0,
        10..30 => 1,
        30..100 => 2,
        _ => 3,
    }
}
