//! The text of a roster, however the program that wrote it stores letters.

use encoding_rs::{Encoding, UTF_16BE, UTF_16LE, WINDOWS_1252};

use crate::diag::Problem;

/// What spreadsheet files and others that are no text begin with, and what they are.
const OTHERS: [(&[u8], &str); 4] = [
    (b"PK\x03\x04", "a spreadsheet"),
    (b"\xd0\xcf\x11\xe0", "a spreadsheet"),
    (b"%PDF", "a PDF"),
    (b"{\\rtf", "a document of a word processor"),
];

/// The text: by its byte order mark; without one UTF-8, UTF-16 where every second byte of the first letters is 0, and
/// else Windows-1252, in which any bytes are text.
pub fn decode(name: &str, bytes: Vec<u8>) -> Result<String, Problem> {
    if let Some((_, what)) = OTHERS.iter().find(|(start, _)| bytes.starts_with(start)) {
        return Err(not_text(name, what));
    }
    if let Some((encoding, _)) = Encoding::for_bom(&bytes) {
        return Ok(encoding.decode_with_bom_removal(&bytes).0.into_owned());
    }
    let encoding = match bytes.as_slice() {
        [0, second, ..] if *second != 0 => UTF_16BE,
        [first, 0, ..] if *first != 0 => UTF_16LE,
        bytes if bytes.contains(&0) => return Err(not_text(name, "not a text file")),
        _ => WINDOWS_1252,
    };
    if encoding != WINDOWS_1252 {
        return Ok(encoding.decode_without_bom_handling(&bytes).0.into_owned());
    }
    let text = String::from_utf8(bytes);
    Ok(text.unwrap_or_else(|error| WINDOWS_1252.decode_without_bom_handling(error.as_bytes()).0.into_owned()))
}

fn not_text(name: &str, what: &str) -> Problem {
    Problem::new(format!("`{name}` is {what}, and the roster must be a table saved as CSV"))
        .hint("open it, choose Save As or Download, pick CSV as the type, and name the new file under `roster`")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_spreadsheets_write_is_read() {
        #[track_caller]
        fn case(bytes: &[u8]) {
            assert_eq!(decode("x.csv", bytes.to_vec()).as_deref(), Ok("name\nZoë\n"), "{bytes:?}");
        }
        let text = "name\nZoë\n";
        let units: Vec<u16> = text.encode_utf16().collect();
        let (little, big): (Vec<u8>, Vec<u8>) = (
            units.iter().flat_map(|unit| unit.to_le_bytes()).collect(),
            units.iter().flat_map(|unit| unit.to_be_bytes()).collect(),
        );
        case(text.as_bytes());
        case(&[b"\xef\xbb\xbf", text.as_bytes()].concat());
        case(&little);
        case(&big);
        case(&[b"\xff\xfe", little.as_slice()].concat());
        case(&[b"\xfe\xff", big.as_slice()].concat());
        case(b"name\nZo\xeb\n");
    }

    #[test]
    fn what_is_no_text_is_told_with_the_way_out() {
        for bytes in [&b"PK\x03\x04rest"[..], b"\xd0\xcf\x11\xe0\xa1\xb1", b"%PDF-1.7", b"na\0\0me"] {
            let problem = decode("names.xlsx", bytes.to_vec()).expect_err("no text");
            assert!(problem.message.contains("`names.xlsx` is ") && problem.hint.expect("a hint").contains("CSV"));
        }
    }
}
