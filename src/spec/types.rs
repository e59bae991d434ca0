//! What a lesson file can say.

use std::collections::BTreeMap;
use std::ops::Range;

use super::Language;
use super::choices::{Cut, FontChoice, Ink, Joiner, Paper, SidesAsked, TextSize, Thousands};
use super::display::DisplayPages;
use super::sheet_kind::SheetKind;
use super::version::Version;
use crate::measure::Length;
use crate::number::{Feature, Form, Number, Place, Trading};

/// A value and where the file gives it; no span means that the file is silent and this is the default.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Given<T> {
    /// The value.
    pub value: T,
    /// Its bytes in the lesson file, as `(start, end)`.
    span: Option<(usize, usize)>,
}

impl<T> Given<T> {
    /// A value read from the file.
    pub fn read(value: T, span: Range<usize>) -> Self {
        Self { value, span: Some((span.start, span.end)) }
    }

    /// A value the file does not give.
    pub fn assumed(value: T) -> Self {
        Self { value, span: None }
    }

    /// Where the file gives it.
    pub fn span(&self) -> Option<Range<usize>> {
        self.span.map(|(start, end)| start..end)
    }

    /// Whether the file is silent about it.
    pub fn is_assumed(&self) -> bool {
        self.span.is_none()
    }
}

/// A whole lesson file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Spec {
    /// The lesson's name, printed on every sheet.
    pub title: Given<String>,
    /// The grade, printed only.
    pub grade: Option<Given<String>>,
    /// How long the lesson lasts, 10..=240.
    pub minutes: Given<u32>,
    /// The paper everything is printed on.
    pub paper: Given<Paper>,
    /// What the choice of numbers and every shuffle start from.
    pub seed: Given<u64>,
    /// The language of its pages.
    pub language: Given<Language>,
    /// Another language, which number words, headings, word bank and page home are in as well.
    pub second_language: Option<Given<Language>>,
    /// Which numbers.
    pub numbers: NumbersSpec,
    /// Which forms.
    pub forms: FormsSpec,
    /// For whom.
    pub class: ClassSpec,
    /// Learners with numbers of their own; whoever is in none gets the class's.
    pub groups: Vec<GroupSpec>,
    /// How it is printed and cut.
    pub print: PrintSpec,
    /// Which sheets.
    pub sheets: SheetsSpec,
}

/// Learners with numbers of their own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GroupSpec {
    /// What the teacher calls it.
    pub name: Given<String>,
    /// How many learners are in it; where the file is silent, the roster says.
    pub learners: Option<Given<u32>>,
    /// How many versions of its sort set there are.
    pub versions: Given<u32>,
    /// Its numbers: its own requests, and the class's where it makes none. It has no model numbers of its own.
    pub numbers: NumbersSpec,
    /// Its forms, in the same way.
    pub forms: FormsSpec,
    /// What was worked out for it or left out of the class's requests, in plain words.
    pub notes: Vec<String>,
}

/// Requests that all numbers must meet, and those of each role.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NumbersSpec {
    /// Least and greatest number, both included; least <= greatest.
    pub range: Given<(Number, Number)>,
    /// Numbers never chosen.
    pub never: Vec<Given<Number>>,
    /// The largest digit allowed in each place.
    pub at_most: AtMost,
    /// Numbers built with the class.
    pub model: RoleSpec,
    /// The matching set, one for each version.
    pub sort: RoleSpec,
    /// The quick check at the end.
    pub exit: RoleSpec,
}

impl NumbersSpec {
    /// Whether no number has more than one digit but 10: none has tens and ones to tell apart.
    pub fn counts_to_ten(&self) -> bool {
        self.range.value.1.value() <= 10
    }

    /// How a lesson of this seed trades: pictures stay within what the class's tub holds, where the file says it.
    pub fn trading(&self, seed: u64) -> Trading {
        Trading { seed, tub: Place::ALL.map(|place| self.at_most.get(&place).map_or(u8::MAX, |most| most.value)) }
    }
}

/// The largest digit in each place that has a limit, 0..=99 each: above 9 it limits only how many blocks an untraded picture shows.
pub type AtMost = BTreeMap<Place, Given<u8>>;

/// What a role asks of its numbers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RoleSpec {
    /// How many numbers; 0 leaves the role out.
    pub count: Given<u32>,
    /// Numbers that must be among them.
    pub always: Vec<Given<Number>>,
    /// Numbers that must be among those of one version, counted from the first of the class or group that asks; of the sort
    /// numbers only.
    pub always_in: BTreeMap<Version, Vec<Given<Number>>>,
    /// How many numbers show a 0 in a place.
    pub zeros: BTreeMap<Place, Given<Bound>>,
    /// How many numbers have a digit that appears more than once.
    pub repeats: Option<Given<Bound>>,
    /// How many numbers end in 11..=19.
    pub teens: Option<Given<Bound>>,
    /// How many numbers the largest group made of the same digits has.
    pub same_digits: Option<Given<Bound>>,
}

impl Default for RoleSpec {
    /// A role that is left out.
    fn default() -> Self {
        Self {
            count: Given::assumed(0),
            always: Vec::new(),
            always_in: BTreeMap::new(),
            zeros: BTreeMap::new(),
            repeats: None,
            teens: None,
            same_digits: None,
        }
    }
}

impl RoleSpec {
    /// How many numbers of a version are asked for by name, at the most.
    pub fn named(&self) -> usize {
        self.always.len() + self.always_in.values().map(Vec::len).max().unwrap_or(0)
    }

    /// The numbers that are asked for by name, those of all versions first, then those of one, with which.
    pub fn by_name(&self) -> impl Iterator<Item = (Option<Version>, &Given<Number>)> {
        let all = self.always.iter().map(|given| (None, given));
        let own = self.always_in.iter();
        all.chain(own.flat_map(|(version, numbers)| numbers.iter().map(move |given| (Some(*version), given))))
    }

    /// What is asked about the features of its numbers, in the order of the contract.
    pub fn features(&self) -> impl Iterator<Item = (Feature, Given<Bound>)> {
        let zeros = self.zeros.iter().map(|(&place, &bound)| (Feature::Zero(place), bound));
        let others = [(Feature::Repeat, self.repeats), (Feature::Teen, self.teens)];
        zeros.chain(others.into_iter().filter_map(|(feature, bound)| Some((feature, bound?))))
    }
}

/// How many: at least `min` and, where given, at most `max`; `min <= max`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bound {
    /// At least this many.
    pub min: u32,
    /// At most this many.
    pub max: Option<u32>,
}

impl Bound {
    /// Whether `count` lies within.
    pub fn allows(self, count: u32) -> bool {
        self.min <= count && self.max.is_none_or(|max| count <= max)
    }
}

/// Which forms are matched and how they are written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormsSpec {
    /// Two to five different forms; the first is printed on the board, the rest are strips.
    pub matched: Given<Vec<Form>>,
    /// Between the hundreds and the rest of a number's words.
    pub joiner: Given<Joiner>,
    /// Whether expanded form shows a place that holds 0; unit form always does.
    pub zero_terms: Given<bool>,
    /// The mark between thousands and hundreds.
    pub thousands: Given<Thousands>,
    /// Extra strips made by slips, in each set.
    pub decoys: Given<u32>,
    /// What the class calls forms, where it has words of its own.
    pub names: FormNames,
}

/// What a class calls forms; a form without a name is called what the language calls it.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FormNames(BTreeMap<Form, Given<String>>);

impl FormNames {
    /// The names that a file gives.
    pub fn new(names: BTreeMap<Form, Given<String>>) -> Self {
        Self(names)
    }

    /// These names, and where both name a form, the others.
    #[must_use]
    pub fn and(mut self, others: Self) -> Self {
        self.0.extend(others.0);
        self
    }

    /// The class's own word for a form, as a heading: "Standard form".
    pub fn get(&self, form: Form) -> Option<&str> {
        self.0.get(&form).map(|name| name.value.as_str())
    }
}

/// For whom.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ClassSpec {
    /// How many learners, at least 1.
    pub learners: Given<u32>,
    /// How many extra sets.
    pub spares: Given<u32>,
    /// How many sort sets, 1..=26, lettered A, B, C ...
    pub versions: Given<u32>,
    /// The roster's file name, as the lesson gives it.
    pub roster: Option<Given<String>>,
    /// How many learners use one copy of each of [`SheetKind::KITS`], at least 1.
    pub share: BTreeMap<SheetKind, Given<u32>>,
}

impl ClassSpec {
    /// How many learners use one copy of a sheet: 1 of any that is used up.
    pub fn share(&self, kind: SheetKind) -> u32 {
        self.share.get(&kind).map_or(1, |given| given.value.max(1))
    }
}

/// How it is printed and cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PrintSpec {
    /// How the class sets are cut.
    pub cut: Given<Cut>,
    /// Which sides are printed.
    pub sides: Given<SidesAsked>,
    /// Grey or colour.
    pub ink: Given<Ink>,
    /// Standard or large text.
    pub text: Given<TextSize>,
    /// What the printer cannot reach, on every side.
    pub margin: Given<Length>,
    /// The typeface.
    pub font: Given<FontChoice>,
    /// Whether a sheet parts one part of the copy room's files from the next.
    pub slip_sheets: Given<bool>,
}

/// Which sheets to make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetsSpec {
    /// The sheets, each once.
    pub make: Given<Vec<SheetKind>>,
    /// How model numbers are shown on the display.
    pub display: Given<DisplayPages>,
    /// A folder of layout files that take the place of the bundled ones for this lesson, as the lesson gives it.
    pub layouts: Option<Given<String>>,
}
