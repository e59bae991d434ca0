//! What an English plan states of the packet, statement by statement.

use super::packet::Envelope;
use super::read::whole;
use super::rules::{Check, Rule, Scene, count, holds, numbers, same, sheet};
use super::stated::{
    activity, by_hand, choice, cut_out, group, group_checks, group_letters, known, learners, letters, packet, rows,
    slip, step, strip, worth,
};
use crate::support::answers::{figures, parts, spelled};
use placewright::spec::SheetKind;

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
    (
        "Have the {} display {} ready for the wall or a document camera. Only the {} for {} {} shown today: model {} {}.",
        |held, _, h| {
            same(count(h[0]) as usize, held.of_kind(SheetKind::Display).count())?;
            let model = |k: u32| held.lesson.chosen.model[k as usize - 1].value();
            same(numbers(h[3]), numbers(h[6]).into_iter().map(model).collect())?;
            let plan = whole(held.of_kind(SheetKind::Plan));
            let shown = |n: &u32| plan.contains(&format!("Show the display page for {n}"));
            holds(numbers(h[3]).iter().all(shown), "another is shown")
        },
    ),
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
    (
        "Several pieces, in the head: trade {} of {}. For each one 10 {} come: {}. Now we have {}. It is still {}.",
        |held, _, h| {
            let each = (1..=figures(h[0])[0]).map(|piece| (piece * 10).to_string()).collect::<Vec<_>>();
            same(h[3].to_owned(), each.join(", "))?;
            // What comes is worth as much as what goes.
            let come = format!("{} {}", each.last().expect("pieces"), h[2]);
            same(crate::support::answers::counted(h[0]), crate::support::answers::counted(&come))?;
            same(crate::support::answers::counted(h[4]), count(h[1]))?;
            same(h[1], h[5])?;
            known(held, h[1])
        },
    ),
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
    ("Turn the paper over. Everyone writes {} at the top, and below it the same number {}.", |held, _, h| {
        known(held, h[0])
    }),
    (
        "Learners do {} alone or in pairs. {} {} for whoever has time. Walk around and look at what they write.",
        |held, _, h| {
            known(held, h[0])?;
            known(held, h[1])
        },
    ),
    ("Learners do {} alone or in pairs. Walk around and look at what they write.", |held, _, h| known(held, h[0])),
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
    ("Look at the first {} rows only. Write or draw the same number in the other boxes.", |held, _, h| {
        holds(held.lesson.draws_in_boxes(), "nothing is drawn")?;
        rows(held, h[0])
    }),
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
