//! Object streams: many small objects deflated as one (ISO 32000-1, 7.5.7).

use super::chunk::Chunk;
use super::deflate::Deflater;
use crate::diag::Problem;
use crate::pdf::syntax::integer;

/// Objects on their way into an object stream.
pub struct Pack {
    first: u32,
    count: u32,
    heads: Vec<u8>,
    bodies: Vec<u8>,
}

impl Pack {
    /// A pack whose objects are numbered on from `first`.
    pub fn new(first: u32) -> Self {
        Self { first, count: 0, heads: Vec::new(), bodies: Vec::new() }
    }

    /// Makes room for so many objects of so many bytes in all, so that the pack need not grow step by step.
    pub fn reserve(&mut self, objects: usize, bytes: usize) {
        // A number and a place, of seven digits each in the largest files.
        self.heads.reserve(objects * 16 + bytes);
        self.bodies.reserve(bytes);
    }

    /// Adds the next object, which writes itself; its number.
    pub fn push(&mut self, value: impl FnOnce(&mut Vec<u8>)) -> u32 {
        let object = self.first + self.count;
        self.count += 1;
        integer(&mut self.heads, u64::from(object));
        self.heads.push(b' ');
        integer(&mut self.heads, self.bodies.len() as u64);
        self.heads.push(b' ');
        value(&mut self.bodies);
        self.bodies.push(b'\n');
        object
    }

    /// Adds an object that was written before; its number.
    pub fn push_bytes(&mut self, value: &[u8]) -> u32 {
        self.push(|out| out.extend_from_slice(value))
    }

    /// The number of the object that comes next.
    pub fn next(&self) -> u32 {
        self.first + self.count
    }

    /// Adds the pack to a chunk as the stream `object`.
    pub fn finish(mut self, object: u32, chunk: &mut Chunk, deflater: &mut Deflater) -> Result<(), Problem> {
        let mut dictionary = b"/Type/ObjStm/N ".to_vec();
        integer(&mut dictionary, u64::from(self.count));
        dictionary.extend_from_slice(b"/First ");
        integer(&mut dictionary, self.heads.len() as u64);
        self.heads.extend_from_slice(&self.bodies);
        chunk.holds(self.first, self.count, object);
        chunk.stream(object, &dictionary, &self.heads, deflater)
    }
}
