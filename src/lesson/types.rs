//! What a lesson holds.

use std::collections::BTreeMap;

use crate::number::{Content, Feature, Form, Number, Slip, Style, Task};
use crate::spec::Version;

/// What a number is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Built with the class.
    Model,
    /// In the matching set.
    Sort,
    /// In the quick check at the end.
    Exit,
}

impl Role {
    /// All roles, in the order they are chosen and reported.
    pub const ALL: [Self; 3] = [Self::Model, Self::Sort, Self::Exit];

    /// The word in lesson files and reports.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Model => "model",
            Self::Sort => "sort",
            Self::Exit => "exit",
        }
    }
}

/// Why a number is in its set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Reason {
    /// The file names it.
    Always,
    /// It has a feature that was asked for.
    Feature(Feature),
    /// It is made of the same digits as others.
    SameDigits,
    /// It fills the count with a number of the range.
    Range,
}

impl Reason {
    /// The key of the lesson file that asks for it: `always`, `zeros.tens`, `repeats`, `teens`, `same_digits`, `range`.
    pub fn key(self) -> String {
        match self {
            Self::Always => "always".to_owned(),
            Self::Feature(feature) => feature.key(),
            Self::SameDigits => "same_digits".to_owned(),
            Self::Range => "range".to_owned(),
        }
    }
}

/// The chosen numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chosen {
    /// The model numbers, in teaching order.
    pub model: Vec<Number>,
    /// One set a version, in board order.
    pub sort: Vec<Vec<Number>>,
    /// The exit numbers.
    pub exit: Vec<Number>,
    /// What each number is there for.
    pub why: BTreeMap<Number, Vec<Reason>>,
    /// How many sets satisfy each role's requests, as a decimal string; a role left out is missing.
    pub solutions: BTreeMap<Role, String>,
    /// What could not be kept because the range is too small (overlaps), in plain words.
    pub notes: Vec<String>,
}

impl Chosen {
    /// The numbers that are built, matched or written: the model numbers, then the sort numbers set by set.
    pub fn built(&self) -> impl Iterator<Item = Number> {
        self.model.iter().chain(self.sort.iter().flatten()).copied()
    }
}

/// A wrong answer and the one slip that makes it.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Wrong {
    /// The number it is a wrong answer about.
    pub of: Number,
    /// What is shown and what is asked.
    pub task: Task,
    /// What is shown.
    pub content: Content,
    /// The thinking that makes it.
    pub slip: Slip,
}

/// One piece to sort.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Strip {
    /// Which form it shows.
    pub form: Form,
    /// What it shows.
    pub content: Content,
    /// The row of the board it belongs in, from 0; none for a decoy.
    pub row: Option<usize>,
    /// For a decoy: the number it was made from and the slip.
    pub wrong: Option<(Number, Slip)>,
}

/// A board and its strips.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SortSet {
    /// Which version.
    pub version: Version,
    /// The group whose set it is, as an index into [`Lesson::groups`](super::Lesson::groups); none where there are no groups.
    pub group: Option<usize>,
    /// How its forms are written.
    pub style: Style,
    /// The numbers, one a row.
    pub rows: Vec<Number>,
    /// The form that is printed on the board.
    pub given: Form,
    /// The forms that are strips, in the order of the board's columns.
    pub forms: Vec<Form>,
    /// All strips, shuffled, decoys among them.
    pub strips: Vec<Strip>,
}

impl SortSet {
    /// Its decoys, in the order of the rows they were made from, then of the forms.
    pub fn decoys(&self) -> Vec<Wrong> {
        let wrong = |strip: &Strip| {
            let (of, slip) = strip.wrong?;
            Some(Wrong { of, task: Task::forms(self.given, strip.form), content: strip.content.clone(), slip })
        };
        let mut decoys: Vec<Wrong> = self.strips.iter().filter_map(wrong).collect();
        decoys.sort_by_key(|decoy| (self.rows.iter().position(|row| *row == decoy.of), decoy.task, decoy.slip));
        decoys
    }
}
