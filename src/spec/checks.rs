//! What can be told to be impossible without choosing any number.
//!
//! Each check looks at one request and the pool; how requests clash with each other is the chooser's to prove.

use std::ops::Range;

use super::limits::grouped;
use super::log::Log;
use super::pool::Pool;
use super::types::{Bound, Given, NumbersSpec, RoleSpec};
use super::version::Version;
use crate::diag::Problem;
use crate::measure::Count;
use crate::number::{Feature, Number};

/// Checks the numbers of a class or group that has so many versions.
pub(super) fn numbers(numbers: &NumbersSpec, versions: u32, log: &mut Log) {
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
        within_versions(name, role, versions, log);
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
    let named: Vec<(String, &Given<Number>)> = named(role).collect();
    for (k, (key, given)) in named.iter().enumerate() {
        let number = given.value;
        let Some(span) = given.span() else { continue };
        let wanted = format!("`numbers.{name}.{key}` wants {number}");
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
        } else if let Some((other, first)) = named[..k].iter().find(|(_, n)| n.value == number) {
            let problem = match key {
                key if key == other => {
                    Problem::new(format!("`numbers.{name}.{key}` lists {number} twice")).hint("keep one of them")
                }
                _ => Problem::new(format!("{wanted}, and so does `numbers.{name}.{other}`"))
                    .hint(format!("keep one of them; what is listed under numbers.{name}.always is in every version")),
            };
            log.clash(span, problem, vec![(first.span(), "first listed here".to_owned())]);
        }
    }
}

/// The numbers that a role asks for by name, each with the key that does.
fn named(role: &RoleSpec) -> impl Iterator<Item = (String, &Given<Number>)> {
    role.by_name().map(|(version, given)| {
        (version.map_or_else(|| "always".to_owned(), |version| format!("always_in.{version}")), given)
    })
}

/// Versions that numbers are asked for in must be there.
fn within_versions(name: &str, role: &RoleSpec, versions: u32, log: &mut Log) {
    for (version, numbers) in role.always_in.iter().filter(|(version, _)| u32::from(version.0) >= versions) {
        let Some(span) = numbers.first().and_then(Given::span) else { continue };
        let last = Version(u8::try_from(versions.saturating_sub(1)).unwrap_or(u8::MAX));
        let has = match versions {
            1 => "there is only version A".to_owned(),
            2 => format!("there are only versions A and {last}"),
            _ => format!("there are only versions A to {last}"),
        };
        let problem =
            Problem::new(format!("`numbers.{name}.always_in.{version}` asks for version {version}, but {has}"));
        log.error(span, problem.hint(format!("ask for more versions, or leave out {version}")));
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
    let key = if role.always.is_empty() { "always_in" } else { "always" };
    over(key, role.named().narrow(), role.by_name().next().and_then(|(_, given)| given.span()));
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
