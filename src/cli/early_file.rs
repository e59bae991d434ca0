//! Short files made ahead of their turn.
//!
//! The files of a packet are written one after the other, so that a disk that fails does so at one of them. Making them
//! need not wait for that: while one is made and written, the short ones to come are made on another thread.

use std::io::Write;
use std::sync::OnceLock;

use crate::diag::Problem;
use crate::pdf::{self, Common, WriteFailure};
use crate::sheets::packets::Packet;

/// Up to how many pages a file is held as a whole: some hundred kilobytes. Longer ones are written as they are made.
const SHORT: usize = 48;

/// A packet's file.
pub struct EarlyFile<'p> {
    /// Its pages.
    pub packet: &'p Packet<'p>,
    common: &'p Common<'p>,
    threads: usize,
    made: OnceLock<Result<Vec<u8>, Problem>>,
}

impl<'p> EarlyFile<'p> {
    /// A file that is still to be made.
    pub fn new(packet: &'p Packet<'p>, common: &'p Common<'p>, threads: usize) -> Self {
        Self { packet, common, threads, made: OnceLock::new() }
    }

    /// Makes a short file, unless it is made or being made; waits for whoever is at it.
    pub fn make(&self) {
        if self.packet.len() <= SHORT {
            self.bytes();
        }
    }

    /// Writes the file, which is made now if it is not yet. Says of every page of a long one when its turn comes.
    pub fn write(&self, out: &mut dyn Write, turn: impl Fn(usize)) -> Result<(), WriteFailure> {
        if self.packet.len() > SHORT {
            return pdf::write_watched(out, self.packet, self.common, self.threads, turn).map(|_| ());
        }
        match self.bytes() {
            Ok(bytes) => Ok(out.write_all(bytes)?),
            Err(problem) => Err(problem.clone().into()),
        }
    }

    fn bytes(&self) -> &Result<Vec<u8>, Problem> {
        self.made.get_or_init(|| pdf::bytes(self.packet, self.common, self.threads))
    }
}
