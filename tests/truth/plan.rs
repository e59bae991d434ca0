//! What a plan states of the packet, statement by statement.

use std::collections::BTreeSet;

use super::packet::Envelope;
use super::read::{fit, whole};
use super::rules::{Check, Rule, Scene, count, holds, listed, numbers, same, sheet};
use crate::support::answers::{figures, parts, spelled};
use placewright::spec::SheetKind;

fn known(held: &Envelope, number: &str) -> Check {
    let all = held.numbers();
    let of = numbers(number);
    holds(of.iter().all(|n| all.contains(n)), format!("{number} is on no page"))
}

fn learners(held: &Envelope, said: &str) -> Check {
    same(count(said), held.learners())
}

/// Blocks told in words are worth this: "4 flats and 6 cubes".
fn worth(told: &str) -> u32 {
    let value = |piece: &str| {
        let (count, noun) = piece.trim().split_once(' ')?;
        let each = [("thousand-block", 1_000), ("flat", 100), ("rod", 10), ("cube", 1)];
        let (_, worth) = each.iter().find(|(name, _)| noun.starts_with(name))?;
        Some(count.parse::<u32>().ok()? * worth)
    };
    listed(told).into_iter().filter_map(value).sum()
}

/// The letters of a list are those of the class's boards and strips.
fn letters(held: &Envelope, said: &str) -> Check {
    let said: BTreeSet<String> = super::rules::letters(said).into_iter().collect();
    let kind = if held.has(SheetKind::Board) { SheetKind::Board } else { SheetKind::Strips };
    same(said, held.letters(kind).iter().map(ToString::to_string).collect())
}

/// The slip of "c, zero moved" has that letter in the key, or no letter where there is none.
fn slip(held: &Envelope, said: &str) -> Check {
    let slips = held.slips();
    match said.split_once(", ").filter(|(letter, _)| letter.len() == 1) {
        Some((letter, name)) => same(Some(name), slips.get(letter).map(String::as_str)),
        None => holds(slips.values().all(|name| name != said), format!("`{said}` has a letter in the key")),
    }
}

/// A strip of a set shows a text, and a row of it a number.
fn strip(held: &Envelope, set: Option<&str>, shown: &str, of: &str) -> Check {
    let strips = whole(held.masters(SheetKind::Strips, set));
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
fn by_hand(held: &Envelope, today: u32, is: fn(u32, u32) -> bool) -> Check {
    let plan = whole(held.of_kind(SheetKind::Plan));
    let line = plan.lines().find_map(|line| {
        fit("Write these numbers on the board: {}.", line)
            .or_else(|| fit("Write on the board, for set {}: {}.", line).map(|holes| holes[1..].to_vec()))
    });
    let written = line.map_or(0, |holes| numbers(holes[0]).len() as u32);
    holds(is(written, today), format!("{written} are written, {today} done"))
}

fn rows(held: &Envelope, said: &str) -> Check {
    let all = held.rows(Some("A")).len() as u32;
    holds(all == 0 || count(said) < all, format!("{said} of {all} rows"))
}

fn group(held: &Envelope, holes: &[&str]) -> Check {
    let [name, rows, strips, least, most] = holes else { panic!("{holes:?}") };
    let name = name.trim_start_matches("The group ");
    let group = held.lesson.groups.iter().find(|group| group.name.as_deref().unwrap_or("Everyone else") == name);
    let group = group.ok_or_else(|| format!("no group {name}"))?;
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

/// "C and D for the group Terns, A and B for everyone else": each name with what it gets.
pub fn shares(text: &str) -> Vec<(&str, &str)> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some((what, after)) = rest.split_once(" for ") {
        let end = if after.starts_with("everyone else") {
            "everyone else".len()
        } else {
            after.find(", ").unwrap_or(after.len())
        };
        found.push((what, after[..end].trim_start_matches("the group ")));
        rest = after[end..].trim_start_matches(", ");
    }
    found
}

fn group_letters(held: &Envelope, said: &str) -> Check {
    for (what, name) in shares(said) {
        let group = held.lesson.groups.iter().find(|g| g.name.as_deref().unwrap_or("everyone else") == name);
        let group = group.ok_or_else(|| format!("no group {name}"))?;
        same(super::rules::letters(what), group.versions.iter().map(ToString::to_string).collect::<Vec<_>>())?;
    }
    same(shares(said).len(), held.lesson.groups.len())
}

fn group_checks(held: &Envelope, said: &str) -> Check {
    for (what, name) in shares(said) {
        let group = held.lesson.groups.iter().find(|g| g.name.as_deref().unwrap_or("everyone else") == name);
        let group = group.ok_or_else(|| format!("no group {name}"))?;
        let ends = figures(what);
        let first = group.versions.first().map(ToString::to_string);
        same((ends[0]..=ends[ends.len() - 1]).collect(), held.checks(first.as_deref()))?;
    }
    Ok(())
}

fn tables(held: &Envelope, _: &Scene, text: &str) -> Check {
    for sentence in text.trim_end_matches('.').split(". ") {
        let (lead, things) = sentence.split_once(": ").unwrap_or(("", sentence));
        let share = fit("For every {} learners", lead)
            .or_else(|| fit("And for every {} learners", lead))
            .map_or(1, |holes| count(holes[0]));
        for thing in listed(things) {
            let Some(kind) = super::rules::named(thing) else { continue };
            holds(held.has(kind), format!("{thing} is not in the packet"))?;
            if lead.contains("or every") || lead.ends_with("or each learner") {
                same(share, held.share(kind).clamp(1, held.learners().max(1)))?;
            }
            let pages = figures(thing).first().map_or(1, |pages| *pages as usize);
            // What is cut before lies there in pieces.
            if !matches!(kind, SheetKind::Blocks | SheetKind::Layered | SheetKind::Display)
                && !thing.contains("pile of cut")
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

/// A table's line, and statements in any step.
pub fn table(held: &Envelope, scene: &Scene, text: &str) -> Check {
    tables(held, scene, text)
}

/// "blocks", "18", "sheets", "make", "12", "sets", "6 flats, 9 rods, 9 cubes".
fn cut_out(held: &Envelope, holes: &[&str]) -> Check {
    let kind = sheet(holes[0]);
    same(count(holes[1]) as usize, held.printed(kind))?;
    same(count(holes[4]) as usize, held.copies(kind))?;
    // A kit's blocks, or its pieces.
    same(figures(holes[6]).iter().map(|count| *count as usize).sum::<usize>(), held.pieces_of(kind))
}

fn activity(_: &Envelope, scene: &Scene, holes: &[&str]) -> Check {
    holds(count(holes[0]) <= scene.minutes, format!("{} of {} minutes", holes[0], scene.minutes))
}

fn choice(held: &Envelope, holes: &[&str]) -> Check {
    let [check, question, letter, shown, named] = holes else { panic!("{holes:?}") };
    if !held.has(SheetKind::Key) {
        let of = held.lesson.checks.iter().find(|of| of.mark == count(check));
        let asked = of.and_then(|of| of.questions.get(count(question) as usize - 1)).ok_or("no such question")?;
        let slip = asked.wrong().find(|(mark, _, _)| letter.starts_with(*mark)).map(|(_, _, slip)| slip);
        use placewright::wording::Slips;
        return same(slip.map(|slip| placewright::wording::English.slip_name(slip)), Some(*named));
    }
    let cells = super::packet::key_rows(held);
    let answers = format!("{letter}: {shown} ({named})");
    let told = cells.iter().any(|(of, number, row)| {
        number == question
            && of.split(" to ").any(|n| n == *check)
            && row.iter().any(|cell| cell.replace(' ', "") == answers.replace(' ', ""))
    });
    holds(told, format!("the key does not say `{answers}` of check {check}, question {question}"))?;
    slip(held, named)
}

/// What is given out is a packet that holds these sheets and more.
fn packet(held: &Envelope, what: &str, now: &str) -> Check {
    same(what, "packet")?;
    let now: BTreeSet<SheetKind> = listed(now).into_iter().map(sheet).collect();
    holds(held.packets().iter().any(|sheets| now.is_subset(sheets)), format!("packets hold {:?}", held.packets()))
}

/// The display has this step of a number.
fn step(held: &Envelope, step: u32, number: u32) -> Check {
    let named = |page: &&placewright::sheets::page::Page| figures(&page.name).contains(&step);
    let digits = |page| -> String { whole([page]).chars().filter(char::is_ascii_digit).collect() };
    let shown = held.of_kind(SheetKind::Display).filter(named).any(|page| digits(page).contains(&number.to_string()));
    holds(shown, format!("no step {step} for {number}"))
}

/// "step 2, the blocks, then to step 3, the chart with its columns".
fn turned(held: &Envelope, scene: &Scene, said: &str) -> Check {
    said.split(", then to ").try_for_each(|part| step(held, figures(part)[0], scene.number))
}

pub const RULES: &[Rule] = &[
    ("Give each learner one quick check: {}.", |held, _, h| group_checks(held, h[0])),
    // Before the lesson.
    ("Cut out the {}: {} {} {} {} {}, each of {}.", |held, _, h| cut_out(held, h)),
    ("Cut the rows of cubes apart: {} {}, {} {} each.", |held, _, h| {
        same(count(h[0]) as usize, held.copies(SheetKind::Blocks))
    }),
    ("Trim and join the {} pages of each {} with tape: {} in all.", |held, _, h| {
        same(count(h[0]) as usize, held.pages_of(sheet(h[1])))?;
        same(count(h[2]) as usize, held.copies(sheet(h[1])))
    }),
    ("Have the {} display {} ready for the wall or a document camera.", |held, _, h| {
        same(count(h[0]) as usize, held.of_kind(SheetKind::Display).count())
    }),
    ("Have the {} display {} ready for the wall or a document camera. Only {} {} shown today.", |held, _, h| {
        same(count(h[0]) as usize, held.of_kind(SheetKind::Display).count())?;
        let plan = whole(held.of_kind(SheetKind::Plan));
        let shown = |n: &u32| plan.contains(&format!("Show the display page for {n}"));
        holds(numbers(h[2]).iter().all(shown), "another is shown")
    }),
    ("Count the scissors: {} {}.", |held, _, h| learners(held, h[0])),
    ("Count the scissors back in: {} {}, closed.", |held, _, h| learners(held, h[0])),
    ("Count out blocks from the tub: {} {}, each with {}.", |held, _, h| {
        // Those who share a mat share what lies on it.
        same(count(h[0]), held.learners().div_ceil(held.share(SheetKind::Mat)))
    }),
    ("About {} {} for one person. Times are rough.", |_, scene, h| {
        holds(scene.chores <= 25, "that is long, and nobody says what to do first")?;
        same(count(h[0]), scene.chores)
    }),
    (
        "About {} {} for one person. Times are rough. With less time, begin at the top. For what is left undone, go by \u{201c}If nobody had time\u{201d}.",
        |held, scene, h| {
            holds(scene.chores > 25, "that is not long")?;
            holds(whole(held.of_kind(SheetKind::Plan)).contains("If nobody had time\n"), "nothing says how")?;
            same(count(h[0]), scene.chores)
        },
    ),
    (
        "Lesson plan, {} minutes. Bold lines behind a bar are said aloud. Times are minutes from the start.",
        |held, _, h| same(count(h[0]), held.lesson.spec.minutes.value),
    ),
    ("I can say what each digit is worth, up to 1,000.", |held, _, _| {
        holds(held.lesson.spec.numbers.range.value.1.value() <= 1_000, "the range goes further")
    }),
    ("I can read, write and show numbers up to 10.", |held, _, _| {
        holds(held.lesson.spec.numbers.range.value.1.value() <= 10, "the range goes further")
    }),
    // What is done.
    ("Write {} where everyone can see it. Wait a moment before you say it.", |held, _, h| known(held, h[0])),
    ("Write {} where both of you can see it. Wait a moment before you say it.", |held, _, h| known(held, h[0])),
    ("Have the learner build it: {}", |_, scene, h| same(worth(h[0]), scene.number)),
    ("The learner cuts along the lines: {} pieces. Keep them together.", |held, _, h| {
        same(count(h[0]) as usize, held.pieces_of(SheetKind::Strips))
    }),
    ("Show step 1 of the display for {}: the numeral by itself.", |held, _, h| step(held, 1, count(h[0]))),
    ("Show step 1 of the display for {}: the numeral by itself. Wait a moment before you say it.", |held, _, h| {
        step(held, 1, count(h[0]))
    }),
    ("Turn to {}.", |held, scene, h| turned(held, scene, h[0])),
    ("Turn to {}. {}", |held, scene, h| turned(held, scene, h[0])),
    ("Turn through the display for {}, steps {} to {}, as the class answers.", |held, _, h| {
        (count(h[1])..=count(h[2])).try_for_each(|k| step(held, k, count(h[0])))
    }),
    (
        "Give each learner one {}. Neighbors get different letters: {}. They take out {} and leave the rest for later.",
        |held, _, h| {
            packet(held, h[0], h[2])?;
            letters(held, h[1])
        },
    ),
    (
        "Give each learner one {}. Neighbours get different letters: {}. They take out {} and leave the rest for later.",
        |held, _, h| {
            packet(held, h[0], h[2])?;
            letters(held, h[1])
        },
    ),
    ("Give each learner one {}. Neighbors get different letters: {}.", |held, _, h| letters(held, h[1])),
    ("Give each learner one {}. Neighbours get different letters: {}.", |held, _, h| letters(held, h[1])),
    ("Give each learner one {}: {}. They take out {} and leave the rest for later.", |held, _, h| {
        packet(held, h[0], h[2])?;
        group_letters(held, h[1])
    }),
    ("Give each learner one {}. They take out {} and leave the rest for later.", |held, _, h| packet(held, h[0], h[1])),
    ("Give each learner the {} with their name. They take out {} and leave the rest for later.", |held, _, h| {
        holds(!held.lesson.roster.is_empty(), "nobody has a name")?;
        packet(held, h[0], h[1])
    }),
    ("Give each learner the {} with their name.", |held, _, _| {
        holds(!held.lesson.roster.is_empty(), "nobody has a name")
    }),
    ("Give each learner one {}: {}.", |held, _, h| group_letters(held, h[1])),
    ("Learners take {} out of their packets.", |held, _, h| packet(held, "packet", h[0])),
    ("Say \u{201c}{}\u{201d}, and write nothing yet. Learners write it in figures.", |held, _, h| {
        let said = h[0].replace(" and ", " ").replace(',', "");
        holds(held.numbers().into_iter().any(|n| spelled(n) == said), "that is no number of the lesson")
    }),
    ("Trade with the blocks: {}. Count what is there now: {}. It is still {}.", |held, scene, h| {
        same(crate::support::answers::counted(h[1]), scene.number)?;
        same(count(h[2]), scene.number)?;
        known(held, h[2])
    }),
    ("Trade in the drawing: {}. Count what is there now: {}. It is still {}.", |_, scene, h| {
        same(crate::support::answers::counted(h[1]), scene.number)?;
        same(count(h[2]), scene.number)?;
        // What is crossed out is worth as much as what is drawn.
        let worth = |said: &str| -> u32 {
            let marks = [("box", 1_000), ("square", 100), ("line", 10), ("dot", 1)];
            let (_, each) = marks.iter().find(|(mark, _)| said.contains(mark)).expect("a mark");
            figures(said)[0] * each
        };
        let (crossed, drawn) = h[0].split_once(" and draw ").expect("a trade");
        same(worth(crossed), worth(drawn))
    }),
    ("Other trades are right too: {} is also {}. To check one, add up what its parts are worth.", |held, _, h| {
        same(crate::support::answers::counted(h[1]), count(h[0]))?;
        holds(held.numbers().contains(&count(h[0])), "that is no number of the lesson")
    }),
    ("Write {} on the board.", |held, _, h| known(held, h[0])),
    ("Point to {} again.", |held, _, h| known(held, h[0])),
    ("Write {} and build it the same way: {}", |_, _, h| same(worth(h[1]), count(h[0]))),
    ("Have the class build it: {}", |_, scene, h| same(worth(h[0]), scene.number)),
    ("Write these numbers on the board: {}.", |held, _, h| known(held, h[0])),
    ("Numbers are said without \u{201c}and\u{201d} in this lesson: {} is \u{201c}{}\u{201d}.", |held, _, h| {
        known(held, h[0])?;
        same(h[1].to_owned(), spelled(count(h[0])))
    }),
    ("Numbers are said with \u{201c}and\u{201d} in this lesson: {} is \u{201c}{}\u{201d}.", |held, _, h| {
        known(held, h[0])?;
        same(h[1].replace(" and ", " ").replace(',', ""), spelled(count(h[0])))
    }),
    ("Learners write {} the same way.", |held, _, h| known(held, h[0])),
    (
        "Learners write the digits of {} on scraps of paper and lay them on the mat, one digit in each column.",
        |held, _, h| {
            known(held, h[0])?;
            holds(held.has(SheetKind::Mat), "there is no mat")
        },
    ),
    ("Draw {} columns, one for each place. Learners write {}, one digit in each.", |held, _, h| {
        same(count(h[0]) as usize, count(h[1]).to_string().len())?;
        known(held, h[1])
    }),
    (
        "Draw two boxes, thousands and ones, with three columns each. Learners write {}, one digit in each.",
        |held, _, h| known(held, h[0]),
    ),
    ("Show the display page for {}. Learners compare it with their own work.", |held, _, h| {
        let shown = held.of_kind(SheetKind::Display).any(|page| {
            let digits: String = whole([page]).lines().flat_map(str::chars).filter(char::is_ascii_digit).collect();
            digits.contains(&count(h[0]).to_string())
        });
        holds(shown, "no such display page")
    }),
    ("Show the display page for {}. The learner compares it with the work on the table.", |held, _, h| {
        known(held, h[0])
    }),
    ("Lay the cards {} on top of each other, right edges together.", |held, scene, h| {
        same(numbers(h[0]), parts(scene.number))?;
        let pieces = held.of_kind(SheetKind::Layered).flat_map(|page| &page.layers).flat_map(|layer| &layer.pieces);
        let names: Vec<u32> = pieces.flat_map(|piece| figures(&piece.name)).collect();
        holds(numbers(h[0]).iter().all(|part| names.contains(part)), format!("cards are {names:?}"))
    }),
    ("Find the row for {} on the recording sheet. Fill it in together.", |held, _, h| {
        let all = figures(&whole(held.of_kind(SheetKind::Record)));
        holds(all.contains(&count(h[0])), "no such row")
    }),
    ("Everyone writes {} at the top of the page. Work on it together.", |held, _, h| known(held, h[0])),
    (
        "Learners do {} alone or in pairs. {} {} for whoever has time. Walk round and look at what they write.",
        |held, _, h| {
            known(held, h[0])?;
            known(held, h[1])
        },
    ),
    ("Learners do {} alone or in pairs. Walk round and look at what they write.", |held, _, h| known(held, h[0])),
    ("The learner does {} alone. If there is time, {} too. Look at what is written.", |held, _, h| {
        known(held, h[0])?;
        known(held, h[1])
    }),
    ("The learner does {} alone. Look at what is written.", |held, _, h| known(held, h[0])),
    ("Learners cut along the lines: {} {} each. Keep each learner's pieces together.", |held, _, h| {
        same(count(h[0]) as usize, held.pieces_of(SheetKind::Strips))
    }),
    ("There is time for the first {} rows. Whoever is done early goes on with the next row.", |held, _, h| {
        rows(held, h[0])
    }),
    ("There is time for the first {} numbers. The last one is for whoever is done early.", |held, _, h| {
        by_hand(held, count(h[0]), |written, today| written == today + 1)
    }),
    ("There is time for the first {} numbers. The others are for whoever is done early.", |held, _, h| {
        by_hand(held, count(h[0]), |written, today| written > today + 1)
    }),
    ("Write on the board, for set {}: {}.", |held, _, h| {
        let set = held.lesson.sets.iter().find(|set| set.version.to_string() == h[0]).ok_or("no such set")?;
        same(numbers(h[1]), set.rows.iter().map(|n| n.value()).collect::<Vec<_>>())
    }),
    ("Right answers of check {}: {}.", |held, _, h| {
        holds(!held.has(SheetKind::Key), "the key says so")?;
        let check = held.lesson.checks.iter().find(|check| check.mark == count(h[0])).ok_or("no such check")?;
        let right = (1..).zip(&check.questions).map(|(k, q)| Some(format!("{k} {}", q.letter()?)));
        let right: Option<Vec<String>> = right.take(held.questions() as usize).collect();
        same(Some(h[1].to_owned()), right.map(|right| right.join(", ")))
    }),
    ("There is time for up to {} rows. Whoever is done early goes on with the next row.", |held, _, h| {
        let most = held.lesson.sets.iter().map(|set| set.rows.len()).max().unwrap_or(0);
        holds((count(h[0]) as usize) < most, format!("no board has more than {most}"))
    }),
    (
        "Today you do the first {} rows of your board. Each shows {}. Find the strips that show the same number.",
        |held, _, h| rows(held, h[0]),
    ),
    ("Do question 1 only.", |held, _, _| holds(held.questions() > 1, "there is no other")),
    ("Do questions 1 to {} only.", |held, _, h| {
        holds(count(h[0]) < held.questions(), format!("there are {}", held.questions()))
    }),
    ("Look at the first {} rows only. Write the same number in the other boxes.", |held, _, h| rows(held, h[0])),
    ("{} minutes: each learner works on the practice page. The key has the answers.", |held, scene, h| {
        holds(held.has(SheetKind::Practice), "there is none")?;
        activity(held, scene, h)
    }),
    ("{} minutes: partners swap places and check each other's work. They say why each row is right.", activity),
    ("{} minutes: each learner writes the numbers on the board in order, from least to greatest.", activity),
    (
        "{} minutes: each learner writes the numbers of the sorting board in order, from least to greatest.",
        |held, scene, h| {
            holds(held.has(SheetKind::Board), "there is none")?;
            activity(held, scene, h)
        },
    ),
    ("{} minutes: each learner writes one number in a wrong way. A partner finds out what went wrong.", activity),
    (
        "{} minutes: one learner thinks of a number and gives clues about digits and places. The others find it.",
        activity,
    ),
    ("{} minutes: each learner picks a number and writes it in every way of this lesson. A partner checks.", activity),
    ("Collect the quick checks and count them: {} {}.", |held, _, h| learners(held, h[0])),
    ("Collect the answers and count them: {} {}.", |held, _, h| learners(held, h[0])),
    ("{}: {} rows and {} strips each, numbers from {} to {}.", |held, _, h| group(held, h)),
    ("{}: {} rows each, numbers from {} to {}.", |held, _, h| group(held, &[h[0], h[1], "0", h[2], h[3]])),
    // What is said.
    ("{} has {} {}s. From left to right they are worth {}.", |_, _, h| {
        let n = count(h[0]);
        let digit = count(h[2]);
        let worths: Vec<u32> = parts(n).into_iter().filter(|part| part.to_string().starts_with(h[2])).collect();
        same(numbers(h[3]), worths.clone())?;
        same(count(h[1]) as usize, worths.len())?;
        holds(digit > 0, "a 0 is worth nothing")
    }),
    ("{} ends in {}. That is 1 ten and {}.", |_, _, h| {
        let tail = count(h[0]) % 100;
        same(h[1].to_owned(), spelled(tail))?;
        same(figures(h[2]), vec![tail - 10])
    }),
    ("{} is 1 ten and {}.", |_, _, h| same(h[0].to_lowercase(), spelled(10 + figures(h[1])[0]))),
    // What is looked out for.
    ("If the strip {} lies in the row of {} (set {}): {}. Explained above.", |held, _, h| {
        strip(held, Some(h[2]), h[0], h[1])?;
        slip(held, h[3])
    }),
    ("If the strip {} lies in the row of {} (set {}): {}.", |held, _, h| {
        strip(held, Some(h[2]), h[0], h[1])?;
        slip(held, h[3])
    }),
    ("If the strip {} lies in the row of {}: {}. Explained above.", |held, _, h| {
        strip(held, None, h[0], h[1])?;
        slip(held, h[2])
    }),
    ("If the strip {} lies in the row of {}: {}.", |held, _, h| {
        strip(held, None, h[0], h[1])?;
        slip(held, h[2])
    }),
    ("If you see {} for {}: {}. Explained above.", |held, _, h| {
        known(held, h[1])?;
        slip(held, h[2])
    }),
    ("If you see {} for {}: {}.", |held, _, h| {
        known(held, h[1])?;
        slip(held, h[2])
    }),
    ("Check {}, question {}, choice {}, {}: {}. Explained above.", |held, _, h| choice(held, h)),
    ("Check {}, question {}, choice {}, {}: {}.", |held, _, h| choice(held, h)),
];
