//! `[forms]`: which forms are matched and how they are written.

use super::limits;
use super::log::Log;
use super::table::Table;
use super::types::{FormsSpec, Given, Joiner, NumbersSpec, Thousands};
use crate::diag::Problem;
use crate::number::{Form, Number};

/// Decoys in a set of a lesson whose file does not say: one for every second row, and no more than this.
const DECOYS: u32 = 4;

/// What the table says; what it leaves open depends on the numbers.
pub(super) struct Asked {
    matched: Option<Given<Vec<Form>>>,
    joiner: Option<Given<Joiner>>,
    zero_terms: Option<Given<bool>>,
    thousands: Option<Given<Thousands>>,
    decoys: Option<Given<u32>>,
}

pub(super) fn read(mut table: Table, log: &mut Log) -> Asked {
    let matched = table.take("match").and_then(|v| v.words(log, &Form::ALL, Form::word));
    if let Some(given) = &matched
        && !limits::FORMS.allows(given.value.len() as u64)
        && log.is_clean()
        && let Some(span) = given.span()
    {
        let few = if given.value.is_empty() { "no form" } else { "only one form" };
        let problem = Problem::new(format!("`forms.match` lists {few}")).hint(
            "expected two to five of numeral, words, expanded, units and blocks; the first is printed on the board",
        );
        log.error(span, problem);
    }
    let asked = Asked {
        matched,
        joiner: table.take("joiner").and_then(|v| v.one_of(log, &Joiner::ALL, Joiner::word)),
        zero_terms: table.take("zero_terms").and_then(|v| v.switch(log)),
        thousands: table.take("thousands").and_then(|v| v.one_of(log, &Thousands::ALL, Thousands::word)),
        decoys: table.take("decoys").and_then(|v| v.count(log, limits::DECOYS)),
    };
    table.finish(log);
    asked
}

impl Asked {
    pub(super) fn settle(self, numbers: &NumbersSpec, log: &mut Log) -> FormsSpec {
        let has_pictures = numbers.range.value.1 <= Number::MAX_BLOCKS;
        if let Some(given) = &self.matched
            && let Some(span) = given.span()
            && given.value.contains(&Form::Blocks)
            && !has_pictures
        {
            let problem = Problem::new(format!(
                "`forms.match` lists `blocks`, but the range goes up to {}",
                limits::grouped(numbers.range.value.1.value().into())
            ))
            .hint("block pictures go up to 9,999: end the range there or leave `blocks` out");
            let span = log.word("blocks", &span);
            log.clash(span, problem, vec![(numbers.range.span(), "the range".to_owned())]);
        }
        let matched = self.matched.unwrap_or_else(|| {
            let mut forms = vec![Form::Numeral, Form::Words, Form::Expanded];
            forms.extend(has_pictures.then_some(Form::Blocks));
            Given::assumed(forms)
        });
        FormsSpec {
            matched,
            joiner: self.joiner.unwrap_or(Given::assumed(Joiner::None)),
            zero_terms: self.zero_terms.unwrap_or(Given::assumed(false)),
            thousands: self.thousands.unwrap_or(Given::assumed(Thousands::Comma)),
            decoys: self.decoys.unwrap_or(Given::assumed(DECOYS.min(numbers.sort.count.value / 2))),
        }
    }
}
