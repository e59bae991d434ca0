//! `index.html`: what every file of a lesson looks like, what it is for, who gets it and how to print it.
//!
//! In: a title, the chosen numbers and the pictures of each file. Out: the text of one page that needs no network and no
//! scripts, reads in order without its styles, and follows the colours the reader's screen is set to.

mod page;

use crate::measure::Size;
use crate::sheets::files::About;

pub use page::write;

/// The name of the page.
pub const FILE: &str = "index.html";

/// The folder of the pictures, beside the page.
pub const PICTURES: &str = "pictures";

/// What tells a page of this program from others.
pub const MARK: &str = "<meta name=\"generator\" content=\"Placewright ";

/// A lesson's files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gallery {
    /// The lesson's title.
    pub title: String,
    /// The paper, as people write it, such as "letter".
    pub paper: &'static str,
    /// Whether learners' names are on the pages.
    pub names: bool,
    /// What the numbers were chosen by.
    pub seed: u64,
    /// The chosen numbers.
    pub sets: Vec<Set>,
    /// The files in the order of the contract.
    pub files: Vec<Shown>,
}

/// Numbers that were chosen together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Set {
    /// What they are for.
    pub name: String,
    /// How many sets would have done, in a few words; empty where nobody counted.
    pub ways: String,
    /// Each number, and why it is there.
    pub numbers: Vec<(String, String)>,
}

/// A file and its pictures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// What there is to say about it.
    pub about: About,
    /// How many pages it has.
    pub pages: usize,
    /// How many sheets of paper it takes to print once.
    pub sheets: usize,
    /// Whether both sides are printed.
    pub two_sided: bool,
    /// Which pages are pictured, in a sentence; empty where all are.
    pub which: String,
    /// The pictured pages in order.
    pub images: Vec<Image>,
}

/// A picture of a page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Image {
    /// The picture's file, with the folder.
    pub src: String,
    /// Which page, from 1.
    pub page: usize,
    /// What the page is called, such as "Sorting board A".
    pub name: String,
    /// What is on such a page, in a line.
    pub holds: &'static str,
    /// How large the page is.
    pub size: Size,
}
