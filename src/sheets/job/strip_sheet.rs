//! The sheet of strips for the guillotine: its division, and how a strip is made.

use crate::diag::Problem;
use crate::sheets::job::division::Division;
use crate::sheets::job::stamp;
use crate::sheets::kinds::pieces::{self, Design};
use crate::sheets::page::desk::Desk;
use crate::spec::SheetKind;

/// A sheet of strips: its division, and how a strip is made.
#[derive(Debug, Clone)]
pub struct StripSheet {
    /// Where the strips are.
    pub division: Division,
    /// The sizes that board and strips share.
    pub strips: Design,
}

impl StripSheet {
    /// The sheet that takes the most strips of the lesson's size.
    pub fn design(desk: &Desk<'_>) -> Result<Self, Problem> {
        let strips = pieces::design(desk)?;
        let cut = desk.layout(SheetKind::Strips)?.cut;
        let division = Division::of(desk, strips.single()?, stamp::height(desk)?, cut)?;
        Ok(Self { division, strips: strips.clone() })
    }
}
