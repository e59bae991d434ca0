//! Whole numbers as a class meets them: digits, places, forms and the slips learners make.

pub mod english;
mod features;
mod forms;
mod names;
mod place;
mod skill;
mod slips;

pub use features::{Digits, Feature, Features};
pub use forms::{Breadth, Content, Counted, Form, Style, Trading, blocks_of, fewest_blocks, pieces_traded, traded};
pub use names::Names;
pub use place::{Number, Place};
pub use skill::Skill;
pub use slips::{Example, Heard, Judged, Slip, SlipFamily, SlipSet, Task};
