//! A file from its pages, in any number of threads.
//!
//! Pages are planned in order, built in runs by any thread, and written in order as they are done; fonts, pictures and what
//! ties the file together follow at its end. How many threads build makes no difference to the bytes.

mod build;
mod common;
mod finish;
mod index;
mod metadata;
mod plan;
mod survey;
mod threads;

use std::borrow::Borrow;
use std::io::Write;

pub use self::common::Common;
use self::index::Index;
use self::plan::Planner;
use self::threads::Writer;
use super::failure::WriteFailure;
use super::file::{FIRST, Output};
use crate::diag::Problem;
use crate::lesson::job::PrintSides;
use crate::sheets::packets::Packet;
use crate::sheets::page::Page;

/// What a file says besides its pages.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FileHead {
    /// The document's title, shown by viewers.
    pub title: String,
    /// The language of every text that does not say otherwise (BCP 47).
    pub language: &'static str,
    /// Which sides are printed, and over which edge sheets are turned.
    pub sides: PrintSides,
}

/// Makes a packet in memory that has this in common with others, with up to so many threads.
pub fn bytes(packet: &Packet<'_>, common: &Common<'_>, threads: usize) -> Result<Vec<u8>, Problem> {
    write(Vec::new(), packet, common, threads).map_err(|failure| match failure {
        WriteFailure::Problem(problem) => problem,
        WriteFailure::Io(error) => Problem::new(format!("the file could not be written: {error}")),
    })
}

/// Writes a packet, whose pages may be made as they are written, with up to so many threads.
pub fn write<W: Write>(out: W, packet: &Packet<'_>, common: &Common<'_>, threads: usize) -> Result<W, WriteFailure> {
    write_watched(out, packet, common, threads, |_| ())
}

/// The same; says of every page, counted from 1, when its turn comes.
pub fn write_watched<W: Write>(
    out: W,
    packet: &Packet<'_>,
    common: &Common<'_>,
    threads: usize,
    turn: impl Fn(usize),
) -> Result<W, WriteFailure> {
    let head = FileHead { title: packet.title.clone(), language: packet.language, sides: packet.sides };
    // A page that cannot be made ends the run; the reason is told in place of a file that ends early.
    let mut wrong = None;
    let pages = (0..packet.len()).map_while(|index| {
        turn(index + 1);
        packet.page(index).map_err(|problem| wrong = Some(problem)).ok()
    });
    let written = write_pages(out, &head, common, threads, pages);
    wrong.map_or(written, |problem| Err(problem.into()))
}

/// Writes pages as they come, with up to so many threads. Memory stays flat: no more pages are held than the threads are building.
pub fn write_pages<W, I>(
    out: W,
    head: &FileHead,
    common: &Common<'_>,
    threads: usize,
    pages: I,
) -> Result<W, WriteFailure>
where
    W: Write,
    I: IntoIterator,
    I::Item: Borrow<Page> + Send,
{
    let mut writer = Writer { file: Output::new(out)?, planner: Planner::new(FIRST, common), index: Index::default() };
    writer.pages(pages.into_iter(), threads)?;
    finish::finish(writer, head)
}
