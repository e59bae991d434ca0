//! What a lesson file leaves open, settled: how forms are written, learners, minutes, decoys, and the sets of strips.

use std::sync::Arc;

use super::Lesson;
use super::decoys;
use super::strips;
use super::timing;
use super::types::{Chosen, SortSet};
use crate::diag::{Diagnostic, Problem, Severity, Source};
use crate::measure::Count;
use crate::number::{Form, Number, Style};
use crate::rng::Stream;
use crate::spec::{Given, Joiner, SheetKind, Spec, Thousands, Version};
use crate::wording;

/// Settles what does not depend on the chosen numbers: learners and minutes.
pub(super) fn settle(source: &Arc<Source>, spec: &mut Spec, roster: &[String]) -> Vec<Diagnostic> {
    timing::settle_minutes(spec);
    timing::settle_sheets(spec);
    settle_learners(source, spec, roster).err().into_iter().collect()
}

/// Where the file is silent about its sheets, cards that lie on top of each other are not made for numbers of one part.
pub(super) fn settle_cards(spec: &mut Spec, chosen: &Chosen) {
    let several = |n: Number| n.parts().count() > 1;
    if spec.sheets.make.is_assumed() && !chosen.built().any(several) {
        spec.sheets.make.value.retain(|kind| *kind != SheetKind::Layered);
    }
}

/// How a lesson's forms are written.
pub fn style(spec: &Spec) -> Style {
    let forms = &spec.forms;
    Style {
        names: wording::of(spec.language.value).names(),
        second: spec.second_language.map(|second| wording::of(second.value).names()),
        both: false,
        and: forms.joiner.value == Joiner::And,
        trading: spec.numbers.trading(spec.seed.value),
        zero_terms: forms.zero_terms.value,
        thousands: match forms.thousands.value {
            Thousands::Comma => Some(','),
            // The narrow no-break space.
            Thousands::Space => Some('\u{202f}'),
            Thousands::None => None,
        },
    }
}

/// How forms are written on pieces that are matched: words in both languages of a lesson that has two, unless those of the
/// second are pieces of their own.
fn pieces_style(style: &Style, matched: &[Form]) -> Style {
    Style { both: style.second.is_some() && !matched.contains(&Form::SecondWords), ..*style }
}

/// Blocks that the file asks for by name are there for every number that is built; whose number is too large, is said.
pub(super) fn all_have_blocks(source: &Arc<Source>, lesson: &Lesson) -> Result<(), Diagnostic> {
    let make = &lesson.spec.sheets.make;
    let Err(number) = lesson.block_set() else { return Ok(()) };
    if make.is_assumed() || !lesson.makes(SheetKind::Blocks) {
        return Ok(());
    }
    let most = Number::MAX_BLOCKS;
    let problem = Problem::new(format!("{number} has no blocks: they end at {most}"));
    let set = lesson.sets.iter().find(|set| set.rows.contains(&number) && !lesson.chosen.model.contains(&number));
    let name = set.and_then(|set| lesson.groups.get(set.group?)?.name.as_ref());
    match name.and_then(|name| lesson.spec.groups.iter().find(|group| group.name.value == *name)) {
        Some(group) => {
            let hint = format!("leave `blocks` out of `make`, or give the group a `range` up to {most}");
            let problem = problem.hint(hint).of_group(&group.name.value);
            let range = &group.numbers.range;
            Err(if range.span().is_some() { at(source, range, problem) } else { at(source, &group.name, problem) })
        }
        None => {
            Err(at(source, make, problem.hint(format!("leave `blocks` out of `make`, or keep `range` up to {most}"))))
        }
    }
}

/// A roster says how many learners there are, unless the file does; then nobody on the roster may go without.
fn settle_learners(source: &Arc<Source>, spec: &mut Spec, roster: &[String]) -> Result<(), Diagnostic> {
    let names = roster.len().narrow();
    let learners = &mut spec.class.learners;
    if names > 0 && learners.is_assumed() {
        *learners = Given::assumed(names);
    } else if names > learners.value {
        let problem =
            Problem::new(format!("the roster has {} but `class.learners` is {}", count(names, "name"), learners.value))
                .hint(format!("set it to {names}, or leave it out to take the roster's"));
        return Err(at(source, learners, problem));
    }
    Ok(())
}

/// One set a version, the first of them lettered `first`; none where sorting is left out. Every version has equally many decoys.
pub(super) fn sort_sets(
    source: &Arc<Source>,
    spec: &mut Spec,
    chosen: &mut Chosen,
    style: &Style,
    first: u8,
) -> Result<Vec<SortSet>, Vec<Diagnostic>> {
    let matched = spec.forms.matched.value.clone();
    let style = &pieces_style(style, &matched);
    let seed = spec.seed.value;
    let versions = || (first..).map(Version).zip(&chosen.sort).filter(|(_, rows)| !rows.is_empty());
    let possible: Vec<_> =
        versions().map(|(version, rows)| (version, decoys::possible(rows, &matched, style))).collect();
    let fewest =
        possible.iter().min_by_key(|(_, decoys)| decoys.len()).map(|(version, decoys)| (*version, decoys.len()));
    let mut notes = Vec::new();
    // A decoy is a strip: without strips there is none.
    let strips = spec.sheets.make.value.contains(&SheetKind::Strips);
    if !strips {
        spec.forms.decoys.value = 0;
    }
    if let Some((version, fewest)) = fewest.filter(|_| strips) {
        let fewest = fewest.narrow();
        settle_decoys(source, spec, version, fewest, &mut notes).map_err(|diagnostic| vec![diagnostic])?;
    }
    let count = spec.forms.decoys.value as usize;
    let sets = versions().zip(possible).map(|((version, rows), (_, possible))| {
        let decoys = decoys::choose(possible, count, &mut Stream::new(seed, &format!("decoys {version}")));
        strips::plan(version, rows, &matched, style, decoys, &mut Stream::new(seed, &format!("strips {version}")))
            .map_err(|problem| vec![at(source, &spec.forms.matched, problem)])
    });
    let sets = sets.collect::<Result<_, _>>()?;
    chosen.notes.extend(notes);
    Ok(sets)
}

/// More decoys than slips can make are an error where the file asks for them, and cut down where it is silent.
/// `version` is one that has `fewest` different decoys, the least of all.
fn settle_decoys(
    source: &Arc<Source>,
    spec: &mut Spec,
    version: Version,
    fewest: u32,
    notes: &mut Vec<String>,
) -> Result<(), Diagnostic> {
    let asked = &mut spec.forms.decoys;
    if asked.value <= fewest {
        return Ok(());
    }
    if asked.is_assumed() {
        *asked = Given::assumed(fewest);
        notes.push(match fewest {
            0 => "the sort sets have no decoys: slips make none of these numbers".to_owned(),
            _ => format!("the sort sets have only {}: slips make no more of these numbers", count(fewest, "decoy")),
        });
        return Ok(());
    }
    let expected = if fewest == 0 { "0".to_owned() } else { format!("at most {fewest}") };
    let makes = if fewest == 0 { "no slip makes one".to_owned() } else { format!("slips make only {fewest}") };
    let of = if spec.class.versions.value > 1 { format!("set {version}") } else { "the sort numbers".to_owned() };
    let problem =
        Problem::new(format!("`forms.decoys` asks for {}, but {makes} of {of}", count(asked.value, "different decoy")))
            .hint(format!("expected {expected}; another seed, more numbers or more forms may give more"));
    Err(at(source, asked, problem))
}

/// "1 decoy", "2 decoys".
fn count(count: u32, noun: &str) -> String {
    format!("{count} {noun}{}", if count == 1 { "" } else { "s" })
}

/// A problem of a value: placed where the file gives it, nowhere where it is assumed.
fn at<T>(source: &Arc<Source>, given: &Given<T>, problem: Problem) -> Diagnostic {
    match given.span() {
        Some(span) => problem.at(source, span),
        None => Diagnostic { severity: Severity::Error, place: None, problem, related: Vec::new() },
    }
}
