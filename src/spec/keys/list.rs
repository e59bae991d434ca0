//! The keys themselves, in the order of the lesson file's full form.

use super::key::{GROUP, Key, KeyRow, Keyed, ROLE, SORT, Usually};
use super::kind::{
    EachVersion, FontKind, LineKind, Measure, NumbersKind, OneOf, Path, PathTo, Places, Quantity, Range, Request,
    Sheets, Switch, Whole, WordsKind,
};
use crate::measure::Length;
use crate::number::Form;
use crate::spec::choices::{Cut, FontChoice, Ink, Joiner, Paper, SidesAsked, TextSize, Thousands};
use crate::spec::display::DisplayPages;
use crate::spec::language::Language;
use crate::spec::limits;
use crate::spec::sheet_kind::SheetKind;

const fn one_of<T>(all: &'static [T], word: fn(T) -> &'static str) -> OneOf<T> {
    OneOf { all, word, also: &[] }
}

/// The lesson's name.
pub const TITLE: Key<LineKind> =
    Key::new("", "title", LineKind(limits::TITLE), "\"Harbour stalls\"", "the lesson's name, on every page").needed();
/// The grade.
pub const GRADE: Key<LineKind> =
    Key::new("", "grade", LineKind(limits::GRADE), "\"2\"", "printed on the plan, nothing else");
/// How long the lesson lasts.
pub const MINUTES: Usually<Quantity> =
    Key::new("", "minutes", Quantity(limits::MINUTES), "50", "the plan's times add up to exactly this").usually(45);
/// The paper.
pub const PAPER: Usually<OneOf<Paper>> =
    Key::new("", "paper", one_of(&Paper::ALL, Paper::word), "\"a4\"", "the paper of every page").usually(Paper::Letter);
/// Where the choice of numbers starts.
pub const SEED: Key<Whole> =
    Key::new("", "seed", Whole(limits::SEED), "2", "another seed, other numbers; the same seed, the same pages")
        .worked("made from the title, so that lessons differ");
/// The language of the pages.
pub const LANGUAGE: Usually<OneOf<Language>> = Key::new(
    "",
    "language",
    one_of(&Language::ALL, Language::word),
    "\"es\"",
    "the language of everything on paper: en: English; es: Spanish",
)
.usually(Language::En);
/// The second language of the pages.
pub const SECOND_LANGUAGE: Key<OneOf<Language>> = Key::new(
    "",
    "second_language",
    one_of(&Language::ALL, Language::word),
    "\"es\"",
    "word strips, board headings, display, word bank and page home in this language too",
);

/// Least and greatest number.
pub const RANGE: Key<Range> =
    Key::new("numbers", "range", Range(limits::NUMBER), "[100, 999]", "the smallest and the largest number").needed();
/// Numbers never chosen.
pub const NEVER: Key<NumbersKind> =
    Key::new("numbers", "never", NumbersKind(limits::NUMBER), "[500]", "numbers to leave out");
/// The largest digit in each place.
pub const AT_MOST: Key<Places<Quantity>> = Key::new(
    "numbers",
    "at_most",
    Places(Quantity(limits::AT_MOST)),
    "{ hundreds = 6 }",
    "the largest digit in a place, or how many of its blocks the class has, if more than 9",
);

/// How many numbers a role has where the file is silent, in the order of [`super::ROLES`].
pub const COUNTS: [u32; 3] = [3, 8, 4];
/// How many numbers a role has.
pub const COUNT: Key<Quantity> =
    Key::new(ROLE, "count", Quantity(limits::COUNT), "6", "how many; 0 leaves the role out")
        .worked("3 model, 8 sort and 4 exit numbers; fewer in a small range, more where requests need them");
/// Numbers that must be among them.
pub const ALWAYS: Key<NumbersKind> =
    Key::new(ROLE, "always", NumbersKind(limits::NUMBER), "[640]", "numbers that must be among them");
/// Numbers that must be among those of one version.
pub const ALWAYS_IN: Key<EachVersion> = Key::new(
    SORT,
    "always_in",
    EachVersion(NumbersKind(limits::NUMBER)),
    "{ A = [640] }",
    "numbers that one version alone must have; A is the first of the class or the group",
);
/// Zeros that hold a place.
pub const ZEROS: Key<Places<Request>> = Key::new(
    ROLE,
    "zeros",
    Places(Request(limits::REQUEST)),
    "{ tens = 1 }",
    "at least this many numbers with a 0 that holds this place",
);
/// Digits that come again.
pub const REPEATS: Key<Request> = Key::new(
    ROLE,
    "repeats",
    Request(limits::REQUEST),
    "1",
    "at least this many in which a digit appears more than once",
);
/// Teens.
pub const TEENS: Key<Request> =
    Key::new(ROLE, "teens", Request(limits::REQUEST), "1", "at least this many that end in 11 to 19");
/// The same digits in other places.
pub const SAME_DIGITS: Key<Request> = Key::new(
    ROLE,
    "same_digits",
    Request(limits::REQUEST),
    "2",
    "at least this many made of the same digits, such as 406, 460 and 640",
);

/// The forms that are matched.
pub const MATCH: Key<WordsKind<Form>> = Key::new(
    "forms",
    "match",
    WordsKind { of: one_of(&Form::ALL, Form::word), limit: limits::FORMS, listed: |_| true },
    "[\"numeral\", \"words\", \"expanded\"]",
    "the first form is printed on the board, the rest are strips",
)
.worked("numeral, words and from 11 on expanded form, and blocks where the range ends by 9,999");
/// Between the hundreds and the rest.
pub const JOINER: Usually<OneOf<Joiner>> = Key::new(
    "forms",
    "joiner",
    one_of(&Joiner::ALL, Joiner::word),
    "\"and\"",
    "none: four hundred six; and: four hundred and six",
)
.usually(Joiner::None);
/// Zeros in expanded form.
pub const ZERO_TERMS: Usually<Switch> =
    Key::new("forms", "zero_terms", Switch, "true", "true: 400 + 0 + 6; false: 400 + 6").usually(false);
/// The mark between thousands and hundreds.
pub const THOUSANDS: Key<OneOf<Thousands>> = Key::new(
    "forms",
    "thousands",
    one_of(&Thousands::ALL, Thousands::word),
    "\"space\"",
    "the mark between thousands and hundreds: 1,010 or 1 010 or 1010",
)
.worked("comma in English; in Spanish space, from five digits up");
/// The most decoys of a set whose file is silent.
pub const DECOYS_MOST: u32 = 4;
/// Extra strips made by slips.
pub const DECOYS: Key<Quantity> = Key::new(
    "forms",
    "decoys",
    Quantity(limits::DECOYS),
    "2",
    "extra strips that match no row, made by slips in thinking",
)
.worked("one for every second sort number, at most 4");

const fn name(form: Form, example: &'static str) -> Key<LineKind> {
    Key::new("forms.names", form.word(), LineKind(limits::FORM_NAME), example, "what the class calls it, on every page")
}

/// What the class calls each form, in the order of [`Form::ALL`].
pub const NAMES: [Key<LineKind>; Form::ALL.len()] = [
    name(Form::Numeral, "\"Standard form\""),
    name(Form::Words, "\"Word form\""),
    name(Form::SecondWords, "\"En palabras\""),
    name(Form::Expanded, "\"Sum of parts\""),
    name(Form::Units, "\"Hundreds, tens and ones\""),
    name(Form::Regrouped, "\"Another way\""),
    name(Form::Blocks, "\"Picture\""),
    name(Form::Untraded, "\"Blocks before trading\""),
];

/// How many learners.
pub const LEARNERS: Usually<Quantity> =
    Key::new("class", "learners", Quantity(limits::LEARNERS), "24", "how many learners, unless a roster says")
        .usually(24);
/// Extra sets.
pub const SPARES: Usually<Quantity> =
    Key::new("class", "spares", Quantity(limits::SPARES), "2", "extra sets, for pieces that get lost").usually(2);
/// Sort sets.
pub const VERSIONS: Usually<Quantity> = Key::new(
    "class",
    "versions",
    Quantity(limits::VERSIONS),
    "3",
    "different but equally hard sort sets, so that neighbours differ",
)
.usually(1);
/// The class list.
pub const ROSTER: Key<Path> = Key::new(
    "class",
    "roster",
    Path(limits::PATH, PathTo::Table),
    "\"roster.csv\"",
    "the class list: a table saved as CSV, with a column called name",
);
/// How many learners use one copy of a sheet that is kept.
pub const SHARE: Key<Sheets> = Key::new(
    "class",
    "share",
    Sheets { of: &SheetKind::KITS, count: Quantity(limits::SHARE) },
    "{ blocks = 2, layered = 2 }",
    "how many learners use one copy of a sheet that is kept for other lessons",
)
.worked("2 for each: partners build on one mat with one set of blocks");
/// How many that is for a sheet that the file does not name.
pub const SHARED: u32 = 2;

/// How the class sets are cut.
pub const CUT: Usually<OneOf<Cut>> = Key::new(
    "print",
    "cut",
    one_of(&Cut::ALL, Cut::word),
    "\"stack\"",
    "scissors: learners cut their own page; stack: the copy room cuts piles",
)
.usually(Cut::Scissors);
/// Which sides are printed.
pub const SIDES: Usually<OneOf<SidesAsked>> = Key::new(
    "print",
    "sides",
    one_of(&SidesAsked::ALL, SidesAsked::word),
    "\"two\"",
    "two: backs carry a self-check mark",
)
.usually(SidesAsked::One);
/// Grey or colour.
pub const INK: Usually<OneOf<Ink>> = Key::new(
    "print",
    "ink",
    OneOf { all: &Ink::ALL, word: Ink::word, also: &[("gray", Ink::Grey), ("color", Ink::Colour)] },
    "\"colour\"",
    "colour: a palette that also works in grey",
)
.usually(Ink::Grey);
/// How large text is.
pub const TEXT: Usually<OneOf<TextSize>> = Key::new(
    "print",
    "text",
    one_of(&TextSize::ALL, TextSize::word),
    "\"large\"",
    "standard: learners read 14 pt or more; large: 24 pt or more",
)
.usually(TextSize::Standard);
/// What the printer cannot reach. A quarter of an inch: what office printers leave blank (common practice, no source).
pub const MARGIN: Usually<Measure> =
    Key::new("print", "margin", Measure, "\"10 mm\"", "what the printer cannot reach, on every side")
        .usually(Length::mm100(635));
/// Whether a sheet parts one part of a file from the next.
pub const SLIP_SHEETS: Usually<Switch> = Key::new(
    "print",
    "slip_sheets",
    Switch,
    "true",
    "true: a sheet before each part of the copy room's files says what follows",
)
.usually(false);
/// The typeface.
pub const FONT: Usually<FontKind> =
    Key::new("print", "font", FontKind(limits::PATH), "\"lato\"", "the typeface of every page")
        .usually(FontChoice::Andika);

/// The sheets.
pub const MAKE: Key<WordsKind<SheetKind>> = Key::new(
    "sheets",
    "make",
    WordsKind {
        of: one_of(&SheetKind::ALL, SheetKind::word),
        limit: limits::SHEETS,
        listed: |kind| kind.is_asked_for(),
    },
    "[\"board\", \"strips\", \"key\"]",
    "which sheets to make; `placewright sheets` lists them",
)
.worked("every sheet that has numbers to show, without warm-up, practice and family");
/// How model numbers are shown.
pub const DISPLAY: Usually<OneOf<DisplayPages>> = Key::new(
    "sheets",
    "display",
    one_of(&DisplayPages::ALL, DisplayPages::word),
    "\"steps\"",
    "whole: a page for each model number; steps: page after page of it, each with a form more",
)
.usually(DisplayPages::Whole);
/// Layouts of the lesson's own.
pub const LAYOUTS: Key<Path> = Key::new(
    "sheets",
    "layouts",
    Path(limits::PATH, PathTo::Folder),
    "\"my-layouts\"",
    "a folder of layout files that take the place of the built-in ones",
);

/// A group's name.
pub const GROUP_NAME: Key<LineKind> = Key::new(
    GROUP,
    "name",
    LineKind(limits::GROUP_NAME),
    "\"Gulls\"",
    "what you call the group; only on the teacher's pages",
)
.needed();
/// How many learners are in it.
pub const GROUP_LEARNERS: Key<Quantity> = Key::new(
    GROUP,
    "learners",
    Quantity(limits::LEARNERS),
    "6",
    "how many learners are in it, unless the roster's column `group` says",
);
/// How many versions it has.
pub const GROUP_VERSIONS: Key<Quantity> =
    Key::new(GROUP, "versions", Quantity(limits::VERSIONS), "1", "different but equally hard sort sets of its own")
        .worked("as many as the class has, and no more than it has learners");
/// A start that is closer.
pub const CLOSER: Key<Switch> =
    Key::new(GROUP, "closer", Switch, "true", "smaller numbers, fewer rows and no decoys, worked out from the class's");
/// A start that goes further.
pub const FURTHER: Key<Switch> =
    Key::new(GROUP, "further", Switch, "true", "larger numbers, more rows and decoys, worked out from the class's");

/// The keys of a group: its own, then those in which it may differ from the class.
fn group_rows() -> Vec<KeyRow> {
    let own = [GROUP_NAME.row(), GROUP_LEARNERS.row(), GROUP_VERSIONS.row(), CLOSER.row(), FURTHER.row()];
    let top = [RANGE.row(), NEVER.row(), AT_MOST.row(), MATCH.row(), JOINER.row(), ZERO_TERMS.row()];
    let more = [THOUSANDS.row(), DECOYS.row()];
    let role = [COUNT.row(), ALWAYS.row(), ALWAYS_IN.row(), ZEROS.row(), REPEATS.row(), TEENS.row(), SAME_DIGITS.row()];
    let names = NAMES.iter().map(Keyed::row);
    let others = top.into_iter().chain(more).chain(role).chain(names).map(KeyRow::of_group);
    own.into_iter().chain(others).collect()
}

/// Every key, in the order of the lesson file's full form.
pub fn rows() -> Vec<KeyRow> {
    let mut rows = class_rows();
    rows.extend(group_rows());
    rows
}

/// The keys of the whole class.
fn class_rows() -> Vec<KeyRow> {
    vec![
        TITLE.row(),
        GRADE.row(),
        MINUTES.row(),
        PAPER.row(),
        SEED.row(),
        LANGUAGE.row(),
        SECOND_LANGUAGE.row(),
        RANGE.row(),
        NEVER.row(),
        AT_MOST.row(),
        COUNT.row(),
        ALWAYS.row(),
        ALWAYS_IN.row(),
        ZEROS.row(),
        REPEATS.row(),
        TEENS.row(),
        SAME_DIGITS.row(),
        MATCH.row(),
        JOINER.row(),
        ZERO_TERMS.row(),
        THOUSANDS.row(),
        DECOYS.row(),
        NAMES[0].row(),
        NAMES[1].row(),
        NAMES[2].row(),
        NAMES[3].row(),
        NAMES[4].row(),
        NAMES[5].row(),
        NAMES[6].row(),
        NAMES[7].row(),
        LEARNERS.row(),
        SPARES.row(),
        VERSIONS.row(),
        ROSTER.row(),
        SHARE.row(),
        CUT.row(),
        SIDES.row(),
        INK.row(),
        TEXT.row(),
        MARGIN.row(),
        FONT.row(),
        SLIP_SHEETS.row(),
        MAKE.row(),
        DISPLAY.row(),
        LAYOUTS.row(),
    ]
}
