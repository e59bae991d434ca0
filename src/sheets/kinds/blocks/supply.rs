//! Blocks for a whole class: as many pieces as its kits need together, on the fewest sheets.
//!
//! All pieces of a kind are alike, so nobody sorts: sheets are cut, and each kit is counted out.

use crate::diag::Problem;
use crate::measure::{Count, Point, Rect, Size};
use crate::number::Content;
use crate::sheets::blocks::geometry::{BlockKind, Counts};
use crate::sheets::blocks::packing::Band;
use crate::sheets::kinds::blocks::{BlockSheets, Pieces, UNIT, asked, block_name, page, plan};
use crate::sheets::kinds::supply::{Suit, Supply};
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;
use crate::wording::ticket::PiecesCut;

/// The sheets for so many kits, before they are drawn.
#[derive(Debug, Clone)]
pub struct BlockSupply {
    plan: BlockSheets,
    all: Counts,
}

/// Plans the sheets for so many kits; `None` where the lesson goes without blocks. Fails where [`lay`](super::lay) does.
pub fn supply(desk: &Desk<'_>, kits: u32) -> Result<Option<BlockSupply>, Problem> {
    let Some(one) = asked(desk)? else { return Ok(None) };
    let all = one.map(|count| count * kits);
    Ok(Some(BlockSupply { plan: plan(desk, desk.layout(SheetKind::Blocks)?, all)?, all }))
}

impl BlockSupply {
    /// How many sheets of card.
    pub fn leaves(&self) -> usize {
        self.plan.sheets.len()
    }

    /// The sheets: pages that look the same are one.
    pub fn draw(&self, desk: &Desk<'_>) -> Result<Supply, Problem> {
        let layout = desk.layout(SheetKind::Blocks)?;
        let mut left = self.all;
        let mut runs: Vec<(&Vec<Band>, Counts, usize)> = Vec::new();
        for bands in &self.plan.sheets {
            let here = taken(bands, &mut left);
            match runs.iter_mut().find(|(known, counts, _)| *known == bands && *counts == here) {
                Some((.., times)) => *times += 1,
                None => runs.push((bands, here, 1)),
            }
        }
        let page = |(bands, mut here, times): (&Vec<Band>, Counts, usize)| {
            Ok((page(desk, layout, &self.plan, bands, (1, 1), &mut here)?, times))
        };
        Ok(Supply { pages: runs.into_iter().map(page).collect::<Result<_, Problem>>()? })
    }
}

/// The pieces of one kit for the guillotine: squares, then strips as wide as a rod, which are rods and rows of up to ten
/// cubes.
pub fn suits<'d>(desk: &'d Desk<'_>) -> Result<Vec<Suit<'d>>, Problem> {
    let Some(one) = asked(desk)? else { return Ok(Vec::new()) };
    let layout = desk.layout(SheetKind::Blocks)?;
    let [thousands, flats, rods, cubes] = one.map(Count::index);
    let mut suits = Vec::new();
    let suit = |what, size, names, draw| Suit { kind: SheetKind::Blocks, what, size, names, stock: layout.stock, draw };
    if thousands + flats > 0 {
        let pieces = Pieces::new(desk);
        let kind = move |k: usize| if k < thousands { BlockKind::Thousand } else { BlockKind::Flat };
        let names = (0..thousands + flats).map(|k| block_name(desk, kind(k))).collect();
        let draw = move |k: usize, rect: Rect| pieces.draw(desk, layout, kind(k), false, rect);
        suits.push(suit(PiecesCut::Flats, BlockKind::Flat.size(UNIT), names, Box::new(draw) as _));
    }
    let rows = cubes.div_ceil(10);
    if rods + rows > 0 {
        let pieces = Pieces::new(desk);
        let here = move |k: usize| if k < rods { 0 } else { (cubes - (k - rods) * 10).min(10) };
        let name = |k: usize| match here(k) {
            0 => block_name(desk, BlockKind::Rod),
            count => desk.lesson.wording().cube_row(count),
        };
        let names = (0..rods + rows).map(name).collect();
        let draw = move |k: usize, rect: Rect| {
            if here(k) == 0 {
                return pieces.draw(desk, layout, BlockKind::Rod, true, rect);
            }
            let mut nodes = Vec::new();
            for column in 0..here(k).wide() {
                let corner: Point = rect.origin().moved(UNIT * column, crate::measure::Length::ZERO);
                nodes.extend(pieces.draw(
                    desk,
                    layout,
                    BlockKind::Cube,
                    false,
                    Rect::new(corner, Size::new(UNIT, UNIT)),
                )?);
            }
            Ok(nodes)
        };
        suits.push(suit(PiecesCut::RodsAndCubes, BlockKind::Rod.size(UNIT).turned(), names, Box::new(draw) as _));
    }
    Ok(suits)
}

/// How many thousands, flats, rods and cubes one kit holds; none where the lesson goes without blocks.
pub fn kit(desk: &Desk<'_>) -> Result<Option<Counts>, Problem> {
    asked(desk)
}

/// What one kit holds in words: `6 flats, 9 rods, 9 cubes`; empty where the lesson goes without blocks.
pub fn contents(desk: &Desk<'_>) -> Result<String, Problem> {
    Ok(asked(desk)?.map(|counts| Content::Blocks(counts).text(desk.lesson.wording().names())).unwrap_or_default())
}

/// What a sheet holds, taken off what is left to place; thousands take the places of flats while there are any.
fn taken(bands: &[Band], left: &mut Counts) -> Counts {
    let sum = |count: fn(&Band) -> u32| bands.iter().map(count).sum::<u32>();
    let squares = sum(|band| band.squares);
    let thousands = squares.min(left[0]);
    let here = [thousands, squares - thousands, sum(|band| band.rods), sum(|band| band.cubes)];
    *left = std::array::from_fn(|k| left[k].saturating_sub(here[k]));
    here
}
