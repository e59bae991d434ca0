//! Slips: known ways of thinking that turn what is shown into a wrong answer.
//!
//! In: a number, a [`Task`] (what is shown and what is asked) and the lesson's style. Out: the wrong answers that a slip
//! makes of it. Everything that is known of a slip stands in one row of [`catalogue`]; which slips a task can provoke, and
//! which of them explains an answer that several would give, stands in one table, [`pairs`]. Decoys, quick checks, key,
//! tally, plan and small groups draw on these two.

mod answer;
mod catalogue;
mod judging;
mod pairs;
mod rules;
mod trades;

use super::{Content, Form, Number, Place, Style};
use answer::Answer;
use catalogue::{CATALOGUE, Rule, SlipRow};

pub use catalogue::Example;
pub use judging::Judged;

/// A way of thinking that gives a wrong answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slip {
    /// 406 written 46.
    ZeroDropped,
    /// 406 written 460.
    ZeroMoved,
    /// Six hundred fourteen taken for 640.
    TeenTy,
    /// Six hundred seventeen written 671.
    TeenReversed,
    /// Trescientos sesenta y cuatro written 374, in Spanish.
    SoundAlike,
    /// 105 written cien cinco, in Spanish.
    HundredWord,
    /// 642 written 600402.
    SideBySide,
    /// 365 written 30065.
    BigPartThenRest,
    /// 365 written 3065.
    HalfOverwritten,
    /// 642 written 610042.
    PlaceWordWritten,
    /// The 2 in 274 taken for 2 ones.
    FaceValue,
    /// 4 flats and 6 cubes counted as 10.
    CountedAlike,
    /// The 2 in 274 taken for 20.
    PlaceOff,
    /// 834 read "eighty thirty-four".
    ReadInPieces,
    /// 67 taken to be greater than 76.
    FromTheOnes,
    /// 264 taken for 2 hundreds 16 tens 4 ones.
    NotTakenAway,
    /// 264 taken for 1 hundred 7 tens 4 ones.
    OneForOne,
    /// 264 taken for 1 hundred 15 tens 4 ones.
    OneTooFew,
    /// 1 hundred 16 tens 4 ones written 1164.
    CountsSideBySide,
    /// 1 hundred 16 tens 4 ones written 164.
    TenLeftOut,
    /// 264 taken for 246.
    TensOnesSwapped,
    /// 264 taken for 624.
    HundredsTensSwapped,
    /// 264 taken for 462.
    Reversed,
}

/// Slips that the same ten minutes of teaching help against.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SlipFamily {
    /// What an empty place is.
    Zeros,
    /// How teens are said and written.
    Teens,
    /// How parts make one numeral.
    Parts,
    /// What a digit or a block is worth.
    Worth,
    /// What one piece is traded for.
    Trades,
    /// Which place comes first.
    Order,
}

impl SlipFamily {
    /// All families.
    pub const ALL: [Self; 6] = [Self::Zeros, Self::Teens, Self::Parts, Self::Worth, Self::Trades, Self::Order];
}

/// What is shown of a number, and what is asked about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Task {
    /// It is shown in one form and asked for in another.
    Forms {
        /// The form that is shown.
        shown: Form,
        /// The form that is asked for.
        asked: Form,
    },
    /// Its numeral is shown, and what the digit in a place is worth is asked for, as a numeral.
    Worth(Place),
    /// Its numeral is shown beside that of another number, and which of the two is greater is asked.
    Greater(Number),
}

impl Task {
    /// Shown in one form and asked for in another.
    pub const fn forms(shown: Form, asked: Form) -> Self {
        Self::Forms { shown, asked }
    }

    /// The form in which its number is shown.
    pub const fn shown(self) -> Form {
        match self {
            Self::Forms { shown, .. } => shown,
            Self::Worth(_) | Self::Greater(_) => Form::Numeral,
        }
    }

    /// The form of its answers.
    pub const fn asked(self) -> Form {
        match self {
            Self::Forms { asked, .. } => asked,
            Self::Worth(_) | Self::Greater(_) => Form::Numeral,
        }
    }

    /// The right answer. Returns `None` where the number does not have the form asked for.
    pub fn right(self, number: Number, style: &Style) -> Option<Content> {
        Answer::right(self, number, style)?.content(number, self.asked(), style)
    }

    /// The slips that what is shown can provoke, the likeliest reason first: where two give the same answer, the first
    /// explains it. The order and its grounds are in `pairs.rs`.
    pub const fn provokes(self) -> &'static [Slip] {
        pairs::provoked(self)
    }

    /// Every wrong answer with the one slip that explains it, the likeliest slips first.
    pub fn wrong(self, number: Number, style: &Style) -> Vec<(Slip, Content)> {
        let answers = self.answers(number, style).into_iter();
        answers.filter_map(|(slip, answer)| Some((slip, answer.content(number, self.asked(), style)?))).collect()
    }

    /// The slips that explain wrong answers, the likeliest first: those of [`Task::wrong`], each once, and nothing is written
    /// out for it.
    pub fn slips(self, number: Number, style: &Style) -> Vec<Slip> {
        let mut slips: Vec<Slip> = self.answers(number, style).into_iter().map(|(slip, _)| slip).collect();
        // The answers of a slip stand side by side.
        slips.dedup();
        slips
    }

    fn answers(self, number: Number, style: &Style) -> Vec<(Slip, Answer)> {
        let is_shown = match self {
            Self::Forms { shown, .. } => shown.is_of(number, style),
            Self::Worth(place) => number.shows(place),
            Self::Greater(_) => true,
        };
        let Some(right) = Answer::right(self, number, style).filter(|_| is_shown) else { return Vec::new() };
        let asked = self.asked();
        let mut answers: Vec<(Slip, Answer)> = Vec::new();
        for &slip in self.provokes() {
            slip.each(number, self, style, &mut |answer| {
                let alike = |(_, other): &(Slip, Answer)| other.looks_like(&answer, number, asked, style);
                if !answer.is_as(&right, number, asked, style) && !answers.iter().any(alike) {
                    answers.push((slip, answer));
                }
            });
        }
        answers
    }

    /// The slip that explains an answer, if one does.
    pub fn explain(self, number: Number, answer: &Content, style: &Style) -> Option<Slip> {
        self.wrong(number, style).into_iter().find(|(_, content)| content == answer).map(|(slip, _)| slip)
    }
}

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

    /// How numbers are said where it is taught about: in the language whose words provoke it.
    pub fn spoken(self, style: &Style) -> Style {
        let second = style.in_second().filter(|second| self.only() == Some(second.names.tag()));
        second.unwrap_or(*style)
    }

    /// Whether it is rare among learners who speak English, so that other slips are worth asking for first.
    pub fn is_rare(self) -> bool {
        self.row().rare
    }

    /// The wrong answers that this slip, and no likelier one, makes of a number in a task. None where it makes none: the
    /// result would be right, or begin with 0, or what is shown does not provoke it.
    pub fn wrong(self, number: Number, task: Task, style: &Style) -> Vec<Content> {
        let all = task.wrong(number, style).into_iter();
        all.filter(|(slip, _)| *slip == self).map(|(_, content)| content).collect()
    }

    /// How this slip, and no likelier one, judges two different numbers that are compared; `None` where it judges right or
    /// not at all.
    pub fn judges(self, one: Number, other: Number) -> Option<Judged> {
        let judged = judging::greater(self, one, other)?;
        let first =
            Task::Greater(other).provokes().iter().find(|slip| judging::greater(**slip, one, other) == Some(judged));
        (first == Some(&self)).then_some(judged)
    }

    /// What the rule gives, right or wrong.
    fn each(self, number: Number, task: Task, style: &Style, found: &mut dyn FnMut(Answer)) {
        let (shown, asked) = match task {
            Task::Forms { shown, asked } => (shown, asked),
            Task::Worth(place) => {
                return judging::worths(self, number, place).for_each(|worth| found(Answer::Form(worth)));
            }
            // That both are equal is no numeral: see [`Slip::judges`].
            Task::Greater(other) => {
                if self.judges(number, other) == Some(Judged::Lesser) {
                    found(Answer::Form(number.min(other)));
                }
                return;
            }
        };
        // Where words stand in two languages at once, nobody is misled by those of one.
        if style.both && self.only().is_some() && (shown == Form::Words || asked == Form::Words) {
            return;
        }
        match self.row().rule {
            Rule::Number(rule) => {
                let heard = style.spoken(if shown.is_words() { shown } else { asked });
                let other = rule(number, shown, &heard).and_then(|other| Answer::of(other, asked, style));
                other.into_iter().for_each(found);
            }
            Rule::Digits(rule) => rule(number, shown, style).map(Answer::Digits).into_iter().for_each(found),
            Rule::Forms(rule) if asked == Form::Words && style.both => {
                let [first, second] =
                    [Form::Words, Form::SecondWords].map(|form| rule(number, asked, &style.spoken(form)));
                first.into_iter().zip(second).filter_map(both).map(Answer::Other).for_each(found);
            }
            Rule::Forms(rule) => {
                rule(number, asked, &style.spoken(asked)).into_iter().map(Answer::Other).for_each(found);
            }
            Rule::Judging => {}
        }
    }

    fn row(self) -> &'static SlipRow {
        // The enum and the table keep one order; a test below holds them together.
        &CATALOGUE[self as usize]
    }
}

/// The same mistake in two languages.
fn both(pair: (Content, Content)) -> Option<Content> {
    match pair {
        (Content::Text(first), Content::Text(second)) => Some(Content::Both([first, second])),
        _ => None,
    }
}

/// Digits put together wrongly, with thousands marks only where the learner has met them: in numerals from 1,000 up. A
/// mark in 4,006 would show that 406 was not meant.
fn marked(of: Number, digits: &str, style: &Style) -> String {
    if of.value() < 1_000 { digits.to_owned() } else { style.grouped(digits) }
}

#[cfg(test)]
mod tests;
