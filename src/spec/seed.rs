//! The seed of a lesson that names none.

use crate::rng::Stream;

/// The most that is made: short enough to write into the file once the numbers please.
const MOST: u64 = 9_999;

/// A seed made from the title, 1 to 9,999: two lessons differ, and one lesson stays as it is.
pub(super) fn of(title: &str) -> u64 {
    1 + Stream::new(0, title).below(MOST)
}
