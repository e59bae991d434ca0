//! Objects of `printpdf`'s document, renumbered and written as ours.

use std::collections::BTreeMap;

use lopdf::{Dictionary, Object, ObjectId, StringFormat};

use super::embed::Embedded;
use crate::diag::Problem;
use crate::pdf::failure::internal;
use crate::pdf::file::{Chunk, Numbering};
use crate::pdf::syntax::{name, reference};

/// Copies objects and all that they refer to.
pub struct Copier<'d> {
    embedded: &'d Embedded,
    known: BTreeMap<ObjectId, u32>,
    waiting: Vec<ObjectId>,
}

impl<'d> Copier<'d> {
    /// A copier of a document's objects.
    pub fn new(embedded: &'d Embedded) -> Self {
        Self { embedded, known: BTreeMap::new(), waiting: Vec::new() }
    }

    /// The number that an object has in our file. What is asked for is copied.
    pub fn number(&mut self, id: ObjectId, numbers: &mut Numbering) -> u32 {
        *self.known.entry(id).or_insert_with(|| {
            self.waiting.push(id);
            numbers.object()
        })
    }

    /// Writes all that was asked for.
    pub fn write(&mut self, numbers: &mut Numbering, chunk: &mut Chunk) -> Result<(), Problem> {
        let missing = || internal("an object of a font is missing");
        while let Some(id) = self.waiting.pop() {
            let number = self.number(id, numbers);
            let object = self.embedded.document.get_object(id).map_err(|_| missing())?;
            let mut out = Vec::new();
            match object {
                Object::Stream(stream) => {
                    self.entries(&stream.dict, &mut out, numbers);
                    chunk.ready(number, &out, self.embedded.streams.get(&id).ok_or_else(missing)?);
                }
                other => {
                    self.value(other, &mut out, numbers);
                    chunk.plain(number, &out);
                }
            }
        }
        Ok(())
    }

    fn entries(&mut self, dictionary: &Dictionary, out: &mut Vec<u8>, numbers: &mut Numbering) {
        for (key, value) in dictionary.iter().filter(|(key, _)| *key != b"Length") {
            name(key, out);
            if !matches!(value, Object::Name(_) | Object::Array(_) | Object::Dictionary(_) | Object::String(..)) {
                out.push(b' ');
            }
            self.value(value, out, numbers);
        }
    }

    fn value(&mut self, value: &Object, out: &mut Vec<u8>, numbers: &mut Numbering) {
        match value {
            Object::Boolean(value) => out.extend_from_slice(if *value { b"true" } else { b"false" }),
            Object::Integer(value) => out.extend_from_slice(value.to_string().as_bytes()),
            Object::Real(value) => out.extend_from_slice(value.to_string().as_bytes()),
            Object::Name(value) => name(value, out),
            Object::String(bytes, StringFormat::Literal | StringFormat::Hexadecimal) => {
                out.push(b'<');
                for byte in bytes {
                    out.extend_from_slice(format!("{byte:02X}").as_bytes());
                }
                out.push(b'>');
            }
            Object::Array(values) => {
                out.push(b'[');
                for (k, value) in values.iter().enumerate() {
                    if k > 0 {
                        out.push(b' ');
                    }
                    self.value(value, out, numbers);
                }
                out.push(b']');
            }
            Object::Dictionary(dictionary) => {
                out.extend_from_slice(b"<<");
                self.entries(dictionary, out, numbers);
                out.extend_from_slice(b">>");
            }
            // A stream never stands inside another object.
            Object::Null | Object::Stream(_) => out.extend_from_slice(b"null"),
            Object::Reference(id) => reference(out, self.number(*id, numbers)),
        }
    }
}
