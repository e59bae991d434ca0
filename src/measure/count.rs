//! How many of a thing: counts of every width of integer become one width here, and nowhere else.

/// A whole number of things.
pub trait Count: Copy {
    /// The number, 64 bits wide. What memory can hold is far below that.
    fn wide(self) -> i64;
}

impl Count for i64 {
    fn wide(self) -> i64 {
        self
    }
}

impl Count for i32 {
    fn wide(self) -> i64 {
        i64::from(self)
    }
}

impl Count for u32 {
    fn wide(self) -> i64 {
        i64::from(self)
    }
}

impl Count for usize {
    fn wide(self) -> i64 {
        i64::try_from(self).unwrap_or(i64::MAX)
    }
}
