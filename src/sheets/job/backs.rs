//! What is printed behind a piece, and where.
//!
//! In: the front's geometry and the edge the sheet is turned over. Out: the place behind each piece and a self-check mark
//! that the pieces of one row share. A decoy's mark is of the same kind but matches nothing, so it gives nothing away until
//! it is turned over.

use crate::lesson::SortSet;
use crate::lesson::job::Edge;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::rng::Stream;
use crate::sheets::page::desk::Desk;
use crate::sheets::page::{self, Item, Layer, Node, Page, Paint, Piece, Says, Stroke, Tag};
use crate::wording::Wording;
use crate::wording::stamps::{BackShape, BackStyle};

/// How far front and back may lie apart: a mark keeps this far from the edges of its piece.
///
/// Service manuals of digital presses allow 0 +- 1 mm between the sides; 2 mm is common practice, no source.
pub const REGISTRATION: Length = Length::mm(2);
/// Files write thousandths of a point, rounded.
const ROUNDING: Length = Length::mm100(1);

impl Edge {
    /// The edge for a file whose first page has this size: the one over which its pages turn like a book's.
    pub fn of(page: Size) -> Self {
        if page.width > page.height { Self::Short } else { Self::Long }
    }

    /// Whether left and right change places, seen on a page of this size; otherwise top and bottom do.
    fn swaps_sides(self, page: Size) -> bool {
        let upright = page.width <= page.height;
        (self == Self::Long) == upright
    }

    /// The rectangle behind `front`, as seen on the back page.
    pub fn behind(self, front: Rect, page: Size) -> Rect {
        let origin = if self.swaps_sides(page) {
            Point::new(page.width - front.right(), front.top())
        } else {
            Point::new(front.left(), page.height - front.bottom())
        };
        Rect::new(origin, front.size())
    }

    /// Whether a back drawn upright shows upside down once its piece is turned over sideways, as one turns a card.
    pub fn inverts(self, page: Size) -> bool {
        !self.swaps_sides(page)
    }
}

/// The pieces of a page in reading order.
pub fn pieces(page: &Page) -> impl Iterator<Item = &Piece> {
    page.layers.iter().flat_map(|layer| &layer.pieces)
}

/// The page behind a page of strips: the mark of each, of all those of its set, and the learner's mark in the corner.
pub fn page(desk: &Desk<'_>, front: &Page, marks: &[SelfCheck], edge: Edge) -> Page {
    let inverted = edge.inverts(front.size);
    let draw = |piece: &Piece| {
        let mark = marks.get(piece.strip?)?;
        Some(mark.draw(desk.lesson.wording(), edge.behind(piece.rect, front.size), inverted))
    };
    let nodes = pieces(front).filter_map(draw).collect();
    // The code goes to the same corner as on the front, seen on this side: it stays clear of the pieces.
    let corner = front.layers.iter().flat_map(|layer| &layer.marks).filter(|mark| mark.says == Says::Code);
    let places: Vec<Rect> = pieces(front).map(|piece| edge.behind(piece.rect, front.size)).collect();
    let free = |mark: &&page::Mark| !places.iter().any(|place| place.overlaps(mark.frame));
    let layer = Layer { nodes, marks: corner.filter(free).copied().collect(), ..Layer::default() };
    let name = desk.lesson.wording().back_of(&front.name);
    Page { name, layers: vec![layer.into()], ..front.clone() }
}

/// A mark: one shape, drawn one to several times side by side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SelfCheck {
    shape: u8,
    style: u8,
    count: u8,
}

/// The shapes; corners in thousandths of the mark's height from its centre, empty for the circle.
///
/// Shapes are plain geometry that stays apart when turned by a half.
const SHAPES: [(BackShape, &[(i64, i64)]); 8] = [
    (BackShape::Circle, &[]),
    (BackShape::Square, &[(-440, -440), (440, -440), (440, 440), (-440, 440)]),
    (BackShape::Triangle, &[(0, -500), (500, 440), (-500, 440)]),
    (BackShape::Diamond, &[(0, -500), (380, 0), (0, 500), (-380, 0)]),
    (
        BackShape::Cross,
        &[
            (-170, -500),
            (170, -500),
            (170, -170),
            (500, -170),
            (500, 170),
            (170, 170),
            (170, 500),
            (-170, 500),
            (-170, 170),
            (-500, 170),
            (-500, -170),
            (-170, -170),
        ],
    ),
    (BackShape::Hexagon, &[(-250, -433), (250, -433), (500, 0), (250, 433), (-250, 433), (-500, 0)]),
    (BackShape::House, &[(0, -500), (430, -80), (430, 500), (-430, 500), (-430, -80)]),
    (BackShape::BowTie, &[(-500, -400), (0, -120), (500, -400), (500, 400), (0, 120), (-500, 400)]),
];

/// The ways to draw a shape. All are lines, not filled areas: little ink shows through thin card.
const STYLES: [BackStyle; 3] = [BackStyle::Open, BackStyle::Dotted, BackStyle::Dashed];

impl SelfCheck {
    /// The mark of an index; different indices give different marks, the plainest first.
    pub fn nth(index: usize) -> Self {
        let kinds = SHAPES.len() * STYLES.len();
        let small = |n: usize| u8::try_from(n).unwrap_or(u8::MAX);
        Self {
            shape: small(index % SHAPES.len()),
            style: small(index % kinds / SHAPES.len()),
            count: small(index / kinds + 1),
        }
    }

    /// What a listener hears: "open circle", "2 dashed squares".
    pub fn name(self, wording: &dyn Wording) -> String {
        wording.back_mark(STYLES[usize::from(self.style)], SHAPES[usize::from(self.shape)].0, self.count)
    }

    /// Draws the mark in the middle of the place behind a piece, clear of its edges by [`REGISTRATION`]; upside down when
    /// `inverted`.
    pub fn draw(self, wording: &dyn Wording, place: Rect, inverted: bool) -> Node {
        let room = place.shrunk(Sides::splat(REGISTRATION + STROKE.half() + ROUNDING));
        let count = i64::from(self.count);
        let step = |height: Length| height.scaled(5, 4);
        let height = (room.width().scaled(4, 5 * count)).min(room.height()).min(TALLEST);
        let first = place.centre().moved(-step(height).scaled(count - 1, 2), Length::ZERO);
        let centres = (0..count).map(|k| first.moved(step(height) * k, Length::ZERO));
        let items = centres.flat_map(|centre| self.one(centre, height, inverted)).map(Node::Item);
        Node::Tagged(Tag::Figure(self.name(wording)), items.collect())
    }

    /// One shape around a centre.
    fn one(self, centre: Point, height: Length, inverted: bool) -> Vec<Item> {
        let sign = if inverted { -1 } else { 1 };
        let corner = |(x, y): &(i64, i64)| centre.moved(height.scaled(x * sign, 1000), height.scaled(y * sign, 1000));
        let dash = (STYLES[usize::from(self.style)] == BackStyle::Dashed).then(|| (STROKE * 3, STROKE * 2));
        let stroke = Some(Stroke { width: STROKE, paint: Paint::BLACK, dash });
        let points: Vec<Point> = SHAPES[usize::from(self.shape)].1.iter().map(corner).collect();
        let outline = if points.is_empty() {
            Item::Circle { centre, radius: height.scaled(45, 100), fill: None, stroke }
        } else {
            Item::Polygon { points, fill: None, stroke }
        };
        let dot = Item::Circle { centre, radius: height.scaled(9, 100), fill: Some(Paint::BLACK), stroke: None };
        if STYLES[usize::from(self.style)] == BackStyle::Dotted { vec![outline, dot] } else { vec![outline] }
    }
}

/// The pen of a mark: survives a copy of a copy.
const STROKE: Length = Length::pt100(125);

/// A mark is never taller: large enough to compare at arm's length, small enough to spare ink.
const TALLEST: Length = Length::mm(12);

/// The mark of each strip of a set, in strip order.
///
/// The pieces of one row share a mark and every decoy has one of its own. Marks are dealt from the lesson's seed, so that
/// neither their order nor their kind tells rows or decoys.
pub fn marks(set: &SortSet, seed: u64) -> Vec<SelfCheck> {
    let decoys = set.strips.iter().filter(|s| s.row.is_none()).count();
    let mut pool: Vec<SelfCheck> = (0..set.rows.len() + decoys).map(SelfCheck::nth).collect();
    Stream::new(seed, &format!("marks {}", set.version)).shuffle(&mut pool);
    let mut spare = pool.split_off(set.rows.len().min(pool.len())).into_iter();
    let mark = |row: Option<usize>| row.and_then(|r| pool.get(r).copied()).or_else(|| spare.next());
    set.strips.iter().map(|s| s.row).map(mark).map(|m| m.unwrap_or(SelfCheck::nth(0))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::lesson::{Strip, Version};
    use crate::number::{Content, Form, Number, Style};
    use crate::sheets::page::grid::Grid;
    use crate::spec::Paper;
    use crate::wording::English;

    #[test]
    fn a_cell_is_backed_by_the_mirrored_cell() {
        // Long edge, upright sheet: (r, c) by (r, C-1-c); short edge: by (R-1-r, c); on a wide sheet the other way round.
        let page = Paper::Letter.size();
        for (page, sides, ends) in [(page, Edge::Long, Edge::Short), (page.turned(), Edge::Short, Edge::Long)] {
            let whole = Rect::new(Point::ORIGIN, page).shrunk(Sides::splat(Length::mm(10)));
            let mut grid = Grid::filling(whole, 3, 5, Length::ZERO);
            grid.origin = Rect::new(Point::ORIGIN, page).centred(grid.area().size()).origin();
            for (r, c) in (0..5).flat_map(|r| (0..3).map(move |c| (r, c))) {
                let close = |a: Rect, b: Rect| (a.left() - b.left()).abs().max((a.top() - b.top()).abs()).to_raw() <= 1;
                assert!(close(sides.behind(grid.at(r, c), page), grid.at(r, 2 - c)));
                assert!(close(ends.behind(grid.at(r, c), page), grid.at(4 - r, c)));
            }
            assert!(!sides.inverts(page) && ends.inverts(page));
        }
    }

    /// A shape alone, with a dot in it, or dashed, as the mark is called; two of them only when all single ones are taken.
    #[test]
    fn marks_look_as_they_are_called_the_plainest_first() {
        let singles = SHAPES.len() * STYLES.len();
        for index in 0..2 * singles {
            let mark = SelfCheck::nth(index);
            assert_eq!(usize::from(mark.count), index / singles + 1, "{index}");
            let items = mark.one(Point::ORIGIN, Length::mm(5), false);
            let dashed = items.iter().any(|item| {
                matches!(item, Item::Circle { stroke: Some(pen), .. } | Item::Polygon { stroke: Some(pen), .. }
                    if pen.dash.is_some())
            });
            let name = mark.name(&English);
            assert_eq!((dashed, items.len() == 2), (name.contains("dashed"), name.contains("dotted")), "{name}");
        }
    }

    fn bounds(node: &Node) -> Rect {
        let of = |item: &Item| match item {
            Item::Circle { centre, radius, .. } => {
                Rect::new(centre.moved(-*radius, -*radius), Size::new(*radius * 2, *radius * 2))
            }
            Item::Polygon { points, .. } => {
                points.windows(2).map(|w| Rect::between(w[0], w[1])).reduce(Rect::union).unwrap()
            }
            other => panic!("{other:?}"),
        };
        let Node::Tagged(_, nodes) = node else { panic!("{node:?}") };
        let items = nodes.iter().map(|n| if let Node::Item(i) = n { of(i) } else { panic!("{n:?}") });
        items.reduce(Rect::union).unwrap().grown(Sides::splat(STROKE.half()))
    }

    #[test]
    fn marks_stay_on_their_piece_when_the_sides_lie_2_mm_apart() {
        let place = Rect::new(Point::new(Length::mm(30), Length::mm(40)), Size::new(Length::mm(38), Length::mm(13)));
        for mark in (0..72).map(SelfCheck::nth) {
            for inverted in [false, true] {
                let ink = bounds(&mark.draw(&English, place, inverted));
                for (dx, dy) in [(2, 2), (-2, 2), (2, -2), (-2, -2)] {
                    assert!(
                        place.contains(ink.moved(Length::mm(dx), Length::mm(dy))),
                        "{} {ink:?}",
                        mark.name(&English)
                    );
                }
            }
        }
    }

    #[test]
    fn different_marks_have_different_names_and_drawings() {
        let place = Rect::new(Point::ORIGIN, Size::new(Length::mm(60), Length::mm(20)));
        let all: Vec<SelfCheck> = (0..96).map(SelfCheck::nth).collect();
        for (k, mark) in all.iter().enumerate() {
            for other in &all[..k] {
                assert_ne!(mark.name(&English), other.name(&English));
                for turned in [false, true] {
                    assert_ne!(
                        mark.draw(&English, place, turned),
                        other.draw(&English, place, false),
                        "{}",
                        mark.name(&English)
                    );
                }
            }
        }
    }

    #[test]
    fn rows_share_a_mark_and_decoys_share_none() {
        let strip = |row| Strip { form: Form::Words, content: Content::Text(String::new()), row, wrong: None };
        let rows = [Some(0), None, Some(1), Some(0), None, Some(2), Some(1)];
        let number = |n| Number::new(n).unwrap();
        let names = crate::wording::of(crate::spec::Language::En).names();
        let style = Style { thousands: None, ..Style::plain(names) };
        let set = SortSet {
            group: None,
            style,
            version: Version(1),
            rows: vec![number(1), number(2), number(3)],
            given: Form::Numeral,
            forms: vec![Form::Words],
            strips: rows.into_iter().map(strip).collect(),
        };
        let marks = marks(&set, 9);
        for (a, b) in (0..rows.len()).flat_map(|a| (0..a).map(move |b| (a, b))) {
            assert_eq!(marks[a] == marks[b], rows[a].is_some() && rows[a] == rows[b]);
        }
        assert_ne!(marks, super::marks(&SortSet { version: Version(2), ..set.clone() }, 9));
    }
}
