//! What a lesson file can say.

use std::collections::BTreeMap;
use std::ops::Range;

use super::Language;
use crate::measure::{Length, Size};
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
            zeros: BTreeMap::new(),
            repeats: None,
            teens: None,
            same_digits: None,
        }
    }
}

impl RoleSpec {
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

/// Between the hundreds and the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Joiner {
    /// four hundred six
    None,
    /// four hundred and six
    And,
}

impl Joiner {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::None, Self::And];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::And => "and",
        }
    }
}

/// The mark between thousands and hundreds in a numeral.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Thousands {
    /// 1,010
    Comma,
    /// 1 010, with a narrow space that does not break
    Space,
    /// 1010
    None,
}

impl Thousands {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Comma, Self::Space, Self::None];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Comma => "comma",
            Self::Space => "space",
            Self::None => "none",
        }
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
}

/// How class sets are cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cut {
    /// Each learner's pieces on that learner's own page.
    Scissors,
    /// The whole pile at once, so that each cut pile is one learner's set.
    Stack,
}

impl Cut {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Scissors, Self::Stack];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Scissors => "scissors",
            Self::Stack => "stack",
        }
    }
}

/// Which sides are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum SidesAsked {
    /// Fronts only.
    One,
    /// Backs carry a self-check mark.
    Two,
}

impl SidesAsked {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::One, Self::Two];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::One => "one",
            Self::Two => "two",
        }
    }
}

/// Grey or colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Ink {
    /// Black and greys.
    Grey,
    /// A colour-blind-safe palette that also works in grey.
    Colour,
}

impl Ink {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Grey, Self::Colour];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Grey => "grey",
            Self::Colour => "colour",
        }
    }
}

/// How large learner text is at least.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TextSize {
    /// 14 pt
    Standard,
    /// 24 pt
    Large,
}

impl TextSize {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Standard, Self::Large];

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Standard => "standard",
            Self::Large => "large",
        }
    }
}

/// A typeface.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum FontChoice {
    /// A bundled family by its word in a lesson file.
    Andika,
    /// A bundled family by its word in a lesson file: `lato`.
    Lato,
    /// A path to a TTF or OTF file, as the lesson gives it.
    File(String),
}

impl FontChoice {
    /// The words of the bundled families.
    pub const BUNDLED: [&'static str; 2] = ["andika", "lato"];

    /// What the lesson file says for it.
    pub fn word(&self) -> &str {
        match self {
            Self::Andika => "andika",
            Self::Lato => "lato",
            Self::File(path) => path,
        }
    }
}

/// A paper size. Dimensions from ANSI/ASME Y14.1 and ISO 216; names from PWG 5101.1.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 8.5 x 11 in
    Letter,
    /// 8.5 x 14 in
    Legal,
    /// 11 x 17 in
    Tabloid,
    /// 210 x 297 mm
    A4,
    /// 297 x 420 mm
    A3,
}

impl Paper {
    /// All papers.
    pub const ALL: [Self; 5] = [Self::Letter, Self::Legal, Self::Tabloid, Self::A4, Self::A3];

    /// Its size, upright (shorter side across).
    pub const fn size(self) -> Size {
        match self {
            Self::Letter => Size::new(Length::pt(612), Length::pt(792)),
            Self::Legal => Size::new(Length::pt(612), Length::pt(1008)),
            Self::Tabloid => Size::new(Length::pt(792), Length::pt(1224)),
            Self::A4 => Size::new(Length::mm(210), Length::mm(297)),
            Self::A3 => Size::new(Length::mm(297), Length::mm(420)),
        }
    }

    /// The word in a lesson file.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::Legal => "legal",
            Self::Tabloid => "tabloid",
            Self::A4 => "a4",
            Self::A3 => "a3",
        }
    }

    /// The name as people write it.
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            other => other.word(),
        }
    }

    /// The PWG 5101.1 self-describing media name, shorter side first.
    pub const fn media(self) -> &'static str {
        match self {
            Self::Letter => "na_letter_8.5x11in",
            Self::Legal => "na_legal_8.5x14in",
            Self::Tabloid => "na_ledger_11x17in",
            Self::A4 => "iso_a4_210x297mm",
            Self::A3 => "iso_a3_297x420mm",
        }
    }
}

/// Which sheets to make.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetsSpec {
    /// The sheets, each once.
    pub make: Given<Vec<SheetKind>>,
    /// A folder of layout files that take the place of the bundled ones for this lesson, as the lesson gives it.
    pub layouts: Option<Given<String>>,
}

/// One kind of page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SheetKind {
    /// One model number a page, big.
    Display,
    /// Place-value mat to build on.
    Mat,
    /// Flats, rods and cubes to cut out at true size.
    Blocks,
    /// Expanded-form cards that lie on top of each other.
    Layered,
    /// One row a number to write on.
    Record,
    /// Number words beside their numerals.
    WordBank,
    /// One row a sort number with boxes to fill.
    Board,
    /// The pieces for the boxes.
    Strips,
    /// The quick check, several slips a page.
    Exit,
    /// Every board, strip set and exit slip answered.
    Key,
    /// Class list against skills and slips.
    Tally,
    /// For tomorrow: a ten-minute lesson for each slip.
    SmallGroups,
    /// One page of exercises on the lesson's skills.
    Practice,
    /// One page home.
    Family,
    /// The lesson minute by minute.
    Plan,
    /// The substitute's first page.
    Cover,
    /// The copy room's job ticket.
    Ticket,
}

impl SheetKind {
    /// All kinds, in the order of the contract.
    pub const ALL: [Self; 17] = [
        Self::Display,
        Self::Mat,
        Self::Blocks,
        Self::Layered,
        Self::Record,
        Self::WordBank,
        Self::Board,
        Self::Strips,
        Self::Exit,
        Self::Key,
        Self::Tally,
        Self::SmallGroups,
        Self::Practice,
        Self::Family,
        Self::Plan,
        Self::Cover,
        Self::Ticket,
    ];

    /// Sheets that are made once and kept for other lessons.
    pub const KITS: [Self; 4] = [Self::Mat, Self::Blocks, Self::Layered, Self::WordBank];

    /// The word in lesson files, on the command line and in `contents.json`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Display => "display",
            Self::Mat => "mat",
            Self::Blocks => "blocks",
            Self::Layered => "layered",
            Self::Record => "record",
            Self::WordBank => "word-bank",
            Self::Board => "board",
            Self::Strips => "strips",
            Self::Exit => "exit",
            Self::Key => "key",
            Self::Tally => "tally",
            Self::SmallGroups => "small-groups",
            Self::Practice => "practice",
            Self::Family => "family",
            Self::Plan => "plan",
            Self::Cover => "cover",
            Self::Ticket => "ticket",
        }
    }

    /// Whether it is made where a lesson file does not list the sheets: a page for every learner that the lesson itself
    /// does not need is made on request.
    pub const fn is_usual(self) -> bool {
        self.is_asked_for() && !matches!(self, Self::Practice | Self::Family)
    }

    /// Whether a lesson file may list it under `make`: the plan, the cover and the ticket come with their packets.
    pub const fn is_asked_for(self) -> bool {
        !matches!(self, Self::Plan | Self::Cover | Self::Ticket)
    }
}
