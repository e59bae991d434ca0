//! Every packet of every sample: accessible, well formed for four other readers, small, and always the same bytes.
#![allow(clippy::unwrap_used, reason = "a test may fail anywhere")]

mod support;

use std::process::Command;

use hayro_syntax::Pdf;
use placewright::pdf::{Options, write};
use support::samples::{self, Sample};
use support::{matterhorn, pdf, structure};

fn bytes(sample: &Sample, options: Options) -> Vec<(String, Vec<u8>)> {
    let packets = sample.packets.iter();
    packets
        .map(|packet| (format!("{}/{}", sample.name, packet.file), write(packet, &sample.family, &options).unwrap()))
        .collect()
}

#[test]
fn every_packet_meets_the_matterhorn_conditions() {
    for (name, bytes) in samples::all().iter().flat_map(|sample| bytes(sample, Options::default())) {
        assert_eq!(matterhorn::check(&bytes), [], "{name}");
    }
}

#[test]
fn every_text_is_in_the_structure_and_every_picture_has_words() {
    for (name, bytes) in samples::all().iter().flat_map(|sample| bytes(sample, Options::default())) {
        let pages = pdf::read(&bytes);
        let root = structure::read(&Pdf::new(bytes).unwrap()).unwrap();
        let heard = structure::listen(&root, &pages);
        assert!(heard.contains("H1 "), "{name} has no heading");
        let folder = std::env::var_os("PLACEWRIGHT_LISTEN");
        if let Some(folder) = folder {
            let file = std::path::Path::new(&folder).join(name.replace('/', "-") + ".txt");
            std::fs::write(file, &heard).unwrap();
        }
    }
}

#[test]
fn no_page_has_pictures_of_dots_or_transparency() {
    for (name, bytes) in samples::all().iter().flat_map(|sample| bytes(sample, Options::default())) {
        for page in pdf::read(&bytes) {
            assert_eq!((page.images, page.groups), (0, 0), "{name}");
        }
    }
}

#[test]
fn the_bytes_do_not_depend_on_threads_or_on_when_they_are_made() {
    for sample in samples::all() {
        let one = bytes(&sample, Options { threads: 1, ..Options::default() });
        for threads in [2, 3, 8] {
            assert_eq!(bytes(&sample, Options { threads, ..Options::default() }), one);
        }
    }
}

/// The cost of a file without pages and of each further page, bytes.
const FIXED: usize = 48_000;
const PAGE: usize = 1_500;

#[test]
fn packets_keep_to_their_budget_of_bytes() {
    for sample in samples::all() {
        for (packet, (name, bytes)) in sample.packets.iter().zip(bytes(&sample, Options::default())) {
            let budget = FIXED + PAGE * packet.pages.len();
            assert!(bytes.len() <= budget, "{name}: {} pages in {} bytes", packet.pages.len(), bytes.len());
        }
    }
}

/// Programs that read PDF, and how each is asked to find fault.
const READERS: [(&str, &[&str]); 4] = [
    ("qpdf", &["--check"]),
    ("mutool", &["draw", "-q", "-F", "trace", "-o", "/dev/null"]),
    ("gs", &["-q", "-dNOPAUSE", "-dBATCH", "-dPDFSTOPONWARNING", "-sDEVICE=nullpage"]),
    ("pdftotext", &["-q"]),
];

#[test]
fn other_readers_open_every_packet_without_a_word() {
    let folder = tempfile::tempdir().unwrap();
    for (name, bytes) in samples::all().iter().flat_map(|sample| bytes(sample, Options::default())) {
        let path = folder.path().join("packet.pdf");
        std::fs::write(&path, bytes).unwrap();
        for (program, arguments) in READERS {
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
