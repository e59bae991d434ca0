//! How the ticket puts its facts into words.

use crate::lesson::job::{Edge, JobFacts, Keep, PrintSides, SaveBy, Stock};
use crate::sheets::kinds::ticket::facts::count;
use crate::spec::{Paper, SheetKind};
use crate::wording::Wording;

/// "a", "a and b", "a, b and c".
pub fn list(items: &[String]) -> String {
    match items {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}

/// The text with its first letter made a capital.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// The stock. Weights are common practice, no source.
pub fn stock(stock: Stock) -> &'static str {
    match stock {
        Stock::Paper => "paper, 75\u{2013}90 g/m\u{b2} or 20\u{2013}24 lb bond",
        Stock::Card => "card, 160\u{2013}200 g/m\u{b2} or 65 lb cover to 110 lb index",
    }
}

/// The size of the paper, as people and machines call it.
pub fn paper(paper: Paper) -> &'static str {
    match paper {
        Paper::Letter => "letter, 8.5 by 11 in (216 by 279 mm)",
        Paper::Legal => "legal, 8.5 by 14 in (216 by 356 mm)",
        Paper::Tabloid => "tabloid or ledger, 11 by 17 in (279 by 432 mm)",
        Paper::A4 => "A4, 210 by 297 mm (8.3 by 11.7 in)",
        Paper::A3 => "A3, 297 by 420 mm (11.7 by 16.5 in)",
    }
}

/// The sides.
pub fn sides(sides: PrintSides) -> &'static str {
    match sides {
        PrintSides::One => "one side",
        PrintSides::Two(Edge::Long) => "two sides, turn on the long edge",
        PrintSides::Two(Edge::Short) => "two sides, turn on the short edge",
    }
}

/// The ink.
pub const fn ink(colour: bool) -> &'static str {
    if colour { "colour" } else { "black" }
}

/// What becomes of a part.
pub const fn kept(keep: Keep) -> &'static str {
    match keep {
        Keep::Kit => "kept",
        Keep::UsedUp => "used up",
    }
}

/// "12" or "12–18".
pub fn pages((first, last): (usize, usize)) -> String {
    if first == last { first.to_string() } else { format!("{first}\u{2013}{last}") }
}

/// The same for sheets.
pub fn sheets(range: (usize, usize)) -> String {
    pages(range)
}

/// What pieces are called beside others: "strips", "blocks: flats".
pub fn pieces(kind: SheetKind, what: &str) -> String {
    match kind {
        SheetKind::Blocks => format!("blocks: {what}"),
        SheetKind::Layered => format!("layered cards: {what}"),
        _ => what.to_owned(),
    }
}

/// What would save most, in a sentence or two; `None` where nothing would.
pub fn savings(job: &JobFacts, wording: &dyn Wording) -> Option<String> {
    let say = |by: SaveBy, sheets: usize| {
        let fewer = format!("{} fewer", count(sheets, "sheet"));
        match by {
            SaveBy::Sharing(kind, learners) => {
                format!("share {} between {learners} learners: {fewer}", wording.sheet_title(kind).to_lowercase())
            }
            SaveBy::NoSpares => format!("make no spare sets: {fewer}"),
            SaveBy::KeptKits => format!("use these kits again: {fewer}"),
        }
    };
    let said: Vec<String> = job.savings.iter().take(3).map(|saving| say(saving.by, saving.sheets)).collect();
    (!said.is_empty()).then(|| format!("{}.", capital(&said.join("; "))))
}
