//! Objects made ready for the file, anywhere and in any thread.

use super::deflate::{Deflater, ReadyStream};
use crate::diag::Problem;
use crate::pdf::syntax::integer;

/// Objects made ready for writing, with their positions counted from the start of the chunk.
#[derive(Default)]
pub struct Chunk {
    bytes: Vec<u8>,
    positions: Vec<Position>,
}

/// Where objects went.
#[derive(Debug, Clone, Copy)]
pub enum Position {
    /// An object that starts so many bytes into the file.
    Plain {
        /// Its number.
        object: u32,
        /// Where it starts.
        at: u64,
    },
    /// Objects in an object stream.
    Packed {
        /// The number of the first; the others follow.
        first: u32,
        /// How many.
        count: u32,
        /// The object stream.
        stream: u32,
    },
}

impl Chunk {
    /// Adds an object that is not a stream.
    pub fn plain(&mut self, object: u32, value: &[u8]) {
        self.begin(object);
        self.bytes.extend_from_slice(value);
        self.bytes.extend_from_slice(b"\nendobj\n");
    }

    /// Adds a stream, deflated where that makes it smaller; `dictionary` are its entries besides length and filter.
    pub fn stream(
        &mut self,
        object: u32,
        dictionary: &[u8],
        data: &[u8],
        deflater: &mut Deflater,
    ) -> Result<(), Problem> {
        match deflater.deflate(data)? {
            Some(small) => self.body(object, dictionary, b"/Filter/FlateDecode", small),
            None => self.body(object, dictionary, b"", data),
        }
        Ok(())
    }

    /// Adds a stream that was made ready before.
    pub fn ready(&mut self, object: u32, dictionary: &[u8], ready: &ReadyStream) {
        self.body(object, dictionary, if ready.deflated { b"/Filter/FlateDecode" } else { b"" }, &ready.bytes);
    }

    /// Adds a stream as it is.
    pub fn stored(&mut self, object: u32, dictionary: &[u8], data: &[u8]) {
        self.body(object, dictionary, b"", data);
    }

    fn begin(&mut self, object: u32) {
        self.positions.push(Position::Plain { object, at: self.bytes.len() as u64 });
        integer(&mut self.bytes, u64::from(object));
        self.bytes.extend_from_slice(b" 0 obj\n");
    }

    fn body(&mut self, object: u32, dictionary: &[u8], filter: &[u8], data: &[u8]) {
        self.begin(object);
        self.bytes.extend_from_slice(b"<<");
        self.bytes.extend_from_slice(dictionary);
        self.bytes.extend_from_slice(filter);
        self.bytes.extend_from_slice(b"/Length ");
        integer(&mut self.bytes, data.len() as u64);
        self.bytes.extend_from_slice(b">>stream\n");
        self.bytes.extend_from_slice(data);
        self.bytes.extend_from_slice(b"\nendstream\nendobj\n");
    }

    /// Notes that an object stream of this chunk holds `count` objects, numbered on from `first`.
    pub fn holds(&mut self, first: u32, count: u32, stream: u32) {
        self.positions.push(Position::Packed { first, count, stream });
    }

    /// The objects as bytes.
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// Where the objects are when the chunk starts so many bytes into the file.
    pub fn positions(&self, start: u64) -> impl Iterator<Item = Position> {
        self.positions.iter().map(move |position| match *position {
            Position::Plain { object, at } => Position::Plain { object, at: at + start },
            packed @ Position::Packed { .. } => packed,
        })
    }
}

impl Position {
    /// The first of its objects, and how many there are.
    pub fn objects(&self) -> (u32, u32) {
        match *self {
            Self::Plain { object, .. } => (object, 1),
            Self::Packed { first, count, .. } => (first, count),
        }
    }
}
