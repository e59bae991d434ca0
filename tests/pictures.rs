//! Block pictures as geometry: counts, no overlaps, inside the box, true proportions, and the largest unit. No PDF.

use placewright::measure::{Length, Point, Rect, Size};
use placewright::rng::Stream;
use placewright::sheets::blocks::geometry::{Block, BlockKind, Blockwork, Counts, LEAST_UNIT, OUTLINE, ink};
use placewright::wording::English;
use placewright::wording::learner::LearnerWords;

/// A cap on the unit that no box of these tests reaches.
const HUGE: Length = Length::mm(400);

fn room(width: i64, height: i64) -> Rect {
    Rect::new(Point::new(Length::mm(20), Length::mm(30)), Size::new(Length::mm(width), Length::mm(height)))
}

fn digits(n: u32) -> Counts {
    [n / 1000, n / 100 % 10, n / 10 % 10, n % 10]
}

/// Everything that must hold of one picture in its room.
#[track_caller]
fn holds(work: &Blockwork, counts: Counts, room: Rect) -> Vec<Block> {
    let blocks = work.place(counts, room);
    for (kind, count) in BlockKind::ALL.into_iter().zip(counts) {
        assert_eq!(blocks.iter().filter(|b| b.kind == kind).count(), count as usize, "{counts:?} {kind:?}");
    }
    for (k, block) in blocks.iter().enumerate() {
        assert!(room.contains(ink(block.rect)), "{counts:?} spills: {block:?}");
        assert_eq!(block.rect.size(), block.kind.size(work.unit()));
        for other in &blocks[..k] {
            // Half a unit lies free between any two blocks, and a place never starts left of the place before it.
            assert!(!block.rect.overlaps(grown(other.rect, work.unit().half())), "{counts:?}: {block:?} {other:?}");
            assert!(other.kind == block.kind || other.rect.right() + work.unit() < block.rect.left(), "{counts:?}");
        }
    }
    blocks
}

fn grown(rect: Rect, by: Length) -> Rect {
    rect.grown(placewright::measure::Sides::splat(by))
}

#[test]
fn every_number_to_9999_is_drawn_exactly_in_a_common_unit() {
    let all: Vec<Counts> = (0..=9_999).map(digits).collect();
    let room = room(180, 90);
    let work = Blockwork::fit(&all, room.size(), LEAST_UNIT, HUGE).unwrap();
    for counts in all {
        holds(&work, counts, room);
    }
}

#[test]
fn wrong_pictures_hold_a_hundred_rods_or_cubes() {
    let room = room(170, 110);
    for counts in [[0, 0, 100, 0], [0, 0, 0, 100], [0, 3, 31, 6], [0, 12, 0, 45], [0, 0, 40, 83], [12, 0, 0, 10]] {
        let work = Blockwork::fit(&[counts], room.size(), Length::mm(1), HUGE).unwrap();
        holds(&work, counts, room);
    }
}

#[test]
fn ten_rods_are_a_flat_and_ten_cubes_a_rod() {
    // Base-ten blocks: 1 : 10 : 100, rod length = flat edge = 10 cube edges (Wikipedia, "Base ten blocks").
    for dots in 1..200 {
        let unit = Length::pt100(24 * dots);
        let [flat, rod, cube] = [BlockKind::Flat, BlockKind::Rod, BlockKind::Cube].map(|kind| kind.size(unit));
        assert_eq!((flat.width, flat.height), (rod.width * 10, rod.height));
        assert_eq!((rod.width, rod.height), (cube.width, cube.height * 10));
    }
}

#[test]
fn equal_counts_look_equal_on_a_sheet() {
    let work =
        Blockwork::fit(&[[0, 9, 9, 9], [0, 4, 0, 6]], Size::new(Length::mm(90), Length::mm(60)), LEAST_UNIT, HUGE)
            .unwrap();
    let shape = |counts: Counts, kind: BlockKind| {
        let blocks = work.place(counts, room(90, 60));
        let of_kind: Vec<Rect> = blocks.iter().filter(|b| b.kind == kind).map(|b| b.rect).collect();
        of_kind.iter().map(|r| r.moved(-of_kind[0].left(), -of_kind[0].top())).collect::<Vec<_>>()
    };
    assert_eq!(shape([0, 4, 0, 6], BlockKind::Flat), shape([0, 4, 7, 2], BlockKind::Flat));
    assert_eq!(shape([0, 4, 0, 6], BlockKind::Cube), shape([0, 0, 9, 6], BlockKind::Cube));
}

#[test]
fn cubes_fill_a_ten_frame_top_row_first() {
    // references.md, section 5: 2 rows of 5, top row filled left to right.
    let work = Blockwork::fit(&[[0, 0, 0, 7]], Size::new(Length::mm(80), Length::mm(30)), LEAST_UNIT, HUGE).unwrap();
    let cubes = work.place([0, 0, 0, 7], room(80, 30));
    let rows = cubes.iter().filter(|c| c.rect.top() == cubes[0].rect.top()).count();
    assert_eq!((rows, cubes[5].rect.left(), cubes[6].rect.left()), (5, cubes[0].rect.left(), cubes[1].rect.left()));
}

/// A column of nine cubes looks like a rod, and rods in two rows like two numbers: that is taken only where a plainer picture would
/// be smaller by more than a tenth.
#[test]
fn cubes_stand_in_pairs_and_rods_in_one_row_where_that_costs_little() {
    let rows = |counts: Counts, wide: i64, kind: BlockKind| {
        let work = Blockwork::fit(&[counts], room(wide, 40).size(), LEAST_UNIT, HUGE).unwrap();
        let tops: std::collections::BTreeSet<_> = work
            .place(counts, room(wide, 40))
            .iter()
            .filter(|block| block.kind == kind)
            .map(|b| b.rect.top())
            .collect();
        tops.len()
    };
    assert_eq!(rows([0, 3, 4, 9], 150, BlockKind::Cube), 5, "in pairs");
    assert_eq!(rows([0, 2, 6, 1], 100, BlockKind::Rod), 1, "in one row");
}

/// The size of a picture in half units, worked out from counts and columns alone: a second opinion.
fn half_units(counts: Counts, [flats, rods, cubes]: [u32; 3]) -> (u32, u32) {
    let line = |count: u32, size: u32| if count == 0 { 0 } else { count * (2 * size + 1) - 1 };
    let (mut width, mut height) = (0, 0);
    for (count, across, size) in [(counts[1], flats, (10, 10)), (counts[2], rods, (1, 10)), (counts[3], cubes, (1, 1))]
    {
        if count > 0 {
            width += line(count.min(across), size.0) + if width > 0 { 4 } else { 0 };
            height = height.max(line(count.div_ceil(across), size.1));
        }
    }
    (width, height)
}

#[test]
fn no_other_arrangement_allows_a_much_larger_unit() {
    let mut stream = Stream::new(3, "rooms");
    for _ in 0..300 {
        let pictures: Vec<Counts> =
            (0..=stream.below(6)).map(|_| digits(stream.below(1_000).try_into().unwrap())).collect();
        let size =
            room(60 + i64::try_from(stream.below(120)).unwrap(), 40 + i64::try_from(stream.below(100)).unwrap()).size();
        let Ok(work) = Blockwork::fit(&pictures, size, Length::from_raw(1), HUGE) else { continue };
        // A plain picture may be smaller by a tenth.
        let next = (work.unit().scaled(10, 9) + Length::inches(1).scaled(1, 300)).half();
        for (flats, rods, cubes) in
            (1..=9).flat_map(|f| [5, 10].into_iter().flat_map(move |r| [2, 5].map(|c| (f, r, c))))
        {
            let fits = pictures.iter().all(|p| {
                let (width, height) = half_units(*p, [flats, rods, cubes]);
                let ink = Length::pt100(75);
                next * i64::from(width) + ink <= size.width && next * i64::from(height) + ink <= size.height
            });
            assert!(!fits, "{pictures:?} in {size:?}: {work:?}, yet {flats} {rods} {cubes} allows more");
        }
    }
}

#[test]
fn a_box_too_small_says_what_would_fit_and_that_does_fit() {
    let all: Vec<Counts> = (100..=999).map(digits).collect();
    // The least unit, and one that is whole printer dots already.
    let dots = Length::inches(1).scaled(14, 300);
    for (width, height, least) in
        [(60, 20, LEAST_UNIT), (26, 300, LEAST_UNIT), (12, 12, LEAST_UNIT), (60, 20, dots), (12, 12, dots)]
    {
        let small = room(width, height).size();
        let problem = Blockwork::fit(&all, small, least, HUGE).unwrap_err();
        let hint = problem.hint.unwrap();
        let told: Vec<i64> = hint.split(" mm").filter_map(|s| s.rsplit(' ').next()?.parse().ok()).collect();
        let enough = match told[..] {
            [height] => Size::new(small.width, Length::mm(height)),
            [width, height] => Size::new(Length::mm(width), Length::mm(height)),
            _ => panic!("{hint}"),
        };
        let work = Blockwork::fit(&all, enough, least, HUGE).unwrap();
        assert!(work.unit() >= least && work.size().fits(enough), "{hint}");
        // No more than is needed: a millimetre less, either way, does not do.
        let millimetre = Length::mm(1);
        let lower = Size::new(enough.width, enough.height - millimetre);
        let narrower = Size::new(enough.width - millimetre, Length::mm(2_000));
        assert!(Blockwork::fit(&all, lower, least, HUGE).is_err(), "{hint}");
        assert!(told.len() == 1 || Blockwork::fit(&all, narrower, least, HUGE).is_err(), "{hint}");
    }
    // A unit of nothing is none.
    Blockwork::fit(&all, Size::default(), Length::ZERO, HUGE).unwrap_err();
}

#[test]
fn a_picture_is_as_large_as_the_ink_of_its_blocks() {
    for (kind, count) in BlockKind::ALL.into_iter().flat_map(|kind| (1..=100).map(move |count| (kind, count))) {
        let mut counts = [0; 4];
        counts[kind as usize] = count;
        for width in [8, 30, 70, 160, 400] {
            let Some(work) = Blockwork::at(Length::mm(2), &[counts], Length::mm(width)) else { continue };
            let blocks = work.place(counts, Rect::default());
            let edges = blocks.iter().map(|block| block.rect).reduce(Rect::union).unwrap();
            let drawn = Size::new(edges.width() + OUTLINE, edges.height() + OUTLINE);
            let said = work.size();
            // A ten-frame keeps its width when it is only begun.
            let begun = kind == BlockKind::Cube && count > 10 && count % 10 > 0;
            assert_eq!(said.height, drawn.height, "{counts:?} in {width} mm");
            assert!(said.width == drawn.width || begun && said.width > drawn.width, "{counts:?} in {width} mm");
        }
    }
}

/// Blocks of every kind stand on one line, and where a cap makes every arrangement as good, they stand as they are best
/// known: flats and thousands by fives, rods in a row, cubes in a column beside them.
#[test]
fn the_most_familiar_arrangement_is_taken_and_stands_on_one_line() {
    let counts = [7, 6, 9, 8];
    let work = Blockwork::fit(&[counts], room(900, 900).size(), LEAST_UNIT, Length::mm(2)).unwrap();
    let blocks = work.place(counts, room(900, 900));
    let of = |kind: BlockKind| blocks.iter().filter(move |block| block.kind == kind).map(|block| block.rect);
    for (kind, row) in BlockKind::ALL.into_iter().zip([5, 5, 9, 2]) {
        // A row of cubes that is not full is the last, one of larger blocks the first.
        let tops = of(kind).map(|rect| rect.top());
        let full = if kind == BlockKind::Cube { tops.min() } else { tops.max() }.unwrap();
        assert_eq!(of(kind).filter(|rect| rect.top() == full).count(), row, "{kind:?}");
        let feet = |kind: BlockKind| of(kind).map(|rect| rect.bottom()).max();
        assert_eq!(feet(kind), feet(BlockKind::Flat), "{kind:?}");
    }
}

/// However rows are broken, no hole parts the kinds of a picture: at its feet each kind stands beside the one before it.
#[test]
fn a_picture_stands_together() {
    let foot = |blocks: &[Block]| blocks.iter().map(|block| block.rect.bottom()).max().unwrap();
    let mut wrapped = 0;
    for counts in [[3, 7, 6, 1], [2, 6, 0, 4], [0, 8, 3, 2], [0, 7, 16, 5], [4, 0, 9, 9], [7, 9, 12, 0]] {
        for (wide, high) in [(40, 60), (60, 40), (70, 90), (120, 30), (200, 200)] {
            let Ok(work) = Blockwork::fit(&[counts], room(wide, high).size(), Length::mm100(60), Length::mm(2)) else {
                continue;
            };
            let blocks = work.place(counts, room(wide, high));
            let feet = foot(&blocks);
            let kinds: Vec<BlockKind> = BlockKind::ALL.into_iter().filter(|kind| counts[*kind as usize] > 0).collect();
            for pair in kinds.windows(2) {
                let of =
                    |kind: BlockKind| blocks.iter().filter(move |block| block.kind == kind).map(|block| block.rect);
                let end = of(pair[0]).filter(|rect| rect.bottom() == feet).map(|rect| rect.right()).max().unwrap();
                let start = of(pair[1]).map(|rect| rect.left()).min().unwrap();
                let gap = start - end;
                assert!(
                    gap > Length::ZERO && gap <= work.unit() * 2,
                    "{counts:?} in {wide} x {high}: {pair:?} {gap:?}"
                );
                wrapped += usize::from(of(pair[0]).any(|rect| rect.bottom() < feet));
            }
        }
    }
    assert!(wrapped > 5, "{wrapped}");
}

#[test]
fn a_cap_on_the_unit_is_kept_and_units_are_whole_printer_dots() {
    let work = Blockwork::fit(&[[0, 0, 0, 3]], room(200, 200).size(), LEAST_UNIT, Length::mm(10)).unwrap();
    assert!(work.unit() <= Length::mm(10) && work.unit() > Length::mm100(990), "{work:?}");
    assert_eq!(work.unit().to_raw() % Length::inches(1).scaled(1, 300).to_raw(), 0);
}

#[test]
fn a_picture_is_told_in_words() {
    let case = |counts, want| assert_eq!(English.blocks_told(counts), want);
    case([0, 6, 0, 2], "6 flats, no rods, 2 cubes");
    case([0, 0, 1, 1], "1 rod, 1 cube");
    case([0, 0, 0, 0], "no blocks");
    case([2, 0, 31, 0], "2 thousand-blocks, no flats, 31 rods, no cubes");
}
