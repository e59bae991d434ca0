//! What a cover states of the packet, statement by statement.

use std::collections::BTreeSet;

use super::packet::Envelope;
use super::read::whole;
use super::rules::{Check, Rule, all_pages, count, holds, listed, numbers, same};
use super::stated::group_named;
use super::uncut::stay_whole;
use crate::support::answers::figures;
use placewright::lesson::timing;
use placewright::sheets::page::Page;
use placewright::spec::{Cut, SheetKind};

/// The pages of the packet for which something holds, counted from 1.
pub fn folios(held: &Envelope, is: impl Fn(&Page) -> bool) -> BTreeSet<usize> {
    (1..).zip(&held.pages).filter(|(_, page)| is(page)).map(|(folio, _)| folio).collect()
}

pub fn boards_key(held: &Envelope) -> BTreeSet<usize> {
    folios(held, |page| page.sheet == SheetKind::Key && page.version.is_some())
}

pub fn checks_key(held: &Envelope) -> BTreeSet<usize> {
    folios(held, |page| page.sheet == SheetKind::Key && page.version.is_none())
}

pub fn tally_on(held: &Envelope, page: &str) -> Check {
    same(BTreeSet::from([count(page) as usize]), folios(held, |page| page.sheet == SheetKind::Tally))
}

/// A board with this letter is in the packet, and no group has more learners than the one that has it.
pub fn most_have(held: &Envelope, letter: &str) -> Check {
    let own = |page: &Page| page.sheet == SheetKind::Board && page.version.is_some_and(|v| v.to_string() == letter);
    holds(held.pages.iter().any(own), format!("no board {letter}"))?;
    let group = held.lesson.groups.iter().find(|g| g.versions.iter().any(|v| v.to_string() == letter));
    holds(
        group.is_some_and(|g| g.name.is_none() || held.lesson.groups.iter().all(|o| o.name.is_some())),
        "not the rest",
    )
}

/// Copies of a page that the class needs.
pub fn needed(held: &Envelope, folio: usize) -> u32 {
    let page = &held.pages[folio - 1];
    let group = page.version.and_then(|version| held.lesson.groups.iter().find(|g| g.versions.contains(&version)));
    let learners = group.map_or(held.learners(), |group| group.learners.len() as u32);
    // Where the copy room would have cut strips, or nobody has time to, learners write on their boards instead.
    let piled = held.lesson.spec.print.cut.value == Cut::Stack && held.has(SheetKind::Board);
    if page.sheet == SheetKind::Strips && (piled || stay_whole(held)) {
        return 0;
    }
    // Nor would they have kits that it would have cut.
    let cut = held.lesson.spec.print.cut.value == Cut::Stack;
    if cut && matches!(page.sheet, SheetKind::Blocks | SheetKind::Layered) {
        return 0;
    }
    if page.sheet == SheetKind::Exit {
        let slips = held.of_kind(SheetKind::Exit).filter(|other| other.version == page.version);
        let slips: usize = slips.flat_map(|page| &page.layers).map(|layer| layer.pieces.len()).sum();
        return learners.div_ceil(slips as u32);
    }
    if held.kept(page.sheet) { learners.div_ceil(held.share(page.sheet)) } else { learners }
}

/// "build 3 model numbers, work one together, match the first 5 rows, 2 questions of the quick check".
pub fn late(held: &Envelope, holes: &[&str]) -> Check {
    let (left, parts) = (count(holes[0]), holes[2]);
    holds(left < held.lesson.spec.minutes.value, "that is no late start")?;
    // Of groups whose boards differ, the longest.
    let rows = held.lesson.chosen.sort.iter().map(Vec::len).max().unwrap_or(0) as u32;
    for part in parts.split(", ") {
        let first = figures(part);
        let last = first.last().copied().unwrap_or(0);
        let has = |words: &[&str]| words.iter().any(|words| part.contains(words));
        let printed = has(&["quick check", "control rápido"]);
        let asked = has(&["at the end", "al final"]);
        holds(!printed || held.has(SheetKind::Exit), "no check is in the packet")?;
        holds(!asked || !held.has(SheetKind::Exit), "checks are in the packet")?;
        if has(&["model number", "número modelo", "números modelo"]) {
            holds(last as usize <= held.lesson.chosen.model.len(), "more than there are")?;
        } else if has(&[" the first ", " up to ", " primeras ", " primera ", " hasta "]) {
            holds(last < rows, format!("{last} of {rows} rows"))?;
        } else if has(&["question", "pregunta"]) && held.has(SheetKind::Exit) {
            holds(last < held.questions(), format!("{last} of {} questions", held.questions()))?;
        } else if has(&["question", "pregunta"]) {
            let asked = super::read::blocks(held.of_kind(SheetKind::Plan)).len();
            holds((last as usize) < asked, "that is no question")?;
        } else {
            holds(first.is_empty(), format!("nobody checks `{part}`"))?;
        }
        if has(&["match", "emparejar"]) {
            let plan = whole(held.of_kind(SheetKind::Plan));
            holds(
                !["no time to cut today", "Hoy no hay tiempo para recortar"].iter().any(|words| plan.contains(words))
                    && held.has(SheetKind::Strips),
                "nothing is matched in the whole lesson",
            )?;
        }
    }
    Ok(())
}

/// "pages 66–67 (A), 68 (B) and 69 (C)": all keys of boards, and of several sets each where it is said to be.
pub fn keys_on(held: &Envelope, said: &str) -> Check {
    let ranges = listed(said).into_iter().map(|part| part.split_once(" (").unwrap_or((part, "")));
    let mut all = BTreeSet::new();
    for (range, letter) in ranges {
        let here = all_pages(range);
        let letter = letter.trim_end_matches(')');
        holds(letter.is_empty() == (held.lesson.sets.len() < 2), "of which set?")?;
        let own = |page: &Page| page.version.is_some_and(|v| v.to_string() == letter) && page.sheet == SheetKind::Key;
        if !letter.is_empty() {
            same(here.clone(), folios(held, own))?;
        }
        all.extend(here);
    }
    same(all, boards_key(held))
}

/// The first line of the plan that is said like this has the number.
pub fn starts_with(held: &Envelope, line: &str, number: &str) -> Check {
    let plan = whole(held.of_kind(SheetKind::Plan));
    let first = plan.lines().find_map(|text| super::read::fit(line, text));
    same(first.map(|holes| holes[0].to_owned()), Some(number.to_owned()))
}

/// These are the first rows of the set that most have; nobody has others.
pub fn without_copier(held: &Envelope, said: &str) -> Check {
    holds(held.lesson.groups.is_empty(), "groups have numbers of their own")?;
    let rows = held.lesson.common_set().map(|set| set.rows.iter().map(|n| n.value()).collect::<Vec<_>>());
    holds(rows.is_some_and(|rows| rows.starts_with(&numbers(said))), "those are not the first rows")
}

/// "The group Terns: 27 and 35. Everyone else: 450 and 410": of each group the first rows of its first set, and no more than
/// the plan has time for.
pub fn lists_without_copier(held: &Envelope, said: &str) -> Check {
    let time = timing::load(&held.lesson.fullest, held.lesson.spec.minutes.value).rows as usize;
    let lists: Vec<&str> = said.split(". ").collect();
    same(lists.len(), held.lesson.groups.len())?;
    for list in lists {
        let (name, own) = list.split_once(": ").ok_or("for whom?")?;
        let group = group_named(held, name)?;
        let first = held.lesson.sets.iter().find(|set| group.versions.contains(&set.version)).ok_or("no set")?;
        let rows: Vec<u32> = first.rows.iter().map(|n| n.value()).collect();
        let own = numbers(own);
        holds(!own.is_empty() && own.len() <= time && rows.starts_with(&own), format!("{name} has {rows:?}"))?;
    }
    Ok(())
}

/// No board has fewer rows than these, and there is time for all.
pub fn rows_by_hand(held: &Envelope, said: &str) -> Check {
    let time = timing::load(&held.lesson.fullest, held.lesson.spec.minutes.value).rows;
    holds(held.lesson.groups.len() > 3 && count(said) <= time, "there is no time, or no need")?;
    holds(held.lesson.sets.iter().all(|set| set.rows.len() >= count(said) as usize), "a board has fewer")?;
    holds(held.has(SheetKind::Board), "there are no boards")
}

/// The questions of this check are on this page.
pub fn check_on(held: &Envelope, check: &str, page: &str) -> Check {
    let names = |page: &Page| {
        page.layers.iter().flat_map(|l| &l.pieces).any(|p| figures(&p.name).first() == Some(&count(check)))
    };
    let on = count(page) as usize;
    holds(held.pages.get(on - 1).is_some_and(|page| page.sheet == SheetKind::Exit && names(page)), "it is not there")
}

/// What is said of copies of the packet's pages: whether checks come several to a page, which set everyone has, and what becomes of
/// strips.
pub fn copied(held: &Envelope, said: &str) -> Check {
    let slips = |page: &Page| page.layers.iter().map(|layer| layer.pieces.len()).sum::<usize>();
    let apart = ["Cut quick checks apart first", "Corte antes los controles"];
    let told = apart.iter().any(|words| said.contains(words));
    same(told, held.of_kind(SheetKind::Exit).any(|page| slips(page) > 1))?;
    for sentence in said.split('.').map(str::trim).filter(|sentence| !sentence.is_empty()) {
        let set = ["Everyone then works with set ", "As\u{ed} todos trabajan con el juego "];
        if let Some(set) = set.iter().find_map(|lead| sentence.strip_prefix(lead)) {
            only_set(held, set)?;
        } else if ["marks on their backs", "figuras en el reverso"].iter().any(|words| sentence.contains(words)) {
            holds(held.lesson.marks_strips(), "no strips have marks")?;
        } else if ["of a row", "de una fila"].iter().any(|words| sentence.contains(words)) {
            holds(held.lesson.groups.iter().any(|group| group.versions.len() > 1), "each group has one set")?;
        } else if let Some(kits) = kits_left_out(sentence) {
            holds(held.lesson.spec.print.cut.value == Cut::Stack, "who cuts cuts kits too")?;
            let made = [SheetKind::Blocks, SheetKind::Layered].into_iter().filter(|kind| held.has(*kind));
            let wording = held.lesson.wording();
            for kind in made {
                holds(kits.to_lowercase().contains(wording.sheet_in_text(kind, 2)), kits)?;
            }
            let plan = whole(held.of_kind(SheetKind::Plan));
            holds(plan.contains(wording.shortcut_title()), "the plan does not say what to do")?;
        } else if !apart.contains(&sentence) {
            holds(
                ["Strips are not needed: ", "Las tiras no hacen falta: "].iter().any(|lead| sentence.starts_with(lead)),
                sentence,
            )?;
        }
    }
    Ok(())
}

/// The kits that are not needed, in a sentence that says so and where the plan has what to do instead.
fn kits_left_out(sentence: &str) -> Option<&str> {
    let ends = [
        " are not needed: the plan has \u{201c}If nobody had time\u{201d}",
        " no hacen falta: el plan tiene \u{ab}Si no hubo tiempo\u{bb}",
    ];
    ends.iter().find_map(|end| sentence.strip_suffix(end))
}

/// The sort sheets of the packet are all of this set.
pub fn only_set(held: &Envelope, letter: &str) -> Check {
    let sorts = held.pages.iter().filter(|page| matches!(page.sheet, SheetKind::Board | SheetKind::Strips));
    same(BTreeSet::from([letter.to_owned()]), sorts.filter_map(|page| page.version).map(|v| v.to_string()).collect())
}

pub const RULES: &[Rule] = &[
    ("For whoever teaches this lesson today: {} {}, {} {}, grade {}.", |held, _, h| {
        same(count(h[0]), held.lesson.spec.minutes.value)?;
        same(count(h[2]), held.learners())?;
        same(Some(h[4]), held.lesson.spec.grade.as_ref().map(|grade| grade.value.as_str()))
    }),
    ("For whoever teaches this lesson today: {} {}, {} {}.", |held, _, h| {
        same(count(h[0]), held.lesson.spec.minutes.value)?;
        same(count(h[2]), held.learners())
    }),
    ("Read the plan on {}: bold lines are said aloud, and each question has its answer beside it.", |held, _, h| {
        same(all_pages(h[0]), folios(held, |page| page.sheet == SheetKind::Plan))
    }),
    ("Keep the board free: the lesson begins when you write {} on it.", |held, _, h| {
        starts_with(held, "Write {} where {}", h[0])
    }),
    ("Have the display pages ready: the lesson begins with step 1 for {}.", |held, _, h| {
        starts_with(held, "Show step 1 of the display for {}: the numeral by itself.{}", h[0])
    }),
    ("Answers to sorting boards are on {}, to quick checks on {}.", |held, _, h| {
        holds(!held.has(SheetKind::Strips), "there are strips")?;
        keys_on(held, h[0])?;
        same(all_pages(h[1]), checks_key(held))
    }),
    ("Answers to sorting boards and strips are on {}, to quick checks on {}.", |held, _, h| {
        keys_on(held, h[0])?;
        same(all_pages(h[1]), checks_key(held))
    }),
    ("Answers to sorting boards and strips are on {}.", |held, _, h| {
        keys_on(held, h[0])?;
        same(BTreeSet::new(), checks_key(held))
    }),
    ("Answers to strips are on {}.", |held, _, h| {
        holds(!held.has(SheetKind::Board), "there are boards")?;
        keys_on(held, h[0])
    }),
    ("Answers to the numbers on the board are on {}, to quick checks on {}.", |held, _, h| {
        holds(!held.has(SheetKind::Board) && !held.has(SheetKind::Strips), "there are sheets for them")?;
        keys_on(held, h[0])?;
        same(all_pages(h[1]), checks_key(held))
    }),
    ("Answers to quick checks are on {}.", |held, _, h| {
        same(all_pages(h[0]), checks_key(held))?;
        same(BTreeSet::new(), boards_key(held))
    }),
    ("The class tally on page {} has each learner's number and letter, and each group.", |held, _, h| {
        tally_on(held, h[0])
    }),
    (
        "Names belong on the class tally (page {}), group by group. If they are not there and nobody knows them, copy set {} for all.",
        |held, _, h| {
            tally_on(held, h[0])?;
            most_have(held, h[1])
        },
    ),
    (
        "Names belong here, group by group. If they are not there and nobody knows them, copy set {} for all.",
        |held, _, h| most_have(held, h[0]),
    ),
    ("{} {} left: {}.", |held, _, h| late(held, h)),
    ("Copy each page as often as stands beside it, at actual size.{}", |held, _, h| copied(held, h[0])),
    ("Without a copier: write on the board the first {} numbers of each set's sorting board. {}.", |held, _, h| {
        rows_by_hand(held, h[0])
    }),
    ("Without a copier, write a list for each group. {}. Learners write {}.", |held, _, h| {
        lists_without_copier(held, h[0])
    }),
    (
        "Without a copier: write the questions of quick check {} (page {}) on the board, one at a time, with their choices. {}",
        |held, _, h| check_on(held, h[0], h[1]),
    ),
    ("Without a copier: write {} on the board. {}.", |held, _, h| {
        without_copier(held, h[0])?;
        let said = numbers(h[0]);
        // One number is not spoken of as several.
        same(said.len() > 1, h[1].starts_with("Learners write each ") || h[1].starts_with("The learner writes each "))
    }),
];
