//! `[forms]`: which forms are matched, how they are written and what the class calls them.

use super::choices::{Joiner, Thousands};
use super::keys::kind::LineKind;
use super::keys::{Key, list};
use super::language::Language;
use super::limits;
use super::log::Log;
use super::pool::Pool;
use super::table::Table;
use super::types::{FormNames, FormsSpec, Given, NumbersSpec};
use crate::diag::Problem;
use crate::diag::nearest::listed;
use crate::number::{Form, Number};

/// What the table says; what it leaves open depends on the numbers.
pub(super) struct Asked {
    matched: Option<Given<Vec<Form>>>,
    joiner: Option<Given<Joiner>>,
    zero_terms: Option<Given<bool>>,
    thousands: Option<Given<Thousands>>,
    decoys: Option<Given<u32>>,
    names: FormNames,
}

pub(super) fn read(mut table: Table, log: &mut Log) -> Asked {
    let asked = take(&mut table, log);
    table.finish(log);
    asked
}

/// Takes the keys of forms out of a table, their own or a group's.
pub(super) fn take(table: &mut Table, log: &mut Log) -> Asked {
    let matched = table.read(&list::MATCH, log);
    if let Some(given) = &matched
        && !limits::FORMS.allows(given.value.len() as u64)
        && log.is_clean()
        && let Some(span) = given.span()
    {
        let few = if given.value.is_empty() { "no form" } else { "only one form" };
        let problem = Problem::new(format!("`forms.match` lists {few}")).hint(format!(
            "expected two or more of {}; the first is printed on the board",
            listed(&Form::ALL.map(Form::word), "and")
        ));
        log.error(span, problem);
    }
    Asked {
        matched,
        joiner: table.read(&list::JOINER, log),
        zero_terms: table.read(&list::ZERO_TERMS, log),
        thousands: table.read(&list::THOUSANDS, log),
        decoys: table.read(&list::DECOYS, log),
        names: names(table.inner("names", log), log),
    }
}

/// `[forms.names]`: what the class calls forms.
fn names(mut table: Table, log: &mut Log) -> FormNames {
    let read = |(form, key): (Form, &Key<LineKind>)| Some((form, table.read(key, log)?));
    let names = Form::ALL.into_iter().zip(&list::NAMES).filter_map(read).collect();
    table.finish(log);
    FormNames::new(names)
}

/// Tells where the lesson has numbers that a listed form cannot show, or no language for it: `alone` is the language of a
/// lesson that has one only.
fn shown_by_all(form: Form, given: &Given<Vec<Form>>, numbers: &NumbersSpec, alone: Option<Language>, log: &mut Log) {
    let Some(span) = given.span() else { return };
    let word = form.word();
    let (least, most) = numbers.range.value;
    let range = (numbers.range.span(), "the range".to_owned());
    let (problem, related) = if form == Form::SecondWords
        && let Some(alone) = alone
    {
        let problem = Problem::new(format!("`forms.match` lists `{word}`, but the lesson has one language only"));
        let other = alone.others().next().map_or("", Language::word);
        let hint = format!("add second_language = \"{other}\" at the top of the file, or leave `{word}` out");
        (problem.hint(hint), (None, String::new()))
    } else if form.is_picture() && most > Number::MAX_BLOCKS {
        let most = limits::grouped(most.value().into());
        let problem = Problem::new(format!("`forms.match` lists `{word}`, but the range goes up to {most}"));
        (problem.hint(format!("block pictures go up to 9,999: end the range there or leave `{word}` out")), range)
    } else if form.is_traded() && least.len() < 2 {
        let problem = Problem::new(format!("`forms.match` lists `{word}`, but the range begins at {least}"));
        let hint = "numbers below 10 have nothing to trade: begin the range at 10 or leave";
        (problem.hint(format!("{hint} `{word}` out")), range)
    } else if form == Form::Untraded
        && let Some(number) = Pool::new(numbers).numbers().find(|number| numbers.trading(0).pictured(*number).is_none())
    {
        let tub =
            numbers.at_most.values().filter_map(Given::span).reduce(|a, b| a.start.min(b.start)..a.end.max(b.end));
        let message =
            format!("`forms.match` lists `{word}`, but `at_most` holds too few blocks for {number} with a trade");
        let problem = Problem::new(message);
        let hint = "a trade makes ten more of one kind: expected such as at_most = { tens = 19, ones = 19 }, or leave";
        (problem.hint(format!("{hint} `{word}` out")), (tub, "what the tub holds".to_owned()))
    } else {
        return;
    };
    log.clash(log.word(word, &span), problem, vec![related]);
}

/// The mark between thousands and hundreds: what the file says, else what the language is written with. The Spanish academy
/// asks for a thin space, as ISO 80000-1 does (Ortografía de la lengua española 2010, viii.2.2; from memory).
fn thousands(asked: Given<Thousands>, language: Language) -> Given<Thousands> {
    match language {
        Language::Es if asked.is_assumed() => Given::assumed(Thousands::Space),
        _ => asked,
    }
}

impl Asked {
    /// The forms that are listed, if any are.
    pub(super) fn matched(&self) -> Option<&Vec<Form>> {
        self.matched.as_ref().map(|given| &given.value)
    }

    /// How many decoys are asked for, if it is said.
    pub(super) fn decoys(&self) -> Option<Given<u32>> {
        self.decoys
    }

    /// The forms of a group: its own, and the class's where it says nothing; `decoys` where it says nothing of those.
    pub(super) fn of_group(
        self,
        numbers: &NumbersSpec,
        class: &FormsSpec,
        decoys: Given<u32>,
        alone: Option<Language>,
        log: &mut Log,
    ) -> FormsSpec {
        let matched = self.matched.unwrap_or_else(|| class.matched.clone());
        for form in &matched.value {
            shown_by_all(*form, &matched, numbers, alone, log);
        }
        FormsSpec {
            matched,
            joiner: self.joiner.unwrap_or(class.joiner),
            zero_terms: self.zero_terms.unwrap_or(class.zero_terms),
            thousands: self.thousands.unwrap_or(class.thousands),
            decoys: self.decoys.unwrap_or(decoys),
            names: class.names.clone().and(self.names),
        }
    }

    /// The forms of the class, in a lesson of this language; `alone` where it has no other besides.
    pub(super) fn settle(
        self,
        numbers: &NumbersSpec,
        language: Language,
        alone: Option<Language>,
        log: &mut Log,
    ) -> FormsSpec {
        let has_pictures = numbers.range.value.1 <= Number::MAX_BLOCKS;
        if let Some(given) = &self.matched {
            for form in &given.value {
                shown_by_all(*form, given, numbers, alone, log);
            }
        }
        let matched = self.matched.unwrap_or_else(|| {
            let mut forms = vec![Form::Numeral, Form::Words];
            // A single digit in expanded form is the digit.
            forms.extend((!numbers.counts_to_ten()).then_some(Form::Expanded));
            forms.extend(has_pictures.then_some(Form::Blocks));
            Given::assumed(forms)
        });
        FormsSpec {
            matched,
            joiner: self.joiner.unwrap_or(Given::assumed(list::JOINER.value)),
            zero_terms: self.zero_terms.unwrap_or(Given::assumed(list::ZERO_TERMS.value)),
            thousands: thousands(self.thousands.unwrap_or(Given::assumed(Thousands::Comma)), language),
            decoys: self.decoys.unwrap_or(Given::assumed(list::DECOYS_MOST.min(numbers.sort.count.value / 2))),
            names: self.names,
        }
    }
}
