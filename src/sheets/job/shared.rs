//! Pages with a slip for each of several learners: as many as the class needs, the same for everyone.
//!
//! In: the masters, each with its pieces, and how many sets there are. Out: which master each page copies, going round.

use crate::lesson::deal::Seat;
use crate::lesson::{Lesson, LessonGroup};
use crate::sheets::job::backs;
use crate::sheets::page::Page;

/// Pages that are not one learner's.
#[derive(Debug, Clone)]
pub struct SlipPages {
    masters: Vec<Page>,
    sets: usize,
    marks: Option<(u32, u32)>,
    leaves: usize,
}

/// The pages of slips for each group's seats, in the order of the letters; for all seats where there are no groups.
pub fn by_group(lesson: &Lesson, masters: &[Page], seats: &[Seat]) -> Vec<SlipPages> {
    let of = |group: &LessonGroup| {
        let own = |page: &&Page| page.version.is_some_and(|version| group.versions.contains(&version));
        let masters: Vec<Page> = masters.iter().filter(own).cloned().collect();
        let sets = seats.iter().filter(|seat| group.versions.contains(&seat.version)).count();
        SlipPages { marks: group.marks(), ..SlipPages::plan(masters, sets) }
    };
    match lesson.groups.as_slice() {
        groups if groups.len() > 1 && !lesson.sets.is_empty() => groups.iter().map(of).collect(),
        _ => vec![SlipPages::plan(masters.to_vec(), seats.len())],
    }
}

impl SlipPages {
    /// So many pages that there is a slip for each of `sets`; masters follow one another, so that neighbours get different
    /// ones where there are different ones.
    pub fn plan(masters: Vec<Page>, sets: usize) -> Self {
        let slips: Vec<usize> = masters.iter().map(slips).collect();
        let (mut leaves, mut have) = (0, 0);
        while have < sets && !slips.is_empty() {
            have += slips[leaves % slips.len()];
            leaves += 1;
        }
        Self { masters, sets, marks: None, leaves }
    }

    /// The first and the last of a group's checks; none where all learners draw from the same.
    pub fn marks(&self) -> Option<(u32, u32)> {
        self.marks
    }

    /// How many sets there is a slip for.
    pub fn sets(&self) -> usize {
        self.sets
    }

    /// How many slips a page holds, the fullest where masters differ.
    pub fn to_page(&self) -> usize {
        self.masters.iter().map(slips).max().unwrap_or(0)
    }

    /// How many pages.
    pub fn leaves(&self) -> usize {
        self.leaves
    }

    /// The masters.
    pub fn masters(&self) -> &[Page] {
        &self.masters
    }

    /// The master that a page copies; `None` past the end.
    pub fn leaf(&self, index: usize) -> Option<&Page> {
        (index < self.leaves).then(|| self.masters.get(index % self.masters.len().max(1)))?
    }
}

/// How many slips a page holds: one that nobody cuts is a slip itself.
fn slips(page: &Page) -> usize {
    backs::pieces(page).count().max(1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Point, Rect, Size};
    use crate::sheets::page::{Layer, Piece, Stock};
    use crate::spec::SheetKind;

    fn master(pieces: usize) -> Page {
        let rect = Rect::new(Point::ORIGIN, Size::default());
        let piece = Piece::named("quick check".to_owned(), rect);
        let layer = Layer { pieces: vec![piece; pieces], ..Layer::default() };
        let (size, sheet, stock, name) = (Size::default(), SheetKind::Exit, Stock::Paper, String::new());
        Page { size, sheet, version: None, learner: None, stock, name, layers: vec![layer.into()] }
    }

    #[test]
    fn there_is_a_slip_for_everyone_and_no_page_too_many() {
        for (sets, want) in [(0, 0), (1, 1), (4, 1), (5, 2), (26, 7)] {
            assert_eq!(SlipPages::plan(vec![master(4), master(4)], sets).leaves(), want, "{sets}");
        }
        assert_eq!(SlipPages::plan(Vec::new(), 9).leaves(), 0);
        let shared = SlipPages::plan(vec![master(4), master(6)], 12);
        assert_eq!((shared.leaf(2), shared.leaf(3)), (Some(&shared.masters()[0]), None));
    }
}
