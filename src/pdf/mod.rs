//! Pages to PDF: the last stage.
//!
//! In: a packet of finished pages and the fonts they are set in. Out: the bytes of a PDF 1.7 file, the same for the same
//! pages on every machine. Pages are planned in order, built in runs by any number of threads, and written in order as
//! they are done; fonts, pictures and what ties the file together follow at its end.

mod content;
mod copy;
mod crew;
mod deflate;
mod embed;
mod face;
mod file;
mod finish;
mod forms;
mod metadata;
mod plan;
mod run;
mod skeleton;
mod symbols;
mod tags;
mod trail;
mod units;

use std::borrow::Borrow;
use std::io::{self, Write};

pub use self::deflate::Deflater;

use self::crew::Foreman;
use self::face::{Faces, Used};
use self::file::{File, Form};
use self::plan::Planner;
use self::trail::Trail;
use crate::diag::Problem;
use crate::measure::Family;
use crate::sheets::page::{Packet, Page};
use crate::sheets::sheaf::Sheaf;
use crate::spec::Sides;

/// Objects whose numbers every part of the file knows.
const CATALOG: u32 = 1;
const PAGES: u32 = 2;
const STRUCTURE: u32 = 3;
const DOCUMENT: u32 = 4;
const RESOURCES: u32 = 5;
const FONTS: u32 = 6;
/// What header cells of rows and of columns say.
const SCOPES: [u32; 2] = [7, 8];
/// What lists say of their labels: that they are any text, or numbers.
const LABELS: [u32; 2] = [9, 10];
/// The first number that is given out.
const FIRST: u32 = 11;

/// How a file is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Options {
    /// Leave streams as they are and every object on its own, for people and for comparing.
    pub readable: bool,
    /// How many threads build pages; 0 for as many as the machine has. Makes no difference to the bytes.
    pub threads: usize,
}

/// What a file says besides its pages.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Head {
    /// The document's title, shown by viewers.
    pub title: String,
    /// Which sides are printed.
    pub sides: Sides,
    /// How many copies to print.
    pub copies: u32,
}

/// Why a file could not be written.
#[derive(Debug)]
pub enum Failure {
    /// The pages cannot be put into a PDF.
    Problem(Problem),
    /// The bytes could not be put where they belong.
    Io(io::Error),
}

impl From<Problem> for Failure {
    fn from(problem: Problem) -> Self {
        Self::Problem(problem)
    }
}

impl From<io::Error> for Failure {
    fn from(error: io::Error) -> Self {
        Self::Io(error)
    }
}

/// Writes a packet.
pub fn write(packet: &Packet, family: &Family, options: &Options) -> Result<Vec<u8>, Problem> {
    let head = Head { title: packet.title.clone(), sides: packet.sides, copies: packet.copies };
    write_to(Vec::new(), &head, family, options, packet.pages.iter()).map_err(in_memory)
}

/// Makes a packet in memory.
pub fn sheaf_bytes(sheaf: &Sheaf<'_>, family: &Family, options: &Options) -> Result<Vec<u8>, Problem> {
    write_sheaf(Vec::new(), sheaf, family, options).map_err(in_memory)
}

/// Why bytes could not be made in memory, where there is no disk to fail.
fn in_memory(failure: Failure) -> Problem {
    match failure {
        Failure::Problem(problem) => problem,
        Failure::Io(error) => Problem::new(format!("the file could not be written: {error}")),
    }
}

/// Writes a packet whose pages may be made as they are written.
pub fn write_sheaf<W: Write>(out: W, sheaf: &Sheaf<'_>, family: &Family, options: &Options) -> Result<W, Failure> {
    let head = Head { title: sheaf.title().to_owned(), sides: sheaf.sides(), copies: sheaf.copies() };
    // A page that cannot be made ends the run; the reason is told in place of a file that ends early.
    let mut wrong = None;
    let pages = (0..sheaf.len()).map_while(|index| sheaf.page(index).map_err(|problem| wrong = Some(problem)).ok());
    let written = write_to(out, &head, family, options, pages);
    wrong.map_or(written, |problem| Err(problem.into()))
}

/// Writes pages as they come. Memory stays flat: no more pages are held than the threads are building.
pub fn write_to<W, I>(out: W, head: &Head, family: &Family, options: &Options, pages: I) -> Result<W, Failure>
where
    W: Write,
    I: IntoIterator,
    I::Item: Borrow<Page> + Send,
{
    let form = if options.readable { Form::Readable } else { Form::Small };
    let faces = Faces::new(family);
    let mut foreman = Foreman {
        file: File::new(out)?,
        planner: Planner::new(FIRST),
        trail: Trail::default(),
        used: Used::default(),
        faces: &faces,
        form,
    };
    let threads = match options.threads {
        0 => std::thread::available_parallelism().map_or(1, std::num::NonZero::get),
        threads => threads,
    };
    foreman.pages(pages.into_iter(), threads)?;
    finish::finish(foreman, head)
}

/// A mistake of the program, not of a lesson.
fn internal(what: &str) -> Problem {
    Problem::new(format!("internal mistake while writing a PDF: {what}"))
        .hint("this is a fault of placewright; please report it with the lesson file")
}
