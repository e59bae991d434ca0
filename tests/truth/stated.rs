//! What a sentence of a plan says, in any language, compared with the packet: letters, sheets, pieces, strips, groups.

use std::collections::BTreeSet;

use super::packet::Envelope;
use super::read::{fit, whole};
use super::rules::{Check, Scene, count, holds, listed, numbers, same, sheet};
use crate::support::answers::figures;
use placewright::lesson::LessonGroup;
use placewright::spec::SheetKind;

pub fn known(held: &Envelope, number: &str) -> Check {
    let all = held.numbers();
    let of = numbers(number);
    holds(of.iter().all(|n| all.contains(n)), format!("{number} is on no page"))
}

pub fn learners(held: &Envelope, said: &str) -> Check {
    same(count(said), held.learners())
}

/// Blocks told in words are worth this: "4 flats and 6 cubes".
pub fn worth(told: &str) -> u32 {
    let value = |piece: &str| {
        let (count, noun) = piece.trim().split_once(' ')?;
        let each = [("thousand-block", 1_000), ("flat", 100), ("rod", 10), ("cube", 1)];
        let (_, worth) = each.iter().find(|(name, _)| noun.starts_with(name))?;
        Some(count.parse::<u32>().ok()? * worth)
    };
    listed(told).into_iter().filter_map(value).sum()
}

/// The letters of a list are those of the class's boards and strips.
pub fn letters(held: &Envelope, said: &str) -> Check {
    let said: BTreeSet<String> = super::rules::letters(said).into_iter().collect();
    let kind = if held.has(SheetKind::Board) { SheetKind::Board } else { SheetKind::Strips };
    same(said, held.letters(kind).iter().map(ToString::to_string).collect())
}

/// The slip of "c, zero moved" has that letter in the key, or no letter where there is none.
pub fn slip(held: &Envelope, said: &str) -> Check {
    let slips = held.slips();
    match said.split_once(", ").filter(|(letter, _)| letter.len() == 1) {
        Some((letter, name)) => same(Some(name), slips.get(letter).map(String::as_str)),
        None => holds(slips.values().all(|name| name != said), format!("`{said}` has a letter in the key")),
    }
}

/// A strip of a set shows a text, and a row of it a number.
pub fn strip(held: &Envelope, set: Option<&str>, shown: &str, of: &str) -> Check {
    let strips = whole(held.masters(SheetKind::Strips, set));
    let shown = shown.trim_matches(['\u{ab}', '\u{bb}', '\u{201c}', '\u{201d}']);
    let shows = |line: &str| line == shown || shown_in(line, shown) || shown_first(held, line, shown);
    holds(strips.lines().any(shows), format!("no strip shows {shown}"))?;
    let rows = held.rows(set);
    holds(rows.is_empty() || rows.contains(&count(of)), format!("{of} is in no row"))
}

/// In a lesson in two languages a strip shows words in the first one, then the same in the second, none of which the first has.
fn shown_first(held: &Envelope, line: &str, shown: &str) -> bool {
    let (Some(second), Some(rest)) = (held.lesson.style.second, line.strip_prefix(shown)) else { return false };
    let known: BTreeSet<String> = (0..1_000)
        .flat_map(|value| second.cardinal(value, false).split(' ').map(str::to_owned).collect::<Vec<_>>())
        .collect();
    rest.starts_with(' ') && rest.split_whitespace().all(|word| known.contains(word))
}

/// A picture is told in other words to a listener than to whoever stands in.
fn shown_in(line: &str, shown: &str) -> bool {
    worth(shown) > 0 && figures(line) == figures(shown)
}

/// The numbers that are written by hand, of which so many are done today.
pub fn by_hand(held: &Envelope, today: u32, is: fn(u32, u32) -> bool) -> Check {
    let plan = whole(held.of_kind(SheetKind::Plan));
    let line = plan.lines().find_map(|line| {
        fit("Write these numbers on the board: {}.", line)
            .or_else(|| fit("Write on the board, for set {}: {}.", line).map(|holes| holes[1..].to_vec()))
    });
    let written = line.map_or(0, |holes| numbers(holes[0]).len() as u32);
    holds(is(written, today), format!("{written} are written, {today} done"))
}

pub fn rows(held: &Envelope, said: &str) -> Check {
    let all = held.rows(Some("A")).len() as u32;
    holds(all == 0 || count(said) < all, format!("{said} of {all} rows"))
}

pub fn group(held: &Envelope, holes: &[&str]) -> Check {
    let [name, rows, strips, least, most] = holes else { panic!("{holes:?}") };
    let group = group_named(held, name)?;
    for version in &group.versions {
        let letter = version.to_string();
        let of = held.rows(Some(&letter));
        same(count(rows), of.len() as u32)?;
        let inside = |n: &u32| (count(least)..=count(most)).contains(n);
        holds(of.iter().all(inside), format!("{of:?} of {letter} are not from {least} to {most}"))?;
        let pieces: usize = held
            .masters(SheetKind::Strips, Some(&letter))
            .flat_map(|page| &page.layers)
            .map(|layer| layer.pieces.len())
            .sum();
        // Strips that stay in the packet are not spoken of.
        holds(count(strips) == 0 || count(strips) == pieces as u32, format!("{strips} of {pieces} strips"))?;
    }
    Ok(())
}

/// The group that is called "The group Terns", "el grupo Terns", "everyone else" or "los dem\u{e1}s".
pub fn group_named<'h>(held: &'h Envelope, said: &str) -> Result<&'h LessonGroup, String> {
    let own = said.trim_start_matches("The group ").trim_start_matches("the group ");
    let own = own.trim_start_matches("El grupo ").trim_start_matches("el grupo ");
    let rest = ["everyone else", "los dem\u{e1}s"].contains(&own.to_lowercase().as_str());
    let is = |group: &&LessonGroup| group.name.as_deref().map_or(rest, |name| name == own);
    held.lesson.groups.iter().find(is).ok_or_else(|| format!("no group {own}"))
}

/// "C and D for the group Terns, A and B for everyone else": each name with what it gets.
fn shares(text: &str) -> Vec<(&str, &str)> {
    let mut found = Vec::new();
    let mut rest = text;
    let between = if text.contains(" para ") { " para " } else { " for " };
    while let Some((what, after)) = rest.split_once(between) {
        let end = after.find(", ").unwrap_or(after.len());
        found.push((what, &after[..end]));
        rest = after[end..].trim_start_matches(", ");
    }
    found
}

pub fn group_letters(held: &Envelope, said: &str) -> Check {
    for (what, name) in shares(said) {
        let group = group_named(held, name)?;
        same(super::rules::letters(what), group.versions.iter().map(ToString::to_string).collect::<Vec<_>>())?;
    }
    same(shares(said).len(), held.lesson.groups.len())
}

pub fn group_checks(held: &Envelope, said: &str) -> Check {
    for (what, name) in shares(said) {
        let group = group_named(held, name)?;
        let ends = figures(what);
        let first = group.versions.first().map(ToString::to_string);
        same((ends[0]..=ends[ends.len() - 1]).collect(), held.checks(first.as_deref()))?;
    }
    Ok(())
}

/// What a table's line says lies there: the sheets are in the packet, and as many as it says.
pub fn table(held: &Envelope, text: &str) -> Check {
    for sentence in text.trim_end_matches('.').split(". ") {
        let (lead, things) = sentence.split_once(": ").unwrap_or(("", sentence));
        let share = fit("For every {} learners", lead)
            .or_else(|| fit("And for every {} learners", lead))
            .or_else(|| fit("Por cada {} estudiantes", lead))
            .or_else(|| fit("Y por cada {} estudiantes", lead))
            .map_or(1, |holes| count(holes[0]));
        for thing in listed(things) {
            let Some(kind) = super::rules::named(thing) else { continue };
            holds(held.has(kind), format!("{thing} is not in the packet"))?;
            let each = ["or every", "or each learner", "or cada", "ara cada estudiante", "ara el estudiante"];
            if each.iter().any(|words| lead.contains(words)) {
                same(share, held.share(kind).clamp(1, held.learners().max(1)))?;
            }
            let pages = figures(thing).first().map_or(1, |pages| *pages as usize);
            // What is cut before lies there in pieces.
            if !matches!(kind, SheetKind::Blocks | SheetKind::Layered | SheetKind::Display)
                && !["pile of cut", "tiras cortadas"].iter().any(|words| thing.contains(words))
            {
                // Where groups differ no count is said.
                let even = held.fewest_pages(kind) == held.pages_of(kind);
                holds(even || pages == 1 && figures(thing).is_empty(), format!("{thing}: not for all"))?;
                holds(!even || pages == held.pages_of(kind), format!("{thing}: {} pages", held.pages_of(kind)))?;
            }
        }
    }
    Ok(())
}

/// "blocks", "18", "sheets", "make", "12", "sets", "6 flats, 9 rods, 9 cubes".
pub fn cut_out(held: &Envelope, holes: &[&str]) -> Check {
    let kind = sheet(holes[0]);
    same(count(holes[1]) as usize, held.printed(kind))?;
    same(count(holes[4]) as usize, held.copies(kind))?;
    // A kit's blocks, or its pieces.
    same(figures(holes[6]).iter().map(|count| *count as usize).sum::<usize>(), held.pieces_of(kind))
}

pub fn activity(_: &Envelope, scene: &Scene, holes: &[&str]) -> Check {
    holds(count(holes[0]) <= scene.minutes, format!("{} of {} minutes", holes[0], scene.minutes))
}

pub fn choice(held: &Envelope, holes: &[&str]) -> Check {
    let [check, question, letter, shown, named] = holes else { panic!("{holes:?}") };
    if !held.has(SheetKind::Key) {
        let of = held.lesson.checks.iter().find(|of| of.mark == count(check));
        let asked = of.and_then(|of| of.questions.get(count(question) as usize - 1)).ok_or("no such question")?;
        let slip = asked.wrong().find(|(mark, _, _)| letter.starts_with(*mark)).map(|(_, _, slip)| slip);
        return same(slip.map(|slip| held.lesson.wording().slip_name(slip)), Some(*named));
    }
    let cells = super::packet::key_rows(held);
    let bare = |text: &str| text.replace([' ', '\u{ab}', '\u{bb}'], "");
    let answers = format!("{letter}: {shown} ({named})");
    let told = cells.iter().any(|(of, number, row)| {
        number == question
            && of.split(" to ").flat_map(|of| of.split(" a ")).any(|n| n == *check)
            && row.iter().any(|cell| bare(cell) == bare(&answers))
    });
    holds(told, format!("the key does not say `{answers}` of check {check}, question {question}"))?;
    slip(held, named)
}

/// What is given out is a packet that holds these sheets and more.
pub fn packet(held: &Envelope, what: &str, now: &str) -> Check {
    same(what, "packet")?;
    let now: BTreeSet<SheetKind> = listed(now).into_iter().map(sheet).collect();
    holds(held.packets().iter().any(|sheets| now.is_subset(sheets)), format!("packets hold {:?}", held.packets()))
}

/// The display has this step of a number.
pub fn step(held: &Envelope, step: u32, number: u32) -> Check {
    let named = |page: &&placewright::sheets::page::Page| figures(&page.name).contains(&step);
    let digits = |page| -> String { whole([page]).chars().filter(char::is_ascii_digit).collect() };
    let shown = held.of_kind(SheetKind::Display).filter(named).any(|page| digits(page).contains(&number.to_string()));
    holds(shown, format!("no step {step} for {number}"))
}
