//! Every way worth measuring to arrange board and strips, the fewest pages first.
//!
//! Tried are both ways to hold each sheet, every number of rows a board page, wider strips for pictures, and the heights at
//! which a page of strips takes one more row. Of ways that differ in height only and cost the same pages, the highest
//! stay, within the layout's limit and beyond it: more height never shows less. Thousands are counted and few of them
//! measured: a way is a [`Sketch`] until it is.

use std::cell::RefCell;
use std::collections::HashMap;
use std::ops::Range;
use std::rc::Rc;

use crate::diag::Problem;
use crate::lesson::{SortSet, Strip};
use crate::measure::{Count, Length, Rect, Size};
use crate::number::Form;
use crate::sheets::kinds::pieces::content::{
    ColumnHead, Contents, HeadLines, PageNumber, board_page, headings, strips_page,
};
use crate::sheets::kinds::pieces::design::{StripPage, StripSize, groups, home, rows_of};
use crate::sheets::kinds::pieces::paging::{Held, Paging};
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
}

/// What is better in every case: fewer pages a learner, or fewer sheets for all where strips are cut as piles; then boards with
/// strips of their own.
pub(super) type Rank = (usize, bool);

/// A way of which only the cost is known.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sketch {
    pub(super) rank: Rank,
    /// Its place in [`Ways::shapes`].
    shape: usize,
    high: Length,
    held: Held,
    own: bool,
}

/// What ways that differ in height only share.
#[derive(Debug)]
struct Shape {
    board: Turn,
    rows: Vec<u32>,
    given: Length,
    heads: Length,
    head_lines: HeadLines,
    /// Its place in [`Ways::splits`].
    split: usize,
    /// How wide the boxes of each size are.
    widths: Vec<Length>,
}

/// All ways of a lesson.
pub(super) struct Ways<'a> {
    task: Task<'a>,
    splits: Vec<Split>,
    shapes: Vec<Shape>,
    sketches: Vec<Sketch>,
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
    /// How many strips of each size every group of rows has, by how many sizes there are and by the groups: how wide a size is
    /// does not matter to it.
    counted: RefCell<HashMap<(usize, Vec<u32>), Rc<Vec<Vec<u32>>>>>,
    /// The bodies of the strips' pages.
    bodies: Vec<(Turn, Rect)>,
    /// Where strips are cut as piles: what these cost.
    piled: Option<Piled<'a>>,
}

/// All ways for some sets, the fewest pages first; of as many pages, equal strips and the layouts' preferred turns first.
pub(super) fn all<'a>(
    desk: &'a Desk<'a>,
    spares: u32,
    sets: &'a [&'a SortSet],
    (board, strips): (&'a Layout, &'a Layout),
    play: Length,
    shown: &Contents,
) -> Result<Ways<'a>, Problem> {
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
    let (boards, counted, rows) = (RefCell::default(), RefCell::default(), rows.narrow());
    let task = Task { desk, sets, board, strips, play, rows, forms, boards, counted, bodies, piled };
    let mut ways = Ways { splits: task.splits(), task, shapes: Vec::new(), sketches: Vec::new() };
    for &turn in &board.turns {
        for split in 0..ways.splits.len() {
            ways.turn(turn, split, shown)?;
        }
    }
    if ways.sketches.is_empty() {
        return Err(Problem::new("no strip fits on this paper").hint("use larger paper or fewer forms under `match`"));
    }
    ways.sketches.sort_by_key(|sketch| sketch.rank);
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

    /// How high the row of headings is over boxes of these widths; see [`headings`].
    fn heads(&self, given: Length, split: &Split, widths: &[Length]) -> Result<Option<(Length, HeadLines)>, Problem> {
        let wide = |form: &Form| split.iter().zip(widths).find(|((forms, _), _)| forms.contains(form)).map(|(_, w)| *w);
        let mut columns: Vec<(ColumnHead<'_>, Length)> = Vec::new();
        for set in self.sets {
            columns.push((ColumnHead::of(self.desk, set, set.given), given));
            columns
                .extend(set.forms.iter().filter_map(|form| Some((ColumnHead::of(self.desk, set, *form), wide(form)?))));
        }
        columns.sort_unstable();
        columns.dedup();
        headings(self.desk, self.board, &columns)
    }

    /// A strip in a box of this size.
    fn piece(&self, wide: Length, high: Length) -> Size {
        Size::new(wide - self.play * 2, high - self.play * 2)
    }

    /// How strips for boxes of these widths go on pages.
    fn paging(&self, widths: &[Length]) -> Paging<'_> {
        let pieces: Vec<Length> = widths.iter().map(|wide| *wide - self.play * 2).collect();
        Paging::of(&self.bodies, self.strips.grid, &pieces)
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

    /// How many strips of each class every page has: those of its own rows, or of all rows together.
    fn counts(&self, split: &Split, rows: &[u32], own: bool) -> Rc<Vec<Vec<u32>>> {
        let rows = if own { rows.to_vec() } else { vec![rows.iter().sum()] };
        let key = (split.len(), rows);
        if let Some(counts) = self.counted.borrow().get(&key) {
            return Rc::clone(counts);
        }
        let rows = &key.1;
        let groups: Vec<Vec<Range<usize>>> = self.sets.iter().map(|set| groups(&rows_of(rows, set))).collect();
        let of = |k| split.iter().map(|(forms, _)| self.pieces(forms, &groups, k)).collect();
        let counts: Rc<Vec<Vec<u32>>> = Rc::new((0..rows.len()).map(of).collect());
        self.counted.borrow_mut().insert(key, Rc::clone(&counts));
        counts
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

impl Ways<'_> {
    /// All of them, the best rank first.
    pub(super) fn sketches(&self) -> &[Sketch] {
        &self.sketches
    }

    /// How many pages the board of a way has.
    pub(super) fn boards(&self, sketch: &Sketch) -> usize {
        self.shapes[sketch.shape].rows.len()
    }

    /// A way with its pages; `None` where a strip is larger than a page.
    pub(super) fn way(&self, sketch: &Sketch) -> Option<Way> {
        let (task, high) = (&self.task, sketch.high);
        let &Shape { board, ref rows, given, heads, head_lines, split, ref widths } = &self.shapes[sketch.shape];
        let split = &self.splits[split];
        let class = |((forms, _), &wide): (&(Vec<Form>, i64), &Length)| {
            let piece = task.piece(wide, high);
            StripSize { forms: forms.clone(), wide, piece }
        };
        let classes: Vec<StripSize> = split.iter().zip(widths).map(class).collect();
        let (paging, counts) = (task.paging(widths), task.counts(split, rows, sketch.own));
        let pages = paging.pages(sketch.held, high - task.play * 2, &counts)?;
        Some(Way { board, rows: rows.clone(), given, heads, head_lines, high, classes, pages })
    }

    /// The ways with the board held one way and sizes given in one way.
    fn turn(&mut self, turn: Turn, split_at: usize, shown: &Contents) -> Result<(), Problem> {
        let (task, split) = (&self.task, &self.splits[split_at]);
        let body = task.board_body(turn, 1)?;
        let tallest = task.board.length("tallest")?;
        let given = task.given_width(shown, body.width())?;
        // Boxes are as wide as the set with the widest row of them allows.
        let sets = task.sets;
        let of = |set: &SortSet, forms: &[Form]| set.forms.iter().filter(|form| forms.contains(form)).count();
        let row = |set: &SortSet| split.iter().map(|(forms, wide)| wide * of(set, forms).wide()).sum::<i64>();
        let shares: i64 = sets.iter().map(|set| row(set)).max().unwrap_or(1);
        let widths: Vec<Length> =
            split.iter().map(|(_, wide)| hundredths((body.width() - given).scaled(*wide, shares))).collect();
        let Some((heads, head_lines)) = task.heads(given, split, &widths)? else { return Ok(()) };
        let paging = task.paging(&widths);
        let (least, most) = (task.board.grid.rows.0.min(task.rows), task.board.grid.rows.1.min(task.rows));
        for most in (least..=most).rev() {
            let rows = grid::share(task.rows, most, 1);
            if self.shapes.last().is_some_and(|last| (last.board, last.split, &last.rows) == (turn, split_at, &rows)) {
                continue;
            }
            let body = task.board_body(turn, rows.len())?;
            let room = (body.height() - heads).scaled(1, i64::from(rows.first().copied().unwrap_or(1)));
            let mut kept: Vec<(Rank, bool)> = Vec::new();
            let owns = if rows.len() == 1 { &[true][..] } else { &[true, false] };
            let mut owns: Vec<_> = owns.iter().map(|own| (*own, task.counts(split, &rows, *own))).collect();
            for high in task.heights(room, tallest) {
                owns.retain(|(own, counts)| {
                    // Most ways cost what a higher one costs.
                    let Some((fewest, held)) = paging.best(high - task.play * 2, counts) else { return true };
                    let leaves = match (&task.piled, widths.as_slice()) {
                        (Some(piled), [wide]) => piled.leaves(&rows, task.piece(*wide, high)).ok(),
                        _ => Some(rows.len() + fewest.index()),
                    };
                    let Some(leaves) = leaves else { return true };
                    let rank = (leaves, !own);
                    let key = (rank, high <= tallest);
                    if !kept.contains(&key) {
                        self.sketches.push(Sketch { rank, shape: self.shapes.len(), high, held, own: *own });
                        kept.push(key);
                    }
                    // With a page for each group that has strips, all that is lower costs the same.
                    let pages = counts.iter().filter(|counts| counts.iter().any(|count| *count > 0)).count();
                    task.piled.is_some() || high > tallest || fewest.index() > pages
                });
            }
            let widths = widths.clone();
            self.shapes.push(Shape { board: turn, rows, given, heads, head_lines, split: split_at, widths });
        }
        Ok(())
    }
}

/// Rounded down to a whole hundredth of a millimetre.
fn hundredths(length: Length) -> Length {
    Length::mm100(length.holds(Length::mm100(1)))
}
