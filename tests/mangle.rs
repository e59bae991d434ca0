//! Lessons, rosters, layouts and fonts with random damage: whatever the bytes, no panic, and every message is sound. The
//! trials are those of the fuzz targets in `fuzz/`; what a fuzzer has found stands here under its own name.

use crate::support::otf;
use crate::support::requests;
use crate::support::trials;
use std::fs;

use placewright::rng::Stream;

/// Pieces that sit at the borders of what is allowed.
const PIECES: [&str; 16] = [
    "=",
    "[",
    "]",
    "{",
    "}",
    "\"",
    "\n",
    "\r",
    "\u{feff}",
    "\u{202e}",
    "é",
    "-1",
    "1e400",
    "nan",
    "99999999999999999999",
    "\0",
];

fn samples(folder: &str, ending: &str) -> Vec<Vec<u8>> {
    let mut paths: Vec<_> = fs::read_dir(folder)
        .expect("a folder")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|e| e == ending))
        .collect();
    paths.sort();
    paths.iter().map(|path| fs::read(path).expect("a sample")).filter(|bytes| bytes.len() < 3_000).collect()
}

/// Flips, drops, doubles or moves bytes, or puts a piece in.
fn mangle(bytes: &mut Vec<u8>, stream: &mut Stream) {
    for _ in 0..=stream.index(3) {
        let at = stream.index(bytes.len() + 1);
        let end = (at + 1 + stream.index(12)).min(bytes.len());
        match stream.index(5) {
            0 if at < bytes.len() => bytes[at] ^= 1 << stream.index(8),
            1 => drop(bytes.drain(at..end.max(at))),
            2 => {
                let copy = bytes[at..end.max(at)].to_vec();
                bytes.splice(at..at, copy);
            }
            3 => {
                let moved: Vec<u8> = bytes.drain(at..end.max(at)).collect();
                let to = stream.index(bytes.len() + 1);
                bytes.splice(to..to, moved);
            }
            _ => {
                let piece = PIECES[stream.index(PIECES.len())];
                bytes.splice(at..at, piece.bytes());
            }
        }
    }
}

#[test]
fn damaged_lessons_never_panic() {
    let kinds = [samples("samples", "toml"), samples("tests/messages", "toml")];
    let mut stream = Stream::new(20, "mangle lessons");
    let mut read = 0;
    for round in 0..2_000 {
        // Good lessons and bad ones by turns.
        let samples = &kinds[round % 2];
        let mut bytes = samples[round / 2 % samples.len()].clone();
        mangle(&mut bytes, &mut stream);
        // Choosing is slow for the largest lessons and has tests of its own.
        read += u32::from(trials::lesson(&bytes, round % 10 == 0));
    }
    assert!(read > 150, "only {read} still parse: the damage is too heavy to test anything");
}

#[test]
fn damaged_rosters_never_panic() {
    let samples = samples("tests/messages", "csv");
    let mut stream = Stream::new(20, "mangle rosters");
    for round in 0..2_000 {
        let mut bytes = samples[round % samples.len()].clone();
        mangle(&mut bytes, &mut stream);
        trials::roster(&bytes);
    }
}

#[test]
fn damaged_layouts_never_panic() {
    let mut paths: Vec<_> = fs::read_dir("layouts").unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "toml"));
    paths.sort();
    let mut stream = Stream::new(20, "mangle layouts");
    let mut read = 0;
    for round in 0..180 {
        let path = &paths[round % paths.len()];
        let mut bytes = fs::read(path).unwrap();
        if round % 3 == 0 {
            mangle(&mut bytes, &mut stream);
        } else {
            renumber(&mut bytes, &mut stream);
        }
        let word = path.file_stem().unwrap().to_str().unwrap();
        // Laying all sheets out, as `page.toml` does, is slow.
        if word != "page" || round < 30 {
            read += u32::from(trials::layout(&[word.as_bytes(), b"\n", &bytes].concat()));
        }
    }
    assert!(read > 40, "only {read} still parse");
}

/// Puts another number in the place of one or two.
fn renumber(bytes: &mut Vec<u8>, stream: &mut Stream) {
    const NUMBERS: [&str; 12] = ["0", "1", "2", "3", "7", "14", "24", "50", "99", "100", "300", "1999"];
    for _ in 0..=stream.index(2) {
        let starts: Vec<usize> = (1..bytes.len())
            .filter(|&k| bytes[k].is_ascii_digit() && !bytes[k - 1].is_ascii_digit() && bytes[k - 1] != b'.')
            .collect();
        let start = starts[stream.index(starts.len())];
        let length = bytes[start..].iter().take_while(|byte| byte.is_ascii_digit() || **byte == b'.').count();
        bytes.splice(start..start + length, NUMBERS[stream.index(NUMBERS.len())].bytes());
    }
}

#[test]
fn damaged_fonts_never_panic() {
    let kinds = [otf::WHOLE.to_vec(), otf::cff(otf::BOX, &[])];
    let mut stream = Stream::new(20, "mangle fonts");
    let mut used = 0;
    for round in 0..80 {
        let whole = &kinds[usize::from(round % 3 == 0)];
        let mut font = whole.clone();
        for _ in 0..=stream.index(3) {
            // The table of tables, or one of them: near its start, where the numbers are that say how to read it.
            let table = 12 + 16 * stream.index(usize::from(whole[5]));
            let at = u32::from_be_bytes(whole[table + 8..][..4].try_into().unwrap()) as usize;
            let at = if round % 4 == 0 { stream.index(300) } else { at + stream.index(64) };
            if let Some(byte) = font.get_mut(at) {
                *byte = [0, 1, 0x7f, 0x80, 0xff, *byte ^ 1 << stream.index(8)][stream.index(6)];
            }
        }
        if round % 10 == 0 {
            font.truncate(stream.index(font.len()));
        }
        used += u32::from(trials::font(&font));
    }
    assert!(used > 10, "only {used} can be used");
}

#[test]
fn damaged_lessons_make_whole_files_or_none() {
    let small = "title = \"Harbour stalls\"\ngrade = \"2\"\npaper = \"a4\"\n[numbers]\nrange = [10, 999]\n\
                 model = { count = 1 }\nsort = { count = 3, repeats = 1 }\nexit = { count = 2 }\n\
                 [forms]\nmatch = [\"numeral\", \"words\", \"blocks\"]\ndecoys = 1\n[class]\nlearners = 2\nspares = 1\n\
                 [print]\ncut = \"stack\"\nsides = \"two\"\ntext = \"standard\"\nmargin = \"6 mm\"\n";
    let mut stream = Stream::new(20, "mangle runs");
    let mut made = 0;
    for round in 0..16 {
        let mut bytes = small.as_bytes().to_vec();
        if round % 4 == 0 {
            mangle(&mut bytes, &mut stream)
        } else {
            renumber(&mut bytes, &mut stream)
        }
        made += u32::from(trials::run(&bytes));
    }
    assert!(made > 3, "only {made} are made");
}

// What fuzzers found, each under its own name.

#[test]
fn a_font_too_wide_for_the_foot_is_not_shortened_for_ever() {
    // 16 units to the em (table head, byte 18) make every letter sixty times as wide.
    let wide = otf::Tables::of(otf::WHOLE).changed(b"head", |head| head[18..20].copy_from_slice(&[0, 16]));
    assert!(!trials::font(&wide.file()));
}

#[test]
fn files_with_mistakes_by_the_thousand_are_told_in_part() {
    #[track_caller]
    fn case(text: &str) {
        let source = trials::source("long.toml", text.as_bytes());
        let found = placewright::spec::read(&source).expect_err("mistakes");
        assert!(found.len() <= placewright::diag::TOLD + 1);
        trials::sound(&found);
    }
    let head = "title = \"x\"\n[numbers]\nrange = [1, 9]\n";
    case(&"=\n".repeat(20_000));
    case(&format!("{head}{}", (0..20_000).map(|k| format!("k{k} = 1\n")).collect::<String>()));
    case(&format!("{head}never = [{}]", "\"x\", ".repeat(9_999)));
    case(&format!("title = {}", "[".repeat(100_000)));
    case(&format!("{} = 1", vec!["a"; 100_000].join(".")));
    case(&format!("title = \"{}\"", "x".repeat(1_000_000)));
}

#[test]
fn a_roster_of_names_that_cannot_be_printed_is_told_in_part() {
    assert!(trials::roster(format!("name\n{}", "\u{5d0}\n".repeat(5_000)).as_bytes()));
    assert!(!trials::roster(format!("group,name\n{}", "a\n".repeat(50_000)).as_bytes()));
}

#[test]
fn requests_with_damage_are_answered_or_refused() {
    let seeds = requests::seeds();
    // What a fuzzer starts from.
    if let Some(folder) = std::env::var_os("SEEDS") {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
        for (k, seed) in seeds.iter().enumerate() {
            fs::write(folder.join(format!("request-{k}")), seed).expect("written");
        }
    }
    for seed in &seeds {
        let known = requests::desk(seed);
        let text = String::from_utf8_lossy(seed);
        let missing = ["/page/", "/file/", "/all.zip", "/list", "/here"].iter().any(|path| text.contains(path));
        assert!(known || missing, "{text}");
    }
    let mut stream = Stream::new(31, "requests");
    let mut answered = 0;
    for round in 0..1_000 {
        let mut bytes = seeds[stream.index(seeds.len())].clone();
        let body = bytes.windows(4).position(|end| end == b"\r\n\r\n").expect("a head") + 4;
        if round % 2 == 0 && body < bytes.len() {
            // What is said is damaged, and how long it is is right.
            let mut said = bytes.split_off(body);
            let head = String::from_utf8(bytes).expect("UTF-8").replace(&format!(": {}\r", said.len()), ": LENGTH\r");
            mangle(&mut said, &mut stream);
            bytes = [head.replace("LENGTH", &said.len().to_string()).into_bytes(), said].concat();
        } else {
            mangle(&mut bytes, &mut stream);
        }
        answered += u32::from(requests::desk(&bytes));
    }
    assert!((50..950).contains(&answered), "{answered} answered");
}

#[test]
fn an_older_version_of_http_is_refused_in_it() {
    for bytes in
        [&b"GET / HTTP/1.0\r\nHost: {host\r\n\r\n"[..], b"GET / HTTP/1.0\r\nHost: {host}\r\nCookie: {cookie}\r\n\r\n"]
    {
        assert!(!requests::desk(bytes));
    }
}
