//! Values as a PDF writes them: numbers, references, names, text, boxes (ISO 32000-1, 7.3).
//!
//! A PDF counts points (1/72 in) from the bottom left corner.

pub use crate::measure::points::{Milli, integer, milli, number};
use crate::measure::{Length, Rect};

/// `[left bottom right top]` in points.
pub fn rect(out: &mut Vec<u8>, rect: Rect, height: Length) {
    array(out, corners(rect, height));
}

/// The smallest rectangle with corners at whole points that has a rectangle of a page in it.
pub fn rect_around(out: &mut Vec<u8>, rect: Rect, height: Length) {
    let [left, bottom, right, top] = corners(rect, height);
    let down = |value: i64| value.div_euclid(1000) * 1000;
    let up = |value: i64| -down(-value);
    array(out, [down(left), down(bottom), up(right), up(top)]);
}

/// Left, bottom, right and top of a rectangle of a page, from the page's foot up, in thousandths of a point.
fn corners(rect: Rect, height: Length) -> [i64; 4] {
    [milli(rect.left()), milli(height - rect.bottom()), milli(rect.right()), milli(height - rect.top())]
}

fn array(out: &mut Vec<u8>, values: [i64; 4]) {
    out.push(b'[');
    for (k, value) in values.into_iter().enumerate() {
        if k > 0 {
            out.push(b' ');
        }
        number(out, value);
    }
    out.push(b']');
}

/// A reference to an object.
pub fn reference(out: &mut Vec<u8>, object: u32) {
    integer(out, u64::from(object));
    out.extend_from_slice(b" 0 R");
}

/// A text string: in ASCII as it is, else in UTF-16 with its byte order mark (ISO 32000-1, 7.9.2.2).
pub fn text(out: &mut Vec<u8>, text: &str) {
    if text.bytes().all(|b| matches!(b, b' '..=b'~')) {
        out.push(b'(');
        for byte in text.bytes() {
            if matches!(byte, b'(' | b')' | b'\\') {
                out.push(b'\\');
            }
            out.push(byte);
        }
        out.push(b')');
    } else {
        out.extend_from_slice(b"<FEFF");
        for unit in text.encode_utf16() {
            out.extend_from_slice(format!("{unit:04X}").as_bytes());
        }
        out.push(b'>');
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

/// A name, with all but plain characters as `#` and two digits.
pub fn name(bytes: &[u8], out: &mut Vec<u8>) {
    out.push(b'/');
    for byte in bytes {
        if byte.is_ascii_alphanumeric() || b"+-_.".contains(byte) {
            out.push(*byte);
        } else {
            out.extend_from_slice(format!("#{byte:02X}").as_bytes());
        }
    }
}
