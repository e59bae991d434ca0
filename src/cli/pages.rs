//! `--pages`: which pages of a file.

use std::ops::RangeInclusive;

use crate::spec::limits::grouped;

/// The last page that can be asked for.
const MOST: usize = 1_000_000;

/// Page numbers from 1, as ranges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pages(Vec<RangeInclusive<usize>>);

impl Pages {
    /// Reads `3`, `2-5`, `7-` and lists of these with commas.
    pub fn parse(text: &str) -> Result<Self, String> {
        text.split(',').map(|part| range(part.trim())).collect::<Result<_, _>>().map(Self)
    }

    /// Whether a page, from 1, is among them.
    pub fn holds(&self, page: usize) -> bool {
        self.0.iter().any(|range| range.contains(&page))
    }
}

fn range(part: &str) -> Result<RangeInclusive<usize>, String> {
    let expected = || "expected pages such as 3, 2-5 or 1,4-6".to_owned();
    let number = |text: &str| match text.trim().parse() {
        Ok(page @ 1..=MOST) => Ok(page),
        Ok(_) => Err(format!("pages are counted from 1 to {}", grouped(MOST as u64))),
        Err(_) => Err(expected()),
    };
    let (first, last) = match part.split_once('-') {
        None => (number(part)?, number(part)?),
        Some((first, "")) => (number(first)?, MOST),
        Some((first, last)) => (number(first)?, number(last)?),
    };
    if first > last { Err(format!("{first} comes after {last}; {}", expected())) } else { Ok(first..=last) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pages_are_numbers_and_ranges() {
        #[track_caller]
        fn case(text: &str, want: &[usize]) {
            let pages = Pages::parse(text).expect(text);
            assert_eq!((1..=9).filter(|page| pages.holds(*page)).collect::<Vec<_>>(), want, "{text}");
        }
        case("3", &[3]);
        case("2-4, 7", &[2, 3, 4, 7]);
        case("8-", &[8, 9]);
        for bad in ["", "0", "4-2", "x", "1-x", "1,,2", "-3", "99999999", "99999999999999999999999"] {
            assert!(Pages::parse(bad).is_err(), "{bad}");
        }
    }
}
