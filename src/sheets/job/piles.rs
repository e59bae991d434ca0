//! Sheets for the guillotine: the whole pile is cut at once and every pile that falls is one learner's set.
//!
//! In: the strips of every version and the seats. Out: any page of the piles. Each set begins with a band that says whose it
//! is.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use crate::diag::Problem;
use crate::lesson::deal::Seat;
use crate::lesson::job::Edge;
use crate::lesson::{Lesson, SortSet};
use crate::measure::Rect;
use crate::sheets::job::impose::{Printed, Stacks};
use crate::sheets::job::stamp;
use crate::sheets::job::strip_faces::{FacePlace, StripFaces, set_of};
use crate::sheets::job::strip_sheet::StripSheet;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::mark::{Copy, Pen};
use crate::sheets::page::{Layer, Mark, Node, Page, Piece, Says, Stock};
use crate::spec::SheetKind;

/// How many pieces the longest set has, its band among them.
pub fn longest(lesson: &Lesson) -> usize {
    lesson.sets.iter().map(length).max().unwrap_or(0)
}

/// A band and the strips.
fn length(set: &SortSet) -> usize {
    set.strips.len() + 1
}

/// All sheets of a class.
#[derive(Debug, Clone)]
pub struct Piles {
    stock: Stock,
    sheet: StripSheet,
    /// Whose strips these are.
    seats: Vec<Seat>,
    stacks: Stacks,
    /// How many piles of strips come before these, and how many there are in all.
    numbers: (usize, usize),
    /// The cuts, the same on every front.
    frame: Arc<Layer>,
    faces: StripFaces,
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
    /// The sheets with the strips of everyone whose strips have this size, which `stacks` puts in their places; so many of all
    /// piles come before these.
    pub fn plan(
        desk: &Desk<'_>,
        sheet: &StripSheet,
        stock: Stock,
        all: &[Seat],
        edge: Option<Edge>,
        (stacks, numbers): (Stacks, (usize, usize)),
    ) -> Result<Self, Problem> {
        let seats = sheet.seats(all);
        Ok(Self {
            stock,
            sheet: sheet.clone(),
            frame: Arc::new(sheet.division.frame(desk)),
            faces: StripFaces::plan(desk, sheet, edge, recurring(&stacks, &seats))?,
            last: Arc::default(),
            seats,
            stacks,
            numbers,
        })
    }

    /// How a sheet is divided.
    pub fn sheet(&self) -> &StripSheet {
        &self.sheet
    }

    /// Which piece is where.
    pub fn stacks(&self) -> &Stacks {
        &self.stacks
    }

    /// Whose set each set of the stacks is.
    pub fn seats(&self) -> &[Seat] {
        &self.seats
    }

    /// How many piles of strips come before these.
    pub fn before(&self) -> usize {
        self.numbers.0
    }

    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        self.stacks.sheets()
    }

    /// A sheet's front or back.
    pub(super) fn page(&self, desk: &Desk<'_>, leaf: usize, back: bool) -> Result<Page, Problem> {
        let mut page = Page {
            size: self.sheet.division.size(),
            sheet: SheetKind::Strips,
            version: None,
            learner: None,
            stock: self.stock,
            name: desk.lesson.wording().pile_sheet(
                self.before() + self.stacks.group_of(leaf) + 1,
                leaf - self.stacks.sheets_of(self.stacks.group_of(leaf)).start + 1,
                back,
            ),
            layers: if back { Vec::new() } else { vec![Arc::clone(&self.frame)] },
        };
        let mut own = Layer::default();
        let mut marked = Vec::new();
        for place in 0..self.sheet.division.places() {
            let Some(Printed { set, piece }) = self.stacks.printed(leaf, place) else { continue };
            let Some(seat) = self.seats.get(set) else { continue };
            let Some(strip) = piece.checked_sub(1) else {
                if !back {
                    band(desk, seat, self.sheet.division.place(place), &mut own)?;
                }
                continue;
            };
            if let Some(layer) = self.faces.side(desk, (seat.version, place), strip, back)? {
                page.layers.push(layer);
                marked.push(place);
            }
        }
        if !back && !marked.is_empty() {
            let marks = self.marks(desk, self.stacks.group_of(leaf))?;
            if marked.len() == marks.nodes.len() {
                page.layers.push(Arc::clone(&marks.whole));
            } else {
                own.nodes.extend(marked.iter().filter_map(|place| marks.nodes.get(*place)).cloned());
            }
        }
        own.nodes.push(stamp::line(
            desk,
            &self.stacks,
            self.sheet.division.line(),
            &self.seats,
            (leaf, back),
            self.numbers,
        )?);
        page.layers.push(Arc::new(own));
        Ok(page)
    }

    /// The marks of a group, set once for all its sheets.
    fn marks(&self, desk: &Desk<'_>, group: usize) -> Result<Arc<Marks>, Problem> {
        // What another thread left half done is no harm: it is made anew.
        let mut last = self.last.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(marks) = last.as_ref().filter(|marks| marks.group == group) {
            return Ok(Arc::clone(marks));
        }
        let mut nodes = Vec::new();
        for (place, seat) in self.stacks.sets_of(group).filter_map(|set| self.seats.get(set)).enumerate() {
            let copy = Copy { learner: Some(seat.number), name: "", ..Copy::default() };
            let mut pen = Pen::new(desk, Some(seat.version), &copy);
            let mark = Mark { frame: self.sheet.strips.mark(self.sheet.division.place(place)), says: Says::Piece };
            nodes.push(pen.fill(&mark)?.unwrap_or_else(|| Node::Artifact(Vec::new())));
        }
        let whole = Arc::new(Layer { nodes: nodes.clone(), ..Layer::default() });
        let marks = Arc::new(Marks { group, nodes, whole });
        *last = Some(Arc::clone(&marks));
        Ok(marks)
    }
}

/// Which piece is where when the sets of this size of strips are cut as piles.
pub fn stacks(desk: &Desk<'_>, sheet: &StripSheet, all: &[Seat]) -> Stacks {
    let lengths: Vec<usize> =
        sheet.seats(all).iter().map(|seat| set_of(desk, seat.version).map_or(0, length)).collect();
    Stacks::plan(&lengths, sheet.division.places())
}

/// Which versions come again at which places.
fn recurring(stacks: &Stacks, seats: &[Seat]) -> impl Iterator<Item = FacePlace> {
    let mut times: BTreeMap<FacePlace, usize> = BTreeMap::new();
    for group in 0..stacks.groups() {
        for (place, seat) in stacks.sets_of(group).filter_map(|set| seats.get(set)).enumerate() {
            *times.entry((seat.version, place)).or_default() += 1;
        }
    }
    times.into_iter().filter(|(_, times)| *times > 1).map(|(key, _)| key)
}

/// The piece on top of a pile: whose set it is, and what is in it.
fn band(desk: &Desk<'_>, seat: &Seat, rect: Rect, own: &mut Layer) -> Result<(), Problem> {
    let strips = set_of(desk, seat.version).map_or(0, |set| set.strips.len());
    own.nodes.push(stamp::band(desk, seat, stamp::name(desk, seat), strips, rect)?);
    own.pieces.push(Piece::named(format!("band of learner {}", seat.number), rect));
    Ok(())
}
