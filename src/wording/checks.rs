//! What quick checks ask.

use super::area::area;
use crate::number::Skill;

area! {
    /// Questions of the quick check that are about a numeral itself.
    Checks;

    /// What a skill is called, as a heading: "what a digit is worth".
    fn skill(skill: Skill) -> &'static str;

    /// What a digit of a numeral is worth: "What is the 2 in 274 worth?"
    fn worth_question(digit: u8, numeral: &str) -> String;

    /// Which of two numerals is greater: "Which is greater, 467 or 476?"
    fn greater_question(one: &str, other: &str) -> String;

    /// A digit of a numeral: "the 2 in 274".
    fn digit_of(digit: u8, numeral: &str) -> String;

    /// The answer that neither is.
    fn both_equal() -> &'static str;
}
