//! `numbers`: what was chosen and why.

use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::Path;

use serde_json::{Map, Value, json};

use super::failure::Failure;
use super::gather::Shared;
use super::reasons;
use super::report::Report;
use crate::gallery::Set;
use crate::lesson::{Lesson, LessonGroup, Role, Version};
use crate::manifest;
use crate::number::Number;

/// Lists the numbers of a lesson by role and version, each with what it is there for.
pub fn run(shared: &Shared, path: &Path) -> Result<Report, Failure> {
    let planned = shared.plan(path)?;
    let chosen = &planned.lesson.chosen;
    let solutions = chosen.solutions.iter().map(|(role, count)| (role.word().to_owned(), json!(count)));
    let why =
        chosen.why.iter().map(|(number, why)| (number.to_string(), why.iter().map(|reason| reason.key()).collect()));
    let mut json = json!({
        "numbers": manifest::numbers(&planned.lesson),
        "solutions": solutions.collect::<Map<String, Value>>(),
        "why": why.collect::<Map<String, Value>>(),
    });
    if !planned.lesson.groups.is_empty() {
        json["groups"] = manifest::groups(&planned.lesson);
    }
    let human = format!("{}\n{}", planned.lesson.spec.title.value, sets(&planned.lesson));
    Ok(Report { human, notes: chosen.notes.clone(), warnings: planned.warnings.clone(), json })
}

/// The sets by role and version, each after an empty line.
pub(super) fn sets(lesson: &Lesson) -> String {
    let chosen = &lesson.chosen;
    let mut text = String::new();
    let width = chosen.why.keys().next_back().map_or(1, |number| number.len());
    for Set { name, ways, numbers } in list(lesson) {
        let ways = if ways.is_empty() { ways } else { format!(" ({ways})") };
        let _ = writeln!(text, "\n{name}{ways}");
        for (number, why) in numbers {
            let line = format!("  {number:>width$}  {why}");
            let _ = writeln!(text, "{}", line.trim_end());
        }
    }
    text
}

/// The sets by role and version: what each is for, how many others there are, and why each number is in it.
pub(super) fn list(lesson: &Lesson) -> Vec<Set> {
    let chosen = &lesson.chosen;
    let mut all = Vec::new();
    let mut set = |name: String, numbers: &[Number], role: Role, solutions: &BTreeMap<Role, String>| {
        if numbers.is_empty() {
            return;
        }
        let ways = ways(solutions, role);
        let why = |number: &Number| chosen.why.get(number).map(|reasons| reasons::list(reasons)).unwrap_or_default();
        let numbers = numbers.iter().map(|number| (number.to_string(), why(number))).collect();
        all.push(Set { name, ways, numbers });
    };
    set("model, built with the class".to_owned(), &chosen.model, Role::Model, &chosen.solutions);
    for (version, numbers) in (0..).map(Version).zip(&chosen.sort) {
        let group = lesson.group_of(version);
        let (whose, solutions) =
            group.map_or((String::new(), &chosen.solutions), |group| (whose(group), &group.solutions));
        set(format!("sort {version}, matched on the board{whose}"), numbers, Role::Sort, solutions);
    }
    if lesson.groups.is_empty() {
        set("exit, the quick check".to_owned(), &chosen.exit, Role::Exit, &chosen.solutions);
    }
    for group in &lesson.groups {
        set(format!("exit, the quick check{}", whose(group)), &group.exit, Role::Exit, &group.solutions);
    }
    if let Some(week) = &lesson.warm_up {
        let numbers = week.days.iter().map(|day| (day.number.to_string(), String::new())).collect();
        let name = "warm-up, one a day for the week after".to_owned();
        all.push(Set { name, ways: one_of(&week.solutions), numbers });
    }
    all
}

/// How many sets of a role would have done, in a few words; empty where nobody counted.
pub(super) fn ways(solutions: &BTreeMap<Role, String>, role: Role) -> String {
    solutions.get(&role).map_or_else(String::new, |count| one_of(count))
}

/// The same of a count.
fn one_of(count: &str) -> String {
    match count {
        "1" => "the only set there is".to_owned(),
        count => format!("one of {} sets", grouped(count)),
    }
}

/// Whose numbers these are, with the number of learners.
fn whose(group: &LessonGroup) -> String {
    let learners = match group.learners.len() {
        1 => "1 learner".to_owned(),
        count => format!("{count} learners"),
    };
    let name = group.name.as_ref().map_or_else(|| "everyone else".to_owned(), |name| format!("group `{name}`"));
    format!(", {name}, {learners}")
}

/// Decimal digits with commas; counts of sets have no upper limit.
fn grouped(digits: &str) -> String {
    if digits.len() > 24 {
        // Past a septillion the size says more than the digits.
        return format!("about {}.{} x 10^{}", &digits[..1], &digits[1..3], digits.len() - 1);
    }
    let mut text = String::new();
    for (k, digit) in digits.chars().enumerate() {
        if k > 0 && (digits.len() - k).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn counts_of_sets_stay_readable() {
        assert_eq!(grouped("1"), "1");
        assert_eq!(grouped("12345678"), "12,345,678");
        assert_eq!(grouped(&format!("123{}", "0".repeat(40))), "about 1.23 x 10^42");
    }
}
