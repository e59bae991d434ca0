//! What pages mean to a listener: tags, as structure elements and marked content.

mod template;
mod tree;
mod walk;

pub use template::{Numbers, Template};
pub use tree::Tree;
pub use walk::{Visitor, walk};
