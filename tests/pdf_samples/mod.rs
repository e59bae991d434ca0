//! Every packet of every sample: accessible, well formed for four other readers, small, and always the same bytes.

mod contrast;
mod together;

use crate::support;
use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;
use std::sync::LazyLock;

use hayro_syntax::Pdf;
use hayro_syntax::object::{Array, Dict, Name, Stream};
use placewright::measure::Family;
use support::samples;
use support::{matterhorn, pdf, structure};

/// A packet as a file.
struct File {
    name: String,
    bytes: Vec<u8>,
    pages: Vec<pdf::Page>,
    family: &'static Family,
}

/// Every packet of every sample, written and read once.
fn files() -> &'static [File] {
    static FILES: LazyLock<Vec<File>> = LazyLock::new(|| {
        let files = samples::all().iter().flat_map(|sample| {
            let family = &sample.family;
            sample.files(1).into_iter().map(move |(name, bytes)| {
                let pages = pdf::read(&bytes);
                File { name, bytes, pages, family }
            })
        });
        files.collect()
    });
    &FILES
}

#[test]
fn every_packet_meets_the_matterhorn_conditions() {
    for file in files() {
        assert_eq!(matterhorn::check_read(&file.bytes, &file.pages), [], "{}", file.name);
    }
}

#[test]
fn every_text_is_in_the_structure_and_every_picture_has_words() {
    for File { name, bytes, pages, .. } in files() {
        let root = structure::read(&Pdf::new(bytes.clone()).unwrap()).unwrap();
        let heard = structure::listen(&root, pages);
        assert!(heard.contains("H1 "), "{name} has no heading");
        let folder = std::env::var_os("PLACEWRIGHT_LISTEN");
        if let Some(folder) = folder {
            let file = std::path::Path::new(&folder).join(name.replace('/', "-") + ".txt");
            std::fs::write(file, &heard).unwrap();
        }
    }
}

/// The map from codes to text that a font comes with, read as plainly as an old printer would: each line of a block is a
/// code of two bytes and a text in UTF-16, apart (ISO 32000-1, 9.10.3; Adobe technical note 5411).
fn meanings(font: &Dict<'_>) -> BTreeMap<u32, String> {
    let map = font.get::<Stream<'_>>("ToUnicode").expect("a map").decoded().expect("whole");
    let map = String::from_utf8(map.to_vec()).expect("ASCII");
    let mut read = BTreeMap::new();
    let mut lines = map.lines();
    while let Some(line) = lines.next() {
        let Some(count) = line.strip_suffix(" beginbfchar") else { continue };
        let count: usize = count.parse().expect("a number");
        assert!((1..=100).contains(&count));
        for line in lines.by_ref().take(count) {
            let (code, text) = line.split_once(' ').expect("a code and a text");
            let hexadecimal =
                |part: &str| part.strip_prefix('<').and_then(|part| part.strip_suffix('>')).map(str::to_owned);
            let (code, text) = (hexadecimal(code).expect("a code"), hexadecimal(text).expect("a text"));
            assert!(code.len() == 4 && !text.is_empty() && text.len() % 4 == 0, "{line}");
            let number = |digits: &[u8]| u16::from_str_radix(std::str::from_utf8(digits).unwrap(), 16).unwrap();
            let units: Vec<u16> = text.as_bytes().chunks(4).map(number).collect();
            let text = String::from_utf16(&units).expect("UTF-16");
            assert!(read.insert(u32::from(number(code.as_bytes())), text).is_none(), "{line} comes twice");
        }
        assert_eq!(lines.next(), Some("endbfchar"));
    }
    read
}

#[test]
fn text_is_coded_in_two_bytes_that_every_reader_knows() {
    for File { name, bytes, pages, .. } in files() {
        let pdf = Pdf::new(bytes.clone()).unwrap();
        let page = pdf.pages().iter().next().unwrap();
        let fonts = page.raw().get::<Dict<'_>>("Resources").unwrap().get::<Dict<'_>>("Font").unwrap();
        let mut known = BTreeSet::new();
        for key in fonts.keys() {
            let font = fonts.get::<Dict<'_>>(&*key).unwrap();
            assert_eq!(font.get::<Name<'_>>("Encoding").unwrap().as_str(), "Identity-H", "{name}");
            let descendant = font.get::<Array<'_>>("DescendantFonts").unwrap().iter::<Dict<'_>>().next().unwrap();
            assert_eq!(descendant.get::<Name<'_>>("CIDToGIDMap").unwrap().as_str(), "Identity", "{name}");
            known.extend(meanings(&font));
        }
        let glyphs = pages.iter().flat_map(|page| &page.texts).flat_map(|run| &run.glyphs);
        let shown: BTreeSet<_> = glyphs.map(|glyph| (glyph.code, glyph.unicode.clone().unwrap_or_default())).collect();
        let lacking: Vec<_> = shown.difference(&known).collect();
        assert!(!shown.is_empty() && lacking.is_empty(), "{name}: {lacking:?}");
    }
}

#[test]
fn no_page_has_pictures_of_dots_or_transparency() {
    for file in files() {
        assert!(file.pages.iter().all(|page| (page.images, page.groups) == (0, 0)), "{}", file.name);
    }
}

#[test]
fn the_bytes_do_not_depend_on_threads_or_on_when_they_are_made() {
    for sample in samples::all() {
        let one = files().iter().filter(|file| file.name.split('/').next() == Some(&sample.name));
        let one: Vec<_> = one.map(|file| (file.name.clone(), file.bytes.clone())).collect();
        for threads in [2, 3, 8] {
            assert_eq!(sample.files(threads), one);
        }
    }
}

/// The cost of a file without pages, of each page, and of each line of text with its place in the structure, bytes. Pictures
/// are shared and cost next to nothing.
const FIXED: usize = 24_000;
const PAGE: usize = 500;
const LINE: usize = 50;

#[test]
fn packets_keep_to_their_budget_of_bytes() {
    for file in files() {
        let (pages, bytes) = (file.pages.len(), file.bytes.len());
        let lines: usize = file.pages.iter().map(|page| page.texts.len()).sum();
        assert!(bytes <= FIXED + PAGE * pages + LINE * lines, "{}: {pages} pages in {bytes} bytes", file.name);
    }
}

/// Programs that read PDF, and how each is asked to find fault.
const READERS: [(&str, &[&str]); 5] = [
    ("qpdf", &["--check"]),
    ("mutool", &["draw", "-q", "-F", "trace", "-o", "/dev/null"]),
    ("gs", &["-q", "-dNOPAUSE", "-dBATCH", "-dPDFSTOPONWARNING", "-sDEVICE=nullpage"]),
    ("pdftotext", &["-q"]),
    // Reads the structure tree as a screen reader would, and is stricter about it than the others.
    ("pdfinfo", &["-struct-text"]),
];

/// `pdfinfo` takes a time that grows with the square of the pages: longer files have no other kinds of pages.
const SHORT: usize = 120;

#[test]
fn other_readers_open_every_packet_without_a_word() {
    let folder = tempfile::tempdir().unwrap();
    for File { name, bytes, pages, .. } in files() {
        let path = folder.path().join("packet.pdf");
        std::fs::write(&path, bytes).unwrap();
        for (program, arguments) in READERS {
            if program == "pdfinfo" && pages.len() > SHORT {
                continue;
            }
            let mut command = Command::new(program);
            command.args(arguments).arg(&path);
            if program == "pdftotext" {
                command.arg("/dev/null");
            }
            let Ok(output) = command.output() else {
                println!("skipped: {program} is not installed");
                continue;
            };
            let said = String::from_utf8_lossy(&output.stderr).into_owned();
            // What a reader lacks is no fault of the file.
            let said = said.replace("warning: ICC support is not available\n", "");
            assert!(output.status.success() && said.is_empty(), "{program}, {name}: {said}");
        }
    }
}
