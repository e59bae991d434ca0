//! What the practice page asks in English.

use super::English;
use super::phrases::listed;
use crate::spec::Version;
use crate::wording::PracticeWords;

impl PracticeWords for English {
    fn write_number(&self) -> &'static str {
        "Write the number:"
    }

    fn compare_signs(&self) -> &'static str {
        "Write <, = or > in each ring."
    }

    fn write_in_order(&self) -> &'static str {
        "Write the numbers in order. Begin with the least."
    }

    fn at_the_arrow(&self) -> &'static str {
        "Which number is at the arrow?"
    }

    fn line_told(&self, from: &str, to: &str) -> String {
        format!("A number line from {from} to {to} in ten equal parts. An arrow points at a mark.")
    }

    fn ring_the_odd(&self) -> &'static str {
        "Three show the same number. Ring the one that does not."
    }

    fn practice_answers(&self, letters: &[Version]) -> String {
        let letters: Vec<String> = letters.iter().map(ToString::to_string).collect();
        if letters.is_empty() {
            return "Practice: right answers".to_owned();
        }
        format!("Practice {}: right answers", listed(&letters))
    }

    fn practice_heads(&self) -> [&'static str; 3] {
        ["Exercise", "Right answer", "Wrong answer and its slip"]
    }

    fn taken_for_greater(&self, lesser: &str, greater: &str) -> String {
        format!("{lesser} taken to be greater than {greater}")
    }

    fn overlooked(&self) -> &'static str {
        "all look right"
    }
}
