//! What quick checks ask in English.

use super::English;
use crate::number::Skill;
use crate::wording::Checks;

impl Checks for English {
    fn skill(&self, skill: Skill) -> &'static str {
        match skill {
            Skill::Picture => "block picture",
            Skill::Words => "number words",
            Skill::SecondWords => "words in the other language",
            Skill::Worth => "worth of a digit",
            Skill::Expanded => "expanded form",
            Skill::Zero => "zero as a place",
            Skill::Regrouping => "regrouping",
            Skill::Trading => "blocks to trade",
            Skill::Compare => "greater number",
            Skill::Reading => "reading numerals",
            Skill::Joining => "joining parts",
        }
    }

    fn worth_question(&self, digit: u8, numeral: &str) -> String {
        format!("What is the {digit} in {numeral} worth?")
    }

    fn greater_question(&self, one: &str, other: &str) -> String {
        format!("Which is greater, {one} or {other}?")
    }

    fn digit_of(&self, digit: u8, numeral: &str) -> String {
        format!("the {digit} in {numeral}")
    }

    fn both_equal(&self) -> &'static str {
        "They are equal"
    }
}
