//! The lesson as all sheets see it.

use std::collections::BTreeMap;

use super::exit::check::Check;
use super::in_play::InPlay;
use super::types::{Chosen, Role, SortSet};
use super::week::WarmUp;
use crate::number::{Form, Number, Place, Slip, Style};
use crate::spec::{FormsSpec, NumbersSpec, SheetKind, Spec, Version};
use crate::wording::{ReadIn, Tools};

/// A lesson ready to be laid out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lesson {
    /// What was asked for.
    pub spec: Spec,
    /// The same, with as many rows, questions and forms as any of its groups has: what the plan's time is for.
    pub fullest: Spec,
    /// How forms are written.
    pub style: Style,
    /// The numbers.
    pub chosen: Chosen,
    /// One a version.
    pub sets: Vec<SortSet>,
    /// The quick checks, one for each exit number.
    pub checks: Vec<Check>,
    /// The slips behind decoys and wrong choices, with the letters that all sheets use.
    pub slips: Vec<InPlay>,
    /// Names from the roster in order; empty without one.
    pub roster: Vec<String>,
    /// Who gets which versions and checks, in the order of the letters; empty where all get the class's.
    pub groups: Vec<LessonGroup>,
    /// The week after, where it is asked for.
    pub warm_up: Option<WarmUp>,
}

/// Learners who get numbers of their own, or everyone else.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LessonGroup {
    /// What the teacher calls it; none for everyone else.
    pub name: Option<String>,
    /// Its numbers.
    pub numbers: NumbersSpec,
    /// Its forms.
    pub forms: FormsSpec,
    /// How they are written.
    pub style: Style,
    /// The numbers of its learners, counted from 1, rising.
    pub learners: Vec<u32>,
    /// Its versions.
    pub versions: Vec<Version>,
    /// Its exit numbers.
    pub exit: Vec<Number>,
    /// The marks of its quick checks.
    pub checks: Vec<u32>,
    /// How many sets satisfy each role's requests; see [`Chosen::solutions`].
    pub solutions: BTreeMap<Role, String>,
}

impl LessonGroup {
    /// The marks of its first and its last quick check; none where it has none.
    pub fn marks(&self) -> Option<(u32, u32)> {
        self.checks.first().copied().zip(self.checks.last().copied())
    }
}

/// Learners who practice with the same numbers: all of them, or those of a group.
#[derive(Debug, Clone, Copy)]
pub struct LessonPart<'l> {
    /// The numbers they may meet.
    pub numbers: &'l NumbersSpec,
    /// How their forms are written.
    pub style: &'l Style,
    /// Their versions; empty where the class is one.
    pub versions: &'l [Version],
    /// The marks of their quick checks; likewise.
    pub checks: &'l [u32],
    /// What the teacher calls them; none for the class, and for everyone in no group.
    pub name: Option<&'l str>,
}

impl LessonPart<'_> {
    /// What a random stream for these learners is called.
    pub fn purpose(&self, what: &str) -> String {
        self.versions.first().map_or_else(|| what.to_owned(), |first| format!("{what} {first}"))
    }
}

impl Lesson {
    /// Who gets other follow-up numbers than others, in the order of the letters. Groups without sets are told apart by no
    /// letter, and so the class is one.
    pub fn parts(&self) -> Vec<LessonPart<'_>> {
        if self.sets.is_empty() || self.groups.is_empty() {
            return vec![self.whole()];
        }
        let part = |group| {
            let LessonGroup { name, numbers, style, versions, checks, .. }: &LessonGroup = group;
            LessonPart { numbers, style, versions, checks, name: name.as_deref() }
        };
        self.groups.iter().map(part).collect()
    }

    /// The forms that learners match: the class's, then what only groups have.
    pub fn matched(&self) -> Vec<Form> {
        let mut forms = self.spec.forms.matched.value.clone();
        for form in self.groups.iter().flat_map(|group| &group.forms.matched.value) {
            if !forms.contains(form) {
                forms.push(*form);
            }
        }
        forms
    }

    /// The numbers that the questions of quick checks are about.
    pub fn checked(&self) -> impl Iterator<Item = Number> {
        self.checks.iter().flat_map(|check| check.questions.iter().map(|question| question.of))
    }

    /// Whether learners who fill the boxes of the board by hand draw in one: a form after the first, which is printed, is a picture.
    pub fn draws_in_boxes(&self) -> bool {
        self.matched().into_iter().skip(1).any(Form::is_picture)
    }

    /// Whether the pages of a sheet that learners get carry the letters of their sets.
    pub fn is_lettered(&self, kind: SheetKind) -> bool {
        match kind {
            SheetKind::Board | SheetKind::Strips => true,
            SheetKind::Practice | SheetKind::Family => self.parts().iter().any(|part| !part.versions.is_empty()),
            _ => false,
        }
    }

    /// The class as one.
    pub fn whole(&self) -> LessonPart<'_> {
        LessonPart { numbers: &self.spec.numbers, style: &self.style, versions: &[], checks: &[], name: None }
    }

    /// What a remedy can use when something goes wrong with a number: kits that are made, and the class's own blocks.
    pub fn tools(&self, number: Number) -> Tools {
        let makes = |kind| self.makes(kind);
        Tools {
            mat: makes(SheetKind::Mat),
            blocks: number <= Number::MAX_BLOCKS && (makes(SheetKind::Blocks) || self.has_tub()),
            cards: makes(SheetKind::Layered),
            read: match number {
                _ if number.shows(Place::TenThousands) => ReadIn::Periods,
                _ if number.shows(Place::Thousands) => ReadIn::Digits,
                _ => ReadIn::Hundreds,
            },
        }
    }

    /// Whether a sheet is asked for.
    pub fn makes(&self, kind: SheetKind) -> bool {
        self.spec.sheets.make.value.contains(&kind)
    }

    /// Whether the class has blocks of its own: whoever makes mats and says what the class's tub holds has one.
    pub fn has_tub(&self) -> bool {
        self.makes(SheetKind::Mat) && !self.spec.numbers.at_most.is_empty()
    }

    /// The letter of a slip on every sheet; none for one that is not in play, and where no sheet tells what letters mean.
    pub fn letter(&self, slip: Slip) -> Option<char> {
        let told = |kind: &SheetKind| matches!(kind, SheetKind::Key | SheetKind::Tally);
        if !self.spec.sheets.make.value.iter().any(told) {
            return None;
        }
        self.slips.iter().find(|in_play| in_play.slip == slip).map(|in_play| in_play.letter)
    }
}
