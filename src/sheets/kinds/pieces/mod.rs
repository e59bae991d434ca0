//! How large strips and boxes are.
//!
//! In: everything the strips of some versions show, the paper, and the layouts of board and strips. Out: a [`Design`], the
//! one that takes the fewest pages a learner at readable sizes and, among those, shows its content largest. A box is a
//! strip with the layout's play on every side. Which versions share a design is settled in [`designs`].
//!
//! All strips are equally high, and all text strips equally wide: neither size nor shape tells which row a strip belongs
//! to, and straight cuts free them all. Block pictures may take wider strips, on pages of their own or in rows below the
//! text, whichever takes fewer pages; not where the pile is cut at once: then every strip of a set must come from the same
//! grid.

mod bench;
mod content;
mod design;
mod designs;
mod paging;
mod piled;
mod ways;

use std::collections::BTreeMap;

use crate::diag::Problem;
use crate::diag::nearest::listed;
use crate::lesson::SortSet;
use crate::measure::Length;
use crate::sheets::blocks::geometry::Arranged;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::mark;
use crate::spec::{Paper, SheetKind, TextSize};
use bench::Bench;
use content::gather;
pub use content::{ColumnHead, HeadLines, PageNumber, board_page, name, shown, strips_page};
use design::MarkedRoom;
pub use design::{Design, StripBand, StripPage, StripSize, home};
pub use designs::{Designs, designs};

/// A strip is smaller than its box by at least this much on every side.
pub const LEAST_PLAY: Length = Length::mm(1);

/// Which part of the best design's worth a board on fewer pages must keep to be taken, in percent. Our choice.
const WHOLE: i64 = 85;

/// The same problem of some sets with what would make room, for whoever is told of it. It costs several searches.
fn advised(desk: &Desk<'_>, spares: u32, sets: &[&SortSet], problem: Problem) -> Problem {
    let fits = would_fit(desk, spares, sets);
    if fits.is_empty() {
        return problem;
    }
    let hint = problem.hint.clone().map(|hint| format!("; {hint}")).unwrap_or_default();
    problem.hint(format!("it would fit {}{hint}", listed(&fits, "or")))
}

/// What by itself would make room: other paper, or standard print.
fn would_fit(desk: &Desk<'_>, spares: u32, sets: &[&SortSet]) -> Vec<String> {
    let (paper, text) = (desk.lesson.spec.paper.value, desk.lesson.spec.print.text.value);
    let others = Paper::ALL.into_iter().filter(|other| *other != paper);
    let papers = others.map(|other| (other, text, format!("on `paper = \"{}\"`", other.word())));
    let plain = (paper, TextSize::Standard, "with `print.text = \"standard\"`".to_owned());
    let plain = std::iter::once(plain).filter(|_| text != TextSize::Standard);
    let fits = |(paper, text, _): &(Paper, TextSize, String)| {
        let mut lesson = desk.lesson.clone();
        (lesson.spec.paper.value, lesson.spec.print.text.value) = (*paper, *text);
        search(&Desk::new(&lesson, desk.layouts, desk.family), spares, sets).is_ok()
    };
    papers.chain(plain).filter(fits).map(|(.., said)| said).collect()
}

/// The best design for some sets where there are so many spare ones. Fails when their content fits no arrangement at its least
/// size.
fn search(desk: &Desk<'_>, spares: u32, sets: &[&SortSet]) -> Result<Design, Problem> {
    let (board, strips) = (desk.layout(SheetKind::Board)?, desk.layout(SheetKind::Strips)?);
    let play = strips.length("play")?;
    if play < LEAST_PLAY {
        return Err(Problem::new(format!("the layout of strips leaves {play} round a strip in its box"))
            .hint(format!("expected a play of at least {LEAST_PLAY}")));
    }
    let shown = gather(sets)?;
    let face = desk.face(strips, "strip")?;
    let texts = shown.texts.as_strs();
    let bench = Bench {
        desk,
        sets,
        board,
        room: MarkedRoom { padding: strips.padding, mark: mark::piece_size(desk, spares)? },
        widest: texts.widest(desk.family, face.weight),
        texts,
        given_texts: shown.given_texts.as_strs(),
        pictures: shown.pictures.clone(),
        arranged: Arranged::of(&shown.pictures),
        face,
        given_face: desk.face(board, "given")?,
        unit: strips.length("unit")?,
    };
    let mut failed = None;
    // The best of each number of board pages.
    let mut best: BTreeMap<usize, (i64, Design)> = BTreeMap::new();
    let mut first = None;
    let ways = ways::all(desk, spares, sets, (board, strips), play, &shown)?;
    for sketch in ways.sketches() {
        let rank = sketch.rank;
        if first.is_some_and(|first| rank > first) {
            break;
        }
        let boards = ways.boards(sketch);
        let most = best.get(&boards).map_or(-1, |(most, _)| *most);
        let Some(way) = ways.way(sketch) else { continue };
        match bench.measure(&way, &bench.widest) {
            // Only what would win is measured in full.
            Some((worth, _)) if worth > most => {
                if let Some((worth, design)) = bench.measure(&way, &bench.texts).filter(|(worth, _)| *worth > most) {
                    best.insert(boards, (worth, design));
                    first = Some(rank);
                }
            }
            Some(_) => {}
            // The ways with the most pages come last and give the most room: what fails there is what to tell.
            None => failed = Some(way),
        }
    }
    // Of as many pages in all, a board in one piece is worth a little of what it shows.
    let enough = best.values().map(|(worth, _)| *worth).max().unwrap_or(0) * WHOLE / 100;
    let chosen = best.into_values().find(|(worth, _)| *worth >= enough);
    match (chosen, failed) {
        (Some((_, design)), _) => Ok(design),
        (None, failed) => {
            let problem = failed.and_then(|way| bench.misfit(&way).err());
            let problem = problem.unwrap_or_else(|| Problem::new("no strip fits on this paper"));
            let hint = problem.hint.clone().map(|hint| format!("{hint}; ")).unwrap_or_default();
            Err(problem.hint(format!("{hint}larger paper or fewer forms under `match` give strips more room")))
        }
    }
}
