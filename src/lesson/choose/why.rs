//! What each number of a set is there for.

use super::demand::{Demand, Facts};
use crate::lesson::Reason;

/// The requests a number helps to meet, in the order of the contract; `range` when it only fills the count.
pub(super) fn why(demand: &Demand, set: &[u32], number: u32) -> Vec<Reason> {
    let facts = Facts::of(number);
    let mut reasons = Vec::new();
    if demand.always.contains(&number) {
        reasons.push("always".into());
    }
    for (feature, bound) in &demand.wants {
        if bound.min > 0 && facts.bits >> feature.bit() & 1 == 1 {
            reasons.push(feature.key());
        }
    }
    if let Some(bound) = demand.same_digits {
        let group = set.iter().filter(|&&other| Facts::of(other).family == facts.family).count();
        if group >= 2 && group >= bound.min as usize && bound.min > 0 {
            reasons.push("same_digits".into());
        }
    }
    if demand.look_alikes > 0 {
        reasons.push("look_alikes".into());
    }
    if reasons.is_empty() {
        reasons.push("range".into());
    }
    reasons
}

#[cfg(test)]
mod tests {
    use std::collections::{BTreeMap, BTreeSet};

    use super::super::demand::Feature;
    use super::*;
    use crate::number::Place;
    use crate::spec::Bound;

    #[track_caller]
    fn case(demand: &Demand, number: u32, reasons: &[&str]) {
        let set = [111, 406, 460, 604, 235];
        let want: Vec<Reason> = reasons.iter().map(|&reason| reason.into()).collect();
        assert_eq!(why(demand, &set, number), want, "{number}");
    }

    #[test]
    fn a_number_is_there_for_what_it_helps_to_meet() {
        let some = |min| Bound { min, max: None };
        let mut demand = Demand {
            low: 100,
            high: 999,
            never: BTreeSet::new(),
            at_most: [9; 6],
            count: 5,
            always: BTreeSet::from([406]),
            wants: BTreeMap::from([
                (Feature::Zero(Place::Tens), some(1)),
                (Feature::Repeats, some(1)),
                (Feature::Teens, Bound { min: 0, max: Some(2) }),
            ]),
            same_digits: Some(some(3)),
            look_alikes: 0,
        };
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
        demand.look_alikes = 1;
        case(&demand, 235, &["look_alikes"]);
    }
}
