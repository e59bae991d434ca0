//! What one copy of a kit holds, and what can be laid out with it.
//!
//! In: the lesson's numbers and what the class has. Out: how many blocks of each kind are in a set, which layered cards, and
//! whether so many can lie on one table. The sheets cut these, the plan counts them, and small groups build with them.

use super::Lesson;
use crate::number::{Number, Place, blocks_of, fewest_blocks};
use crate::spec::SheetKind;

/// How many thousands, flats, rods and cubes.
pub type BlockCounts = [u32; 4];

/// Ten pieces of a kind lie along the one that they make.
const TEN: u32 = 10;
/// The most pieces of a kind on a table: more are not counted at a glance (common practice, no source).
const MOST_PIECES: u32 = 20;

impl Lesson {
    /// The blocks of one set: enough for each of the model and sort numbers, one at a time. Wherever there are rods there are
    /// ten cubes, so that ten can be laid along a rod; where pieces are traded, ten more than a digit needs. Fails with a
    /// number that is too large for blocks.
    pub fn block_set(&self) -> Result<BlockCounts, Number> {
        let mut most = [0; 4];
        for number in self.chosen.built() {
            let needs = fewest_blocks(number).ok_or(number)?;
            most = larger(most, needs);
        }
        Ok(self.with_change(most))
    }

    /// What the class's tub holds, which has no blocks for larger numbers, of the pieces of these numbers and of those that
    /// they are traded for; `None` where there is no tub.
    pub fn tub_set(&self, numbers: impl Iterator<Item = Number>) -> Option<BlockCounts> {
        let tub = self.tub_holds()?;
        let set = self.with_change(numbers.filter_map(fewest_blocks).fold([0; 4], larger));
        Some(std::array::from_fn(|k| set[k].min(tub[k])))
    }

    /// Blocks, with those that come for the ones that are traded away or lie along a rod.
    fn with_change(&self, [thousands, flats, rods, cubes]: BlockCounts) -> BlockCounts {
        let trades = self.trades();
        let come = |given: u32, held: u32| if trades && given > 0 { held + TEN } else { held };
        let (rods, cubes) = (come(flats, rods), come(rods, cubes));
        [thousands, come(thousands, flats), rods, if rods > 0 { cubes.max(TEN) } else { cubes }]
    }

    /// The most pieces of each kind that lie on a table from the class's tub; `None` where there is no tub.
    fn tub_holds(&self) -> Option<BlockCounts> {
        let holds = |holds| u32::from(holds).min(MOST_PIECES);
        self.has_tub().then(|| blocks_of(&self.style.trading.tub.map(holds)))
    }

    /// The digits of a place that have a layered card: those of the model and sort numbers; all where there are none.
    pub fn card_digits(&self, place: Place) -> Vec<u32> {
        let shown = |digit: &u32| {
            let mut numbers = self.chosen.built().peekable();
            numbers.peek().is_none() || numbers.any(|number| u32::from(number.digit(place)) == *digit)
        };
        (1..TEN).filter(shown).collect()
    }

    /// The most places of a number that is built; none where no number is.
    pub fn card_places(&self) -> Option<usize> {
        self.chosen.built().map(Number::len).max()
    }

    /// What a table has of them, looked up once.
    pub fn kits(&self) -> KitsAtHand {
        let blocks = if self.makes(SheetKind::Blocks) {
            let share = self.spec.class.share(SheetKind::Blocks);
            self.block_set().ok().map(|set| (set, self.spec.class.learners.value.div_ceil(share)))
        } else {
            self.tub_holds().map(|tub| (tub, 1))
        };
        let places = self.card_places().unwrap_or_else(|| self.greatest().len());
        let cards = Place::ALL.into_iter().take(places).map(|place| self.card_digits(place)).collect();
        KitsAtHand { blocks, cards }
    }
}

/// What a table has of the kits.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KitsAtHand {
    /// The blocks of one set, and how many sets the class has: one of its own blocks.
    blocks: Option<(BlockCounts, u32)>,
    /// The digits that have a card, from the ones up.
    cards: Vec<Vec<u32>>,
}

impl KitsAtHand {
    /// Whether a number can be stacked from the layered cards of one kit.
    pub fn stacks(&self, number: Number) -> bool {
        let has = |(place, digit): (Place, u8)| {
            digit == 0 || self.cards.get(place.index()).is_some_and(|digits| digits.contains(&digit.into()))
        };
        number.digits().all(has)
    }

    /// How many sets of blocks it takes to lay out these piles at once: one if it holds them all, two if the class has two
    /// and each pile is from one of them. `None` where they are not enough.
    pub fn sets_for(&self, piles: &[BlockCounts]) -> Option<u32> {
        let (set, sets) = self.blocks?;
        let all = piles.iter().fold([0; 4], |sum, pile| std::array::from_fn(|k| sum[k] + pile[k]));
        let each = piles.len() == 2 && piles.iter().all(|pile| within(*pile, set));
        if within(all, set) { Some(1) } else { (each && sets > 1).then_some(2) }
    }
}

/// Enough for either.
pub fn larger(one: BlockCounts, other: BlockCounts) -> BlockCounts {
    std::array::from_fn(|k| one[k].max(other[k]))
}

fn within(pile: BlockCounts, set: BlockCounts) -> bool {
    pile.iter().zip(set).all(|(count, holds)| *count <= holds)
}
