//! The file as bytes: objects, object streams and the cross-reference stream (ISO 32000-1, 7.5.7 and 7.5.8).
//!
//! A [`Chunk`] collects objects anywhere, in any thread; a [`File`] writes chunks one after the other and remembers
//! where each object went.

use std::io::{self, Write};

use super::deflate::Deflater;
use super::tags::reference;
use super::units::integer;
use crate::diag::Problem;

/// Objects made ready for writing, with their places counted from the start of the chunk.
#[derive(Default)]
pub struct Chunk {
    bytes: Vec<u8>,
    places: Vec<Place>,
}

/// Where objects went.
#[derive(Debug, Clone, Copy)]
enum Place {
    /// An object that starts so many bytes into the file.
    Plain { object: u32, at: u64 },
    /// So many objects, numbered on from `first`, in the object stream `stream`.
    Packed { first: u32, count: u32, stream: u32 },
}

/// How objects are put down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Deflated, where that makes them smaller, and packed into object streams.
    Small,
    /// As text, for people and for comparing.
    Readable,
}

impl Chunk {
    /// Adds an object that is not a stream.
    pub fn plain(&mut self, object: u32, value: &[u8]) {
        self.places.push(Place::Plain { object, at: self.bytes.len() as u64 });
        integer(&mut self.bytes, u64::from(object));
        self.bytes.extend_from_slice(b" 0 obj\n");
        self.bytes.extend_from_slice(value);
        self.bytes.extend_from_slice(b"\nendobj\n");
    }

    /// Adds a stream; `dictionary` are its entries besides length and filter.
    pub fn stream(
        &mut self,
        object: u32,
        dictionary: &[u8],
        data: &[u8],
        form: Form,
        deflater: &mut Deflater,
    ) -> Result<(), Problem> {
        self.places.push(Place::Plain { object, at: self.bytes.len() as u64 });
        integer(&mut self.bytes, u64::from(object));
        self.bytes.extend_from_slice(b" 0 obj\n<<");
        self.bytes.extend_from_slice(dictionary);
        match form {
            Form::Readable => self.body(b"", data),
            Form::Small => match deflater.deflate(data)? {
                Some(small) => self.body(b"/Filter/FlateDecode", small),
                None => self.body(b"", data),
            },
        }
        Ok(())
    }

    fn body(&mut self, filter: &[u8], data: &[u8]) {
        self.bytes.extend_from_slice(filter);
        self.bytes.extend_from_slice(b"/Length ");
        integer(&mut self.bytes, data.len() as u64);
        self.bytes.extend_from_slice(b">>stream\n");
        self.bytes.extend_from_slice(data);
        self.bytes.extend_from_slice(b"\nendstream\nendobj\n");
    }
}

/// Objects on their way into an object stream.
pub struct Pack {
    form: Form,
    first: u32,
    count: u32,
    heads: Vec<u8>,
    bodies: Vec<u8>,
    /// Where objects go that are to be read by people.
    chunk: Chunk,
}

impl Pack {
    /// A pack whose objects are numbered on from `first`.
    pub fn new(first: u32, form: Form) -> Self {
        Self { form, first, count: 0, heads: Vec::new(), bodies: Vec::new(), chunk: Chunk::default() }
    }

    /// Makes room for so many objects of so many bytes in all, so that the pack need not grow step by step.
    pub fn reserve(&mut self, objects: usize, bytes: usize) {
        if self.form == Form::Small {
            // A number and a place, of seven digits each in the largest files.
            self.heads.reserve(objects * 16 + bytes);
            self.bodies.reserve(bytes);
        }
    }

    /// Adds the next object, which writes itself; its number.
    pub fn push(&mut self, value: impl FnOnce(&mut Vec<u8>)) -> u32 {
        let object = self.first + self.count;
        self.count += 1;
        if self.form == Form::Readable {
            let mut plain = Vec::new();
            value(&mut plain);
            self.chunk.plain(object, &plain);
        } else {
            integer(&mut self.heads, u64::from(object));
            self.heads.push(b' ');
            integer(&mut self.heads, self.bodies.len() as u64);
            self.heads.push(b' ');
            value(&mut self.bodies);
            self.bodies.push(b'\n');
        }
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
        if self.form == Form::Readable {
            chunk.append(&self.chunk);
            return Ok(());
        }
        let mut dictionary = b"/Type/ObjStm/N ".to_vec();
        integer(&mut dictionary, u64::from(self.count));
        dictionary.extend_from_slice(b"/First ");
        integer(&mut dictionary, self.heads.len() as u64);
        self.heads.extend_from_slice(&self.bodies);
        chunk.places.push(Place::Packed { first: self.first, count: self.count, stream: object });
        chunk.stream(object, &dictionary, &self.heads, Form::Small, deflater)
    }
}

impl Chunk {
    /// Adds another chunk behind this one.
    pub fn append(&mut self, other: &Self) {
        let shift = self.bytes.len() as u64;
        self.bytes.extend_from_slice(&other.bytes);
        self.places.extend(other.places.iter().map(|place| place.shifted(shift)));
    }
}

impl Place {
    fn shifted(self, shift: u64) -> Self {
        match self {
            Self::Plain { object, at } => Self::Plain { object, at: at + shift },
            packed @ Self::Packed { .. } => packed,
        }
    }

    /// The first of its objects, and how many there are.
    fn objects(&self) -> (u32, u32) {
        match *self {
            Self::Plain { object, .. } => (object, 1),
            Self::Packed { first, count, .. } => (first, count),
        }
    }
}

/// A file being written.
pub struct File<W> {
    out: W,
    at: u64,
    places: Vec<Place>,
    seal: Seal,
}

impl<W: Write> File<W> {
    /// A new file of PDF 1.7. The second line tells programs that look that bytes above 127 follow.
    pub fn new(out: W) -> io::Result<Self> {
        let mut file = Self { out, at: 0, places: Vec::new(), seal: Seal::new() };
        file.raw(b"%PDF-1.7\n%\xE2\xE3\xCF\xD3\n")?;
        Ok(file)
    }

    fn raw(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.seal.take(bytes);
        self.at += bytes.len() as u64;
        self.out.write_all(bytes)
    }

    /// Writes a chunk.
    pub fn chunk(&mut self, chunk: &Chunk) -> io::Result<()> {
        let shift = self.at;
        self.places.extend(chunk.places.iter().map(|place| place.shifted(shift)));
        self.raw(&chunk.bytes)
    }

    /// Writes the cross-reference and ends the file. `size` is one more than the greatest object number; `entries` are
    /// the trailer's besides size and identifier.
    pub fn finish(
        mut self,
        size: u32,
        entries: &[u8],
        form: Form,
        deflater: &mut Deflater,
    ) -> Result<W, super::Failure> {
        let start = self.at;
        self.places.sort_by_key(|place| place.objects().0);
        let identifier = self.seal.text();
        let mut trailer = entries.to_vec();
        trailer.extend_from_slice(format!("/ID[<{identifier}><{identifier}>]").as_bytes());
        match form {
            Form::Readable => self.table(size, &trailer)?,
            Form::Small => self.table_stream(size, &trailer, deflater)?,
        }
        self.raw(format!("startxref\n{start}\n%%EOF\n").as_bytes())?;
        Ok(self.out)
    }

    fn table(&mut self, size: u32, trailer: &[u8]) -> io::Result<()> {
        let mut out = format!("xref\n0 {size}\n").into_bytes();
        for (kind, at, _) in entries(&self.places, size) {
            let (generation, letter) = if kind == 0 { (65_535, 'f') } else { (0, 'n') };
            out.extend_from_slice(format!("{at:010} {generation:05} {letter} \n").as_bytes());
        }
        out.extend_from_slice(format!("trailer\n<</Size {size}").as_bytes());
        out.extend_from_slice(trailer);
        out.extend_from_slice(b">>\n");
        self.raw(&out)
    }

    fn table_stream(&mut self, size: u32, trailer: &[u8], deflater: &mut Deflater) -> Result<(), super::Failure> {
        let object = size;
        self.places.push(Place::Plain { object, at: self.at });
        let entries = || entries(&self.places, size + 1);
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
        chunk.stream(object, &dictionary, &rows, Form::Small, deflater)?;
        chunk.places.clear();
        self.chunk(&chunk)?;
        Ok(())
    }
}

/// For each object 0..size its kind (0 free, 1 in the file, 2 in an object stream) and two fields, as ISO 32000-1,
/// table 18 has them. `places` are in order of their objects. Never held as a whole: a file may have millions.
fn entries(places: &[Place], size: u32) -> impl Iterator<Item = (u8, u64, u32)> {
    let mut next = 0;
    let taken = places.iter().flat_map(move |place| {
        let (first, count) = place.objects();
        let gap = next..first;
        next = first + count;
        let rows = (0..count).map(|index| match *place {
            Place::Plain { at, .. } => (1, at, 0),
            Place::Packed { stream, .. } => (2, u64::from(stream), index),
        });
        gap.map(free).chain(rows)
    });
    let last = places.last().map_or(0, |place| place.objects().0 + place.objects().1);
    taken.chain((last..size).map(free)).take(size as usize)
}

/// An object that is none; the first of them heads the list of all.
fn free(object: u32) -> (u8, u64, u32) {
    (0, 0, if object == 0 { 65_535 } else { 0 })
}

/// A fingerprint of the bytes written, from which the file's identifier is made: the same bytes, the same identifier.
///
/// Two FNV-1a sums over words of eight bytes (Fowler, Noll and Vo; offset and prime as in the Internet draft
/// draft-eastlake-fnv); no secret depends on it.
struct Seal([u64; 2]);

impl Seal {
    fn new() -> Self {
        Self([0xCBF2_9CE4_8422_2325, 0x6C62_272E_07BB_0142])
    }

    fn take(&mut self, bytes: &[u8]) {
        for word in bytes.chunks(8) {
            let mut padded = [0; 8];
            padded[..word.len()].copy_from_slice(word);
            let value = u64::from_le_bytes(padded);
            let [a, b] = self.0;
            self.0 = [
                (a ^ value).wrapping_mul(0x0000_0100_0000_01B3),
                (b.rotate_left(31) ^ value).wrapping_mul(0x0000_0100_0000_01B3),
            ];
        }
    }

    fn text(&self) -> String {
        format!("{:016X}{:016X}", self.0[0], self.0[1])
    }
}

/// `[a 0 R b 0 R ...]`
pub fn references(out: &mut Vec<u8>, objects: impl IntoIterator<Item = u32>) {
    out.push(b'[');
    for (k, object) in objects.into_iter().enumerate() {
        if k > 0 {
            out.push(b' ');
        }
        reference(out, object);
    }
    out.push(b']');
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_object_has_an_entry() {
        let places = [Place::Plain { object: 2, at: 15 }, Place::Packed { first: 4, count: 2, stream: 2 }];
        let all: Vec<_> = entries(&places, 8).collect();
        assert_eq!(all[..4], [(0, 0, 65_535), (0, 0, 0), (1, 15, 0), (0, 0, 0)]);
        assert_eq!(all[4..], [(2, 2, 0), (2, 2, 1), (0, 0, 0), (0, 0, 0)]);
        assert_eq!(entries(&[], 2).count(), 2);
    }
}
