//! The table of slips: one row each, all that the program knows of it.
//!
//! Sentences are for a teacher or a substitute who reads them cold: at most 22 words, about any number.

use super::{Content, Form, Number, Slip, Style, rules};

/// One slip.
pub(super) struct Entry {
    pub slip: Slip,
    pub name: &'static str,
    pub thinking: &'static str,
    pub next_step: &'static str,
    pub source: &'static str,
    pub rare: bool,
    pub rule: Rule,
}

/// How a slip goes wrong.
pub(super) enum Rule {
    /// It takes the number for another one, which then goes wrong in every form alike.
    Number(fn(Number) -> Option<Number>),
    /// It puts digits together wrongly: bare digits out, numerals only.
    Numeral(fn(Number) -> Option<String>),
    /// It goes wrong in each form in its own way.
    Form(fn(Number, Form, &Style) -> Option<Content>),
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
const COLUMNS: &str = "Price 2001, doctoral thesis; Fuson 1990, Cognition and Instruction 7(4), 343-403";
const PRACTICE: &str = "common practice, no source";

/// All slips. Rows that say more about the thinking come before rows that may make the same wrong form (tens and ones
/// change places in 617 because a teen was heard backwards). Inversions are marked rare by Steiner et al. 2021.
pub(super) const CATALOGUE: [Entry; 14] = [
    Entry {
        slip: Slip::ZeroDropped,
        name: "zero dropped",
        thinking: "Zero stands for nothing, so it need not be written or counted.",
        next_step: "Build the number on the mat, point to the empty column, and write 0 for it.",
        source: ZEROS,
        rare: false,
        rule: Rule::Number(rules::zero_dropped),
    },
    Entry {
        slip: Slip::ZeroMoved,
        name: "zero moved",
        thinking: "There is a zero in the number, but any place will do for it.",
        next_step: "Build both numbers on two mats and ask which column is empty on each.",
        source: BESIDE_ZERO,
        rare: false,
        rule: Rule::Number(rules::zero_moved),
    },
    Entry {
        slip: Slip::TeenTy,
        name: "teen and ty confused",
        thinking: "Words that end in teen and in ty sound alike, so they mean the same.",
        next_step: "Say both words slowly, build both with rods and cubes, and compare them.",
        source: TEENS,
        rare: false,
        rule: Rule::Number(rules::teen_ty),
    },
    Entry {
        slip: Slip::TeenReversed,
        name: "teen reversed",
        thinking: "A teen word says its ones first, so the ones are written first.",
        next_step: "Build the teen as one rod and some cubes, then write the rod's digit first.",
        source: TEENS,
        rare: false,
        rule: Rule::Number(rules::teen_reversed),
    },
    Entry {
        slip: Slip::SideBySide,
        name: "parts side by side",
        thinking: "Each part is written out in full, one beside the other.",
        next_step: "Stack the layered cards, so that each smaller part covers the zeros under it.",
        source: WRITING,
        rare: false,
        rule: Rule::Numeral(rules::side_by_side),
    },
    Entry {
        slip: Slip::BigPartThenRest,
        name: "big part, then rest",
        thinking: "The biggest part is written out in full, and the rest comes after it.",
        next_step: "Lay the cards for the rest on top of the biggest card, and read the result.",
        source: DICTATION,
        rare: false,
        rule: Rule::Numeral(rules::big_part_then_rest),
    },
    Entry {
        slip: Slip::HalfOverwritten,
        name: "half overwritten",
        thinking: "The rest goes over the zeros of the biggest part, but one zero too many stays.",
        next_step: "Count the columns on the mat and the digits written: one digit for each column.",
        source: DICTATION,
        rare: false,
        rule: Rule::Numeral(rules::half_overwritten),
    },
    Entry {
        slip: Slip::PlaceWordWritten,
        name: "place word written out",
        thinking: "The word hundred or thousand is heard as a number, so it is written down too.",
        next_step: "Show that hundred and thousand name columns of the mat; only the count in a column is written.",
        source: WRITING,
        rare: false,
        rule: Rule::Numeral(rules::place_word_written),
    },
    Entry {
        slip: Slip::FaceValue,
        name: "digits at face value",
        thinking: "Every digit counts that many ones, wherever it stands.",
        next_step: "Ask which blocks each digit stands for, and lay a rod beside a cube to compare.",
        source: FACE_VALUE,
        rare: false,
        rule: Rule::Form(rules::face_value),
    },
    Entry {
        slip: Slip::NotTraded,
        name: "places not traded",
        thinking: "Ten or more may stay in one column, and the count is written there.",
        next_step: "Trade every ten for one of the next larger block, until no column holds more than nine.",
        source: COLUMNS,
        rare: false,
        rule: Rule::Numeral(rules::not_traded),
    },
    Entry {
        slip: Slip::ReadInPieces,
        name: "read in pieces",
        thinking: "A long numeral is cut into shorter ones, and each is read by itself.",
        next_step: "Cover all but the first digit, say it with its place, then read the rest as one number.",
        source: PIECES,
        rare: false,
        rule: Rule::Form(rules::read_in_pieces),
    },
    Entry {
        slip: Slip::TensOnesSwapped,
        name: "tens and ones swapped",
        thinking: "The digits are known, but not which one counts tens and which counts ones.",
        next_step: "Build both numbers with rods and cubes, and ask which has more tens.",
        source: PRACTICE,
        rare: true,
        rule: Rule::Number(rules::tens_ones_swapped),
    },
    Entry {
        slip: Slip::HundredsTensSwapped,
        name: "hundreds and tens swapped",
        thinking: "The digits are known, but not which one counts hundreds and which counts tens.",
        next_step: "Build both numbers with flats and rods, and ask which has more hundreds.",
        source: PRACTICE,
        rare: true,
        rule: Rule::Number(rules::hundreds_tens_swapped),
    },
    Entry {
        slip: Slip::Reversed,
        name: "digits reversed",
        thinking: "The digits are right, but the number is put down from right to left.",
        next_step: "Point to the left end of the mat, and write the largest place first.",
        source: PRACTICE,
        rare: true,
        rule: Rule::Number(rules::reversed),
    },
];
