//! `[forms]`: which forms are matched, how they are written and what the class calls them.

use super::keys::kind::LineKind;
use super::keys::{Key, list};
use super::limits;
use super::log::Log;
use super::table::Table;
use super::types::{FormNames, FormsSpec, Given, Joiner, NumbersSpec, Thousands};
use crate::diag::Problem;
use crate::number::{Form, Number};

/// What the table says; what it leaves open depends on the numbers.
pub(super) struct Asked {
    matched: Option<Given<Vec<Form>>>,
    joiner: Given<Joiner>,
    zero_terms: Given<bool>,
    thousands: Given<Thousands>,
    decoys: Option<Given<u32>>,
    names: FormNames,
}

pub(super) fn read(mut table: Table, log: &mut Log) -> Asked {
    let matched = table.read(&list::MATCH, log);
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
        joiner: table.settle(&list::JOINER, log),
        zero_terms: table.settle(&list::ZERO_TERMS, log),
        thousands: table.settle(&list::THOUSANDS, log),
        decoys: table.read(&list::DECOYS, log),
        names: names(table.inner("names", log), log),
    };
    table.finish(log);
    asked
}

/// `[forms.names]`: what the class calls forms.
fn names(mut table: Table, log: &mut Log) -> FormNames {
    let read = |(form, key): (Form, &Key<LineKind>)| Some((form, table.read(key, log)?));
    let names = Form::ALL.into_iter().zip(&list::NAMES).filter_map(read).collect();
    table.finish(log);
    FormNames::new(names)
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
            joiner: self.joiner,
            zero_terms: self.zero_terms,
            thousands: self.thousands,
            decoys: self.decoys.unwrap_or(Given::assumed(list::DECOYS_MOST.min(numbers.sort.count.value / 2))),
            names: self.names,
        }
    }
}
