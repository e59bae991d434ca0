//! What the desk asks of the rest of the program: files of one folder, and lessons laid out and made.
//!
//! The desk itself touches no disk. Whoever opens it hands it a [`Workshop`] that is bound to the folder it was started
//! for: names are paths below that folder with `/` between their parts, and a name that leads out of it, be it through a
//! link, is refused there.

use std::io::Read;
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicU64, AtomicUsize, Ordering};

use serde_json::Value;

use crate::diag::Diagnostic;
use crate::lesson::{Role, Version};
use crate::measure::Family;
use crate::sheets::files::About;
use crate::sheets::page::Page;

/// What stands behind the desk.
pub trait Workshop: Send + Sync {
    /// What the folder is called, for people.
    fn folder(&self) -> String;

    /// The lesson files of the folder, the one that was saved last first.
    fn lessons(&self) -> Vec<String>;

    /// Files of the folder that a lesson can name, by their endings, as the lesson would name them.
    fn beside(&self, lesson: Option<&str>, endings: &[&str]) -> Vec<String>;

    /// The text of a lesson file.
    fn open(&self, name: &str) -> Result<String, Refused>;

    /// Writes a lesson file. `Refused::There` where one is there already and may not be replaced.
    fn save(&self, name: &str, text: &str, replace: bool) -> Result<(), Refused>;

    /// A name for a lesson file that was never saved, after its title.
    fn name_for(&self, title: &str) -> String;

    /// A first lesson file of this title and range, with comments.
    fn blank(&self, title: &str, range: (u32, u32)) -> String;

    /// Reads a lesson text as if it stood in the file `name`, chooses its numbers and lays out its pages; nothing as soon
    /// as `wanted` says that nobody wants it any more.
    fn lay(&self, name: &str, text: &str, wanted: &dyn Fn() -> bool) -> Option<Result<LaidLesson, Vec<Diagnostic>>>;

    /// Makes the packets of a lesson text into the folder of the lesson `name`. Says how far it is, and stops when that is
    /// asked for; then whatever was there before stays.
    fn make(&self, name: &str, text: &str, under_way: &UnderWay) -> Result<Made, Vec<Diagnostic>>;

    /// One of the files that were made, and how many bytes it has.
    fn made(&self, made: &Made, file: &str) -> Result<(Box<dyn Read + Send>, u64), Refused>;

    /// A lesson text with every repair of which there is no doubt.
    fn mended(&self, name: &str, text: &str) -> String;
}

/// Why a file is not read or written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Refused {
    /// There is one of this name already.
    There,
    /// For this reason, in a teacher's words.
    Because(String),
}

/// A lesson that can be made.
#[derive(Debug)]
pub struct LaidLesson {
    /// Its title.
    pub title: String,
    /// The chosen numbers, set by set.
    pub sets: Vec<NumberSet>,
    /// What is said of the files, in the order of the contract.
    pub files: Vec<LaidFile>,
    /// Every page that is shown, in the order of the files.
    pub pages: Vec<LaidPage>,
    /// The typeface of the pages.
    pub family: Family,
    /// What the file leaves open with the values taken, by the path of the key.
    pub assumed: Vec<(String, Value)>,
    /// How much paper the class's copies take and what would save most, a sentence each.
    pub paper: Vec<String>,
    /// What may not come out as meant, and what is worth knowing.
    pub notes: Vec<String>,
}

impl LaidLesson {
    /// Whether its numbers are those of another one, in any order.
    pub fn same_numbers(&self, other: &Self) -> bool {
        let sorted = |set: &NumberSet| {
            let mut numbers: Vec<u32> = set.numbers.iter().map(|number| number.value).collect();
            numbers.sort_unstable();
            numbers
        };
        self.sets.len() == other.sets.len()
            && self.sets.iter().zip(&other.sets).all(|(one, other)| sorted(one) == sorted(other))
    }
}

/// Numbers that were chosen together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NumberSet {
    /// What they are for.
    pub role: Role,
    /// The table of the lesson file that asks for them.
    pub table: String,
    /// Whose sort set, where there are several.
    pub version: Option<Version>,
    /// The same, counted from the first version of its class or group, where that has several.
    pub own: Option<Version>,
    /// Whose numbers, where there are groups.
    pub whose: Option<String>,
    /// How many sets would have done, in a few words.
    pub ways: String,
    /// Each number, why it is there, and whether the file asks for it by name.
    pub numbers: Vec<ChosenNumber>,
}

impl NumberSet {
    /// Where the lesson file asks for its numbers by name.
    pub fn place(&self) -> NumberPlace<'_> {
        NumberPlace { table: &self.table, version: self.own }
    }
}

/// Where a set's numbers are asked for by name: the table of its role, and the letter of its version where there are several.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NumberPlace<'p> {
    /// `numbers.sort`, `group.0.exit`.
    pub table: &'p str,
    /// The version, counted from the first of the class or group.
    pub version: Option<Version>,
}

impl NumberPlace<'_> {
    /// The key of the numbers that are asked for in every version.
    pub fn always(self) -> String {
        format!("{}.always", self.table)
    }

    /// The key of those that are asked for in this set alone; the same where there is no other.
    pub fn own(self) -> String {
        self.version.map_or_else(|| self.always(), |version| format!("{}.always_in.{version}", self.table))
    }

    /// The key of the numbers to leave out: the class's, or a group's own.
    pub fn never(self) -> String {
        format!("{}.never", self.table.rsplit_once('.').map_or(self.table, |(whose, _)| whose))
    }
}

/// A number of a set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChosenNumber {
    /// The number.
    pub value: u32,
    /// As it is written on the pages.
    pub written: String,
    /// Why it is there, in a few words.
    pub why: String,
    /// Why it could be there, if the file did not ask for it by name; empty where nothing else speaks for it.
    pub besides: String,
    /// Whether the file asks for it by name.
    pub always: bool,
}

/// What is said of a file.
#[derive(Debug, Clone, Copy)]
pub struct LaidFile {
    /// Its row of the table of packets.
    pub about: &'static About,
    /// How many pages it has.
    pub pages: usize,
    /// How many sheets it takes.
    pub sheets: usize,
}

/// A page that is shown.
#[derive(Debug)]
pub struct LaidPage {
    /// Which of the files it is in.
    pub file: usize,
    /// Which page of that file, from 1.
    pub number: usize,
    /// What is on such a page, in a line.
    pub holds: &'static str,
    /// The page.
    pub page: Page,
}

/// Packets that were made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Made {
    /// The folder they are in, for people.
    pub folder: String,
    /// The files, in the order of the contract, with their sizes in bytes.
    pub files: Vec<(String, u64)>,
    /// What is worth knowing: that another lesson's packets were replaced.
    pub note: Option<String>,
}

/// How far the making of packets is.
#[derive(Debug, Default)]
pub struct UnderWay {
    file: Mutex<Option<&'static str>>,
    page: AtomicUsize,
    pages: AtomicUsize,
    bytes: AtomicU64,
    stopped: AtomicBool,
}

/// How far the making of packets was at a time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Reached {
    /// The title of the file that is being written; none before the first.
    pub file: Option<&'static str>,
    /// Which of all pages it is at.
    pub page: usize,
    /// How many pages all files have.
    pub pages: usize,
    /// How many bytes have been written.
    pub bytes: u64,
}

impl UnderWay {
    /// All files have so many pages.
    pub fn expect(&self, pages: usize) {
        self.pages.store(pages, Ordering::Relaxed);
    }

    /// A file is begun, by its title, when so many pages of the files before it are done.
    pub fn begin(&self, file: &'static str, before: usize) {
        *self.file.lock().unwrap_or_else(std::sync::PoisonError::into_inner) = Some(file);
        self.reach(before);
    }

    /// So many pages of all files are begun or done.
    pub fn reach(&self, page: usize) {
        self.page.store(page, Ordering::Relaxed);
    }

    /// How far it is.
    pub fn reached(&self) -> Reached {
        Reached {
            file: *self.file.lock().unwrap_or_else(std::sync::PoisonError::into_inner),
            page: self.page.load(Ordering::Relaxed),
            pages: self.pages.load(Ordering::Relaxed),
            bytes: self.bytes.load(Ordering::Relaxed),
        }
    }

    /// Counts bytes that were written. An error where the work is to stop.
    pub fn wrote(&self, bytes: usize) -> std::io::Result<()> {
        self.bytes.fetch_add(bytes as u64, Ordering::Relaxed);
        if self.is_stopped() { Err(std::io::Error::other("stopped")) } else { Ok(()) }
    }

    /// Asks for the work to stop.
    pub fn stop(&self) {
        self.stopped.store(true, Ordering::Relaxed);
    }

    /// Whether it was asked to stop.
    pub fn is_stopped(&self) -> bool {
        self.stopped.load(Ordering::Relaxed)
    }
}
