//! Which other number of a set is easiest to take a number for.

use std::cmp::Reverse;

use super::demand::Facts;
use crate::number::Number;

/// For each number of a set, the other that shares most digits with it, at least two; among equals the nearest, then the
/// least. `None` where there is no such number.
pub fn look_alikes(set: &[Number]) -> Vec<(Number, Option<Number>)> {
    let nearest = |&number: &Number| {
        let others = set.iter().filter(|&&other| other != number);
        let like = others.map(|&other| (shared(number, other), other)).filter(|&(digits, _)| digits >= 2);
        let best = like.min_by_key(|&(digits, other)| (Reverse(digits), number.value().abs_diff(other.value()), other));
        (number, best.map(|(_, other)| other))
    };
    set.iter().map(nearest).collect()
}

/// How many digits two numbers share, whatever their places.
fn shared(a: Number, b: Number) -> u32 {
    let (a, b) = (Facts::of(a.value()).family, Facts::of(b.value()).family);
    (0..10).map(|digit| ((a >> (3 * digit)) & 7).min((b >> (3 * digit)) & 7)).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_look_alike_shares_most_digits() {
        let set: Vec<Number> = [406, 460, 640, 417, 883].into_iter().filter_map(Number::new).collect();
        let near: Vec<_> = look_alikes(&set).into_iter().map(|(_, near)| near.map(Number::value)).collect();
        assert_eq!(near, [Some(460), Some(406), Some(460), None, None]);
    }
}
