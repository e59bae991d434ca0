//! Sheets for the guillotine: the whole pile is cut at once and every pile that falls is one learner's set.
//!
//! In: the strips of every version and the seats. Out: any page of the piles. Each set begins with a band that says whose it
//! is; what a strip looks like at a place is drawn once and shared by every sheet that has it there.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::super::backs::{self, Edge};
use super::super::deal::Seat;
use super::super::desk::Desk;
use super::super::grid::Grid;
use super::super::impose::{Printed, Stacks};
use super::super::layout::Turn;
use super::super::mark::{Copy, Pen};
use super::super::page::{CutLine, Item, Layer, Mark, Node, Page, Piece, Says, Stock, Tag};
use super::super::pieces::Design;
use super::super::strips;
use super::job::name;
use super::stamp;
use crate::diag::Problem;
use crate::lesson::{Lesson, SortSet, Version};
use crate::measure::{Length, Point, Rect, Size};
use crate::spec::SheetKind;

/// How a sheet is divided: as many places as the paper holds.
#[derive(Debug, Clone)]
pub struct Sheet {
    design: Design,
    size: Size,
    /// Where the sheet says which it is.
    line: Rect,
    grid: Grid,
}

impl Sheet {
    /// The division that takes the most strips of the lesson's size.
    pub fn design(desk: &Desk<'_>) -> Result<Self, Problem> {
        let design = desk.design()?;
        let piece = design.single()?;
        let high = stamp::height(desk)?;
        let divide = |turn: Turn| {
            let size = desk.page(turn);
            let room = desk.printable(size);
            let line = Rect::new(room.origin(), Size::new(room.width(), high));
            let area = Rect::between(Point::new(room.left(), line.bottom()), Point::new(room.right(), room.bottom()));
            let count = |n: i64| u32::try_from(n).unwrap_or(0);
            let (columns, rows) = (count(area.width().holds(piece.width)), count(area.height().holds(piece.height)));
            (columns * rows > 0).then(|| {
                let mut grid = Grid::of(area, piece, columns, rows, Length::ZERO);
                grid.origin = snapped(area.centred(grid.area().size()).origin());
                (size, line, grid)
            })
        };
        let mut best: Option<(Size, Rect, Grid)> = None;
        for found in [Turn::Portrait, Turn::Landscape].into_iter().filter_map(divide) {
            if best.as_ref().is_none_or(|(.., grid)| found.2.len() > grid.len()) {
                best = Some(found);
            }
        }
        let (size, line, grid) = best.ok_or_else(|| {
            Problem::new(format!("no strip of {} by {} fits on a sheet", piece.width, piece.height))
                .hint("use larger paper")
        })?;
        Ok(Self { design: design.clone(), size, line, grid })
    }

    /// How many places.
    pub fn places(&self) -> usize {
        usize::try_from(self.grid.len()).unwrap_or(usize::MAX)
    }

    /// The places and the cuts around them.
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// Its size as it is read.
    pub fn size(&self) -> Size {
        self.size
    }
}

/// The first cut stands on a tenth of a millimetre, for people who set it by hand.
fn snapped(point: Point) -> Point {
    let tenth = Length::mm100(10);
    Point::new(tenth * point.x.holds(tenth), tenth * point.y.holds(tenth))
}

/// How many pieces the longest set has, its band among them.
pub fn longest(lesson: &Lesson) -> usize {
    lesson.sets.iter().map(length).max().unwrap_or(0)
}

/// A band and the strips.
fn length(set: &SortSet) -> usize {
    set.strips.len() + 1
}

/// A version, a strip of its set and a place on the sheet.
type Key = (Version, usize, usize);

/// All sheets of a class.
#[derive(Debug, Clone)]
pub struct Piles {
    stock: Stock,
    sheet: Sheet,
    stacks: Stacks,
    edge: Option<Edge>,
    /// The cuts, the same on every front.
    frame: Arc<Layer>,
    fronts: BTreeMap<Key, Arc<Layer>>,
    backs: BTreeMap<Key, Arc<Layer>>,
    /// The learners' marks of the group whose sheets were made last: its sheets come one after the other.
    last: Arc<Mutex<Option<Arc<Marks>>>>,
}

/// The marks on the strips of a group's sheets, the same on each of them.
#[derive(Debug)]
struct Marks {
    group: usize,
    /// One for each place that has a set, in order.
    nodes: Vec<Node>,
    /// All of them.
    whole: Arc<Layer>,
}

impl Piles {
    /// Plans the sheets and draws every strip at every place where some sheet has it.
    pub fn plan(
        desk: &Desk<'_>,
        sheet: &Sheet,
        stock: Stock,
        seats: &[Seat],
        edge: Option<Edge>,
    ) -> Result<Self, Problem> {
        let all = &desk.lesson.sets;
        let stacks = stacks(desk, sheet, seats);
        let mut piles = Self {
            stock,
            sheet: sheet.clone(),
            edge,
            frame: Arc::new(frame(desk, sheet)?),
            fronts: BTreeMap::new(),
            backs: BTreeMap::new(),
            last: Arc::default(),
            stacks,
        };
        for group in 0..piles.stacks.groups() {
            let members: Vec<usize> = piles.stacks.sets_of(group).collect();
            for (place, set) in members.into_iter().enumerate() {
                if let Some(set) = seats.get(set).and_then(|seat| set_of(all, seat.version)) {
                    piles.draw(desk, set, place)?;
                }
            }
        }
        Ok(piles)
    }

    /// Draws a version's strips at a place, unless they are drawn already.
    fn draw(&mut self, desk: &Desk<'_>, set: &SortSet, place: usize) -> Result<(), Problem> {
        if self.fronts.contains_key(&(set.version, 0, place)) {
            return Ok(());
        }
        let rect = self.place(place);
        let marks = backs::marks(set, desk.lesson.spec.seed.value);
        for (k, (strip, mark)) in set.strips.iter().zip(marks).enumerate() {
            let content = strips::draw(desk, &self.sheet.design, strip, rect)?;
            let front = Layer {
                nodes: vec![Node::tagged(Tag::Paragraph, content)],
                pieces: vec![Piece { rect, name: format!("strip {}", k + 1) }],
                marks: vec![Mark { frame: self.sheet.design.mark(rect), says: Says::Piece }],
                ..Layer::default()
            };
            self.fronts.insert((set.version, k, place), Arc::new(front));
            if let Some(edge) = self.edge {
                let drawn = mark.draw(edge.behind(rect, self.sheet.size), edge.inverts(self.sheet.size));
                let back = Layer { nodes: vec![Node::tagged(Tag::Section, [drawn])], ..Layer::default() };
                self.backs.insert((set.version, k, place), Arc::new(back));
            }
        }
        Ok(())
    }

    /// The place with this number, seen on the front.
    fn place(&self, place: usize) -> Rect {
        self.sheet.grid.cell(u32::try_from(place).unwrap_or(u32::MAX))
    }

    /// How a sheet is divided.
    pub fn sheet(&self) -> &Sheet {
        &self.sheet
    }

    /// Which piece is where.
    pub fn stacks(&self) -> &Stacks {
        &self.stacks
    }

    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        self.stacks.sheets()
    }

    /// Whether the pieces have marks on their backs.
    pub fn backed(&self) -> bool {
        self.edge.is_some()
    }

    /// A sheet's front or back.
    pub(super) fn page(&self, desk: &Desk<'_>, seats: &[Seat], leaf: usize, back: bool) -> Result<Page, Problem> {
        let mut page = Page {
            size: self.sheet.size,
            sheet: SheetKind::Strips,
            version: None,
            learner: None,
            stock: self.stock,
            name: stamp::title(
                self.stacks.group_of(leaf),
                leaf - self.stacks.sheets_of(self.stacks.group_of(leaf)).start,
                back,
            ),
            layers: if back { Vec::new() } else { vec![Arc::clone(&self.frame)] },
        };
        let mut own = Layer::default();
        let mut marked = Vec::new();
        for place in 0..self.sheet.places() {
            let Some(Printed { set, piece }) = self.stacks.printed(leaf, place) else { continue };
            let Some(seat) = seats.get(set) else { continue };
            let Some(strip) = piece.checked_sub(1) else {
                if !back {
                    band(desk, seat, self.place(place), &mut own)?;
                }
                continue;
            };
            let layers = if back { &self.backs } else { &self.fronts };
            if let Some(layer) = layers.get(&(seat.version, strip, place)) {
                page.layers.push(Arc::clone(layer));
                marked.push(place);
            }
        }
        if !back && !marked.is_empty() {
            let marks = self.marks(desk, seats, self.stacks.group_of(leaf))?;
            if marked.len() == marks.nodes.len() {
                page.layers.push(Arc::clone(&marks.whole));
            } else {
                own.nodes.extend(marked.iter().filter_map(|place| marks.nodes.get(*place)).cloned());
            }
        }
        own.nodes.push(stamp::line(desk, self, seats, leaf, back)?);
        page.layers.push(Arc::new(own));
        Ok(page)
    }

    /// The marks of a group, set once for all its sheets.
    fn marks(&self, desk: &Desk<'_>, seats: &[Seat], group: usize) -> Result<Arc<Marks>, Problem> {
        // What another thread left half done is no harm: it is made anew.
        let mut last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(marks) = last.as_ref().filter(|marks| marks.group == group) {
            return Ok(Arc::clone(marks));
        }
        let mut nodes = Vec::new();
        for (place, seat) in self.stacks.sets_of(group).filter_map(|set| seats.get(set)).enumerate() {
            let copy = Copy { learner: Some(seat.number), name: "", folio: None };
            let mut pen = Pen::new(Some(seat.version), &copy, desk.layouts, desk.family, desk.text());
            let mark = Mark { frame: self.sheet.design.mark(self.place(place)), says: Says::Piece };
            nodes.push(pen.fill(&mark)?.unwrap_or_else(|| Node::Artifact(Vec::new())));
        }
        let whole = Arc::new(Layer { nodes: nodes.clone(), ..Layer::default() });
        let marks = Arc::new(Marks { group, nodes, whole });
        *last = Some(Arc::clone(&marks));
        Ok(marks)
    }

    /// Where the sheet says which it is, on the front.
    pub(super) fn corner(&self) -> Rect {
        self.sheet.line
    }
}

/// Which piece is where when these sets are cut as piles.
pub fn stacks(desk: &Desk<'_>, sheet: &Sheet, seats: &[Seat]) -> Stacks {
    let all = &desk.lesson.sets;
    let lengths: Vec<usize> = seats.iter().map(|seat| set_of(all, seat.version).map_or(0, length)).collect();
    Stacks::plan(&lengths, sheet.places())
}

/// The piece on top of a pile: whose set it is, and what is in it.
fn band(desk: &Desk<'_>, seat: &Seat, rect: Rect, own: &mut Layer) -> Result<(), Problem> {
    let strips = set_of(&desk.lesson.sets, seat.version).map_or(0, |set| set.strips.len());
    own.nodes.push(stamp::band(desk, seat, name(desk, seat), strips, rect)?);
    own.pieces.push(Piece { rect, name: format!("band of learner {}", seat.number) });
    Ok(())
}

/// The set of a version.
fn set_of(sets: &[SortSet], version: Version) -> Option<&SortSet> {
    sets.iter().find(|set| set.version == version)
}

/// The cuts, as lines across all that the printer reaches.
fn frame(desk: &Desk<'_>, sheet: &Sheet) -> Result<Layer, Problem> {
    let layout = desk.layout(SheetKind::Strips)?;
    let printable = desk.printable(sheet.size);
    let cuts = sheet.grid.cuts();
    let line = |cut: &CutLine| {
        let (from, to) = match *cut {
            CutLine::Level(y) => (Point::new(printable.left(), y), Point::new(printable.right(), y)),
            // Upright lines start below the line of text at the top.
            CutLine::Upright(x) => (Point::new(x, sheet.line.bottom()), Point::new(x, printable.bottom())),
        };
        Item::Line { from, to, stroke: layout.cut }
    };
    let lines = cuts.iter().map(line).collect();
    Ok(Layer { nodes: vec![Node::Artifact(lines)], cuts, ..Layer::default() })
}
