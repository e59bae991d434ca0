//! The table of slips: one row each, all that the program knows of it.
//!
//! What a slip is called on paper, what the learner thinks and what helps is said by each language (`wording::Slips`).

use super::{Content, Form, Number, Place, Slip, SlipFamily, Style, Task, rules, trades};

/// One slip.
pub(super) struct SlipRow {
    pub slip: Slip,
    pub family: SlipFamily,
    pub word: &'static str,
    pub example: Example,
    pub source: &'static str,
    pub only: Option<&'static str>,
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
    Number(fn(Number, Form, &Style) -> Option<Number>),
    /// It puts digits together wrongly from the form that is shown: bare digits out, numerals only.
    Digits(fn(Number, Form, &Style) -> Option<u64>),
    /// It goes wrong in the form that is asked for in a way of its own.
    Forms(fn(Number, Form, &Style) -> Option<Content>),
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
const NO_DECREMENT: &str = "Brown and Burton 1978, Cognitive Science 2(2), 155-192: taking away, with nothing taken from the place that gives; \
                            from memory, carried over to regrouped forms by us";
const COLUMNS: &str = "Fuson 1990, Cognition and Instruction 7(4), 343-403: a count of two digits written in one place";
const PRACTICE: &str = "common practice, no source";

/// The number that [`Slip::FromTheOnes`] takes to be greater than 76.
const SIXTY_SEVEN: Number = match Number::new(67) {
    Some(number) => number,
    None => Number::MIN,
};

/// All slips. Inversions are marked rare by Steiner et al. 2021.
const CATALOGUE: [SlipRow; 23] = [
    SlipRow {
        slip: Slip::ZeroDropped,
        family: SlipFamily::Zeros,
        word: "zero dropped",
        example: example(406, Form::Words, Form::Numeral, "46"),
        source: ZEROS,
        only: None,
        rare: false,
        rule: Rule::Number(|number, _, _| rules::zero_dropped(number)),
    },
    SlipRow {
        slip: Slip::ZeroMoved,
        family: SlipFamily::Zeros,
        word: "zero moved",
        example: example(406, Form::Numeral, Form::Words, "four hundred sixty"),
        source: BESIDE_ZERO,
        only: None,
        rare: false,
        rule: Rule::Number(|number, _, _| rules::zero_moved(number)),
    },
    SlipRow {
        slip: Slip::TeenTy,
        family: SlipFamily::Teens,
        word: "teen and ty confused",
        example: example(614, Form::Words, Form::Numeral, "640"),
        source: TEENS,
        only: Some("en-US"),
        rare: false,
        rule: Rule::Number(|number, _, style| rules::teen_ty(number, style)),
    },
    SlipRow {
        slip: Slip::TeenReversed,
        family: SlipFamily::Teens,
        word: "teen reversed",
        example: example(617, Form::Words, Form::Numeral, "671"),
        source: TEENS,
        only: Some("en-US"),
        rare: false,
        rule: Rule::Number(rules::teen_reversed),
    },
    SlipRow {
        slip: Slip::SoundAlike,
        family: SlipFamily::Teens,
        word: "words that sound alike",
        example: example(364, Form::Words, Form::Numeral, "374"),
        source: PRACTICE,
        only: Some("es"),
        rare: false,
        rule: Rule::Number(|number, _, style| rules::sound_alike(number, style)),
    },
    SlipRow {
        slip: Slip::HundredWord,
        family: SlipFamily::Teens,
        word: "hundred word wrong",
        example: example(105, Form::Numeral, Form::Words, "cien cinco"),
        source: PRACTICE,
        only: Some("es"),
        rare: false,
        rule: Rule::Forms(rules::misspelt),
    },
    SlipRow {
        slip: Slip::SideBySide,
        family: SlipFamily::Parts,
        word: "parts side by side",
        example: example(642, Form::Words, Form::Numeral, "600402"),
        source: WRITING,
        only: None,
        rare: false,
        rule: Rule::Digits(rules::side_by_side),
    },
    SlipRow {
        slip: Slip::BigPartThenRest,
        family: SlipFamily::Parts,
        word: "big part, then rest",
        example: example(365, Form::Words, Form::Numeral, "30065"),
        source: DICTATION,
        only: None,
        rare: false,
        rule: Rule::Digits(rules::big_part_then_rest),
    },
    SlipRow {
        slip: Slip::HalfOverwritten,
        family: SlipFamily::Parts,
        word: "half overwritten",
        example: example(365, Form::Words, Form::Numeral, "3065"),
        source: DICTATION,
        only: None,
        rare: false,
        rule: Rule::Digits(rules::half_overwritten),
    },
    SlipRow {
        slip: Slip::PlaceWordWritten,
        family: SlipFamily::Parts,
        word: "place word written out",
        example: example(642, Form::Words, Form::Numeral, "610042"),
        source: WRITING,
        only: None,
        rare: false,
        rule: Rule::Digits(rules::place_word_written),
    },
    SlipRow {
        slip: Slip::FaceValue,
        family: SlipFamily::Worth,
        word: "digits at face value",
        example: Example { of: 274, task: Task::Worth(Place::Hundreds), answer: "2" },
        source: FACE_VALUE,
        only: None,
        rare: false,
        rule: Rule::Forms(rules::face_value),
    },
    SlipRow {
        slip: Slip::CountedAlike,
        family: SlipFamily::Worth,
        word: "blocks counted alike",
        example: example(406, Form::Blocks, Form::Numeral, "10"),
        source: ALIKE,
        only: None,
        rare: false,
        rule: Rule::Number(rules::counted_alike),
    },
    SlipRow {
        slip: Slip::PlaceOff,
        family: SlipFamily::Worth,
        word: "place off by one",
        example: Example { of: 274, task: Task::Worth(Place::Hundreds), answer: "20" },
        source: PRACTICE,
        only: None,
        rare: false,
        rule: Rule::Judging,
    },
    SlipRow {
        slip: Slip::ReadInPieces,
        family: SlipFamily::Parts,
        word: "read in pieces",
        example: example(834, Form::Numeral, Form::Words, "eighty thirty-four"),
        source: PIECES,
        only: None,
        rare: false,
        rule: Rule::Forms(rules::read_in_pieces),
    },
    SlipRow {
        slip: Slip::FromTheOnes,
        family: SlipFamily::Order,
        word: "compared from the ones",
        example: Example { of: 76, task: Task::Greater(SIXTY_SEVEN), answer: "67" },
        source: PRACTICE,
        only: None,
        rare: false,
        rule: Rule::Judging,
    },
    SlipRow {
        slip: Slip::NotTakenAway,
        family: SlipFamily::Trades,
        word: "traded piece kept",
        example: example(364, Form::Numeral, Form::Regrouped, "3 hundreds 16 tens 4 ones"),
        source: NO_DECREMENT,
        only: None,
        rare: false,
        rule: Rule::Forms(trades::not_taken_away),
    },
    SlipRow {
        slip: Slip::OneForOne,
        family: SlipFamily::Trades,
        word: "one for one",
        example: example(364, Form::Numeral, Form::Regrouped, "2 hundreds 7 tens 4 ones"),
        source: PRACTICE,
        only: None,
        rare: false,
        rule: Rule::Forms(trades::one_for_one),
    },
    SlipRow {
        slip: Slip::OneTooFew,
        family: SlipFamily::Trades,
        word: "one too few traded",
        example: example(364, Form::Numeral, Form::Regrouped, "2 hundreds 15 tens 4 ones"),
        source: PRACTICE,
        only: None,
        rare: false,
        rule: Rule::Forms(trades::one_too_few),
    },
    SlipRow {
        slip: Slip::CountsSideBySide,
        family: SlipFamily::Trades,
        word: "counts side by side",
        example: example(364, Form::Regrouped, Form::Numeral, "2164"),
        source: COLUMNS,
        only: None,
        rare: false,
        rule: Rule::Digits(trades::counts_side_by_side),
    },
    SlipRow {
        slip: Slip::TenLeftOut,
        family: SlipFamily::Trades,
        word: "ten left out",
        example: example(364, Form::Regrouped, Form::Numeral, "264"),
        source: PRACTICE,
        only: None,
        rare: false,
        rule: Rule::Number(trades::ten_left_out),
    },
    SlipRow {
        slip: Slip::TensOnesSwapped,
        family: SlipFamily::Order,
        word: "tens and ones swapped",
        example: example(264, Form::Blocks, Form::Numeral, "246"),
        source: PRACTICE,
        only: None,
        rare: true,
        rule: Rule::Number(|number, _, _| rules::tens_ones_swapped(number)),
    },
    SlipRow {
        slip: Slip::HundredsTensSwapped,
        family: SlipFamily::Order,
        word: "hundreds and tens swapped",
        example: example(264, Form::Blocks, Form::Numeral, "624"),
        source: PRACTICE,
        only: None,
        rare: true,
        rule: Rule::Number(|number, _, _| rules::hundreds_tens_swapped(number)),
    },
    SlipRow {
        slip: Slip::Reversed,
        family: SlipFamily::Order,
        word: "digits reversed",
        example: example(264, Form::Words, Form::Numeral, "462"),
        source: PRACTICE,
        only: None,
        rare: true,
        rule: Rule::Number(|number, _, _| rules::reversed(number)),
    },
];

impl Slip {
    /// All slips, in the order of the catalogue.
    pub fn all() -> impl ExactSizeIterator<Item = Self> {
        CATALOGUE.iter().map(|row| row.slip)
    }

    /// The word for programs (`contents.json`): in plain English, at most four words, in lower case.
    pub fn word(self) -> &'static str {
        self.row().word
    }

    /// The slips with which it is taught about.
    pub fn family(self) -> SlipFamily {
        self.row().family
    }

    /// One of its answers, as an example.
    pub fn example(self) -> Example {
        self.row().example
    }

    /// Where the research describes it, or "common practice, no source".
    pub fn source(self) -> &'static str {
        self.row().source
    }

    /// The only language (BCP 47) that has the words for it; `None` where every language has.
    pub fn only(self) -> Option<&'static str> {
        self.row().only
    }

    /// Whether it is rare among learners who speak English, so that other slips are worth asking for first.
    pub fn is_rare(self) -> bool {
        self.row().rare
    }

    pub(super) fn row(self) -> &'static SlipRow {
        // The enum and the table keep one order; a test holds them together.
        &CATALOGUE[self as usize]
    }
}
