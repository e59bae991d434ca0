//! Why a number was chosen, in words for people.

/// A key of the lesson file, such as `zeros.tens`, as a few plain words.
pub fn in_words(reason: &str) -> String {
    if let Some(place) = reason.strip_prefix("zeros.") {
        return format!("a 0 in the {} place", place.replace('_', " "));
    }
    let words = match reason {
        "always" => "asked for by name",
        "repeats" => "a digit more than once",
        "teens" => "ends in a teen",
        "same_digits" => "the same digits as another",
        "look_alikes" => "easily mistaken for another",
        "range" => "fills the set",
        other => other,
    };
    words.to_owned()
}

/// Several, with commas.
pub fn list(reasons: &[String]) -> String {
    reasons.iter().map(|reason| in_words(reason)).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reasons_read_as_words() {
        let reasons = ["zeros.ten_thousands", "same_digits"].map(str::to_owned);
        assert_eq!(list(&reasons), "a 0 in the ten thousands place, the same digits as another");
        assert_eq!(in_words("range"), "fills the set");
    }
}
