//! Pages of which the last is not left with a few lines at its top.

use crate::diag::Problem;
use crate::sheets::page::Page;

/// How pages are filled, each in percent.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Spread {
    /// The white between parts and rows, of the layout's.
    pub white: i64,
    /// How far down a page is filled.
    pub depth: i64,
}

impl Spread {
    /// As the layout has it.
    pub const USUAL: Self = Self { white: 100, depth: 100 };
}

/// A last page that is less full, in percent, is not worth turning to.
const ENOUGH: i64 = 36;
/// The white that is tried to do without the last page.
const CLOSER: [i64; 2] = [80, 60];
/// How pages are filled less deeply, step by step, until the last one has its share.
const STEP: i64 = 4;
/// No page is left emptier than this for the sake of the last one.
const SHALLOWEST: i64 = 60;

/// What some pages come to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Extent {
    /// How many they are.
    pub pages: usize,
    /// How full the last of them is, in percent.
    pub last: i64,
}

impl Extent {
    /// Whether no page is left for a few lines.
    pub fn is_even(self) -> bool {
        self.pages < 2 || self.last >= ENOUGH
    }
}

/// Whether pages are drawn, or only measured: to find out how they are spread best, nothing need be drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Pass {
    /// There are pages.
    Drawn,
    /// Only what they come to is known.
    Measured,
}

/// The pages that `lay` makes. Where the last of them is nearly empty, all stand closer if that saves it; if not, the other
/// pages give it some of what they hold.
pub fn even(mut lay: impl FnMut(Spread, Pass) -> Result<(Vec<Page>, Extent), Problem>) -> Result<Vec<Page>, Problem> {
    let (pages, usual) = lay(Spread::USUAL, Pass::Drawn)?;
    if usual.is_even() {
        return Ok(pages);
    }
    let mut measured = |spread| lay(spread, Pass::Measured).map(|(_, extent)| extent);
    let (mut spread, closer) = closer_than(usual, &mut measured)?;
    if !closer.is_even() {
        spread = shared(closer.pages, measured)?.unwrap_or(spread);
    }
    if spread == Spread::USUAL { Ok(pages) } else { lay(spread, Pass::Drawn).map(|(pages, _)| pages) }
}

/// How pages are spread that stand closer where that saves a nearly empty page, and what they come to.
pub fn closer(mut measured: impl FnMut(Spread) -> Result<Extent, Problem>) -> Result<(Spread, Extent), Problem> {
    closer_than(measured(Spread::USUAL)?, measured)
}

fn closer_than(
    usual: Extent,
    mut measured: impl FnMut(Spread) -> Result<Extent, Problem>,
) -> Result<(Spread, Extent), Problem> {
    if !usual.is_even() {
        for white in CLOSER {
            let spread = Spread { white, ..Spread::USUAL };
            let saved = measured(spread)?;
            if saved.pages < usual.pages {
                return Ok((spread, saved));
            }
        }
    }
    Ok((Spread::USUAL, usual))
}

/// The same number of pages, less deeply filled, so that the last has enough; `None` where that takes more pages.
pub fn shared(
    count: usize,
    mut measured: impl FnMut(Spread) -> Result<Extent, Problem>,
) -> Result<Option<Spread>, Problem> {
    let mut depth = Spread::USUAL.depth - STEP;
    while depth >= SHALLOWEST {
        let spread = Spread { depth, ..Spread::USUAL };
        // A row that is higher than so little room asks for whole pages.
        let Ok(extent) = measured(spread) else { break };
        if extent.pages > count {
            break;
        }
        if extent.last >= ENOUGH {
            return Ok(Some(spread));
        }
        depth -= STEP;
    }
    Ok(None)
}
