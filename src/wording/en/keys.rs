//! What key, tally and small groups are headed with in English.

use super::English;
use crate::number::Counted;
use crate::spec::Version;
use crate::wording::keys::{GroupLabels, KeyWords, TallyWords};
use crate::wording::{Checks, Phrases};

impl KeyWords for English {
    fn letters(&self) -> (&'static str, &'static str) {
        ("What each letter means", "A letter means the same slip on every page.")
    }

    fn letters_heads(&self) -> [&'static str; 4] {
        ["Slip", "In this lesson", "The learner thinks", "Next"]
    }

    fn answer_for(&self, answer: &str, shown: &str) -> String {
        format!("{answer} for {shown}")
    }

    fn worth_taken(&self, answer: &str, digit: u8, numeral: &str) -> String {
        self.answer_for(answer, &self.digit_of(digit, numeral))
    }

    fn greater_taken(&self, answer: &str, two: [&str; 2]) -> String {
        self.answer_for(answer, &self.list(&two))
    }

    fn board_answered(&self, version: Version, board: bool) -> String {
        format!("{} {version}, answered", if board { "Board" } else { "Set" })
    }

    fn other_trades(&self, numeral: &str, counted: &Counted, instead: bool) -> String {
        self.any_trade(numeral, counted, instead)
    }

    fn decoys(&self) -> (&'static str, &'static str) {
        (
            "Decoys",
            "These strips belong in no row. A learner who lays one down shows how they are thinking. What helps stands with \
             the slip's letter at the end of this key.",
        )
    }

    fn decoys_heads(&self) -> [&'static str; 5] {
        ["Strip", "Shows", "Made of", "Slip", "The learner thinks"]
    }

    fn right_answers(&self) -> &'static str {
        "Quick checks: right answers"
    }

    fn question_heads(&self) -> [&'static str; 4] {
        ["Check", "Question", "Right answer", "Wrong choice and its slip"]
    }

    fn question(&self, number: usize, skill: Option<&str>) -> String {
        skill.map_or_else(|| format!("Question {number}"), |skill| format!("Question {number}: {skill}"))
    }
}

impl TallyWords for English {
    fn tally_note(&self) -> &'static str {
        "A mark means yes. Leave a box empty when you have not seen it."
    }

    fn builds(&self, blocks: bool) -> &'static str {
        if blocks { "builds it" } else { "shows it" }
    }

    fn tally_heads(&self) -> [&'static str; 3] {
        ["Can do", "Slips seen", "Learner"]
    }
}

impl GroupLabels for English {
    fn build_line(&self, build: &str) -> String {
        format!("Do: {build}")
    }

    fn own_line(&self, whose: &str, build: &str, ask: &str) -> String {
        format!("{whose}. {build} {ask}")
    }

    fn ask_line(&self, question: &str, answer: &str) -> String {
        format!("Ask: {question} Expect: {answer}")
    }

    fn try_line(&self, how: &str, gone: &str) -> String {
        format!("Try: {how} {gone}")
    }
}
