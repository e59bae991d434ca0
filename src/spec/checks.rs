//! What can be told to be impossible without choosing any number.
//!
//! Each check looks at one request and the pool; how requests clash with each other is the chooser's to prove.

use std::ops::Range;

use super::limits::grouped;
use super::log::Log;
use super::pool::Pool;
use super::types::{Bound, Given, NumbersSpec, RoleSpec};
use crate::diag::Problem;
use crate::measure::Count;
use crate::number::{Feature, Number};

pub(super) fn numbers(numbers: &NumbersSpec, log: &mut Log) {
    let (least, most) = numbers.range.value;
    let pool = Pool::new(numbers);
    let Some(span) = numbers.range.span() else { return };
    if pool.numbers().next().is_none() {
        let problem = Problem::new(format!("no number from {least} to {most} is left to choose"));
        let mut related: Vec<(Option<Range<usize>>, String)> =
            numbers.at_most.iter().map(|(p, d)| (d.span(), format!("at most {} {}", d.value, p.words()))).collect();
        related.extend(numbers.never.first().map(|n| (n.span(), "never".to_owned())));
        log.clash(span, problem.hint("widen the range, or ask for less under never and at_most"), related);
        return;
    }
    let mut nothing = true;
    for (name, role) in [("model", &numbers.model), ("sort", &numbers.sort), ("exit", &numbers.exit)] {
        nothing &= role.count.value == 0;
        always(name, role, numbers, &pool, log);
        within_count(name, role, log);
        if log.is_clean() {
            within_pool(name, role, numbers, &pool, log);
        }
    }
    if nothing {
        let problem = Problem::new("every role is left out, so there is no number to teach");
        let span = numbers.sort.count.span().unwrap_or(span);
        log.error(span, problem.hint("give model, sort or exit a count of at least 1"));
    }
}

/// Numbers that must be chosen must be there to choose.
fn always(name: &str, role: &RoleSpec, numbers: &NumbersSpec, pool: &Pool, log: &mut Log) {
    let (least, most) = numbers.range.value;
    for (k, given) in role.always.iter().enumerate() {
        let number = given.value;
        let Some(span) = given.span() else { continue };
        let wanted = format!("`numbers.{name}.always` wants {number}");
        let one_of_them = "keep one of the two requests";
        if number < least || number > most {
            let problem = Problem::new(format!("{wanted}, which is outside the range"))
                .hint(format!("expected a number from {least} to {most}"));
            log.clash(span, problem, vec![(numbers.range.span(), "the range".to_owned())]);
        } else if let Some(never) = numbers.never.iter().find(|n| n.value == number) {
            let problem = Problem::new(format!("{wanted}, which `numbers.never` rules out")).hint(one_of_them);
            log.clash(span, problem, vec![(never.span(), "ruled out here".to_owned())]);
        } else if let Some(place) = pool.too_high(number) {
            let limit = numbers.at_most.get(&place).copied();
            let most = limit.map_or(9, |l| l.value);
            let problem = Problem::new(format!(
                "{wanted}, which has {} {}; `numbers.at_most` allows {most}",
                number.digit(place),
                place.words()
            ));
            log.clash(span, problem.hint(one_of_them), vec![(limit.and_then(|l| l.span()), "the limit".to_owned())]);
        } else if let Some(first) = role.always[..k].iter().find(|n| n.value == number) {
            let problem =
                Problem::new(format!("`numbers.{name}.always` lists {number} twice")).hint("keep one of them");
            log.clash(span, problem, vec![(first.span(), "first listed here".to_owned())]);
        }
    }
}

/// No request can be about more numbers than the role has.
fn within_count(name: &str, role: &RoleSpec, log: &mut Log) {
    let count = role.count;
    let mut over = |what: &str, least: u32, span: Option<Range<usize>>| {
        let Some(span) = span.filter(|_| least > count.value) else { return };
        let has = match count.value {
            0 => "the role is left out".to_owned(),
            n => format!("the role has only {n}"),
        };
        let problem = Problem::new(format!("`numbers.{name}.{what}` needs {}, but {has}", counted(least)))
            .hint(format!("make numbers.{name}.count {least} or more, or ask for less"));
        log.clash(span, problem, vec![(count.span(), "the count".to_owned())]);
    };
    for (feature, bound) in role.features() {
        over(&feature.key(), bound.value.min, bound.span());
    }
    if let Some(bound) = role.same_digits {
        over("same_digits", bound.value.min, bound.span());
    }
    let always = role.always.len().narrow();
    over("always", always, role.always.first().and_then(Given::span));
}

/// No request can be about more numbers than there are.
fn within_pool(name: &str, role: &RoleSpec, numbers: &NumbersSpec, pool: &Pool, log: &mut Log) {
    let (least, most) = numbers.range.value;
    let range = || vec![(numbers.range.span(), "the range".to_owned())];
    let has = pool.numbers().take(role.count.value as usize).count();
    if has < role.count.value as usize
        && let Some(span) = role.count.span()
    {
        let problem = Problem::new(format!(
            "`numbers.{name}.count` asks for {}, but from {least} to {most} there {}",
            counted(role.count.value),
            match has {
                1 => "is only 1 to choose".to_owned(),
                _ => format!("are only {has} to choose"),
            }
        ));
        log.clash(span, problem.hint(format!("expected at most {has}, or a wider range")), range());
    }
    for (feature, bound) in role.features() {
        let asked: Bound = bound.value;
        let Some(span) = bound.span() else { continue };
        let has = pool.numbers().filter(|n: &Number| feature.is_in(*n)).take(asked.min as usize).count();
        if has >= asked.min as usize {
            continue;
        }
        let problem = Problem::new(format!(
            "`numbers.{name}.{}` asks for {} {}, but {}",
            feature.key(),
            counted(asked.min),
            showing(feature),
            match has {
                0 => format!("none from {least} to {most} is like that"),
                1 => format!("only 1 from {least} to {most} is like that"),
                _ => format!("only {has} from {least} to {most} are like that"),
            }
        ));
        let hint =
            if has == 0 { "leave it out, or change the range".to_owned() } else { format!("expected at most {has}") };
        log.clash(span, problem.hint(hint), range());
    }
}

/// `2 numbers with 0 in the tens place`, without the count.
fn showing(feature: Feature) -> String {
    match feature {
        Feature::Zero(place) => format!("with 0 in the {} place", place.words()),
        Feature::Repeat => "in which a digit appears more than once".to_owned(),
        Feature::Teen => "ending in 11 to 19".to_owned(),
    }
}

/// `1 number`, `2 numbers`.
fn counted(count: u32) -> String {
    if count == 1 { "1 number".to_owned() } else { format!("{} numbers", grouped(count.into())) }
}
