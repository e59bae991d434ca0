//! The file as bytes: header, objects, the cross-reference stream (ISO 32000-1, 7.5.8).

use std::io::{self, Write};

use super::chunk::{Chunk, Position};
use super::deflate::Deflater;
use super::fingerprint::Fingerprint;
use crate::pdf::failure::WriteFailure;

/// A file being written.
pub struct Output<W> {
    out: W,
    at: u64,
    positions: Vec<Position>,
    fingerprint: Fingerprint,
}

impl<W: Write> Output<W> {
    /// A new file of PDF 1.7. The second line tells programs that look that bytes above 127 follow.
    pub fn new(out: W) -> io::Result<Self> {
        let mut file = Self { out, at: 0, positions: Vec::new(), fingerprint: Fingerprint::new() };
        file.raw(b"%PDF-1.7\n%\xE2\xE3\xCF\xD3\n")?;
        Ok(file)
    }

    fn raw(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.fingerprint.take(bytes);
        self.at += bytes.len() as u64;
        self.out.write_all(bytes)
    }

    /// Writes a chunk.
    pub fn chunk(&mut self, chunk: &Chunk) -> io::Result<()> {
        self.positions.extend(chunk.positions(self.at));
        self.raw(chunk.bytes())
    }

    /// Writes the cross-reference and ends the file. `size` is one more than the greatest object number; `entries` are
    /// the trailer's besides size and identifier.
    pub fn finish(mut self, size: u32, entries: &[u8], deflater: &mut Deflater) -> Result<W, WriteFailure> {
        let start = self.at;
        self.positions.sort_by_key(|position| position.objects().0);
        let identifier = self.fingerprint.text();
        let mut trailer = entries.to_vec();
        trailer.extend_from_slice(format!("/ID[<{identifier}><{identifier}>]").as_bytes());
        self.cross_references(size, &trailer, deflater)?;
        self.raw(format!("startxref\n{start}\n%%EOF\n").as_bytes())?;
        Ok(self.out)
    }

    fn cross_references(&mut self, size: u32, trailer: &[u8], deflater: &mut Deflater) -> Result<(), WriteFailure> {
        let object = size;
        self.positions.push(Position::Plain { object, at: self.at });
        let entries = || entries(&self.positions, size + 1);
        let wide = |value: u64| 8 - value.leading_zeros() as usize / 8;
        let width = wide(entries().map(|entry| entry.1).max().unwrap_or(0)).max(1);
        let tail = wide(entries().map(|entry| u64::from(entry.2)).max().unwrap_or(0)).max(1);
        // Each row is written as its difference to the row above: entries that follow each other become equal rows.
        let row_length = 1 + width + tail;
        let (mut rows, mut above) =
            (Vec::with_capacity((size as usize + 1) * (row_length + 1)), vec![0_u8; row_length]);
        let mut row = Vec::with_capacity(row_length);
        for (kind, second, third) in entries() {
            row.clear();
            row.push(kind);
            row.extend_from_slice(&second.to_be_bytes()[8 - width..]);
            row.extend_from_slice(&u64::from(third).to_be_bytes()[8 - tail..]);
            rows.push(2);
            rows.extend(row.iter().zip(&above).map(|(new, old)| new.wrapping_sub(*old)));
            std::mem::swap(&mut row, &mut above);
        }
        let mut dictionary = format!("/Type/XRef/Size {}/W[1 {width} {tail}]", size + 1).into_bytes();
        dictionary.extend_from_slice(format!("/DecodeParms<</Predictor 12/Columns {row_length}>>").as_bytes());
        dictionary.extend_from_slice(trailer);
        let mut chunk = Chunk::default();
        chunk.stream(object, &dictionary, &rows, deflater)?;
        Ok(self.raw(chunk.bytes())?)
    }
}

/// For each object 0..size its kind (0 free, 1 in the file, 2 in an object stream) and two fields, as ISO 32000-1,
/// table 18 has them. `positions` are in order of their objects. Never held as a whole: a file may have millions.
fn entries(positions: &[Position], size: u32) -> impl Iterator<Item = (u8, u64, u32)> {
    let mut next = 0;
    let taken = positions.iter().flat_map(move |position| {
        let (first, count) = position.objects();
        let gap = next..first;
        next = first + count;
        let rows = (0..count).map(|index| match *position {
            Position::Plain { at, .. } => (1, at, 0),
            Position::Packed { stream, .. } => (2, u64::from(stream), index),
        });
        gap.map(free).chain(rows)
    });
    let last = positions.last().map_or(0, |position| position.objects().0 + position.objects().1);
    taken.chain((last..size).map(free)).take(size as usize)
}

/// An object that is none; the first of them heads the list of all.
fn free(object: u32) -> (u8, u64, u32) {
    (0, 0, if object == 0 { 65_535 } else { 0 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_object_has_an_entry() {
        let positions = [Position::Plain { object: 2, at: 15 }, Position::Packed { first: 4, count: 2, stream: 2 }];
        let all: Vec<_> = entries(&positions, 8).collect();
        assert_eq!(all[..4], [(0, 0, 65_535), (0, 0, 0), (1, 15, 0), (0, 0, 0)]);
        assert_eq!(all[4..], [(2, 2, 0), (2, 2, 1), (0, 0, 0), (0, 0, 0)]);
        assert_eq!(entries(&[], 2).count(), 2);
    }
}
