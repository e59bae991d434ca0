//! Fonts: the bundled files are the ones named, and a font given by path is used or refused in plain words.

use std::fmt::Write as _;

use placewright::measure::fonts::{Bundled, bundled, single};

const ANDIKA: &[u8] = include_bytes!("../fonts/andika/Andika-Regular.ttf");

/// Where a table of a font lies (OpenType specification, table directory: 16 bytes a table from byte 12 on).
fn table(font: &[u8], tag: [u8; 4]) -> (usize, usize) {
    let number = |at: usize| u32::from_be_bytes(font[at..at + 4].try_into().unwrap()) as usize;
    let entry = font[12..].chunks(16).position(|entry| entry[..4] == tag).unwrap();
    (number(12 + entry * 16 + 8), number(12 + entry * 16 + 12))
}

/// Andika with one byte pair of a table replaced.
fn patched(tag: [u8; 4], offset: usize, value: [u8; 2]) -> Vec<u8> {
    let mut font = ANDIKA.to_vec();
    let at = table(&font, tag).0 + offset;
    font[at..at + 2].copy_from_slice(&value);
    font
}

#[track_caller]
fn refused(font: impl Into<Vec<u8>>, want: &str) {
    let problem = single(font.into()).expect_err("the font should be refused");
    assert!(problem.message.contains(want), "{}", problem.message);
    assert!(problem.message.starts_with(|c: char| !c.is_uppercase()) && !problem.message.ends_with('.'));
}

#[test]
fn fonts_that_may_not_or_cannot_be_embedded_are_refused_in_plain_words() {
    refused(*b"", "not a font");
    refused(*b"title = \"Harbour\"", "not a font");
    refused(*b"ttcf\0\x01\0\0", "collection");
    refused(*b"wOF2\0\x01\0\0", "web");
    refused(*b"%!PS-AdobeFont-1.0", "Type 1");
    refused(ANDIKA[..200].to_vec(), "broken");
    // OS/2 fsType, at byte 8 of the table: 0x0002 restricted, 0x0100 no subsetting, 0x0200 bitmaps only.
    refused(patched(*b"OS/2", 8, [0, 2]), "restricted");
    refused(patched(*b"OS/2", 8, [1, 0]), "subsetting");
    refused(patched(*b"OS/2", 8, [2, 0]), "bitmaps");
}

#[test]
fn fonts_that_allow_printing_or_editing_are_used() {
    for flags in [[0, 0], [0, 4], [0, 8]] {
        single(patched(*b"OS/2", 8, flags)).unwrap();
    }
}

#[test]
fn a_font_without_a_table_is_refused() {
    for tag in [*b"head", *b"maxp", *b"hhea", *b"glyf", *b"cmap", *b"loca"] {
        let mut font = ANDIKA.to_vec();
        let entry = font[12..].chunks(16).position(|entry| entry[..4] == tag).unwrap();
        font[12 + entry * 16..][..4].copy_from_slice(b"zzzz");
        assert!(single(font).is_err(), "{}", String::from_utf8_lossy(&tag));
    }
}

#[test]
fn no_torn_or_scrambled_font_makes_the_program_panic() {
    let mut state = 7_u64;
    let mut next = move |below: usize| {
        // A linear congruential generator (Knuth's MMIX constants): any fixed stream will do.
        state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(state >> 33).unwrap() % below
    };
    let small = include_bytes!("fixtures/fonts/atkinson-hyperlegible/AtkinsonHyperlegible-Regular.ttf");
    for _ in 0..60 {
        let mut font = small[..small.len() - next(small.len() / 2)].to_vec();
        for _ in 0..=next(40) {
            let at = next(font.len().min(2000));
            font[at] = u8::try_from(next(256)).unwrap();
        }
        let _ = single(font);
    }
}

#[test]
fn bundled_families_hold_what_lessons_say() {
    for family in Bundled::ALL {
        let family = bundled(family).unwrap();
        for font in [&family.regular, &family.bold] {
            let needed = (' '..='~').chain("\u{e9}\u{d7}\u{2013}\u{2019}\u{2026}\u{a0}".chars()).collect::<String>();
            assert_eq!(font.lacks(&needed), None, "{}", font.name());
        }
    }
}

/// Counts the closed curves of an outline.
struct Curves(usize);

impl ttf_parser::OutlineBuilder for Curves {
    fn move_to(&mut self, _: f32, _: f32) {
        self.0 += 1;
    }
    fn line_to(&mut self, _: f32, _: f32) {}
    fn quad_to(&mut self, _: f32, _: f32, _: f32, _: f32) {}
    fn curve_to(&mut self, _: f32, _: f32, _: f32, _: f32, _: f32, _: f32) {}
    fn close(&mut self) {}
}

#[test]
fn bundled_zeros_are_plain() {
    let curves = |bytes: &[u8]| {
        let face = ttf_parser::Face::parse(bytes, 0).unwrap();
        let mut curves = Curves(0);
        face.outline_glyph(face.glyph_index('0').unwrap(), &mut curves).unwrap();
        curves.0
    };
    for family in Bundled::ALL {
        let family = bundled(family).unwrap();
        for font in [&family.regular, &family.bold] {
            assert_eq!(curves(font.bytes()), 2, "{}: the zero has more than an outside and an inside", font.name());
        }
    }
    // A zero with a stroke through it has a third.
    assert_eq!(curves(include_bytes!("fixtures/fonts/atkinson-hyperlegible/AtkinsonHyperlegible-Regular.ttf")), 3);
}

#[test]
fn bundled_files_have_the_checksums_of_their_origin() {
    let root = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fonts");
    let list = std::fs::read_to_string(root.join("SHA256SUMS")).unwrap();
    assert_eq!(list.lines().count(), 4);
    for line in list.lines() {
        let (sum, name) = line.split_once("  ").unwrap();
        assert_eq!(sha256(&std::fs::read(root.join(name)).unwrap()), sum, "{name}");
    }
}

/// SHA-256 (FIPS 180-4, sections 5 and 6.2), as hexadecimal digits.
fn sha256(message: &[u8]) -> String {
    const PRIMES: usize = 64;
    let mut primes = (2_u64..).filter(|n| (2..*n).take_while(|d| d * d <= *n).all(|d| n % d != 0));
    let primes: Vec<u64> = primes.by_ref().take(PRIMES).collect();
    // The first 32 bits of the fractional parts of roots of primes, by integer roots of the prime times 2^64 or 2^96.
    let root = |prime: u64, power: u32| {
        let wanted = u128::from(prime) << (32 * power);
        let (mut low, mut high) = (0_u128, 1_u128 << 40);
        while high - low > 1 {
            let middle = u128::midpoint(low, high);
            if middle.pow(power) <= wanted { low = middle } else { high = middle }
        }
        u32::try_from(low & 0xFFFF_FFFF).unwrap()
    };
    let constants: Vec<u32> = primes.iter().map(|p| root(*p, 3)).collect();
    let mut hash: Vec<u32> = primes[..8].iter().map(|p| root(*p, 2)).collect();
    let mut padded = message.to_vec();
    padded.push(0x80);
    padded.resize(padded.len().next_multiple_of(64) + if padded.len() % 64 > 56 { 64 } else { 0 } - 8, 0);
    padded.extend_from_slice(&(message.len() as u64 * 8).to_be_bytes());
    for block in padded.chunks(64) {
        let mut words: Vec<u32> = block.chunks(4).map(|w| u32::from_be_bytes(w.try_into().unwrap())).collect();
        for k in 16..64 {
            let (a, b) = (words[k - 15], words[k - 2]);
            let small = a.rotate_right(7) ^ a.rotate_right(18) ^ (a >> 3);
            let large = b.rotate_right(17) ^ b.rotate_right(19) ^ (b >> 10);
            words.push(words[k - 16].wrapping_add(small).wrapping_add(words[k - 7]).wrapping_add(large));
        }
        let mut v = hash.clone();
        for (word, constant) in words.iter().zip(&constants) {
            let mix = v[4].rotate_right(6) ^ v[4].rotate_right(11) ^ v[4].rotate_right(25);
            let choose = (v[4] & v[5]) ^ (!v[4] & v[6]);
            let first = v[7].wrapping_add(mix).wrapping_add(choose).wrapping_add(*constant).wrapping_add(*word);
            let mix = v[0].rotate_right(2) ^ v[0].rotate_right(13) ^ v[0].rotate_right(22);
            let majority = (v[0] & v[1]) ^ (v[0] & v[2]) ^ (v[1] & v[2]);
            v.rotate_right(1);
            v[4] = v[4].wrapping_add(first);
            v[0] = first.wrapping_add(mix).wrapping_add(majority);
        }
        for (sum, new) in hash.iter_mut().zip(v) {
            *sum = sum.wrapping_add(new);
        }
    }
    hash.iter().fold(String::new(), |mut text, word| {
        let _ = write!(text, "{word:08x}");
        text
    })
}

#[test]
fn the_checksum_is_sha_256() {
    // FIPS 180-2, appendix B.1 and B.2.
    assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    assert_eq!(
        sha256(b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
    );
}
