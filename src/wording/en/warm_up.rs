//! The warm-up for the week after, in English.

use super::English;
use super::phrases::counted;
use crate::wording::WarmUpWords;

impl WarmUpWords for English {
    fn warm_up_note(&self, days: u32) -> String {
        format!(
            "For {} after the lesson, five minutes each. Write the number where everyone can see it, and ask. Learners answer \
             on paper or to a partner first; then one says how they know.",
            counted(days, "day")
        )
    }

    fn warm_up_day(&self, day: u32, numeral: &str) -> String {
        format!("Day {day}: {numeral}")
    }

    fn warm_up_heads(&self) -> [&'static str; 2] {
        ["Ask", "Expect"]
    }
}
