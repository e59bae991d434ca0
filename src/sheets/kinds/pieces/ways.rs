//! Every way worth measuring to arrange board and strips, the fewest pages first.
//!
//! Tried are both ways to hold each sheet, every number of rows a board page, wider strips for pictures, and the heights at
//! which a page of strips takes one more row. Of ways that differ in height only and cost the same pages, the highest
//! stay, within the layout's limit and beyond it: more height never shows less.

use std::ops::Range;

use crate::diag::Problem;
use crate::lesson::{SortSet, Strip};
use crate::measure::{Count, Length, Rect, Size};
use crate::number::Form;
use crate::sheets::kinds::pieces::content::{
    ColumnHead, Contents, HeadLines, PageNumber, board_page, headings, strips_page,
};
use crate::sheets::kinds::pieces::design::{StripBand, StripPage, StripSize, groups, home};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::grid;
use crate::sheets::page::layout::{Layout, Turn};
use crate::spec::Cut;

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
    /// Whether each page of the board has strips of its own, on pages of their own.
    pub(super) own: bool,
}

impl Way {
    /// What is better in every case: fewer pages, then boards with strips of their own.
    pub(super) fn rank(&self) -> (usize, bool) {
        (self.rows.len() + self.pages.iter().map(Vec::len).sum::<usize>(), !self.own)
    }
}

/// How much wider than a text strip a picture strip may be, in percent.
const WIDER: [i64; 8] = [120, 140, 160, 180, 210, 250, 300, 360];

/// What all ways of a lesson share.
struct Task<'a> {
    desk: &'a Desk<'a>,
    board: &'a Layout,
    strips: &'a Layout,
    play: Length,
    rows: u32,
    forms: Vec<Form>,
    /// The bodies of the strips' pages.
    bodies: Vec<(Turn, Rect)>,
}

/// All ways, the fewest pages first; of as many pages, equal strips and the layouts' preferred turns first.
pub(super) fn all(
    desk: &Desk<'_>,
    board: &Layout,
    strips: &Layout,
    play: Length,
    shown: &Contents,
) -> Result<Vec<Way>, Problem> {
    let sets = &desk.lesson.sets;
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
    let bodies = strips.turns.iter().map(|turn| Ok((*turn, strips_page(desk, *turn, PageNumber::ONLY)?.1.body)));
    let bodies = bodies.collect::<Result<_, Problem>>()?;
    let task = Task { desk, board, strips, play, rows: rows.narrow(), forms, bodies };
    let mut ways = Vec::new();
    for &turn in &board.turns {
        let body = board_page(desk, turn, PageNumber::ONLY)?.1.body;
        for split in task.splits() {
            task.turn(turn, body, &split, shown, &mut ways)?;
        }
    }
    if ways.is_empty() {
        return Err(Problem::new("no strip fits on this paper").hint("use larger paper or fewer forms under `match`"));
    }
    ways.sort_by_key(Way::rank);
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
        if mixed && self.desk.lesson.spec.print.cut.value == Cut::Scissors {
            splits.extend(WIDER.map(|wider| vec![(texts.clone(), 100), (pictures.clone(), wider)]));
        }
        splits
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
        let sets = &self.desk.lesson.sets;
        let of = |set: &SortSet, forms: &[Form]| set.forms.iter().filter(|form| forms.contains(form)).count();
        let row = |set: &SortSet| split.iter().map(|(forms, wide)| wide * of(set, forms).wide()).sum::<i64>();
        let shares: i64 = sets.iter().map(row).max().unwrap_or(1);
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
            let number = PageNumber { of: rows.len(), ..PageNumber::ONLY };
            let body = board_page(self.desk, turn, number)?.1.body;
            let room = (body.height() - heads).scaled(1, i64::from(rows.first().copied().unwrap_or(1)));
            let mut kept: Vec<((usize, bool), bool)> = Vec::new();
            let all: u32 = rows.iter().sum();
            let owns = if rows.len() == 1 { &[true][..] } else { &[true, false] };
            let heights = self.heights(room, tallest);
            let counted = |own: &bool| (*own, self.counts(split, &if *own { groups(&rows) } else { groups(&[all]) }));
            let owns: Vec<(bool, Vec<Vec<u32>>)> = owns.iter().map(counted).collect();
            for (high, (own, counts)) in heights.iter().flat_map(|high| owns.iter().map(|own| (*high, own))) {
                let own = *own;
                let class = |((forms, _), &wide): (&(Vec<Form>, i64), &Length)| {
                    let piece = Size::new(wide - self.play * 2, high - self.play * 2);
                    StripSize { forms: forms.clone(), wide, piece }
                };
                let classes: Vec<StripSize> = split.iter().zip(&widths).map(class).collect();
                // Most ways cost what a higher one costs: their pages are counted and not made.
                let Some(fewest) = self.fewest(&classes, counts) else { continue };
                let key = ((rows.len() + fewest, !own), high <= tallest);
                if kept.contains(&key) {
                    continue;
                }
                let Some(pages) = self.pages(&classes, counts) else { continue };
                let way = Way { board: turn, rows: rows.clone(), given, heads, head_lines, high, classes, pages, own };
                debug_assert_eq!(way.rank(), key.0, "pages are counted as they are made");
                kept.push(key);
                ways.push(way);
            }
            before = rows;
        }
        Ok(())
    }

    /// Heights of a box worth trying, the highest first.
    fn heights(&self, room: Length, tallest: Length) -> Vec<Length> {
        let mut heights = vec![room, room.min(tallest)];
        for (_, body) in &self.bodies {
            for rows in 1..=self.strips.grid.rows.1 {
                heights.push(body.height().scaled(1, i64::from(rows)) + self.play * 2);
            }
        }
        heights.retain(|high| *high <= room && *high > self.play * 2);
        let mut heights: Vec<Length> = heights.into_iter().map(hundredths).collect();
        heights.sort_unstable_by(|a, b| b.cmp(a));
        heights.dedup();
        heights
    }

    /// How many strips of each class every group of rows has.
    fn counts(&self, split: &Split, groups: &[Range<usize>]) -> Vec<Vec<u32>> {
        groups.iter().map(|rows| split.iter().map(|(forms, _)| self.pieces(forms, rows)).collect()).collect()
    }

    /// How the strips go on pages, with their counts by groups of rows and by classes; `None` where one is larger than a page.
    fn pages(&self, classes: &[StripSize], counts: &[Vec<u32>]) -> Option<Vec<Vec<StripPage>>> {
        let of = |pages: &[Vec<StripPage>]| pages.iter().map(Vec::len).sum::<usize>();
        let apart = self.apart(classes, counts)?;
        let together = self.bodies.iter().filter_map(|(turn, body)| self.together(*turn, *body, classes, counts));
        // Pages with strips of one size are simpler to cut: they come first where they are as few.
        let together = together.min_by_key(|pages| of(pages)).filter(|pages| of(pages) < of(&apart));
        Some(together.unwrap_or(apart))
    }

    /// How many pages that are; `None` where a strip is larger than a page.
    fn fewest(&self, classes: &[StripSize], counts: &[Vec<u32>]) -> Option<usize> {
        let mut apart = 0;
        for (k, class) in classes.iter().enumerate() {
            let held = self.bodies.iter().filter_map(|(_, body)| {
                let (columns, rows) = self.fit(*body, class)?;
                Some(counts.iter().map(|counts| counts[k].div_ceil(columns * rows)).sum::<u32>())
            });
            apart += held.min()?;
        }
        let together = self.bodies.iter().filter_map(|(_, body)| {
            let rows = |(class, count): (&StripSize, &u32)| {
                let (columns, rows) = self.fit(*body, class)?;
                Some((count.div_ceil(columns), rows))
            };
            let many = |counts: &Vec<u32>| {
                let fits = classes.iter().zip(counts).map(rows);
                let (sum, most) = fits.reduce(|one, other| {
                    let ((sum, most), (rows, fit)) = (one?, other?);
                    Some((sum + rows, most.min(fit)))
                })??;
                Some(sum.div_ceil(most))
            };
            counts.iter().map(many).sum::<Option<u32>>()
        });
        Some(together.chain([apart]).min()?.index())
    }

    /// How many strips of a size stand side by side on a page, and how many rows of them.
    fn fit(&self, body: Rect, class: &StripSize) -> Option<(u32, u32)> {
        let limits = self.strips.grid;
        let columns = body.width().holds(class.piece.width).narrow().min(limits.columns.1);
        let rows = body.height().holds(class.piece.height).narrow().min(limits.rows.1);
        (columns > 0 && rows > 0).then_some((columns, rows))
    }

    /// Each size on pages of its own, held the way that takes the fewest.
    fn apart(&self, classes: &[StripSize], counts: &[Vec<u32>]) -> Option<Vec<Vec<StripPage>>> {
        let mut pages = vec![Vec::new(); counts.len()];
        for (k, class) in classes.iter().enumerate() {
            let held = self.bodies.iter().filter_map(|&(turn, body)| {
                let (columns, rows) = self.fit(body, class)?;
                let page = |count| StripPage { turn, bands: vec![StripBand { class: k, columns, count }] };
                let share =
                    |counts: &Vec<u32>| grid::share(counts[k], columns * rows, columns).into_iter().map(page).collect();
                Some(counts.iter().map(share).collect::<Vec<Vec<StripPage>>>())
            });
            let held = held.min_by_key(|pages| pages.iter().map(Vec::len).sum::<usize>())?;
            pages.iter_mut().zip(held).for_each(|(pages, held)| pages.extend(held));
        }
        Some(pages)
    }

    /// All sizes on the same pages, one below the other. The rows of each are spread evenly, the odd ones of one size on the first
    /// pages and of the next on the pages after those, so that no page has two rows more than another.
    fn together(
        &self,
        turn: Turn,
        body: Rect,
        classes: &[StripSize],
        counts: &[Vec<u32>],
    ) -> Option<Vec<Vec<StripPage>>> {
        let fits: Vec<(u32, u32)> = classes.iter().map(|class| self.fit(body, class)).collect::<Option<_>>()?;
        let most = fits.iter().map(|(_, rows)| *rows).min()?;
        let group = |counts: &Vec<u32>| {
            let rows: Vec<u32> =
                counts.iter().zip(&fits).map(|(count, (columns, _))| count.div_ceil(*columns)).collect();
            let many = rows.iter().sum::<u32>().div_ceil(most);
            let mut pages = vec![StripPage { turn, bands: Vec::new() }; many.index()];
            let mut odd = 0;
            for (class, ((&count, &(columns, _)), &rows)) in counts.iter().zip(&fits).zip(&rows).enumerate() {
                let (each, over) = (rows / many.max(1), rows % many.max(1));
                let mut left = count;
                for k in 0..many {
                    let more = u32::from((k + many - odd) % many < over);
                    let count = left.min((each + more) * columns);
                    left -= count;
                    if count > 0 {
                        pages[k.index()].bands.push(StripBand { class, columns, count });
                    }
                }
                odd = (odd + over) % many.max(1);
            }
            pages
        };
        Some(counts.iter().map(group).collect())
    }

    /// The most strips of these forms and rows in any version.
    fn pieces(&self, forms: &[Form], rows: &Range<usize>) -> u32 {
        let count = |set: &SortSet| {
            let here = |strip: &&Strip| forms.contains(&strip.form) && rows.contains(&home(set, strip));
            set.strips.iter().filter(here).count()
        };
        self.desk.lesson.sets.iter().map(count).max().unwrap_or(0).narrow()
    }

    /// How wide the column of given forms is: a numeral's own width, otherwise an equal share.
    fn given_width(&self, shown: &Contents, width: Length) -> Result<Length, Problem> {
        let sets = &self.desk.lesson.sets;
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
