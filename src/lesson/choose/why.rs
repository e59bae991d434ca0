//! What each number of a set is there for.

use super::demand::Demand;
use crate::lesson::Reason;
use crate::number::{Digits, Feature, Number};

/// The requests a number helps to meet, in the order of the contract; the range when it only fills the count.
pub(super) fn why(demand: &Demand, set: &[Number], number: Number) -> Vec<Reason> {
    let mut reasons = Vec::new();
    if demand.always.contains(&number) {
        reasons.push(Reason::Always);
    }
    let asked = demand.features.iter().filter(|(feature, bound)| bound.min > 0 && feature.is_in(number));
    reasons.extend(asked.map(|(&feature, _): (&Feature, _)| Reason::Feature(feature)));
    if let Some(bound) = demand.same_digits {
        let group = set.iter().filter(|&&other| Digits::of(other) == Digits::of(number)).count();
        if group >= 2 && group >= bound.min as usize && bound.min > 0 {
            reasons.push(Reason::SameDigits);
        }
    }
    if reasons.is_empty() {
        reasons.push(Reason::Range);
    }
    reasons
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::Place;
    use crate::spec::Bound;

    fn n(value: u32) -> Number {
        Number::new(value).expect("in range")
    }

    #[track_caller]
    fn case(demand: &Demand, number: u32, reasons: &[&str]) {
        let set = [111, 406, 460, 604, 235].map(n);
        let keys: Vec<String> = why(demand, &set, n(number)).into_iter().map(Reason::key).collect();
        assert_eq!(keys, reasons, "{number}");
    }

    #[test]
    fn a_number_is_there_for_what_it_helps_to_meet() {
        let some = |min| Bound { min, max: None };
        let mut demand = Demand::any_of(n(100), n(999), 5);
        demand.always.insert(n(406));
        demand.features.insert(Feature::Zero(Place::Tens), some(1));
        demand.features.insert(Feature::Repeat, some(1));
        demand.features.insert(Feature::Teen, Bound { min: 0, max: Some(2) });
        demand.same_digits = Some(some(3));
        case(&demand, 406, &["always", "zeros.tens", "same_digits"]);
        case(&demand, 460, &["same_digits"]);
        // It ends in a teen, but none was asked for, only no more than two.
        case(&demand, 111, &["repeats"]);
        case(&demand, 235, &["range"]);
        demand.same_digits = Some(some(4));
        case(&demand, 460, &["range"]);
        demand.same_digits = Some(Bound { min: 0, max: Some(3) });
        case(&demand, 460, &["range"]);
        // One number alone is no group.
        demand.same_digits = Some(some(1));
        case(&demand, 235, &["range"]);
        case(&demand, 604, &["zeros.tens", "same_digits"]);
    }
}
