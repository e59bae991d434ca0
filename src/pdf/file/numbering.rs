//! Object numbers, given out one after the other.

/// Gives out object numbers.
pub struct Numbering(u32);

impl Numbering {
    /// Numbers from `next` on.
    pub fn from(next: u32) -> Self {
        Self(next)
    }

    /// A new object number.
    pub fn object(&mut self) -> u32 {
        self.objects(1)
    }

    /// So many object numbers in a row; the first of them.
    pub fn objects(&mut self, count: u32) -> u32 {
        self.0 += count;
        self.0 - count
    }

    /// Goes on from `next`, after somebody counted on from the last number given out.
    pub fn skip_to(&mut self, next: u32) {
        self.0 = self.0.max(next);
    }
}
