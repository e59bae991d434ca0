//! The English words that numbers are put together from.
//!
//! They stand below all languages since two stages need them: lesson files are written in English, where a count may be
//! spelled out, and the English on paper spells with them.

/// The words for 0 to 19.
pub const SMALL: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];

/// The words for whole tens from 20.
pub const TENS: [&str; 8] = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
