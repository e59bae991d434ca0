//! Where the blocks of a picture stand: pure geometry, no pens, no pages.
//!
//! In: how many thousands, flats, rods and cubes each picture of a sheet shows, and the room for one picture. Out: a
//! [`Blockwork`]: the largest unit at which all of them fit, or a tenth less where that makes them plainer, and the exact rectangle of every block. All pictures of a
//! sheet share the unit and the arrangement, so equal counts look equal.
//!
//! Inside, distances are whole eighths of a unit, and a unit is a whole number of printer dots, so every rectangle is
//! exact.

use crate::diag::Problem;
use crate::measure::{Length, Point, Rect, Sides, Size};
use crate::wording::{self, Language};

/// How many thousands, flats, rods and cubes a picture shows, in that order. A wrong picture may hold more than nine of
/// one kind.
pub type Counts = [u32; 4];

/// The smallest unit that can be counted on paper: strokes of 0.5 pt (0.18 mm) leave cells of a millimetre. Our choice;
/// common practice, no source.
pub const LEAST_UNIT: Length = Length::mm100(120);

/// The same on a sheet whose pictures have blocks of a thousand: of those nobody counts the cells, and rods and cubes of 1.1 mm are
/// still told apart. Our choice: rows that fit a page are worth more than a tenth of a millimetre.
const LEAST_BESIDE_THOUSANDS: Length = Length::mm100(110);

/// The smallest unit of a sheet with these pictures.
pub fn least_unit(pictures: &[Counts]) -> Length {
    if pictures.iter().any(|counts| counts[0] > 0) { LEAST_BESIDE_THOUSANDS } else { LEAST_UNIT }
}

/// The pen of a block's outline. Half of it stands outside the block, and the room keeps that free.
pub const OUTLINE: Length = crate::sheets::page::ink::OUTLINE.width;

/// Units are whole multiples of 1/300 inch, so that grid lines of a picture are equally far apart on printers of 300,
/// 600 and 1,200 dots to the inch, and an eighth of a unit is a whole number of raw units.
const STEP: i64 = 914_400 / 300;

/// The edge of a cube at true size.
pub const UNIT: Length = Length::mm(10);

/// One unit, in eighths.
const EIGHTHS: i64 = 8;
/// Between the blocks of a group.
const GAP: i64 = 4;
/// Between one ten-frame of cubes and the next.
const FRAME_GAP: i64 = 8;
/// Between groups: more than a unit, and two and a half times the gap inside one. Wider gaps would make all blocks smaller.
const GROUP_GAP: i64 = 10;
/// How far each flat of a thousand stands out behind the one before it, to the right and up.
const LAYER: i64 = 3;

/// The most that [`Arrangement::oddities`] counts.
const ODDITIES: usize = 2;
/// Which part of the largest unit an arrangement with fewer oddities must keep to be taken, in percent. Our choice.
const PLAIN: i64 = 90;

/// A kind of block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum BlockKind {
    /// A block of ten flats, seen from the front, the right and above.
    Thousand,
    /// 10 x 10 units.
    Flat,
    /// 1 x 10 units, upright.
    Rod,
    /// 1 x 1 unit.
    Cube,
}

impl BlockKind {
    /// All kinds, in place order, left to right.
    pub const ALL: [Self; 4] = [Self::Thousand, Self::Flat, Self::Rod, Self::Cube];

    /// What one is called.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Thousand => "thousand",
            Self::Flat => "flat",
            Self::Rod => "rod",
            Self::Cube => "cube",
        }
    }

    /// Its size at a unit.
    pub fn size(self, unit: Length) -> Size {
        let (width, height) = self.eighths();
        Size::new(unit.scaled(width, EIGHTHS), unit.scaled(height, EIGHTHS))
    }

    const fn eighths(self) -> (i64, i64) {
        match self {
            Self::Thousand => (10 * (EIGHTHS + LAYER), 10 * (EIGHTHS + LAYER)),
            Self::Flat => (10 * EIGHTHS, 10 * EIGHTHS),
            Self::Rod => (EIGHTHS, 10 * EIGHTHS),
            Self::Cube => (EIGHTHS, EIGHTHS),
        }
    }
}

/// How far each of a thousand's ten flats stands out behind the one before it, at a unit.
pub fn layer(unit: Length) -> Length {
    unit.scaled(LAYER, EIGHTHS)
}

/// One block in its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Block {
    /// What it is.
    pub kind: BlockKind,
    /// Its edges.
    pub rect: Rect,
}

/// Which way a ten-frame of cubes lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
enum Frame {
    /// 2 rows of 5, the top row filled first, left to right.
    Wide,
    /// 5 rows of 2, filled in pairs from the top.
    Tall,
    /// 10 rows of 1: a column that stands beside the rods like a rod come apart.
    Column,
}

impl Frame {
    /// Cubes in a row.
    const fn across(self) -> u32 {
        match self {
            Self::Wide => 5,
            Self::Tall => 2,
            Self::Column => 1,
        }
    }
}

/// How the blocks of each kind stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
struct Arrangement {
    /// Thousands, flats and rods in a row, and ten-frames in a row; at least 1 each.
    across: [u32; 4],
    frame: Frame,
}

/// Corners in eighths of a unit, and the group's width and height.
struct Group {
    corners: Vec<(i64, i64)>,
    size: (i64, i64),
}

impl Arrangement {
    /// Width and height of a group of `count` blocks.
    fn extent(&self, kind: BlockKind, count: u32) -> (i64, i64) {
        if count == 0 {
            return (0, 0);
        }
        let across = self.across[kind as usize];
        let line = |count: u32, size: i64, gap: i64| i64::from(count) * (size + gap) - gap;
        let grid = |count: u32, across: u32, size: (i64, i64), gap: i64| {
            (line(count.min(across), size.0, gap), line(count.div_ceil(across), size.1, gap))
        };
        if kind != BlockKind::Cube {
            return grid(count, across, kind.eighths(), GAP);
        }
        let one = |count: u32| grid(count, self.frame.across(), kind.eighths(), GAP);
        if count <= 10 {
            return one(count);
        }
        let (full, frames) = (one(10), count.div_ceil(10));
        let (width, mut height) = grid(frames, across, full, FRAME_GAP);
        // A last row that holds only a begun frame may be lower.
        if frames % across == 1 || across == 1 {
            height -= full.1 - one(count - 10 * (frames - 1)).1;
        }
        (width, height)
    }

    /// Where the blocks of a group stand, row by row from the top left. A row that is not full stands on full ones: so the
    /// next group, whose feet are on the same line, stands beside a row's last block and not beside a hole.
    fn group(&self, kind: BlockKind, count: u32) -> Group {
        let size = kind.eighths();
        let cell = |k: u32, across: u32, size: (i64, i64), gap: i64| {
            (i64::from(k % across) * (size.0 + gap), i64::from(k / across) * (size.1 + gap))
        };
        let across = self.across[kind as usize];
        // Places that stay free in the first row.
        let free = count.next_multiple_of(across) - count;
        let corners = (0..count).map(|k| {
            if kind != BlockKind::Cube {
                let begun = k + free < across;
                return cell(if begun { k } else { k + free }, across, size, GAP);
            }
            let frame = cell(k / 10, across, self.extent(kind, 10), FRAME_GAP);
            let inside = cell(k % 10, self.frame.across(), size, GAP);
            (frame.0 + inside.0, frame.1 + inside.1)
        });
        Group { corners: corners.collect(), size: self.extent(kind, count) }
    }

    /// Width and height of a picture.
    fn picture(&self, counts: Counts) -> (i64, i64) {
        let (mut width, mut height) = (0, 0);
        for (kind, count) in BlockKind::ALL.into_iter().zip(counts) {
            if count > 0 {
                let group = self.extent(kind, count);
                width += group.0 + if width > 0 { GROUP_GAP } else { 0 };
                height = height.max(group.1);
            }
        }
        (width, height)
    }

    /// Width and height of the room that holds each of the pictures.
    fn room(&self, pictures: &[Counts]) -> (i64, i64) {
        pictures.iter().map(|p| self.picture(*p)).fold((0, 0), |room, p| (room.0.max(p.0), room.1.max(p.1)))
    }

    /// How much in it is harder to read at a glance: a column of more than five cubes, which looks like a rod, and rods in
    /// more rows than one.
    fn oddities(&self, most: Counts) -> usize {
        let column = self.frame == Frame::Column && most[3] > 5;
        let rods = most[2] > self.across[2];
        usize::from(column) + usize::from(rods)
    }

    /// Every arrangement worth trying for pictures with at most so many blocks, the most familiar first.
    fn all(most: Counts) -> impl Iterator<Item = Self> {
        // Rows of five are seen at a glance, then rows of three; rods stand in tens, or in fives above one another.
        let blocks = |most: u32| [5, 3, 4, 2, 1, 6, 7, 8, 9, 10].into_iter().filter(move |k| *k <= most.max(1));
        let rods = |most: u32| [10, 5, 15, 20, 25, 50].into_iter().filter(move |k| *k <= most.max(10));
        let frames = move || 1..=most[3].div_ceil(10).max(1);
        [Frame::Column, Frame::Tall, Frame::Wide].into_iter().flat_map(move |frame| {
            rods(most[2]).flat_map(move |rods| {
                blocks(most[1]).flat_map(move |flats| {
                    blocks(most[0]).flat_map(move |thousands| {
                        frames().map(move |frames| Self { across: [thousands, flats, rods, frames], frame })
                    })
                })
            })
        })
    }
}

/// The common unit and arrangement of a sheet's pictures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Blockwork {
    unit: Length,
    arrangement: Arrangement,
    size: Size,
    plain: bool,
}

impl Blockwork {
    /// The largest unit from `least` to `most` at which every picture fits a room, and the arrangement that allows it.
    /// Fails when they do not fit at `least`, and says what would.
    pub fn fit(pictures: &[Counts], room: Size, least: Length, most: Length) -> Result<Self, Problem> {
        Arranged::of(pictures).fit(room, least, most)
    }

    /// The lowest arrangement of the pictures at a given unit (rounded down to a whole number of printer dots) that is no
    /// wider than `width`; none when every one is wider.
    pub fn at(unit: Length, pictures: &[Counts], width: Length) -> Option<Self> {
        Arranged::of(pictures).at(unit, width)
    }

    /// The narrowest arrangement of the pictures at a given unit (rounded down like that of [`Self::at`]) that is no higher than
    /// `height`; none when every one is higher.
    pub fn narrowest(unit: Length, pictures: &[Counts], height: Length) -> Option<Self> {
        let unit = snapped(unit.to_raw());
        Arrangement::all(greatest(pictures))
            .map(|arrangement| Self::new(unit, arrangement, pictures))
            .filter(|work| work.size.height <= height)
            .min_by_key(|work| work.size.width)
    }

    /// The next smaller unit, by one printer dot; none below the smallest that can be counted.
    pub fn smaller(unit: Length) -> Option<Length> {
        let next = snapped(unit.to_raw() - STEP);
        (next >= LEAST_UNIT).then_some(next)
    }

    fn new(unit: Length, arrangement: Arrangement, pictures: &[Counts]) -> Self {
        Self::in_room(unit, arrangement, arrangement.room(pictures), greatest(pictures))
    }

    /// At a unit, where the pictures, of at most so many blocks of each kind, take so many eighths of it.
    fn in_room(unit: Length, arrangement: Arrangement, (width, height): (i64, i64), most: Counts) -> Self {
        let size = Size::new(unit.scaled(width, EIGHTHS) + OUTLINE, unit.scaled(height, EIGHTHS) + OUTLINE);
        Self { unit, arrangement, size, plain: arrangement.oddities(most) == 0 }
    }

    /// The edge of one cube: a whole number of 1/300 inch.
    pub fn unit(&self) -> Length {
        self.unit
    }

    /// What its pictures are worth against others, as a length: their unit, or a little less where something in them is harder to read
    /// at a glance.
    pub fn worth(&self) -> Length {
        if self.plain { self.unit } else { self.unit.scaled(PLAIN, 100) }
    }

    /// The room that holds each of the pictures it was made for, outlines and all.
    pub fn size(&self) -> Size {
        self.size
    }

    /// The blocks of one picture in the middle of `room`, in place order left to right, feet on one line.
    pub fn place(&self, counts: Counts, room: Rect) -> Vec<Block> {
        let eighths = |k: i64| self.unit.scaled(k, EIGHTHS);
        let (width, height) = self.arrangement.picture(counts);
        let origin = room.centred(Size::new(eighths(width), eighths(height))).origin();
        let (mut blocks, mut left) = (Vec::new(), 0);
        for (kind, count) in BlockKind::ALL.into_iter().zip(counts).filter(|(_, count)| *count > 0) {
            let group = self.arrangement.group(kind, count);
            let top = height - group.size.1;
            blocks.extend(group.corners.iter().map(|(x, y)| {
                let at: Point = origin.moved(eighths(left + x), eighths(top + y));
                Block { kind, rect: Rect::new(at, kind.size(self.unit)) }
            }));
            left += group.size.0 + GROUP_GAP;
        }
        blocks
    }
}

/// Some pictures in every arrangement worth trying, each measured once for all the rooms and units that are tried.
pub struct Arranged {
    pictures: Vec<Counts>,
    most: Counts,
    /// Each with the width and height of the room that holds every picture, in eighths of a unit; the most familiar first.
    all: Vec<(Arrangement, (i64, i64))>,
}

impl Arranged {
    /// These pictures.
    pub fn of(pictures: &[Counts]) -> Self {
        let most = greatest(pictures);
        let all = Arrangement::all(most).map(|arrangement| (arrangement, arrangement.room(pictures))).collect();
        Self { pictures: pictures.to_vec(), most, all }
    }

    /// See [`Blockwork::fit`].
    pub fn fit(&self, room: Size, least: Length, most: Length) -> Result<Blockwork, Problem> {
        self.tried(room, least, most).ok_or_else(|| does_not_fit(&self.pictures, room, least))
    }

    /// The same without the words, which cost as much as many tries: `None` where the pictures do not fit.
    pub fn tried(&self, room: Size, least: Length, most: Length) -> Option<Blockwork> {
        let inner = Size::new(room.width - OUTLINE, room.height - OUTLINE);
        let largest = |(width, height): (i64, i64)| {
            let raw = |room: Length, eighths: i64| match eighths {
                0 => most.to_raw(),
                eighths => (room.to_raw().max(0) * EIGHTHS) / eighths,
            };
            snapped(raw(inner.width, width).min(raw(inner.height, height)).min(most.to_raw()))
        };
        // The largest unit with so many oddities.
        let mut best: [Option<(Length, Arrangement, (i64, i64))>; ODDITIES + 1] = [None; ODDITIES + 1];
        for &(arrangement, room) in &self.all {
            let unit = largest(room);
            let so_far = &mut best[arrangement.oddities(self.most)];
            if so_far.is_none_or(|(so_far, ..)| unit > so_far) {
                *so_far = Some((unit, arrangement, room));
            }
        }
        let first = best.iter().flatten().map(|(unit, ..)| *unit).max().unwrap_or_default();
        // A plain picture is worth a little of its size.
        let enough = first.scaled(PLAIN, 100).max(least);
        let plain = best.into_iter().flatten().find(|(unit, ..)| *unit >= enough);
        let found = plain.or_else(|| best.into_iter().flatten().max_by_key(|(unit, ..)| *unit));
        let (unit, arrangement, room) = found.filter(|(unit, ..)| *unit >= least && *unit > Length::ZERO)?;
        Some(Blockwork::in_room(unit, arrangement, room, self.most))
    }

    /// See [`Blockwork::at`].
    pub fn at(&self, unit: Length, width: Length) -> Option<Blockwork> {
        let unit = snapped(unit.to_raw());
        let works = self.all.iter().map(|(one, room)| Blockwork::in_room(unit, *one, *room, self.most));
        works.filter(|work| work.size.width <= width).min_by_key(|work| work.size.height)
    }
}

/// The largest whole number of printer dots that is not above `raw`.
fn snapped(raw: i64) -> Length {
    Length::from_raw(raw.max(0) / STEP * STEP)
}

/// The largest count of each kind.
fn greatest(pictures: &[Counts]) -> Counts {
    pictures.iter().fold([0; 4], |most, p| std::array::from_fn(|k| most[k].max(p[k])))
}

/// Says what the pictures would need.
fn does_not_fit(pictures: &[Counts], room: Size, least: Length) -> Problem {
    // Round up to whole dots, as a smaller unit is not allowed.
    let unit = snapped(least.to_raw() + STEP - 1);
    let problem = Problem::new(format!(
        "block pictures of up to {} do not fit a box {} wide and {} high",
        wording::of(Language::En).blocks_told(greatest(pictures)),
        room.width,
        room.height
    ));
    if let Some(work) = Blockwork::at(unit, pictures, room.width) {
        return problem.hint(format!(
            "at the least unit of {least} this width needs a height of {}; larger paper, fewer rows or smaller digits \
             (`at_most`) would fit",
            up(work.size().height)
        ));
    }
    let widths = Arrangement::all(greatest(pictures)).map(|a| Blockwork::new(unit, a, pictures).size());
    let narrowest = widths.min_by_key(|size| size.width).unwrap_or_default();
    problem.hint(format!(
        "at the least unit of {least} they need a box at least {} wide and then {} high; larger paper, fewer columns or \
         smaller digits (`at_most`) would fit",
        up(narrowest.width),
        up(narrowest.height)
    ))
}

/// Up to the next whole millimetre, so that the advice works when followed.
fn up(length: Length) -> Length {
    let millimetre = Length::mm(1).to_raw();
    Length::from_raw((length.to_raw() + millimetre - 1) / millimetre * millimetre)
}

/// Half an outline on each side: what a block's ink takes beyond its edges.
pub fn ink(rect: Rect) -> Rect {
    rect.grown(Sides::splat(OUTLINE.half()))
}
