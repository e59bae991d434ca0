//! What key and tally say.

use super::area::area;
use crate::number::Counted;
use crate::spec::Version;

area! {
    /// The answers.
    KeyWords;

    /// The heading over the letters of slips, and what it says.
    fn letters() -> (&'static str, &'static str);

    /// The headings of the table of letters: slip, in this lesson, what the learner thinks, what helps.
    fn letters_heads() -> [&'static str; 4];

    /// A wrong answer with what it is given for: "46 for four hundred six".
    fn answer_for(answer: &str, shown: &str) -> String;

    /// What a digit is taken to be worth: "4 for the 4 in 406".
    fn worth_taken(answer: &str, digit: u8, numeral: &str) -> String;

    /// Which of two is taken for the greater, or that they are taken to be equal: "46 for 46 and 64".
    fn greater_taken(answer: &str, two: [&str; 2]) -> String;

    /// The heading over an answered board, or over the numbers of a set that has none.
    fn board_answered(version: Version, board: bool) -> String;

    /// Under an answered board whose traded forms learners write: that other trades are right, such as these counts, and how
    /// to tell; `instead` where that is only done when strips are not cut.
    fn other_trades(numeral: &str, counted: &Counted, instead: bool) -> String;

    /// The heading over decoys, and what they are.
    fn decoys() -> (&'static str, &'static str);

    /// The headings of the table of decoys: strip, what it shows, what it is made of, slip, what the learner thinks.
    fn decoys_heads() -> [&'static str; 5];

    /// The heading over the right answers of quick checks.
    fn right_answers() -> &'static str;

    /// The headings of the table of a question: check, question, right answer, wrong choice.
    fn question_heads() -> [&'static str; 4];

    /// "Question 3", and with its skill: "Question 3: worth of a digit".
    fn question(number: usize, skill: Option<&str>) -> String;
}

area! {
    /// The tally.
    TallyWords;

    /// What a tick means.
    fn tally_note() -> &'static str;

    /// The skill of building a number with blocks, or of showing it in another way.
    fn builds(blocks: bool) -> &'static str;

    /// The headings over columns: what learners can do, which slips were seen; and over the names.
    fn tally_heads() -> [&'static str; 3];
}

area! {
    /// Labels in a lesson of small groups.
    GroupLabels;

    /// What to do first.
    fn build_line(build: &str) -> String;

    /// What to ask, and the answer.
    fn ask_line(question: &str, answer: &str) -> String;

    /// Both, where groups of the class have numbers of their own: for whom it is.
    fn own_line(whose: &str, build: &str, ask: &str) -> String;

    /// How to go on, and when it is over.
    fn try_line(how: &str, gone: &str) -> String;
}
