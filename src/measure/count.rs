//! How many of a thing: counts of every width of integer become one width here, and nowhere else.

/// A whole number of things.
pub trait Count: Copy {
    /// The number, 64 bits wide. What memory can hold is far below that.
    fn wide(self) -> i64;

    /// The number, 32 bits wide: as many as a lesson can ask for; none where it is below 0.
    fn narrow(self) -> u32 {
        u32::try_from(self.wide().max(0)).unwrap_or(u32::MAX)
    }

    /// The number as a place in a list, or as the length of one; 0 where it is below 0.
    fn index(self) -> usize {
        usize::try_from(self.wide().max(0)).unwrap_or(usize::MAX)
    }
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

impl Count for u64 {
    fn wide(self) -> i64 {
        i64::try_from(self).unwrap_or(i64::MAX)
    }
}
