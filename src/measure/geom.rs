//! Points, sizes and rectangles on a page.
//!
//! The origin is the top left corner of the page, x grows to the right and y grows **down**; only `pdf` turns that over.

use super::Length;

/// A place on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Point {
    /// From the left edge of the page.
    pub x: Length,
    /// Down from the top edge of the page.
    pub y: Length,
}

impl Point {
    /// The top left corner of the page.
    pub const ORIGIN: Self = Self { x: Length::ZERO, y: Length::ZERO };

    /// The point `x` from the left and `y` from the top.
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x, y }
    }

    /// This point moved right by `dx` and down by `dy`.
    #[must_use]
    pub fn moved(self, dx: Length, dy: Length) -> Self {
        Self { x: self.x + dx, y: self.y + dy }
    }
}

/// Width and height.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Size {
    /// Left to right.
    pub width: Length,
    /// Top to bottom.
    pub height: Length,
}

impl Size {
    /// A size from its width and height.
    pub const fn new(width: Length, height: Length) -> Self {
        Self { width, height }
    }

    /// Width and height exchanged: the sheet turned by a quarter.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self { width: self.height, height: self.width }
    }

    /// Whether a rectangle of this size lies wholly inside one of size `room`, edges shared or not.
    pub fn fits(self, room: Self) -> bool {
        self.width <= room.width && self.height <= room.height
    }
}

/// One value for each side of a rectangle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Sides<T> {
    /// The left side.
    pub left: T,
    /// The top side.
    pub top: T,
    /// The right side.
    pub right: T,
    /// The bottom side.
    pub bottom: T,
}

impl<T: Copy> Sides<T> {
    /// The same value on all four sides.
    pub const fn splat(value: T) -> Self {
        Self { left: value, top: value, right: value, bottom: value }
    }
}

/// An upright rectangle; its width and height are never negative.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub struct Rect {
    origin: Point,
    size: Size,
}

impl Rect {
    /// The rectangle with its top left corner at `origin`; a negative width or height counts as none.
    pub fn new(origin: Point, size: Size) -> Self {
        let size = Size::new(size.width.max(Length::ZERO), size.height.max(Length::ZERO));
        Self { origin, size }
    }

    /// The rectangle between two opposite corners, in whatever order.
    pub fn between(a: Point, b: Point) -> Self {
        let origin = Point::new(a.x.min(b.x), a.y.min(b.y));
        Self::new(origin, Size::new((a.x - b.x).abs(), (a.y - b.y).abs()))
    }

    /// The top left corner.
    pub fn origin(self) -> Point {
        self.origin
    }

    /// Width and height.
    pub fn size(self) -> Size {
        self.size
    }

    /// The x of the left edge.
    pub fn left(self) -> Length {
        self.origin.x
    }

    /// The y of the top edge.
    pub fn top(self) -> Length {
        self.origin.y
    }

    /// The x of the right edge.
    pub fn right(self) -> Length {
        self.origin.x + self.size.width
    }

    /// The y of the bottom edge.
    pub fn bottom(self) -> Length {
        self.origin.y + self.size.height
    }

    /// Left to right.
    pub fn width(self) -> Length {
        self.size.width
    }

    /// Top to bottom.
    pub fn height(self) -> Length {
        self.size.height
    }

    /// The point in the middle (rounded up and left by at most one raw unit).
    pub fn centre(self) -> Point {
        self.origin.moved(self.size.width.half(), self.size.height.half())
    }

    /// This rectangle moved right by `dx` and down by `dy`.
    #[must_use]
    pub fn moved(self, dx: Length, dy: Length) -> Self {
        Self { origin: self.origin.moved(dx, dy), size: self.size }
    }

    /// This rectangle with `by` taken off inside each side; empty in a direction where nothing is left.
    #[must_use]
    pub fn shrunk(self, by: Sides<Length>) -> Self {
        Self::new(
            self.origin.moved(by.left, by.top),
            Size::new(self.size.width - by.left - by.right, self.size.height - by.top - by.bottom),
        )
    }

    /// This rectangle with `by` added outside each side; the reverse of [`Rect::shrunk`].
    #[must_use]
    pub fn grown(self, by: Sides<Length>) -> Self {
        Self::new(
            self.origin.moved(-by.left, -by.top),
            Size::new(self.size.width + by.left + by.right, self.size.height + by.top + by.bottom),
        )
    }

    /// A rectangle of `size` in the middle of this one.
    #[must_use]
    pub fn centred(self, size: Size) -> Self {
        let dx = (self.size.width - size.width).half();
        let dy = (self.size.height - size.height).half();
        Self::new(self.origin.moved(dx, dy), size)
    }

    /// The smallest rectangle that holds both.
    #[must_use]
    pub fn union(self, other: Self) -> Self {
        Self::between(
            Point::new(self.left().min(other.left()), self.top().min(other.top())),
            Point::new(self.right().max(other.right()), self.bottom().max(other.bottom())),
        )
    }

    /// Whether `inner` lies wholly inside, shared edges allowed.
    pub fn contains(self, inner: Self) -> bool {
        self.left() <= inner.left()
            && self.top() <= inner.top()
            && self.right() >= inner.right()
            && self.bottom() >= inner.bottom()
    }

    /// Whether the two share some **area**: rectangles with a common edge only [touch](Rect::touches).
    pub fn overlaps(self, other: Self) -> bool {
        self.left() < other.right()
            && other.left() < self.right()
            && self.top() < other.bottom()
            && other.top() < self.bottom()
    }

    /// Whether the two share an edge or a corner but no area.
    pub fn touches(self, other: Self) -> bool {
        !self.overlaps(other)
            && self.left() <= other.right()
            && other.left() <= self.right()
            && self.top() <= other.bottom()
            && other.top() <= self.bottom()
    }

    /// Cut by upright lines into `parts` columns, left to right, that sum to exactly the whole.
    pub fn columns(self, parts: u32) -> Vec<Self> {
        let mut x = self.left();
        let cut = |width: Length| {
            let column = Self::new(Point::new(x, self.top()), Size::new(width, self.height()));
            x += width;
            column
        };
        self.width().split(parts).map(cut).collect()
    }

    /// Cut by level lines into `parts` rows, top to bottom, that sum to exactly the whole.
    pub fn rows(self, parts: u32) -> Vec<Self> {
        let mut y = self.top();
        let cut = |height: Length| {
            let row = Self::new(Point::new(self.left(), y), Size::new(self.width(), height));
            y += height;
            row
        };
        self.height().split(parts).map(cut).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rect(x: i64, y: i64, width: i64, height: i64) -> Rect {
        Rect::new(Point::new(Length::mm(x), Length::mm(y)), Size::new(Length::mm(width), Length::mm(height)))
    }

    #[test]
    fn a_shared_cut_line_touches_and_does_not_overlap() {
        let (a, b) = (rect(0, 0, 10, 10), rect(10, 0, 10, 10));
        assert!(a.touches(b) && !a.overlaps(b));
        assert!(a.overlaps(rect(9, 0, 10, 10)));
        assert!(!a.touches(rect(11, 0, 10, 10)));
    }

    #[test]
    fn shrunk_and_grown_are_each_others_reverse() {
        let by = Sides { left: Length::mm(1), top: Length::mm(2), right: Length::mm(3), bottom: Length::mm(4) };
        assert_eq!(rect(5, 5, 20, 20).shrunk(by).grown(by), rect(5, 5, 20, 20));
        assert_eq!(rect(0, 0, 2, 20).shrunk(by).width(), Length::ZERO);
    }

    #[test]
    fn columns_and_rows_tile_the_whole() {
        let whole = Rect::new(Point::ORIGIN, Size::new(Length::mm100(21_590), Length::mm100(27_940)));
        for parts in [1, 2, 3, 7, 11] {
            let columns = whole.columns(parts);
            assert_eq!(columns.first().map(|c| c.left()), Some(whole.left()));
            assert_eq!(columns.last().map(|c| c.right()), Some(whole.right()));
            assert!(columns.windows(2).all(|w| w[0].right() == w[1].left()));
            let rows = whole.rows(parts);
            assert_eq!(rows.last().map(|r| r.bottom()), Some(whole.bottom()));
        }
    }

    #[test]
    fn centred_leaves_equal_room() {
        let inner = rect(0, 0, 10, 10).centred(Size::new(Length::mm(4), Length::mm(6)));
        assert_eq!(inner, rect(3, 2, 4, 6));
    }
}
