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

/// Whether no page is left for a few lines, where the last one is filled so far, in percent.
pub fn is_even(pages: &[Page], last: i64) -> bool {
    pages.len() < 2 || last >= ENOUGH
}

/// The pages that `lay` makes, with how full the last of them is. Where that is nearly empty, all stand closer if that saves it;
/// if not, the other pages give it some of what they hold.
pub fn even(lay: impl Fn(Spread) -> Result<(Vec<Page>, i64), Problem>) -> Result<Vec<Page>, Problem> {
    let (pages, last) = closer(&lay)?;
    if is_even(&pages, last) {
        return Ok(pages);
    }
    Ok(shared(pages.len(), lay)?.unwrap_or(pages))
}

/// The same, closer where that saves a nearly empty page, and how full the last one is.
pub fn closer(lay: impl Fn(Spread) -> Result<(Vec<Page>, i64), Problem>) -> Result<(Vec<Page>, i64), Problem> {
    let (usual, last) = lay(Spread::USUAL)?;
    if !is_even(&usual, last) {
        for white in CLOSER {
            let saved = lay(Spread { white, ..Spread::USUAL })?;
            if saved.0.len() < usual.len() {
                return Ok(saved);
            }
        }
    }
    Ok((usual, last))
}

/// The same number of pages, less deeply filled, so that the last has enough; `None` where that takes more pages.
pub fn shared(
    count: usize,
    lay: impl Fn(Spread) -> Result<(Vec<Page>, i64), Problem>,
) -> Result<Option<Vec<Page>>, Problem> {
    let mut depth = Spread::USUAL.depth - STEP;
    while depth >= SHALLOWEST {
        // A row that is higher than so little room asks for whole pages.
        let Ok((pages, last)) = lay(Spread { depth, ..Spread::USUAL }) else { break };
        if pages.len() > count {
            break;
        }
        if last >= ENOUGH {
            return Ok(Some(pages));
        }
        depth -= STEP;
    }
    Ok(None)
}
