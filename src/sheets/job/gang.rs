//! Pieces of kits for the guillotine: piles that are cut at once, so that neighbouring piles are one kit's pieces.
//!
//! In: the pieces of one kit by size, and how many kits there are. Out: any sheet. Sheets of one size of piece follow one
//! another; one size has a band on every kit that says which kit it is and what it holds. Kits are all alike.

use std::sync::Arc;

use crate::diag::Problem;
use crate::lesson::job::Stock;
use crate::measure::{Length, Point, Rect, Size};
use crate::sheets::job::runs::Runs;
use crate::sheets::job::stamp;
use crate::sheets::kinds::supply::Suit;
use crate::sheets::page::checkline;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::division::Division;
use crate::sheets::page::{Layer, Node, Page, Piece, Tag};
use crate::spec::SheetKind;
use crate::wording::stamps::PileSheet;
use crate::wording::ticket::PiecesCut;

/// All sheets of one kit's kind: blocks, or cards.
#[derive(Debug, Clone)]
pub struct Gang {
    /// Which sheet.
    pub kind: SheetKind,
    /// What they are printed on.
    pub stock: Stock,
    /// How many kits.
    pub kits: usize,
    /// What a band says a kit holds.
    holds: String,
    /// The sizes of pieces, in print order.
    sizes: Vec<SizeRun>,
}

/// Pieces of one size, however many kits there are.
#[derive(Debug, Clone)]
pub struct SizeOfPiece {
    /// What the pieces are.
    pub what: PiecesCut,
    /// Where they are.
    pub division: Division,
    /// Whether each kit's run begins with a band.
    pub banded: bool,
    /// How many a kit has, its band among them.
    pieces: usize,
}

/// The sheets with pieces of one size.
#[derive(Debug, Clone)]
pub struct SizeRun {
    /// Which pieces.
    pub size: SizeOfPiece,
    /// Which piece is where.
    pub runs: Runs,
    frame: Arc<Layer>,
    /// What is on each sheet of each group besides bands and the line at the top; groups that look the same share it.
    drawn: Vec<Vec<Arc<Layer>>>,
}

/// A band is at least this large.
const BAND: Size = Size::new(Length::mm(50), Length::mm(9));
/// Room for two check lines below the line of text.
const RULER: Length = Length::mm(6);

/// The sizes of a kit's pieces, in print order.
pub fn sizes(desk: &Desk<'_>, suits: &[Suit<'_>]) -> Result<Vec<SizeOfPiece>, Problem> {
    let fits = |suit: &&Suit<'_>| suit.size.width >= BAND.width && suit.size.height >= BAND.height;
    let area = |suit: &Suit<'_>| suit.size.width.to_raw() * suit.size.height.to_raw();
    let smallest = suits.iter().filter(fits).min_by_key(|suit| area(suit)).map(|suit| suit.what);
    let smallest = smallest.or_else(|| suits.iter().max_by_key(|suit| area(suit)).map(|suit| suit.what));
    let mut sizes: Vec<SizeOfPiece> = Vec::new();
    for (k, suit) in suits.iter().enumerate() {
        let banded = smallest == Some(suit.what) && sizes.iter().all(|size| !size.banded);
        // Cards of all places are called cards: the band goes to the first that is wide enough.
        let banded = banded && (fits(&suit) || k == 0);
        let high = Division::line_height(desk)? + if ruled(suit) { RULER } else { Length::ZERO };
        let division = Division::of(desk, suit.size, high, desk.layout(suit.kind)?.cut)?;
        sizes.push(SizeOfPiece { what: suit.what, division, banded, pieces: suit.names.len() + usize::from(banded) });
    }
    Ok(sizes)
}

/// Whether the line at the top of a sheet has check lines.
fn ruled(suit: &Suit<'_>) -> bool {
    suit.kind == SheetKind::Blocks
}

impl SizeOfPiece {
    /// Which piece is where when there are so many kits.
    pub fn runs(&self, kits: usize) -> Runs {
        Runs::plan(kits, self.pieces, self.division.places())
    }
}

impl Gang {
    /// Draws the sheets of so many kits of a kind: of each size its pieces, and which is where.
    pub fn draw<'s>(
        desk: &Desk<'_>,
        (kind, stock, kits): (SheetKind, Stock, usize),
        holds: String,
        sizes: impl Iterator<Item = (&'s Suit<'s>, &'s SizeOfPiece, &'s Runs)>,
    ) -> Result<Self, Problem> {
        let sizes = sizes.map(|(suit, size, runs)| SizeRun::draw(desk, suit, size, runs));
        Ok(Self { kind, stock, kits, holds, sizes: sizes.collect::<Result<_, _>>()? })
    }

    /// The sizes of pieces, in print order.
    pub fn sizes(&self) -> &[SizeRun] {
        &self.sizes
    }

    /// How many sheets of paper.
    pub fn leaves(&self) -> usize {
        self.sizes.iter().map(|size| size.runs.sheets()).sum()
    }

    /// A sheet.
    pub(super) fn page(&self, desk: &Desk<'_>, mut leaf: usize) -> Result<Option<Page>, Problem> {
        for size in &self.sizes {
            if leaf < size.runs.sheets() {
                return self.sheet(desk, size, leaf).map(Some);
            }
            leaf -= size.runs.sheets();
        }
        Ok(None)
    }

    fn sheet(
        &self,
        desk: &Desk<'_>,
        SizeRun { size, runs, frame, drawn }: &SizeRun,
        leaf: usize,
    ) -> Result<Page, Problem> {
        let group = runs.group_of(leaf).unwrap_or(0);
        let here = &runs.groups()[group];
        let (depth, sheets) = (leaf - here.sheets.start, here.sheets.len());
        let kits = (here.sets.start + 1, here.sets.end);
        let wording = desk.lesson.wording();
        let at = PileSheet { pile: (group + 1, runs.groups().len()), sheet: (depth + 1, sheets) };
        let text = wording.gang_line(self.kind, size.what, at, kits);
        let mut own = Layer::default();
        if size.banded && depth == 0 {
            for set in here.sets.clone() {
                let rect = size.division.place((set - here.sets.start) * here.run);
                own.nodes.push(stamp::kit_band(desk, (set + 1, self.kits), &self.holds, rect)?);
                own.pieces.push(Piece::named(format!("band of kit {}", set + 1), rect));
            }
        }
        own.nodes.push(stamp::text(desk, &text, size.division.line())?);
        let name = wording.gang_name(self.kind, size.what, group + 1, depth + 1);
        let mut layers = vec![Arc::clone(frame)];
        layers.extend(drawn.get(group).and_then(|group| group.get(depth)).cloned());
        layers.push(Arc::new(own));
        Ok(Page {
            size: size.division.size(),
            sheet: self.kind,
            version: None,
            learner: None,
            stock: self.stock,
            name,
            layers,
        })
    }
}

impl SizeRun {
    fn draw(desk: &Desk<'_>, suit: &Suit<'_>, size: &SizeOfPiece, runs: &Runs) -> Result<Self, Problem> {
        let division = &size.division;
        let bands = usize::from(size.banded);
        let mut frame = division.frame(desk);
        if ruled(suit) {
            frame.nodes.push(Node::Artifact(ruler(division.line())));
        }
        let mut drawn: Vec<Vec<Arc<Layer>>> = Vec::new();
        for (k, group) in runs.groups().iter().enumerate() {
            let alike = |other: &usize| {
                let other = &runs.groups()[*other];
                (other.run, other.sets.len()) == (group.run, group.sets.len())
            };
            if let Some(known) = (0..k).find(alike) {
                drawn.push(drawn[known].clone());
                continue;
            }
            let sheets = group.sheets.clone().map(|sheet| sheet_of(suit, division, runs, sheet, bands));
            drawn.push(sheets.collect::<Result<_, _>>()?);
        }
        Ok(Self { size: size.clone(), runs: runs.clone(), frame: Arc::new(frame), drawn })
    }
}

/// The pieces on a sheet.
fn sheet_of(
    suit: &Suit<'_>,
    division: &Division,
    runs: &Runs,
    sheet: usize,
    bands: usize,
) -> Result<Arc<Layer>, Problem> {
    let mut layer = Layer::default();
    for place in 0..division.places() {
        let Some(printed) = runs.printed(sheet, place) else { continue };
        let Some(piece) = printed.piece.checked_sub(bands) else { continue };
        let rect = division.place(place);
        let name = suit.names.get(piece).cloned().unwrap_or_default();
        let nodes = (suit.draw)(piece, rect)?;
        let meant = nodes.iter().any(|node| matches!(node, Node::Item(_)));
        layer.nodes.push(if meant {
            Node::Tagged(Tag::Figure(name.clone()), nodes)
        } else {
            Node::Tagged(Tag::Section, nodes)
        });
        layer.pieces.push(Piece::named(name, rect));
    }
    Ok(Arc::new(layer))
}

/// Two check lines at the foot of the line at the top of a sheet.
fn ruler(line: Rect) -> Vec<crate::sheets::page::Item> {
    let y = line.bottom() - RULER.half();
    let left = line.left() + Length::mm(1);
    let mut items = Vec::new();
    for (k, (length, _)) in (0..).zip(checkline::LINES) {
        let from = Point::new(left, y + Length::mm100(230) * k - Length::mm100(150));
        items.extend(checkline::items(from, length, Length::mm100(70)));
    }
    items
}
