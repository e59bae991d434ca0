//! A page with its heading and foot, before anything stands between them.

use crate::measure::Rect;
use crate::sheets::page::{Mark, Node};

/// A page with its heading and foot.
#[derive(Debug, Clone)]
pub struct Headed {
    /// The heading, first in reading order.
    pub nodes: Vec<Node>,
    /// The foot, last and not read out.
    pub foot: Node,
    /// Room for mark, name and page number.
    pub marks: Vec<Mark>,
    /// What is left for the sheet.
    pub body: Rect,
}
