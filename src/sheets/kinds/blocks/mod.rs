//! The sheet *blocks*: flats, rods and cubes to cut out, their unit exactly 10 mm.
//!
//! In: what a set of the lesson holds. Out: its pieces on the
//! fewest pages, as one master for all versions. A thousand is a card of 10 x 10 units with a smaller
//! picture of ten flats behind one another and its number: cutting out and gluing ten flats would be a lesson of its own. Every page carries the
//! check lines of [`checkline`](crate::sheets::page::checkline) in whatever room the pieces leave.

mod head;
mod place;
mod supply;

use crate::diag::Problem;
use crate::measure::{Count, Length, Rect, Size};
use crate::number::Number;
use crate::sheets::blocks::geometry::{BlockKind, Counts, UNIT};
use crate::sheets::blocks::packing::{Band, PieceCounts, SheetRoom};
use crate::sheets::blocks::picture::{piece, place as place_of};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::ink::tone;
use crate::sheets::page::layout::{Layout, Turn};
use crate::sheets::page::{Layer, Node, Page, Piece, Symbol, Tag};
use crate::spec::SheetKind;
use std::sync::Arc;

use head::OnPage;
pub use supply::{BlockSupply, contents, kit, suits, supply};

/// Lays the masters out. Fails when a flat or the check lines do not fit a page, and when `blocks` is asked for numbers
/// that have no block picture.
pub fn lay(desk: &Desk<'_>) -> Result<Vec<Page>, Problem> {
    let layout = desk.layout(SheetKind::Blocks)?;
    let Some(most) = asked(desk)? else { return Ok(Vec::new()) };
    let plan = plan(desk, layout, most)?;
    let pages = plan.sheets.len().narrow();
    let mut left = most;
    (1..)
        .zip(&plan.sheets)
        .map(|(number, bands)| page(desk, layout, &plan, bands, (number, pages), &mut left))
        .collect()
}

/// What one kit holds; `None` where the lesson goes without blocks: nobody asked for them by name, and its numbers are too
/// large for them.
fn asked(desk: &Desk<'_>) -> Result<Option<Counts>, Problem> {
    match most(desk) {
        Err(_) if desk.lesson.spec.sheets.make.is_assumed() => Ok(None),
        most => most.map(Some),
    }
}

/// What one set holds.
pub fn most(desk: &Desk<'_>) -> Result<Counts, Problem> {
    desk.lesson.block_set().map_err(too_large)
}

fn too_large(number: Number) -> Problem {
    Problem::new(format!("{number} has no blocks: they end at {}", Number::MAX_BLOCKS))
        .hint(format!("leave `blocks` out of `make`, or keep `range` up to {}", Number::MAX_BLOCKS))
}

/// Which way the pages are held and what is on them.
#[derive(Debug, Clone)]
struct BlockSheets {
    size: Size,
    live: Rect,
    sheets: Vec<Vec<Band>>,
}

/// The way of holding the page that needs the fewest sheets, then the one that leaves the most room for the head.
fn plan(desk: &Desk<'_>, layout: &Layout, most: Counts) -> Result<BlockSheets, Problem> {
    let need = PieceCounts { squares: most[0] + most[1], rods: most[2], cubes: most[3] };
    let units = |length: Length| length.holds(UNIT).narrow();
    let mut best: Option<(usize, Length, BlockSheets)> = None;
    for &turn in &layout.turns {
        let size = desk.page(turn);
        let live = desk.live(size, layout);
        let Some(heads) = head::heights(desk, layout, live)? else { continue };
        let (across, down) = (units(live.width()), units(live.height() - heads.least));
        let room = SheetRoom { across, down, easy: units(live.height() - heads.easy).min(down) };
        let Some(sheets) = crate::sheets::blocks::packing::pack(need, room) else { continue };
        let used = |bands: &Vec<Band>| UNIT * i64::from(bands.iter().map(Band::height).sum::<u32>());
        let slack = sheets.iter().map(|bands| live.height() - used(bands)).min().unwrap_or_default().min(heads.full);
        if best
            .as_ref()
            .is_none_or(|(fewest, most, _)| sheets.len() < *fewest || sheets.len() == *fewest && slack > *most)
        {
            best = Some((sheets.len(), slack, BlockSheets { size, live, sheets }));
        }
    }
    best.map(|(.., plan)| plan).ok_or_else(|| {
        let live = desk.live(desk.page(Turn::Portrait), layout);
        Problem::new(format!("no flat fits the printable area of {} by {}", live.width(), live.height())).hint(
            "a flat is 100 mm wide and the check lines above it 101.6 mm: a smaller margin or larger paper would fit",
        )
    })
}

/// One page: its head, its pieces, its cuts.
fn page(
    desk: &Desk<'_>,
    layout: &Layout,
    plan: &BlockSheets,
    bands: &[Band],
    number: (u32, u32),
    left: &mut Counts,
) -> Result<Page, Problem> {
    let placed = place::place(bands);
    let said = OnPage { number, striped: placed.has_scrap() };
    let headed = head::lay(desk, layout, plan.live, placed.size.height, said)?;
    let origin = place::origin(plan.live, placed.size, headed.body.top());
    let (cuts, snips, lines) = place::cuts(&placed, origin, plan.live);
    let mut layer = Layer { cuts, snips, nodes: vec![Node::Artifact(lines)], ..Layer::default() };

    let pieces = Pieces::new(desk);
    let (mut items, mut counted) = (Vec::new(), [0; 4]);
    for block in &placed.blocks {
        // Thousands and flats share their places: thousands come first.
        let kind = if block.kind == BlockKind::Flat && left[0] > 0 { BlockKind::Thousand } else { block.kind };
        left[kind as usize] -= 1;
        counted[kind as usize] += 1;
        let rect = block.rect.moved(origin.x, origin.y);
        items.extend(pieces.draw(desk, layout, kind, block.lying, rect)?);
        layer.pieces.push(Piece::named(block_name(desk, kind), rect));
    }
    layer.nodes.push(Node::Tagged(Tag::Figure(desk.lesson.wording().blocks_to_cut(counted)), items));
    let mut page = desk.finish(SheetKind::Blocks, plan.size, layout.stock, headed, layer);
    if number.1 > 1 {
        page.name = desk.lesson.wording().sheet_of(&page.name, number.0 as usize, number.1 as usize);
    }
    Ok(page)
}

/// What a block is called.
fn block_name(desk: &Desk<'_>, kind: BlockKind) -> String {
    desk.lesson.wording().piece(place_of(kind), 1).unwrap_or_default().to_owned()
}

/// What the pieces look like.
struct Pieces {
    upright: [Arc<Symbol>; 4],
    lying: Arc<Symbol>,
}

impl Pieces {
    fn new(desk: &Desk<'_>) -> Self {
        let drawn = |kind: BlockKind, lying: bool| Arc::new(piece(kind, lying, UNIT, tone(desk.ink(), place_of(kind))));
        Self { upright: BlockKind::ALL.map(|kind| drawn(kind, false)), lying: drawn(BlockKind::Rod, true) }
    }

    fn draw(
        &self,
        desk: &Desk<'_>,
        layout: &Layout,
        kind: BlockKind,
        lying: bool,
        rect: Rect,
    ) -> Result<Vec<Node>, Problem> {
        let symbol = if lying { &self.lying } else { &self.upright[kind as usize] };
        let mut nodes =
            vec![Node::Item(crate::sheets::page::Item::Symbol { symbol: Arc::clone(symbol), at: rect.origin() })];
        if kind == BlockKind::Thousand {
            nodes.extend(head::thousand(desk, layout, rect)?);
        }
        Ok(nodes)
    }
}
