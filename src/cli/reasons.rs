//! Why a number was chosen, in words for people.

use crate::lesson::Reason;
use crate::number::Feature;

/// One reason as a few plain words.
fn in_words(reason: Reason) -> String {
    match reason {
        Reason::Always => "asked for by name".to_owned(),
        Reason::Feature(Feature::Zero(place)) => format!("a 0 in the {} place", place.words()),
        Reason::Feature(Feature::Repeat) => "a digit more than once".to_owned(),
        Reason::Feature(Feature::Teen) => "ends in a teen".to_owned(),
        Reason::SameDigits => "the same digits as another".to_owned(),
        Reason::Range => "fills the set".to_owned(),
    }
}

/// Several, with commas.
pub fn list(reasons: &[Reason]) -> String {
    reasons.iter().map(|&reason| in_words(reason)).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::number::Place;

    #[test]
    fn reasons_read_as_words() {
        let reasons = [Reason::Feature(Feature::Zero(Place::TenThousands)), Reason::SameDigits];
        assert_eq!(list(&reasons), "a 0 in the ten thousands place, the same digits as another");
        assert_eq!(list(&[Reason::Range]), "fills the set");
    }
}
