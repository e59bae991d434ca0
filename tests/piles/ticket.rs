//! The copy room's ticket, read as the copy room reads it: which files there are and how each pile is cut.

use crate::support::pdf::{self, Page, Run};

const MM: f64 = 72.0 / 25.4;

/// A file that the ticket has printed.
#[derive(Debug)]
pub struct Printed {
    pub name: String,
    pub sheets: usize,
    /// The edge over which sheets are turned, where both sides are printed.
    pub turn: Option<String>,
}

/// What the ticket says about piles that are cut alike.
#[derive(Debug, Default)]
pub struct Cutting {
    pub what: String,
    pub file: String,
    pub total: usize,
    pub level: Vec<f64>,
    pub upright: Vec<f64>,
    pub piles: Vec<(usize, usize)>,
    /// Of kits: the first and last of each pile, and how many places each takes.
    pub kits: Vec<(usize, usize, usize)>,
}

/// "12–18" or "12".
fn range(text: &str) -> (usize, usize) {
    let (first, last) = text.split_once('\u{2013}').unwrap_or((text, text));
    let number = |text: &str| text.trim().trim_end_matches('.').parse().unwrap_or_else(|_| panic!("{text}"));
    (number(first), number(last))
}

fn runs(pages: &[Page]) -> Vec<&Run> {
    pages.iter().flat_map(|page| &page.texts).collect()
}

/// Whether a line is the heading of a part; one that only goes on over a page is none.
fn begins(text: &str, head: &str) -> bool {
    text.starts_with(head) && !text.ends_with("(goes on)")
}

/// The parts of the ticket that begin with a heading of these words, each up to the next heading that is a part of its own.
fn sections<'r>(runs: &[&'r Run], words: &str) -> Vec<Vec<&'r Run>> {
    let heads =
        ["What to print", "What is where", "Cut the ", "Not for", "Do not cut", "Fewer sheets", "Mark when done"];
    let starts: Vec<usize> =
        (0..runs.len()).filter(|k| heads.iter().any(|head| begins(&runs[*k].text, head))).collect();
    let end = |k: usize| starts.iter().copied().find(|start| *start > k).unwrap_or(runs.len());
    starts.iter().filter(|k| begins(&runs[**k].text, words)).map(|k| runs[*k..end(*k)].to_vec()).collect()
}

/// Reads the ticket: the files it names and what it says of cutting.
pub fn ticket(bytes: &[u8]) -> (Vec<Printed>, Vec<Cutting>) {
    let pages = pdf::read(bytes);
    let all = runs(&pages);
    let mut files = Vec::new();
    let print = &sections(&all, "What to print")[0];
    for (k, run) in print.iter().enumerate().filter(|(_, run)| run.text.ends_with(".pdf")) {
        let rest: Vec<&str> =
            print[k + 1..].iter().map(|run| run.text.as_str()).take_while(|t| !t.ends_with(".pdf")).collect();
        let sheets = rest.iter().find_map(|text| text.parse::<usize>().ok()).expect("sheets");
        let words = rest.join(" ");
        let turn = ["long", "short"].into_iter().find(|edge| words.contains(&format!("{edge} edge")));
        assert_eq!(turn.is_some(), words.contains("two sides"), "{words}");
        files.push(Printed { name: run.text.clone(), sheets, turn: turn.map(str::to_owned) });
    }
    let mut cuttings = Vec::new();
    // How the gauge is set is told once, at the first cuts.
    let mut first_said = String::new();
    for part in sections(&all, "Cut the ") {
        let Some((what, total)) = part[0].text.trim_start_matches("Cut the ").rsplit_once(": ") else { continue };
        let total = total.trim_end_matches(" cuts").trim_end_matches(" cut").parse().expect("a count");
        let mut cutting = Cutting { what: what.to_owned(), total, ..Cutting::default() };
        first_said =
            if cuttings.is_empty() { part.iter().map(|run| format!("{} ", run.text)).collect() } else { first_said };
        let said: String = part.iter().skip(1).map(|run| format!("{} ", run.text)).collect();
        cutting.file = said.split(':').next().expect("a file").trim().to_owned();
        let sheets = said
            .split(", sheet")
            .nth(1)
            .expect("sheets")
            .trim_start_matches('s')
            .split(". Keep")
            .next()
            .expect("sheets");
        cutting.piles = sheets.split('\u{b7}').map(range).collect();
        let mut heads: Vec<(bool, f64)> = Vec::new();
        let mut columns: Vec<f64> = Vec::new();
        let mut cuts: Vec<(usize, bool, f64, bool)> = Vec::new();
        for (k, run) in part.iter().enumerate() {
            match run.text.as_str() {
                "From the top" | "From the left" => heads.push((run.text.ends_with("top"), run.x)),
                text if text.contains(" mm (") && text.starts_with(|c: char| c.is_ascii_digit()) => {
                    let mm: f64 = text.split(" mm").next().and_then(|n| n.parse().ok()).expect("a distance");
                    let (level, _) = heads.iter().find(|(_, x)| (x - run.x).abs() < 0.5).expect("a column");
                    let number: usize = part[k - 1].text.parse().expect("the number of a cut");
                    cuts.push((number, *level, mm * MM, text.ends_with(", turned")));
                }
                "Each kit takes" => columns = part[k - 3..=k].iter().map(|run| run.x).collect(),
                _ => {}
            }
        }
        cuts.sort_by_key(|(number, ..)| *number);
        assert!(cuts.iter().map(|(number, ..)| *number).eq(1..=cuts.len()), "{cuts:?}");
        // A piece that is turned is measured from the edge that was cut before.
        let of = |wanted: bool| {
            let mut all: Vec<f64> = Vec::new();
            for (.., at, turned) in cuts.iter().filter(|(_, level, ..)| *level == wanted) {
                all.push(if *turned { all.last().expect("a cut before") - at } else { *at });
                let near = said.contains("under 30 mm");
                assert!(near || *at >= 30.0 * MM - 0.01 || first_said.contains("under 30 mm"), "{at}: {said}");
            }
            all
        };
        (cutting.level, cutting.upright) = (of(true), of(false));
        // A table that goes on over a page repeats its head.
        let row = |k: &usize| {
            let cells = part.get(*k..*k + 4).unwrap_or_default();
            !columns.is_empty()
                && cells.len() == columns.len()
                && cells.iter().zip(&columns).all(|(run, x)| (run.x - x).abs() < 0.5)
        };
        for row in (0..part.len()).filter(row).map(|k| [0, 1, 2, 3].map(|c| part[k + c].text.as_str())) {
            if row[0].parse::<usize>().is_err() {
                continue;
            }
            let (first, last) = row[2].split_once(" to ").unwrap_or((row[2], row[2]));
            let places = row[3].split(' ').next().and_then(|n| n.parse().ok()).expect("places");
            cutting.kits.push((first.parse().expect("a kit"), last.parse().expect("a kit"), places));
        }
        cuttings.push(cutting);
    }
    (files, cuttings)
}
