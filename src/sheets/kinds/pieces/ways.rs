//! Every way worth measuring to arrange board and strips, the fewest pages first.
//!
//! Tried are both ways to hold each sheet, every number of rows a board page, wider strips for pictures, and the heights at
//! which a page of strips takes one more row. Of ways that differ in height only and cost the same pages, the highest
//! stay, within the layout's limit and beyond it: more height never shows less.

use std::cell::RefCell;
use std::collections::HashMap;
use std::ops::Range;

use crate::diag::Problem;
use crate::lesson::{SortSet, Strip};
use crate::measure::{Count, Length, Rect, Size};
use crate::number::Form;
use crate::sheets::kinds::pieces::content::{
    ColumnHead, Contents, HeadLines, PageNumber, board_page, headings, strips_page,
};
use crate::sheets::kinds::pieces::design::{StripPage, StripSize, groups, home, rows_of};
use crate::sheets::kinds::pieces::paging::Paging;
use crate::sheets::kinds::pieces::piled::{Piled, stacked};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid;
use crate::sheets::page::layout::{Layout, Turn};

/// One way, before its content is measured.
#[derive(Debug, Clone)]
pub(super) struct Way {
    pub(super) board: Turn,
    pub(super) rows: Vec<u32>,
    pub(super) given: Length,
    pub(super) heads: Length,
    pub(super) head_lines: HeadLines,
    pub(super) high: Length,
    pub(super) classes: Vec<StripSize>,
    /// The pages of strips, by pages of the board where each has its own.
    pub(super) pages: Vec<Vec<StripPage>>,
    /// What is better in every case: fewer pages a learner, or fewer sheets for all where strips are cut as piles; then boards with
    /// strips of their own.
    pub(super) rank: (usize, bool),
}

/// How much wider than a text strip a picture strip may be, in percent: in steps small enough that the texts of a row with many
/// columns keep the width of their longest word, and its picture has all the rest.
const WIDER: [i64; 16] = [120, 140, 160, 180, 195, 210, 230, 250, 265, 280, 300, 330, 360, 390, 430, 470];

/// Strips of piles are no lower than this where the board leaves them more: the guillotine would take lower ones, and fingers would
/// not. Our choice.
const LOWEST: Length = Length::mm(16);

/// What all ways of a lesson share.
struct Task<'a> {
    desk: &'a Desk<'a>,
    sets: &'a [&'a SortSet],
    board: &'a Layout,
    strips: &'a Layout,
    play: Length,
    rows: u32,
    forms: Vec<Form>,
    /// The bodies of the board's pages, held each way, by how many pages there are: each is laid once, for all ways.
    boards: RefCell<HashMap<(Turn, usize), Rect>>,
    /// The bodies of the strips' pages.
    bodies: Vec<(Turn, Rect)>,
    /// Where strips are cut as piles: what these cost.
    piled: Option<Piled<'a>>,
}

/// All ways for some sets, the fewest pages first; of as many pages, equal strips and the layouts' preferred turns first.
pub(super) fn all(
    desk: &Desk<'_>,
    spares: u32,
    sets: &[&SortSet],
    (board, strips): (&Layout, &Layout),
    play: Length,
    shown: &Contents,
) -> Result<Vec<Way>, Problem> {
    let rows = sets.iter().map(|set| set.rows.len()).max().unwrap_or(0);
    let mut forms: Vec<Form> = Vec::new();
    for form in sets.iter().flat_map(|set| &set.forms) {
        if !forms.contains(form) {
            forms.push(*form);
        }
    }
    if rows == 0 || forms.is_empty() {
        return Err(Problem::new("the lesson has no numbers to sort").hint("give `numbers.sort.count` at least 1"));
    }
    let bodies = strips.turns.iter().map(|turn| Ok((*turn, strips_page(desk, *turn, PageNumber::ONLY, true)?.1.body)));
    let bodies = bodies.collect::<Result<_, Problem>>()?;
    let piled = stacked(desk).then(|| Piled::of(desk, spares, sets)).transpose()?;
    let task =
        Task { desk, sets, board, strips, play, rows: rows.narrow(), forms, boards: RefCell::default(), bodies, piled };
    let mut ways = Vec::new();
    for &turn in &board.turns {
        let body = task.board_body(turn, 1)?;
        for split in task.splits() {
            task.turn(turn, body, &split, shown, &mut ways)?;
        }
    }
    if ways.is_empty() {
        return Err(Problem::new("no strip fits on this paper").hint("use larger paper or fewer forms under `match`"));
    }
    ways.sort_by_key(|way| way.rank);
    Ok(ways)
}

/// Which forms share a size, and how wide their boxes are compared with others, in percent.
type Split = Vec<(Vec<Form>, i64)>;

impl Task<'_> {
    /// The ways to give forms sizes: one for all, or wider ones for pictures where nothing else forbids it.
    fn splits(&self) -> Vec<Split> {
        let mut splits = vec![vec![(self.forms.clone(), 100)]];
        let (pictures, texts): (Vec<Form>, Vec<Form>) = self.forms.iter().partition(|form| form.is_picture());
        let mixed = !texts.is_empty() && texts.len() < self.forms.len();
        if mixed && self.piled.is_none() {
            splits.extend(WIDER.map(|wider| vec![(texts.clone(), 100), (pictures.clone(), wider)]));
        }
        splits
    }

    /// The body of a board's page, of so many.
    fn board_body(&self, turn: Turn, pages: usize) -> Result<Rect, Problem> {
        if let Some(body) = self.boards.borrow().get(&(turn, pages)) {
            return Ok(*body);
        }
        let number = PageNumber { of: pages, ..PageNumber::ONLY };
        let body = board_page(self.desk, turn, number)?.1.body;
        self.boards.borrow_mut().insert((turn, pages), body);
        Ok(body)
    }

    /// The ways with the board held one way.
    fn turn(
        &self,
        turn: Turn,
        body: Rect,
        split: &Split,
        shown: &Contents,
        ways: &mut Vec<Way>,
    ) -> Result<(), Problem> {
        let tallest = self.board.length("tallest")?;
        let given = self.given_width(shown, body.width())?;
        // Boxes are as wide as the set with the widest row of them allows.
        let sets = self.sets;
        let of = |set: &SortSet, forms: &[Form]| set.forms.iter().filter(|form| forms.contains(form)).count();
        let row = |set: &SortSet| split.iter().map(|(forms, wide)| wide * of(set, forms).wide()).sum::<i64>();
        let shares: i64 = sets.iter().map(|set| row(set)).max().unwrap_or(1);
        let widths: Vec<Length> =
            split.iter().map(|(_, wide)| hundredths((body.width() - given).scaled(*wide, shares))).collect();
        let wide =
            |form: &Form| split.iter().zip(&widths).find(|((forms, _), _)| forms.contains(form)).map(|(_, w)| *w);
        let mut columns: Vec<(ColumnHead<'_>, Length)> = Vec::new();
        for set in sets {
            columns.push((ColumnHead::of(self.desk, set, set.given), given));
            columns
                .extend(set.forms.iter().filter_map(|form| Some((ColumnHead::of(self.desk, set, *form), wide(form)?))));
        }
        columns.sort_unstable();
        columns.dedup();
        let Some((heads, head_lines)) = headings(self.desk, self.board, &columns)? else { return Ok(()) };
        let (least, most) = (self.board.grid.rows.0.min(self.rows), self.board.grid.rows.1.min(self.rows));
        let mut before = Vec::new();
        for most in (least..=most).rev() {
            let rows = grid::share(self.rows, most, 1);
            if rows == before {
                continue;
            }
            let body = self.board_body(turn, rows.len())?;
            let room = (body.height() - heads).scaled(1, i64::from(rows.first().copied().unwrap_or(1)));
            let mut kept: Vec<((usize, bool), bool)> = Vec::new();
            let all = [rows.iter().sum()];
            let owns = if rows.len() == 1 { &[true][..] } else { &[true, false] };
            let heights = self.heights(room, tallest);
            let counted = |own: &bool| (*own, self.counts(split, if *own { &rows } else { &all }));
            let owns: Vec<(bool, Vec<Vec<u32>>)> = owns.iter().map(counted).collect();
            for (high, (own, counts)) in heights.iter().flat_map(|high| owns.iter().map(|own| (*high, own))) {
                let own = *own;
                let class = |((forms, _), &wide): (&(Vec<Form>, i64), &Length)| {
                    let piece = Size::new(wide - self.play * 2, high - self.play * 2);
                    StripSize { forms: forms.clone(), wide, piece }
                };
                let classes: Vec<StripSize> = split.iter().zip(&widths).map(class).collect();
                let (bodies, limits) = (&self.bodies, self.strips.grid);
                let paging = Paging { bodies, limits, classes: &classes, counts };
                // Most ways cost what a higher one costs: their pages are counted and not made.
                let Some((fewest, held)) = paging.best() else { continue };
                let leaves = match (&self.piled, classes.as_slice()) {
                    (Some(piled), [class]) => piled.leaves(&rows, class.piece).ok(),
                    _ => Some(rows.len() + fewest.index()),
                };
                let Some(leaves) = leaves else { continue };
                let rank = (leaves, !own);
                let key = (rank, high <= tallest);
                if kept.contains(&key) {
                    continue;
                }
                let Some(pages) = paging.pages(&held) else { continue };
                let rows = rows.clone();
                ways.push(Way { rank, board: turn, rows, given, heads, head_lines, high, classes, pages });
                kept.push(key);
            }
            before = rows;
        }
        Ok(())
    }

    /// Heights of a box worth trying, the highest first.
    fn heights(&self, room: Length, tallest: Length) -> Vec<Length> {
        let mut heights = vec![room, room.min(tallest)];
        let bodies = self.bodies.iter().map(|(_, body)| body.height());
        for high in bodies.chain(self.piled.iter().flat_map(Piled::rooms)) {
            for rows in 1..=self.strips.grid.rows.1 {
                heights.push(high.scaled(1, i64::from(rows)) + self.play * 2);
            }
        }
        let least = if self.piled.is_some() { (LOWEST + self.play * 2).min(room) } else { self.play * 2 };
        heights.retain(|high| *high <= room && *high >= least && *high > self.play * 2);
        let mut heights: Vec<Length> = heights.into_iter().map(hundredths).collect();
        heights.sort_unstable_by(|a, b| b.cmp(a));
        heights.dedup();
        heights
    }

    /// How many strips of each class every group of rows has.
    fn counts(&self, split: &Split, rows: &[u32]) -> Vec<Vec<u32>> {
        let groups: Vec<Vec<Range<usize>>> = self.sets.iter().map(|set| groups(&rows_of(rows, set))).collect();
        (0..rows.len()).map(|k| split.iter().map(|(forms, _)| self.pieces(forms, &groups, k)).collect()).collect()
    }

    /// The most strips of these forms that any version has in group `k` of its rows.
    fn pieces(&self, forms: &[Form], groups: &[Vec<Range<usize>>], k: usize) -> u32 {
        let count = |(set, groups): (&&SortSet, &Vec<Range<usize>>)| {
            let rows = groups.get(k)?;
            let here = |strip: &&Strip| forms.contains(&strip.form) && rows.contains(&home(set, strip));
            Some(set.strips.iter().filter(here).count())
        };
        self.sets.iter().zip(groups).filter_map(count).max().unwrap_or(0).narrow()
    }

    /// How wide the column of given forms is: a numeral's own width, otherwise an equal share.
    fn given_width(&self, shown: &Contents, width: Length) -> Result<Length, Problem> {
        let sets = self.sets;
        if sets.iter().any(|set| set.given != Form::Numeral) {
            let most = sets.iter().map(|set| set.forms.len()).max().unwrap_or(1);
            return Ok(width.scaled(1, (most + 1).wide()));
        }
        let (board, desk) = (self.board, self.desk);
        let face = desk.face(board, "given")?;
        let widest = shown.given_texts.alone.iter().map(|text| desk.width(text, &face)).max().unwrap_or(Length::ZERO);
        let heading = desk.face(board, "heading")?;
        let heading = heading.at(heading.least);
        let heads = sets.iter().map(|set| ColumnHead::of(desk, set, set.given));
        let headings = heads.flat_map(|head| std::iter::once(head.first).chain(head.second));
        let headings = headings.map(|text| desk.width(text, &heading));
        let heading = headings.max().unwrap_or(Length::ZERO) + Length::mm(1);
        let least = (heading + board.padding).max(board.length("given")?);
        Ok((widest + board.padding * 2).min(board.length("given_most")?).max(least))
    }
}

/// Rounded down to a whole hundredth of a millimetre.
fn hundredths(length: Length) -> Length {
    Length::mm100(length.holds(Length::mm100(1)))
}
