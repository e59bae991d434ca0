//! What a lesson plan can say.
//!
//! A plan is a list of these: a lesson settles which, in what order and about which numbers, a language how each sounds.
//! Whatever a text speaks of is in its value, so that a test can hold the text against the numbers and the sheets.

mod asked;
mod deeds;
mod frame;
mod prepare;
mod said;

pub use asked::{Asked, Questions, Reply};
pub use deeds::{Deed, Deeds, Right, Undone, Whose};
pub use frame::{Aim, Frame, Laid, Phase, Standard, by_share, in_sentences};
pub use prepare::{Chore, Prepare, RowsBy, Short, Shortcut, SortedOn, Thing};
pub use said::{Said, Speech};
