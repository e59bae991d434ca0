//! What pages show: items as operators, pictures as form `XObject`s.

mod canvas;
mod forms;
mod symbols;

pub use canvas::{Canvas, guarded};
pub use forms::form;
pub use symbols::{Ids, Symbols, overhang};
