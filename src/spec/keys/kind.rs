//! The kinds of value that a key can have: how each is read, written and described.

use std::collections::BTreeMap;

use serde_json::{Value as Json, json};

use crate::diag::nearest::listed;
use crate::measure::Length;
use crate::number::{Number, Place};
use crate::spec::choices::FontChoice;
use crate::spec::limits::{Limit, grouped};
use crate::spec::log::Log;
use crate::spec::sheet_kind::SheetKind;
use crate::spec::types::{Bound, Given};
use crate::spec::value::Value;
use crate::spec::version::Version;

/// A kind of value.
pub trait Kind {
    /// What comes of reading it.
    type Value: Clone;

    /// The value as the lesson file writes it; numbers, strings, lists and switches are the same in JSON.
    fn json(&self, value: &Self::Value) -> Json;

    /// What can be given, for the reference.
    fn shape(&self) -> Shape;
}

/// A kind whose values are read as one; the others are read place by place.
pub(in crate::spec) trait Readable: Kind {
    /// Reads a value; what is wrong with it goes into the log.
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<Self::Value>>;
}

/// What can be given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Shape {
    /// A whole number.
    Whole(Limit),
    /// One line of text, of so many characters.
    Line(Limit),
    /// A path, of so many characters.
    Path(Limit, PathTo),
    /// One of these words.
    Word(Vec<&'static str>),
    /// A list of these words, each once, so many of them.
    Words(Vec<&'static str>, Limit),
    /// True or false.
    Switch,
    /// A length with its unit.
    Length,
    /// One of these bundled fonts, or a path to a font file.
    Font(Vec<&'static str>),
    /// The least and the greatest number.
    Range(Limit),
    /// A list of numbers.
    Numbers(Limit),
    /// At least so many, or a least and a greatest count.
    Bound(Limit),
    /// A largest digit for places.
    Digits(Limit),
    /// A [`Shape::Bound`] for places.
    Bounds(Limit),
    /// A [`Shape::Numbers`] for versions, by their letters.
    Lists(Limit),
    /// A whole number for any of these sheets.
    Sheets(Vec<&'static str>, Limit),
}

impl Shape {
    /// In words, without a full stop.
    pub fn words(&self) -> String {
        let quoted = |words: &[&str], last: &str| {
            let quoted: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
            listed(&quoted, last)
        };
        let places = || listed(&Place::ALL.map(Place::key), "and");
        match self {
            Self::Whole(limit) => limit.to_string(),
            Self::Line(limit) => format!("text in quotes, at most {} characters", grouped(limit.most)),
            Self::Path(..) => "a path in quotes, looked for beside the lesson file".to_owned(),
            Self::Word(words) => quoted(words, "or"),
            Self::Words(words, limit) if limit.most < words.len() as u64 => {
                format!("a list of {} to {} of {}", limit.least, limit.most, quoted(words, "and"))
            }
            Self::Words(words, _) => format!("a list of any of {}", quoted(words, "and")),
            Self::Switch => "true or false".to_owned(),
            Self::Length => "a length in quotes with its unit: mm, cm, in or pt".to_owned(),
            Self::Font(words) => format!("{}, or a path to a .ttf or .otf file", quoted(words, "or")),
            Self::Range(limit) => format!("[least, greatest], each {limit}"),
            Self::Numbers(limit) => format!("a list of numbers, each {limit}"),
            Self::Bound(limit) => format!("at least this many, {limit}; or {{ min = 1, max = 2 }}"),
            Self::Digits(_) => format!("{{ place = digit }}; the places are {}", places()),
            Self::Sheets(words, limit) => format!("{{ sheet = {limit} }}; the sheets are {}", quoted(words, "and")),
            Self::Lists(limit) => {
                format!("{{ letter = a list of numbers }}, each {limit}; the letters are those of the versions")
            }
            Self::Bounds(_) => format!("{{ place = at least this many }}; the places are {}", places()),
        }
    }
}

/// A whole number below 2^32.
#[derive(Debug, Clone, Copy)]
pub struct Quantity(pub Limit);

impl Kind for Quantity {
    type Value = u32;

    fn json(&self, value: &u32) -> Json {
        json!(value)
    }

    fn shape(&self) -> Shape {
        Shape::Whole(self.0)
    }
}

impl Readable for Quantity {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<u32>> {
        value.count(log, self.0)
    }
}

/// A whole number below 2^63.
#[derive(Debug, Clone, Copy)]
pub struct Whole(pub Limit);

impl Kind for Whole {
    type Value = u64;

    fn json(&self, value: &u64) -> Json {
        json!(value)
    }

    fn shape(&self) -> Shape {
        Shape::Whole(self.0)
    }
}

impl Readable for Whole {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<u64>> {
        value.whole(log, self.0)
    }
}

/// One line of text.
#[derive(Debug, Clone, Copy)]
pub struct LineKind(pub Limit);

impl Kind for LineKind {
    type Value = String;

    fn json(&self, value: &String) -> Json {
        json!(value)
    }

    fn shape(&self) -> Shape {
        Shape::Line(self.0)
    }
}

impl Readable for LineKind {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<String>> {
        value.line(log, self.0)
    }
}

/// What a path leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PathTo {
    /// A table of text.
    Table,
    /// A folder.
    Folder,
}

/// A path, as the lesson gives it.
#[derive(Debug, Clone, Copy)]
pub struct Path(pub Limit, pub PathTo);

impl Kind for Path {
    type Value = String;

    fn json(&self, value: &String) -> Json {
        json!(value)
    }

    fn shape(&self) -> Shape {
        Shape::Path(self.0, self.1)
    }
}

impl Readable for Path {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<String>> {
        value.line(log, self.0)
    }
}

/// One of some words.
#[derive(Debug, Clone, Copy)]
pub struct OneOf<T: 'static> {
    /// All values.
    pub all: &'static [T],
    /// The word of each.
    pub word: fn(T) -> &'static str,
    /// Words that are taken as well, because half the world spells them so.
    pub also: &'static [(&'static str, T)],
}

impl<T: Copy + 'static> Kind for OneOf<T> {
    type Value = T;

    fn json(&self, value: &T) -> Json {
        json!((self.word)(*value))
    }

    fn shape(&self) -> Shape {
        Shape::Word(self.words())
    }
}

impl<T: Copy + 'static> Readable for OneOf<T> {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<T>> {
        value.one_of(log, &self.words(), |word| self.find(word))
    }
}

impl<T: Copy + 'static> OneOf<T> {
    /// The words.
    pub fn words(&self) -> Vec<&'static str> {
        self.all.iter().copied().map(self.word).collect()
    }

    /// The value of a word, in capitals or not.
    pub fn find(&self, word: &str) -> Option<T> {
        let meant = |known: &str| known.eq_ignore_ascii_case(word.trim());
        let also = || self.also.iter().find(|(other, _)| meant(other)).map(|(_, value)| *value);
        self.all.iter().copied().find(|value| meant((self.word)(*value))).or_else(also)
    }
}

/// A list of some words, each once.
#[derive(Debug, Clone, Copy)]
pub struct WordsKind<T: 'static> {
    /// The words.
    pub of: OneOf<T>,
    /// How many.
    pub limit: Limit,
    /// Which of them a lesson lists; what is wrong with the others is said where they are read.
    pub listed: fn(T) -> bool,
}

impl<T: Copy + PartialEq + 'static> Kind for WordsKind<T> {
    type Value = Vec<T>;

    fn json(&self, value: &Vec<T>) -> Json {
        value.iter().map(|one| (self.of.word)(*one)).collect()
    }

    fn shape(&self) -> Shape {
        let listed = self.of.all.iter().copied().filter(|value| (self.listed)(*value));
        Shape::Words(listed.map(self.of.word).collect(), self.limit)
    }
}

impl<T: Copy + PartialEq + 'static> Readable for WordsKind<T> {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<Vec<T>>> {
        value.words(log, &self.of.words(), |word| self.of.find(word))
    }
}

/// True or false.
#[derive(Debug, Clone, Copy)]
pub struct Switch;

impl Kind for Switch {
    type Value = bool;

    fn json(&self, value: &bool) -> Json {
        json!(value)
    }

    fn shape(&self) -> Shape {
        Shape::Switch
    }
}

impl Readable for Switch {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<bool>> {
        value.switch(log)
    }
}

/// A length with its unit.
#[derive(Debug, Clone, Copy)]
pub struct Measure;

impl Kind for Measure {
    type Value = Length;

    fn json(&self, value: &Length) -> Json {
        json!(value.to_string())
    }

    fn shape(&self) -> Shape {
        Shape::Length
    }
}

impl Readable for Measure {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<Length>> {
        value.length(log)
    }
}

/// A typeface.
#[derive(Debug, Clone, Copy)]
pub struct FontKind(pub Limit);

impl Kind for FontKind {
    type Value = FontChoice;

    fn json(&self, value: &FontChoice) -> Json {
        json!(value.word())
    }

    fn shape(&self) -> Shape {
        Shape::Font(FontChoice::BUNDLED.to_vec())
    }
}

impl Readable for FontKind {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<FontChoice>> {
        value.font(log, self.0)
    }
}

/// The least and the greatest number.
#[derive(Debug, Clone, Copy)]
pub struct Range(pub Limit);

impl Kind for Range {
    type Value = (Number, Number);

    fn json(&self, (least, most): &(Number, Number)) -> Json {
        json!([least.value(), most.value()])
    }

    fn shape(&self) -> Shape {
        Shape::Range(self.0)
    }
}

impl Readable for Range {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<(Number, Number)>> {
        value.range(log)
    }
}

/// A list of numbers.
#[derive(Debug, Clone, Copy)]
pub struct NumbersKind(pub Limit);

impl Kind for NumbersKind {
    type Value = Vec<Given<Number>>;

    fn json(&self, value: &Self::Value) -> Json {
        value.iter().map(|given| given.value.value()).collect()
    }

    fn shape(&self) -> Shape {
        Shape::Numbers(self.0)
    }
}

impl Readable for NumbersKind {
    fn read(&self, value: &Value, log: &mut Log) -> Option<Given<Self::Value>> {
        Some(Given::read(value.numbers(log), value.span()))
    }
}

/// A list of numbers for each version that the file names.
#[derive(Debug, Clone, Copy)]
pub struct EachVersion(pub NumbersKind);

impl Kind for EachVersion {
    type Value = BTreeMap<Version, Vec<Given<Number>>>;

    fn json(&self, value: &Self::Value) -> Json {
        value.iter().map(|(version, numbers)| (version.to_string(), self.0.json(numbers))).collect()
    }

    fn shape(&self) -> Shape {
        Shape::Lists(self.0.0)
    }
}

/// How many numbers are like something.
#[derive(Debug, Clone, Copy)]
pub struct Request(pub Limit);

impl Kind for Request {
    type Value = Bound;

    fn json(&self, value: &Bound) -> Json {
        match value.max {
            None => json!(value.min),
            Some(max) => json!({ "min": value.min, "max": max }),
        }
    }

    fn shape(&self) -> Shape {
        Shape::Bound(self.0)
    }
}

/// A value for each place that the file names.
#[derive(Debug, Clone, Copy)]
pub struct Places<K>(pub K);

impl Kind for Places<Request> {
    type Value = BTreeMap<Place, Given<Bound>>;

    fn json(&self, value: &Self::Value) -> Json {
        value.iter().map(|(place, given)| (place.key().to_owned(), self.0.json(&given.value))).collect()
    }

    fn shape(&self) -> Shape {
        Shape::Bounds(self.0.0)
    }
}

impl Kind for Places<Quantity> {
    type Value = BTreeMap<Place, Given<u32>>;

    fn json(&self, value: &Self::Value) -> Json {
        value.iter().map(|(place, given)| (place.key().to_owned(), self.0.json(&given.value))).collect()
    }

    fn shape(&self) -> Shape {
        Shape::Digits(self.0.0)
    }
}

/// A whole number for each of some sheets that the file names.
#[derive(Debug, Clone, Copy)]
pub struct Sheets {
    /// The sheets that can be named.
    pub of: &'static [SheetKind],
    /// What can be given for each.
    pub count: Quantity,
}

impl Kind for Sheets {
    type Value = BTreeMap<SheetKind, Given<u32>>;

    fn json(&self, value: &Self::Value) -> Json {
        value.iter().map(|(kind, given)| (kind.word().to_owned(), json!(given.value))).collect()
    }

    fn shape(&self) -> Shape {
        Shape::Sheets(self.of.iter().map(|kind| kind.word()).collect(), self.count.0)
    }
}
