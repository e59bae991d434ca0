//! Every set of a small lesson, found by trying all of them, with each request read off the numeral as text.

use placewright::lesson::choose::Demand;
use placewright::number::{Feature, Number};
use placewright::spec::Bound;

/// What a request looks at, read off the text of each numeral.
pub struct Plain<'a> {
    demand: &'a Demand,
    pool: Vec<Number>,
    texts: Vec<String>,
}

impl<'a> Plain<'a> {
    /// The numbers that may be chosen.
    pub fn new(demand: &'a Demand) -> Self {
        let allowed = |number: &Number| {
            !demand.never.contains(number)
                && number
                    .to_string()
                    .chars()
                    .rev()
                    .enumerate()
                    .all(|(place, digit)| digit.to_digit(10).unwrap() <= u32::from(demand.at_most[place]))
        };
        let range = (demand.low.value()..=demand.high.value()).map(|value| Number::new(value).unwrap());
        let pool: Vec<Number> = range.filter(allowed).collect();
        let texts = pool.iter().map(Number::to_string).collect();
        Self { demand, pool, texts }
    }

    /// All sets that meet the demand, each rising.
    pub fn all(&self) -> Vec<Vec<Number>> {
        let mut found = Vec::new();
        self.extend(0, &mut Vec::new(), &mut found);
        found
    }

    /// Whether one set meets the demand.
    pub fn one(demand: &'a Demand, set: &[Number]) -> bool {
        let texts = set.iter().map(Number::to_string).collect();
        let plain = Plain { demand, pool: set.to_vec(), texts };
        let allowed =
            |number: &Number| !Plain::new(&Demand { low: *number, high: *number, ..demand.clone() }).pool.is_empty();
        set.len() == demand.count as usize
            && set.is_sorted_by(|a, b| a < b)
            && set.iter().all(|number| (demand.low..=demand.high).contains(number) && allowed(number))
            && plain.holds(&(0..set.len()).collect::<Vec<_>>())
    }

    fn extend(&self, from: usize, taken: &mut Vec<usize>, found: &mut Vec<Vec<Number>>) {
        if taken.len() == self.demand.count as usize {
            if self.holds(taken) {
                found.push(taken.iter().map(|&k| self.pool[k]).collect());
            }
            return;
        }
        for next in from..self.pool.len() {
            taken.push(next);
            self.extend(next + 1, taken, found);
            taken.pop();
        }
    }

    fn holds(&self, taken: &[usize]) -> bool {
        let within = |bound: Bound, count: usize| {
            count >= bound.min as usize && bound.max.is_none_or(|max| count <= max as usize)
        };
        let has = |k: usize, feature: Feature| {
            let text = &self.texts[k];
            match feature {
                Feature::Zero(place) => text.chars().rev().nth(place.index()) == Some('0'),
                Feature::Repeat => text.chars().any(|digit| text.matches(digit).count() > 1),
                Feature::Teen => {
                    let mut back = text.chars().rev();
                    back.next().is_some_and(|ones| ones != '0') && back.next() == Some('1')
                }
            }
        };
        let sorted = |k: usize| {
            let mut digits: Vec<char> = self.texts[k].chars().collect();
            digits.sort_unstable();
            digits
        };
        let largest = || {
            taken.iter().map(|&k| taken.iter().filter(|&&other| sorted(other) == sorted(k)).count()).max().unwrap_or(0)
        };
        let demand = self.demand;
        demand.always.iter().all(|number| taken.iter().any(|&k| self.pool[k] == *number))
            && demand
                .features
                .iter()
                .all(|(&feature, &bound)| within(bound, taken.iter().filter(|&&k| has(k, feature)).count()))
            && demand.same_digits.is_none_or(|bound| within(bound, largest()))
    }
}
