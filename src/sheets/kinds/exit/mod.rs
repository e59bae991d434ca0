//! The quick check: several slips a page, each with its own heading, a name line and the questions of its check.
//!
//! In: the lesson's [`Check`]s. Out: pages of equal slips that are cut apart by straight lines. All slips are arranged
//! alike: a question has its choices side by side on every slip or on none. The grid is the one with the most slips; where paper is too small for all questions, every slip loses the same last ones.

mod key;
mod slip;

use std::collections::BTreeSet;

use crate::diag::Problem;
use crate::lesson::Version;
use crate::lesson::exit::Check;
use crate::measure::{Count, Length, Point, Rect, Sides, Size};
use crate::number::Content;
use crate::sheets::blocks::geometry::Counts;
use crate::sheets::blocks::picture::Pictures;
use crate::sheets::page::desk::{Desk, OnceFor};
use crate::sheets::page::grid::Grid;
use crate::sheets::page::head;
use crate::sheets::page::layout::Layout;
use crate::sheets::page::text::Face;
use crate::sheets::page::{CutLine, Item, Layer, Node, Page, Piece};
use crate::spec::SheetKind;

pub use key::parts as key;

/// How the slips of a lesson look.
struct Design {
    page: Size,
    grid: Grid,
    /// How many of a check's questions are on a slip.
    questions: usize,
    look: slip::Look,
}

impl Design {
    /// Whether the questions of every check fit onto its slip.
    fn holds(&self, desk: &Desk<'_>, layout: &Layout, checks: &[Check]) -> bool {
        let room = inside(&self.grid, layout);
        let high = |check| slip::height(desk, &self.look, room.width, check, self.questions);
        checks.iter().all(|check| high(check).is_some_and(|high| high <= room.height))
    }
}

/// How many questions each slip has; none of them without exit numbers. All, where the lesson leaves the sheet out.
pub fn questions(desk: &Desk<'_>) -> Result<usize, Problem> {
    let checks = &desk.lesson.checks;
    let most = checks.iter().map(|check| check.questions.len()).max().unwrap_or(0);
    if most == 0 || !desk.lesson.makes(SheetKind::Exit) {
        return Ok(most);
    }
    design(desk).map(|design| design.questions)
}

/// Lays the pages of slips out; none without exit numbers.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let checks = &desk.lesson.checks;
    if checks.iter().all(|check| check.questions.is_empty()) {
        return Ok(Vec::new());
    }
    let design = design(desk)?;
    let slips = design.grid.len().index();
    let mut pages = Vec::new();
    for (version, checks) in by_group(desk) {
        let own = own_look(desk, design, checks)?;
        for these in dealt(checks.len(), slips) {
            let these: Vec<&Check> = these.into_iter().filter_map(|check| checks.get(check)).collect();
            let page = page(desk, design, &own, &these)?;
            // Of a group's own checks it is worth saying which.
            let marks = version.and(checks.first().zip(checks.last()));
            let name = marks.map(|(first, last)| desk.lesson.wording().checks_from(first.mark, last.mark));
            pages.push(Page { version, name: name.unwrap_or_else(|| page.name.clone()), ..page });
        }
    }
    Ok(pages)
}

/// Which check each slip shows, page after page, until all come round evenly. No page has a blank slip, and the next slip of a
/// page and the one below it in a pile have other checks, where there are several.
fn dealt(checks: usize, slips: usize) -> Vec<Vec<usize>> {
    let (checks, slips) = (checks.max(1), slips.max(1));
    // Pages that hold each check as often as any other begin with another one each, or the piles of a cut were one check each.
    let even = slips.is_multiple_of(checks);
    let pages = if even { checks } else { checks / shared_factor(checks, slips) };
    let first = |page: usize| if even { page } else { page * slips };
    (0..pages).map(|page| (0..slips).map(|slip| (first(page) + slip) % checks).collect()).collect()
}

/// The greatest number that both are multiples of.
fn shared_factor(one: usize, other: usize) -> usize {
    if other == 0 { one } else { shared_factor(other, one % other) }
}

/// Leaves out pages on which no check stands that does not stand on a page before: what is enough where nothing is dealt.
pub fn enough(pages: &mut Vec<Page>) {
    let mut seen: BTreeSet<String> = BTreeSet::new();
    pages.retain(|page| {
        let slips = page.layers.iter().flat_map(|layer| &layer.pieces);
        page.sheet != SheetKind::Exit || slips.filter(|slip| seen.insert(slip.name.clone())).count() > 0
    });
}

/// The checks of each group with the first of its versions; all of them, of no version, where there are no groups.
fn by_group<'l>(desk: &Desk<'l>) -> Vec<(Option<Version>, &'l [Check])> {
    let checks = desk.lesson.checks.as_slice();
    if desk.lesson.groups.is_empty() {
        return vec![(None, checks)];
    }
    let mut left = checks;
    let mut groups = Vec::new();
    for group in desk.lesson.groups.iter().filter(|group| !group.checks.is_empty()) {
        let (own, rest) = left.split_at(group.checks.len().min(left.len()));
        left = rest;
        groups.push((group.versions.first().copied(), own));
    }
    groups
}

/// The slips of a group's checks with pictures of its own: those of shorter numbers are larger in the same room.
fn own_look(desk: &Desk<'_>, design: &Design, checks: &[Check]) -> Result<slip::Look, Problem> {
    let layout = desk.layout(SheetKind::Exit)?;
    let Some(high) = design.look.pictured().filter(|_| !desk.lesson.groups.is_empty()) else {
        return Ok(design.look.clone());
    };
    let room = inside(&design.grid, layout);
    let under = Size::new(room.width - design.look.number(), high);
    let counts = counts(checks);
    if counts.is_empty() {
        return Ok(design.look.clone());
    }
    Ok(design.look.with_pictures(Pictures::fit(&counts, under, layout.length("unit")?, desk)?))
}

fn page(desk: &Desk<'_>, design: &Design, look: &slip::Look, checks: &[&Check]) -> Result<Page, Problem> {
    let layout = desk.layout(SheetKind::Exit)?;
    let headed = footed(desk, layout, design.page)?;
    let mut layer = Layer { cuts: design.grid.parting(), ..Layer::default() };
    for (cell, check) in design.grid.cells().zip(checks) {
        let frame = cell.shrunk(Sides::splat(layout.padding));
        layer.nodes.push(slip::heading(desk, look, frame, check)?);
        layer.nodes.extend(slip::draw(desk, look, frame, check, design.questions)?);
        layer.pieces.push(Piece::named(desk.lesson.wording().check_title(check.mark), cell));
    }
    let printable = desk.printable(design.page);
    layer.nodes.push(Node::Artifact(layer.cuts.iter().map(|cut| cut_line(*cut, printable, layout)).collect()));
    Ok(desk.finish(SheetKind::Exit, design.page, layout.stock, headed, layer))
}

/// A cut as it is printed: across all that the printer reaches.
fn cut_line(cut: CutLine, printable: Rect, layout: &Layout) -> Item {
    let (from, to) = match cut {
        CutLine::Level(y) => (Point::new(printable.left(), y), Point::new(printable.right(), y)),
        CutLine::Upright(x) => (Point::new(x, printable.top()), Point::new(x, printable.bottom())),
    };
    Item::Line { from, to, stroke: layout.cut }
}

/// The page's foot: each slip has a heading of its own, which no cut takes away.
fn footed(desk: &Desk<'_>, layout: &Layout, page: Size) -> Result<head::Headed, Problem> {
    head::foot_only(desk, desk.live(page, layout))
}

/// How the lesson's slips are arranged, worked out once a desk.
fn design<'d>(desk: &'d Desk<'_>) -> Result<&'d Design, Problem> {
    desk.once(OnceFor::Slips, search)
}

/// Chooses grid, number of questions and type size: all questions at the largest type, then the most slips a page.
fn search(desk: &Desk<'_>) -> Result<Design, Problem> {
    let checks = desk.lesson.checks.as_slice();
    let layout = desk.layout(SheetKind::Exit)?;
    let most = checks.iter().map(|check| check.questions.len()).max().unwrap_or(1);
    let face = desk.face(layout, "question")?;
    let sizes: Vec<Length> = std::iter::successors(Some(face.size), |size| Some(*size - Length::pt(1)))
        .take_while(|s| *s >= face.least)
        .collect();
    let mut grids: Vec<(Size, Grid)> = Vec::new();
    for turn in &layout.turns {
        let page = desk.page(*turn);
        // The pen of the outermost cuts stays inside what the printer reaches.
        let half = layout.cut.width.half();
        let edges = Sides { left: half, right: half, top: half, bottom: Length::ZERO };
        let body = footed(desk, layout, page)?.body.shrunk(edges);
        for columns in layout.grid.columns.0..=layout.grid.columns.1 {
            for rows in layout.grid.rows.0..=layout.grid.rows.1 {
                grids.push((page, Grid::filling(body, columns, rows, layout.grid.gutter)));
            }
        }
    }
    // More slips a page first, so that none is half empty; then what learners can do afterwards; then the larger type, then the
    // wider slip.
    grids.sort_by_key(|(_, grid)| (std::cmp::Reverse(grid.len()), grid.columns));
    for questions in (1..=most).rev() {
        for these in grids.chunk_by(|one, other| one.1.len() == other.1.len()) {
            let mut without_goal = Vec::new();
            for &size in &sizes {
                for &(page, grid) in these {
                    let Some(look) = look(desk, layout, checks, &grid, size) else { continue };
                    let design = Design { page, grid, questions, look };
                    if design.holds(desk, layout, checks) {
                        return Ok(design);
                    }
                    without_goal.push(Design { look: design.look.without_goal(), ..design });
                }
            }
            if let Some(design) = without_goal.into_iter().find(|design| design.holds(desk, layout, checks)) {
                return Ok(design);
            }
        }
    }
    // A whole page for one question is not enough: say what is too wide or too high.
    if let Some((_, grid)) = grids.last() {
        pictures(desk, layout, checks, grid.cell)?;
    }
    Err(Problem::new("a single question of the quick check does not fit on a page")
        .hint("choose larger paper, or `text = \"standard\"`"))
}

/// The look of slips in a grid, with the goal, in type of a size; `None` where pictures have no room.
fn look(desk: &Desk<'_>, layout: &Layout, checks: &[Check], grid: &Grid, size: Length) -> Option<slip::Look> {
    let room = inside(grid, layout);
    // A picture stands under its question's words, right of the question's number.
    let under = Size::new(room.width - slip::number(size), room.height);
    let pictures = pictures(desk, layout, checks, under).ok()?;
    slip::Look::new(desk, layout, pictures, size, room.width, checks).ok()
}

/// The room inside a slip's padding.
fn inside(grid: &Grid, layout: &Layout) -> Size {
    Rect::new(Point::ORIGIN, grid.cell).shrunk(Sides::splat(layout.padding)).size()
}

/// What the pictures of some checks show.
fn counts(checks: &[Check]) -> Vec<Counts> {
    let shown = checks.iter().flat_map(|check| &check.questions).filter_map(|question| match question.shown {
        Some(Content::Blocks(counts)) => Some(counts),
        Some(Content::Text(_) | Content::Both(_)) | None => None,
    });
    shown.collect()
}

/// Block pictures at one unit; `None` where no question shows one.
fn pictures(desk: &Desk<'_>, layout: &Layout, checks: &[Check], room: Size) -> Result<Option<Pictures>, Problem> {
    let counts = counts(checks);
    if counts.is_empty() {
        return Ok(None);
    }
    // Nine thousands need a second row, or a third on a narrow slip.
    let (high, unit) = (layout.length("picture")?, layout.length("unit")?);
    let fit = |rows: i64| Pictures::fit(&counts, Size::new(room.width, high * rows), unit, desk);
    fit(1).or_else(|_| fit(2)).or_else(|_| fit(3)).map(Some)
}

/// The same face at another size, never under its least.
fn sized(face: Face, size: Length) -> Face {
    face.at(size.max(face.least))
}
