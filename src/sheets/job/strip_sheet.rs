//! The sheet of strips for the guillotine: its division, and how a strip is made.

use crate::diag::Problem;
use crate::lesson::Version;
use crate::lesson::deal::Seat;
use crate::sheets::kinds::pieces::{Design, Designs};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::division::Division;
use crate::spec::SheetKind;

/// A sheet of strips: its division, and how a strip is made.
#[derive(Debug, Clone)]
pub struct StripSheet {
    /// Where the strips are.
    pub division: Division,
    /// The sizes that board and strips share.
    pub strips: Design,
    /// Whose strips these are.
    pub versions: Vec<Version>,
}

impl StripSheet {
    /// For each size of strips the sheet that takes the most of them.
    pub fn all(desk: &Desk<'_>, designs: &Designs) -> Result<Vec<Self>, Problem> {
        let cut = desk.layout(SheetKind::Strips)?.cut;
        let high = Division::line_height(desk)?;
        let sheet = |(strips, versions): &(Design, Vec<Version>)| {
            let division = Division::of(desk, strips.single()?, high, cut)?;
            Ok(Self { division, strips: strips.clone(), versions: versions.clone() })
        };
        designs.shared().iter().map(sheet).collect()
    }

    /// The seats whose strips these are.
    pub fn seats(&self, all: &[Seat]) -> Vec<Seat> {
        all.iter().filter(|seat| self.versions.contains(&seat.version)).copied().collect()
    }
}
