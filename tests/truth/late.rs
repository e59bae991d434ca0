//! Late starts added up as whoever stands in adds them up: the minutes that the plan prints for each phase, as much of each as
//! the cover's line says is done.

use super::packet::Envelope;
use super::read::{Block, blocks};
use crate::support::answers::figures;
use placewright::lesson::timing;
use placewright::spec::SheetKind;

/// Lessons whose plans have more minutes than their work needs at its briskest, or hardly any.
const LESSONS: &[(&str, &str, &str)] = &[
    (
        "parcels",
        "minutes = 90\ngrade = \"3\"\npaper = \"a4\"\nseed = 9",
        "[numbers]\nrange = [1000, 5999]\nat_most = { thousands = 5 }\n[numbers.model]\ncount = 3\n\
         zeros = { hundreds = 1, tens = 1 }\n[numbers.sort]\ncount = 8\nsame_digits = 3\n[numbers.exit]\ncount = 4\n\
         [forms]\nmatch = [\"expanded\", \"numeral\", \"words\", \"regrouped\"]\ndecoys = 4\n[class]\nlearners = 22\n\
         versions = 2\nshare = { blocks = 4, mat = 4 }\n[sheets]\nmake = [\"display\", \"mat\", \"blocks\", \"layered\", \
         \"record\", \"word-bank\", \"board\", \"strips\", \"exit\", \"key\", \"tally\", \"practice\"]\n",
    ),
    (
        "frogs",
        "minutes = 20\ngrade = \"2\"\npaper = \"a4\"\nseed = 5",
        "[numbers]\nrange = [20, 250]\nat_most = { tens = 9, ones = 9 }\n[numbers.model]\ncount = 2\n[numbers.sort]\n\
         count = 6\nzeros = { tens = 2 }\n[numbers.exit]\ncount = 2\n[forms]\n\
         match = [\"words\", \"numeral\", \"expanded\"]\ndecoys = 2\n[class]\nlearners = 21\nversions = 2\n[print]\n\
         cut = \"stack\"\n[sheets]\nmake = [\"display\", \"mat\", \"record\", \"board\", \"strips\", \"exit\", \"key\"]\n",
    ),
    (
        "snails",
        "minutes = 30\ngrade = \"1\"\npaper = \"a4\"\nseed = 3",
        "[numbers]\nrange = [10, 20]\n[class]\nlearners = 18\n",
    ),
    (
        "rafts",
        "minutes = 50\ngrade = \"3\"\nseed = 7",
        "[numbers]\nrange = [1000, 6999]\n[numbers.model]\ncount = 0\n[numbers.sort]\ncount = 6\nrepeats = 1\n\
         [numbers.exit]\ncount = 4\n[forms]\nmatch = [\"numeral\", \"words\", \"expanded\", \"units\"]\ndecoys = 3\n\
         [class]\nlearners = 22\nversions = 2\n",
    ),
    (
        "shells",
        "minutes = 90\ngrade = \"3\"\nseed = 14",
        "[numbers]\nrange = [100, 999]\n[numbers.model]\ncount = 3\n[numbers.sort]\ncount = 8\nsame_digits = 3\n\
         [numbers.exit]\ncount = 4\n[class]\nlearners = 26\nversions = 2\n",
    ),
];

/// Minutes of lessons that are otherwise alike.
const LENGTHS: [u32; 5] = [20, 45, 50, 90, 120];

/// All of them in both languages.
fn lessons() -> impl Iterator<Item = Envelope> {
    let of_lengths = LENGTHS.map(|minutes| {
        let (top, rest) = (format!("minutes = {minutes}\ngrade = \"2\""), "[numbers]\nrange = [100, 999]\n");
        (format!("{minutes} minutes"), top, rest)
    });
    let own = LESSONS.iter().map(|(name, top, rest)| ((*name).to_owned(), (*top).to_owned(), *rest));
    own.chain(of_lengths).flat_map(|(name, top, rest)| {
        ["en", "es"].map(|language| {
            let text = format!("title = \"{name}\"\nlanguage = \"{language}\"\n{top}\n{rest}");
            Envelope::of(&format!("{name} ({language})"), &text, None)
        })
    })
}

/// The minutes of the phases that have one of these names, by the clock that stands beside each.
fn minutes(plan: &[Block], names: &[&str]) -> u32 {
    let named = |heading: &str| names.iter().any(|name| heading.starts_with(name));
    let clock = |text: &str| {
        let (from, to) = text.split_once('\u{2013}')?;
        Some(to.parse::<u32>().ok()? - from.parse::<u32>().ok()?)
    };
    for pair in plan.windows(2) {
        if let (Block::Heading(name), Block::Paragraph(time)) = (&pair[0], &pair[1])
            && let Some(minutes) = clock(time).filter(|_| named(name))
        {
            return minutes;
        }
    }
    0
}

/// What of a phase is done, rounded up to whole minutes.
fn share(minutes: u32, done: u32, of: u32) -> u32 {
    if of == 0 { 0 } else { (minutes * done).div_ceil(of) }
}

/// The minutes of what a line says, by the plan's own.
fn sum(held: &Envelope, plan: &[Block], parts: &str) -> u32 {
    let whole = timing::load(&held.lesson.fullest, held.lesson.spec.minutes.value);
    let asked = if held.has(SheetKind::Exit) { whole.questions.min(held.questions()) } else { whole.questions };
    let phase = |names: &[&str]| minutes(plan, names);
    let says = |words: &[&str]| words.iter().any(|words| parts.contains(words));
    // Where nothing is built or cut, half of what is cleared away was never taken out.
    let out = ["model number", "together", "match", "modelo", "en común", "emparejar"];
    let mut sum = share(phase(&["Clearing away", "Recoger"]), if says(&out) { 2 } else { 1 }, 2);
    let opened = !says(&["skip the opening", "sin comienzo"]);
    sum += if opened { phase(&["Opening", "Comienzo"]) } else { 0 };
    for part in parts.split(", ") {
        let has = |words: &[&str]| words.iter().any(|words| part.contains(words));
        let one = if has(&["first row", "primera fila"]) { 1 } else { 0 };
        let count = figures(part).last().copied().unwrap_or(one);
        sum += if has(&["model number", "números modelo", "número modelo"]) {
            share(
                phase(&[
                    "Building",
                    "Drawing",
                    "Writing the model",
                    "Armar",
                    "Dibujar",
                    "Escribir el número modelo",
                    "Escribir los números modelo",
                ]),
                count,
                whole.models,
            )
        } else if has(&["one together", "en común"]) {
            phase(&["Practice together", "Práctica en común"])
        } else if has(&["row", "fila"]) {
            let done = if has(&["all rows", "todas las filas"]) { whole.rows } else { count };
            share(phase(&["Sorting", "Writing the same", "Clasificar", "Escribir el mismo"]), done, whole.rows)
        } else if has(&["share", "compartir"]) {
            phase(&["Sharing", "Puesta en común"])
        } else if has(&["quick check", "control rápido"]) {
            let done = if count == 0 { asked } else { count };
            share(phase(&["Quick check", "Control rápido"]), done, asked)
        } else if has(&["opening", "comienzo"]) {
            0
        } else {
            panic!("{}: nobody adds up `{part}`", held.name)
        };
    }
    sum
}

/// "60 minutes left: …", "Con 10 a 20 minutos: …": the fewest minutes and the most, and what is done.
fn line(text: &str) -> Option<(u32, u32, &str)> {
    let (left, parts) = text.split_once(": ")?;
    let said = left.ends_with(" left") || left.starts_with("Con ") && left.ends_with(" minutos");
    let minutes = figures(left);
    said.then(|| (minutes[0], minutes[minutes.len() - 1], parts.trim_end_matches('.')))
}

#[test]
fn what_a_late_start_does_takes_no_more_of_the_plans_minutes_than_are_left() {
    let (mut faults, mut read) = (Vec::new(), [0; 2]);
    for held in lessons() {
        let all = |kind| blocks(held.of_kind(kind));
        let (plan, cover) = (all(SheetKind::Plan), all(SheetKind::Cover));
        for (left, most, parts) in cover.iter().flat_map(Block::texts).filter_map(line) {
            let sum = sum(&held, &plan, parts);
            read[usize::from(held.name.ends_with("(es)"))] += 1;
            if sum > left {
                faults.push(format!("{}, {left} left: {sum} minutes for {parts}", held.name));
            }
            // And no less than a teacher would fill them with.
            if sum * 3 < most * 2 && most > 10 {
                faults.push(format!("{}, {most} left: only {sum} minutes for {parts}", held.name));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(read[0] > 25 && read[0] == read[1], "{read:?}");
}
