//! The table of slips: one row each, all that the program knows of it.
//!
//! Sentences are for a teacher or a substitute who reads them cold: at most 22 words, about any number.

use super::{Content, Form, Number, Place, Slip, SlipFamily, Style, Task, rules};

/// One slip.
pub(super) struct Row {
    pub slip: Slip,
    pub family: SlipFamily,
    pub name: &'static str,
    pub thinking: &'static str,
    pub next_step: &'static str,
    pub example: Example,
    pub source: &'static str,
    pub rare: bool,
    pub rule: Rule,
}

/// What a slip makes of one number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Example {
    /// The number.
    pub of: u32,
    /// What is shown and what is asked.
    pub task: Task,
    /// The wrong answer.
    pub answer: &'static str,
}

/// How a slip goes wrong where a number is shown in one form and asked for in another.
pub(super) enum Rule {
    /// It takes the number, shown in a form, for another one, which then goes wrong in every form alike.
    Number(fn(Number, Form) -> Option<Number>),
    /// It puts digits together wrongly from the form that is shown: bare digits out, numerals only.
    Digits(fn(Number, Form, &Style) -> Option<String>),
    /// It goes wrong in the form that is asked for in a way of its own.
    Forms(fn(Number, Form, &Style) -> Vec<Content>),
    /// It bears on digits and comparisons only; see `judging.rs`.
    Judging,
}

const fn example(of: u32, shown: Form, asked: Form, answer: &'static str) -> Example {
    Example { of, task: Task::forms(shown, asked), answer }
}

// Journals, volumes and pages as the project's references give them: abstracts were read there, not the papers. The
// journals of Power and Dal Martello 1990 and of Ross 1989, and Fuson's text, are from memory.
const DICTATION: &str = "Power and Dal Martello 1990, Language and Cognitive Processes 5(3), 237-254";
const PIECES: &str = "Power and Dal Martello 1997, Mathematical Cognition 3(1), 63-85";
const WRITING: &str = "Byrge, Smith and Mix 2014, Child Development 85(2), 437-443";
const BESIDE_ZERO: &str = "Byrge, Smith and Mix 2014, Child Development 85(2), 437-443, as cited by later work";
const ZEROS: &str = "Steiner et al. 2021, Journal of Numerical Cognition 7(3), 368-387";
const TEENS: &str = "NSW numeracy continuum, \"Challenges in the teens\"; the written form is our reading of it";
const FACE_VALUE: &str = "Ross 1989, Arithmetic Teacher 36(6), 47-51; Price 2001, doctoral thesis";
const ALIKE: &str = "Price 2001, doctoral thesis: each digit taken as that many ones; carried over to pictures by us";
const PRACTICE: &str = "common practice, no source";

/// The number that [`Slip::FromTheOnes`] takes to be greater than 76.
const SIXTY_SEVEN: Number = match Number::new(67) {
    Some(number) => number,
    None => Number::MIN,
};

/// All slips. Inversions are marked rare by Steiner et al. 2021.
pub(super) const CATALOGUE: [Row; 16] = [
    Row {
        slip: Slip::ZeroDropped,
        family: SlipFamily::Zeros,
        name: "zero dropped",
        thinking: "Zero stands for nothing, so it need not be written or counted.",
        next_step: "Build the number on the mat, point to the empty column, and write 0 for it.",
        example: example(406, Form::Words, Form::Numeral, "46"),
        source: ZEROS,
        rare: false,
        rule: Rule::Number(|number, _| rules::zero_dropped(number)),
    },
    Row {
        slip: Slip::ZeroMoved,
        family: SlipFamily::Zeros,
        name: "zero moved",
        thinking: "There is a zero in the number, but any place will do for it.",
        next_step: "Build the number and the learner's answer on two mats, and ask which column is empty on each.",
        example: example(406, Form::Numeral, Form::Words, "four hundred sixty"),
        source: BESIDE_ZERO,
        rare: false,
        rule: Rule::Number(|number, _| rules::zero_moved(number)),
    },
    Row {
        slip: Slip::TeenTy,
        family: SlipFamily::Teens,
        name: "teen and ty confused",
        thinking: "Words that end in teen and in ty sound alike, so they mean the same.",
        next_step: "Say the teen word and the ty word slowly, build each with rods and cubes, and compare them.",
        example: example(614, Form::Words, Form::Numeral, "640"),
        source: TEENS,
        rare: false,
        rule: Rule::Number(|number, _| rules::teen_ty(number)),
    },
    Row {
        slip: Slip::TeenReversed,
        family: SlipFamily::Teens,
        name: "teen reversed",
        thinking: "A teen word says its ones first, so the ones are written first.",
        next_step: "Build the teen as one rod and some cubes, then write the rod's digit first.",
        example: example(617, Form::Words, Form::Numeral, "671"),
        source: TEENS,
        rare: false,
        rule: Rule::Number(rules::teen_reversed),
    },
    Row {
        slip: Slip::SideBySide,
        family: SlipFamily::Parts,
        name: "parts side by side",
        thinking: "Each part is written out in full, one beside the other.",
        next_step: "Stack the layered cards, so that each smaller part covers the zeros under it.",
        example: example(642, Form::Words, Form::Numeral, "600402"),
        source: WRITING,
        rare: false,
        rule: Rule::Digits(rules::side_by_side),
    },
    Row {
        slip: Slip::BigPartThenRest,
        family: SlipFamily::Parts,
        name: "big part, then rest",
        thinking: "The biggest part is written out in full, and the rest comes after it.",
        next_step: "Lay the cards for the rest on top of the biggest card, and read the result.",
        example: example(365, Form::Words, Form::Numeral, "30065"),
        source: DICTATION,
        rare: false,
        rule: Rule::Digits(rules::big_part_then_rest),
    },
    Row {
        slip: Slip::HalfOverwritten,
        family: SlipFamily::Parts,
        name: "half overwritten",
        thinking: "The rest goes over the zeros of the biggest part, but one zero too many stays.",
        next_step: "Count the columns on the mat and the digits written: one digit for each column.",
        example: example(365, Form::Words, Form::Numeral, "3065"),
        source: DICTATION,
        rare: false,
        rule: Rule::Digits(rules::half_overwritten),
    },
    Row {
        slip: Slip::PlaceWordWritten,
        family: SlipFamily::Parts,
        name: "place word written out",
        thinking: "The word hundred or thousand is heard as a number, so it is written down too.",
        next_step: "Show that hundred and thousand name columns of the mat; only the count in a column is written.",
        example: example(642, Form::Words, Form::Numeral, "610042"),
        source: WRITING,
        rare: false,
        rule: Rule::Digits(rules::place_word_written),
    },
    Row {
        slip: Slip::FaceValue,
        family: SlipFamily::Worth,
        name: "digits at face value",
        thinking: "Every digit counts that many ones, wherever it stands.",
        next_step: "Ask which blocks each digit stands for, and lay a rod beside a cube to compare.",
        example: Example { of: 274, task: Task::Worth(Place::Hundreds), answer: "2" },
        source: FACE_VALUE,
        rare: false,
        rule: Rule::Forms(rules::face_value),
    },
    Row {
        slip: Slip::CountedAlike,
        family: SlipFamily::Worth,
        name: "blocks counted alike",
        thinking: "Every block counts as one, whatever its size.",
        next_step: "Lay ten cubes along a rod, then count the picture aloud: flats by hundreds, rods by tens, cubes by ones.",
        example: example(406, Form::Blocks, Form::Numeral, "10"),
        source: ALIKE,
        rare: false,
        rule: Rule::Number(|number, _| rules::counted_alike(number)),
    },
    Row {
        slip: Slip::PlaceOff,
        family: SlipFamily::Worth,
        name: "place off by one",
        thinking: "Digits stand for tens or hundreds, but this one is counted in the place beside its own.",
        next_step: "Name the places aloud from the ones up, a finger on each digit, and build the number.",
        example: Example { of: 274, task: Task::Worth(Place::Hundreds), answer: "20" },
        source: PRACTICE,
        rare: false,
        rule: Rule::Judging,
    },
    Row {
        slip: Slip::ReadInPieces,
        family: SlipFamily::Parts,
        name: "read in pieces",
        thinking: "A long numeral is cut into shorter ones, and each is read by itself.",
        next_step: "Cover all but the first digit, say it with its place, then read the rest as one number.",
        example: example(834, Form::Numeral, Form::Words, "eighty thirty-four"),
        source: PIECES,
        rare: false,
        rule: Rule::Forms(rules::read_in_pieces),
    },
    Row {
        slip: Slip::FromTheOnes,
        family: SlipFamily::Order,
        name: "compared from the ones",
        thinking: "Numbers are compared from the right, so the larger last digit decides.",
        next_step: "Build both numbers and compare the largest blocks first, then the next.",
        example: Example { of: 76, task: Task::Greater(SIXTY_SEVEN), answer: "67" },
        source: PRACTICE,
        rare: false,
        rule: Rule::Judging,
    },
    Row {
        slip: Slip::TensOnesSwapped,
        family: SlipFamily::Order,
        name: "tens and ones swapped",
        thinking: "The digits are known, but not which one counts tens and which counts ones.",
        next_step: "Build the number and the learner's answer with rods and cubes, and ask which has more tens.",
        example: example(264, Form::Blocks, Form::Numeral, "246"),
        source: PRACTICE,
        rare: true,
        rule: Rule::Number(|number, _| rules::tens_ones_swapped(number)),
    },
    Row {
        slip: Slip::HundredsTensSwapped,
        family: SlipFamily::Order,
        name: "hundreds and tens swapped",
        thinking: "The digits are known, but not which one counts hundreds and which counts tens.",
        next_step: "Build the number and the learner's answer with flats and rods, and ask which has more hundreds.",
        example: example(264, Form::Blocks, Form::Numeral, "624"),
        source: PRACTICE,
        rare: true,
        rule: Rule::Number(|number, _| rules::hundreds_tens_swapped(number)),
    },
    Row {
        slip: Slip::Reversed,
        family: SlipFamily::Order,
        name: "digits reversed",
        thinking: "The digits are right, but the number is put down from right to left.",
        next_step: "Point to the left end of the mat, and write the largest place first.",
        example: example(264, Form::Words, Form::Numeral, "462"),
        source: PRACTICE,
        rare: true,
        rule: Rule::Number(|number, _| rules::reversed(number)),
    },
];
