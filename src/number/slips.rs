//! Slips: known ways of thinking that give a wrong form.

/// A way of thinking that gives a wrong form.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slip {
    /// 406 written 4006.
    SideBySide,
}
