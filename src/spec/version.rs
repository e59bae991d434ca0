//! The letters of sort sets.

use std::fmt;

/// One of the sort sets: 0 prints as A, 25 as Z.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Version(pub u8);

impl fmt::Display for Version {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", char::from(b'A' + self.0))
    }
}
