//! Telling files that Placewright wrote from all others.

use std::fs::{self, File};
use std::io::{self, BufRead, BufReader, Read};
use std::path::Path;

use crate::{gallery, manifest, svg};

/// What stands in the metadata of every packet.
const PRODUCER: &[u8] = b"<pdf:Producer>Placewright ";

/// What stands in every picture of pixels.
const SOFTWARE: &[u8] = b"Software\0Placewright ";

/// The most that is looked at at a time.
const PIECE: usize = 1 << 16;

/// Whether a file was written by Placewright: an ordinary file (no link, no folder) that is a PDF with our producer, a
/// picture or an `index.html` with our name in it, or a `contents.json` with our mark.
pub(super) fn is_ours(path: &Path) -> io::Result<bool> {
    if !fs::symlink_metadata(path)?.is_file() {
        return Ok(false);
    }
    let name = path.file_name().unwrap_or_default();
    if name == manifest::FILE {
        return Ok(starts_with(path, b"{")? && holds(File::open(path)?, manifest::MARK.as_bytes())?);
    }
    if name == gallery::FILE {
        return Ok(starts_with(path, b"<!DOCTYPE html>")? && holds(File::open(path)?, gallery::MARK.as_bytes())?);
    }
    let is = |ending: &str| path.extension().is_some_and(|extension| extension == ending);
    let pictured = path.parent().and_then(Path::file_name).is_some_and(|folder| folder == gallery::PICTURES);
    if pictured && (is("svg") || is("png")) && fs::symlink_metadata(path)?.len() == 0 {
        // Nobody waited for it to be on the disk, and then the power was cut.
        return Ok(true);
    }
    if is("svg") {
        return Ok(starts_with(path, b"<svg ")? && holds(File::open(path)?, svg::MARK.as_bytes())?);
    }
    if is("png") {
        return Ok(starts_with(path, b"\x89PNG\r\n\x1a\n")? && holds(File::open(path)?, SOFTWARE)?);
    }
    Ok(is("pdf") && starts_with(path, b"%PDF-")? && holds(File::open(path)?, PRODUCER)?)
}

fn starts_with(path: &Path, start: &[u8]) -> io::Result<bool> {
    let mut head = Vec::new();
    File::open(path)?.take(start.len() as u64).read_to_end(&mut head)?;
    Ok(head == start)
}

/// Whether the bytes occur in what is read, piece by piece: packets can be large. A piece ends where the last of the bytes
/// is, which the standard library finds many at a time.
fn holds(from: impl Read, wanted: &[u8]) -> io::Result<bool> {
    let mut from = BufReader::with_capacity(PIECE, from);
    let last = wanted.last().copied().unwrap_or_default();
    let mut seen = Vec::new();
    while from.by_ref().take(PIECE as u64).read_until(last, &mut seen)? > 0 {
        if seen.ends_with(wanted) {
            return Ok(true);
        }
        // Keep what could be the start of a match that goes on in the next piece.
        seen.drain(..seen.len().saturating_sub(wanted.len()));
    }
    Ok(false)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_is_found_across_pieces() {
        for before in [0, 1, (1 << 16) - 3, 1 << 16, 200_000] {
            let mut bytes = vec![b'x'; before];
            bytes.extend_from_slice(PRODUCER);
            assert!(holds(bytes.as_slice(), PRODUCER).expect("memory"), "{before}");
            bytes.pop();
            assert!(!holds(bytes.as_slice(), PRODUCER).expect("memory"), "{before}");
        }
    }

    #[track_caller]
    fn case(folder: &Path, name: &str, bytes: &[u8], want: bool) {
        let path = folder.join(name);
        fs::write(&path, bytes).expect("written");
        assert_eq!(is_ours(&path).expect("read"), want, "{name} {}", String::from_utf8_lossy(bytes));
    }

    #[test]
    fn only_whole_marks_count() {
        let folder = tempfile::tempdir().expect("a folder");
        let at = folder.path();
        case(at, "teacher.pdf", b"%PDF-1.7\n<pdf:Producer>Placewright 0.1.0</pdf:Producer>", true);
        case(at, "teacher.pdf", b"%PDF-1.7\n<pdf:Producer>Other</pdf:Producer>", false);
        case(at, "teacher.pdf", b"", false);
        case(at, "notes.txt", b"%PDF-1.7\n<pdf:Producer>Placewright 0.1.0</pdf:Producer>", false);
        case(at, "contents.json", b"{ \"made_by\": \"Placewright 0.1.0\" }", true);
        case(at, "1.png", b"\x89PNG\r\n\x1a\nIHDR tEXtSoftware\0Placewright 0.1.0", true);
        case(at, "1.png", b"\x89PNG\r\n\x1a\nIHDR tEXtSoftware\0Other", false);
        case(at, "1.svg", b"<svg xmlns=\"x\" data-made-by=\"Placewright 0.1.0\"></svg>", true);
        case(at, "1.svg", b"<svg xmlns=\"x\"><!-- Placewright --></svg>", false);
        case(at, "1.svg", b"", false);
        fs::create_dir(at.join(gallery::PICTURES)).expect("made");
        case(&at.join(gallery::PICTURES), "1.svg", b"", true);
        case(&at.join(gallery::PICTURES), "1.txt", b"", false);
        case(at, "index.html", b"<!DOCTYPE html><meta name=\"generator\" content=\"Placewright 0.1.0\">", true);
        case(at, "index.html", b"<!DOCTYPE html><p>Placewright", false);
        case(at, "contents.json", b"{ \"title\": \"mine\" }", false);
        assert!(!is_ours(at).expect("a folder"));
    }
}
