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
