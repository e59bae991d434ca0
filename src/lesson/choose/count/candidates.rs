//! All numbers a lesson may use, by what they show: gathered once, shared by every role, version and retry.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::hash::BuildHasherDefault;

use super::packed::Mix;
use crate::lesson::choose::demand::Demand;
use crate::number::{Features, Number};

/// Numbers made of the same digits with the same features.
#[derive(Debug, Clone)]
struct Variety {
    features: Features,
    /// Rising.
    numbers: Vec<Number>,
}

/// The numbers that a lesson's range, `never` and `at_most` leave.
#[derive(Debug, Clone, Default)]
pub struct Candidates {
    /// By digits, then features.
    varieties: Vec<Variety>,
}

impl Candidates {
    /// The numbers of a demand's range; what else it asks plays no part.
    pub fn new(demand: &Demand) -> Self {
        let mut varieties: Vec<Variety> = Vec::new();
        // Never iterated over, so its order cannot reach the output.
        let mut index: HashMap<Features, usize, BuildHasherDefault<Mix>> = HashMap::default();
        each(demand, |number, features| {
            let at = *index.entry(features).or_insert_with(|| {
                varieties.push(Variety { features, numbers: Vec::new() });
                varieties.len() - 1
            });
            varieties[at].numbers.push(number);
        });
        varieties.sort_by_key(|variety| variety.features);
        Self { varieties }
    }

    /// How many numbers there are.
    pub fn len(&self) -> usize {
        self.varieties.iter().map(|variety| variety.numbers.len()).sum()
    }

    /// About how many bytes they take.
    pub fn bytes(&self) -> usize {
        self.len() * size_of::<Number>() + self.varieties.len() * size_of::<Variety>()
    }

    /// The varieties without what is skipped; numbers of `marked` are told apart. Those that run out are left out.
    pub fn varieties<'a>(
        &'a self,
        skipped: &'a BTreeSet<Number>,
        marked: Option<&'a BTreeSet<Number>>,
    ) -> impl Iterator<Item = (Features, bool, Vec<&'a [Number]>)> {
        let mut special: BTreeMap<Features, BTreeSet<Number>> = BTreeMap::new();
        for &number in skipped.iter().chain(marked.into_iter().flatten()) {
            special.entry(Features::of(number)).or_default().insert(number);
        }
        self.varieties.iter().flat_map(move |Variety { features, numbers }| {
            let Some(special) = special.get(features) else {
                return vec![(*features, false, vec![numbers.as_slice()])];
            };
            let plain = numbers.split(|number| special.contains(number)).filter(|some| !some.is_empty());
            let is_marked = |number: &&Number| marked.is_some_and(|marked| marked.contains(number));
            let apart = numbers.iter().filter(is_marked).filter(|number| !skipped.contains(number));
            let apart = apart.map(std::slice::from_ref);
            let both = [(*features, false, plain.collect::<Vec<_>>()), (*features, true, apart.collect())];
            both.into_iter().filter(|(_, _, numbers)| !numbers.is_empty()).collect()
        })
    }
}

/// Calls `found` for each number that a demand allows, rising, with its features: digit by digit, so that a million of them
/// go by in a few milliseconds.
pub fn each(demand: &Demand, mut found: impl FnMut(Number, Features)) {
    for places in 1..=demand.at_most.len() {
        from(demand, None, places, &mut found);
    }
}

/// [`each`] number whose numeral begins with the one given and has `places` more.
fn from(demand: &Demand, begun: Option<(u32, Features)>, places: usize, found: &mut impl FnMut(Number, Features)) {
    let place = places - 1;
    let worth = 10_u32.pow(u32::try_from(place).unwrap_or(0));
    let first = u32::from(begun.is_none() && place > 0);
    for digit in first..=u32::from(demand.at_most[place]) {
        let (value, features) = match begun {
            Some((before, features)) => (before * 10 + digit, features.then(before, digit)),
            None => (digit, Features::of_digit(digit)),
        };
        if (value + 1) * worth <= demand.low.value() {
            continue;
        }
        if value * worth > demand.high.value() {
            break;
        }
        match Number::new(value) {
            _ if place > 0 => from(demand, Some((value, features)), place, found),
            Some(number) if !demand.never.contains(&number) => found(number, features),
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_number_is_seen_with_what_it_shows() {
        let number = |value| Number::new(value).expect("in range");
        let demand = Demand {
            never: [5, 1_000, 4_321].map(number).into(),
            at_most: [9, 8, 9, 9, 9, 3],
            ..Demand::any_of(number(3), number(999_998), 1)
        };
        let mut seen = Vec::new();
        each(&demand, |number, features| seen.push((number, features)));
        let wanted = (0..=999_999).map(number).filter(|number| demand.allows(*number));
        assert!(seen.into_iter().eq(wanted.map(|number| (number, Features::of(number)))));
    }
}
