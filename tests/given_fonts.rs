//! Fonts given by path: what is made of each kind of file, and that none makes the program panic, hang or print empty boxes.

use crate::support::otf;
use crate::support::trials;
use otf::{BOX, Tables, WHOLE, cff};
use placewright::measure::fonts::single;

/// Refused with these words, without a full stop, and with something to do.
#[track_caller]
fn refused(font: Vec<u8>, want: &str) {
    let problem = single(font).expect_err("the font should be refused");
    assert_eq!(problem.message, want);
    assert!(problem.hint.is_some());
}

fn whole() -> Tables {
    Tables::of(WHOLE)
}

/// A character map of one subtable, for Unicode (platform 3, encoding 10).
fn map(subtable: &[u8]) -> Vec<u8> {
    [&[0, 0, 0, 1, 0, 3, 0, 10, 0, 0, 0, 12][..], subtable].concat()
}

/// A subtable of format 12 or 13: ranges of characters, each with the first of its glyphs.
fn ranges(format: u8, ranges: &[[u32; 3]]) -> Vec<u8> {
    let groups = u32::try_from(ranges.len()).unwrap();
    let mut table = vec![0, format, 0, 0];
    for value in [16 + 12 * groups, 0, groups].iter().chain(ranges.iter().flatten()) {
        table.extend(value.to_be_bytes());
    }
    table
}

#[test]
fn taking_a_font_apart_and_putting_it_together_changes_nothing() {
    assert!(trials::font(&whole().file()));
}

#[test]
fn the_least_restrictive_licence_flag_counts() {
    // OpenType specification, OS/2, fsType: restricted (2), preview and print (4), editable (8); where older fonts set
    // several, the least restrictive applies. Bits 8 and 9: no subsetting, bitmaps only.
    let flagged = |high, low| whole().changed(b"OS/2", |table| table[8..10].copy_from_slice(&[high, low])).file();
    for used in [0, 4, 8, 6, 12] {
        single(flagged(0, used)).unwrap();
    }
    refused(flagged(0, 2), "the font's licence flags forbid embedding (fsType: restricted)");
    refused(flagged(1, 4), "the font's licence flags forbid embedding a part of it (fsType: no subsetting)");
    refused(flagged(2, 8), "the font's licence flags forbid embedding its outlines (fsType: bitmaps only)");
}

#[test]
fn variable_fonts_and_collections_are_refused() {
    // fvar: version 1.0, one axis of 20 bytes from byte 16 on: weight, 100 to 900, 400 where nothing is said.
    let axis = [&b"wght"[..], &[0, 100, 0, 0, 1, 144, 0, 0, 3, 132, 0, 0, 0, 0, 1, 0]].concat();
    let fvar = [&[0, 1, 0, 0, 0, 16, 0, 2, 0, 1, 0, 20, 0, 0, 0, 8][..], &axis].concat();
    refused(whole().with(b"fvar", fvar).file(), "the font is variable: one file for many weights");
    // gvar alone, for one axis: version 1.0, no shared tuples, no glyphs (count and flags from byte 12), data from 22 on.
    let gvar = [&[0, 1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 20][..], &[0, 0, 0, 0, 0, 0, 0, 22, 0, 0]].concat();
    refused(whole().with(b"gvar", gvar).file(), "the font is variable: one file for many weights");
    // A collection: its tag, version 1.0, one font, at byte 16.
    let collection = [&b"ttcf\0\x01\0\0\0\0\0\x01\0\0\0\x10"[..], WHOLE].concat();
    refused(collection, "the font file is a collection of several fonts");
}

#[test]
fn fonts_without_outlines_are_refused() {
    let none = "the font has no outlines: it holds only pictures of glyphs";
    refused(whole().without(b"glyf").file(), none);
    refused(whole().without(b"loca").file(), none);
    refused(Tables { version: *b"OTTO", ..whole() }.without(b"glyf").with(b"CFF ", vec![1, 0, 4, 1]).file(), none);
}

#[test]
fn outlines_that_pdf_files_cannot_hold_are_refused() {
    // CFF2: a header of 5 bytes, a dictionary of 2 (17: the glyphs, from byte 11 on), no subroutines, no glyphs.
    let cff2 = [&[2, 0, 5, 0, 2, 150, 17][..], &[0; 8]].concat();
    let only = Tables { version: *b"OTTO", ..whole() }.without(b"glyf").without(b"loca").with(b"CFF2", cff2.clone());
    refused(only.file(), "the font's outlines are of a kind (CFF2) that PDF files cannot hold");
    // Beside outlines of another kind they are left aside.
    single(whole().with(b"CFF2", cff2).file()).unwrap();
}

#[test]
fn cff_outlines_are_used() {
    // The box drawn at once, and by a subroutine.
    let fonts = [cff(BOX, &[]), cff(&[32, 29, 14], &[&[&BOX[..11], &[11]].concat()])];
    for (k, font) in fonts.iter().enumerate() {
        assert!(trials::font(font));
        // `fuzz/seed` asks for them: no bundled font has such outlines.
        if let Some(folder) = std::env::var_os("SEEDS") {
            std::fs::write(std::path::Path::new(&folder).join(format!("cff-{k}.otf")), font).unwrap();
        }
    }
}

#[test]
fn glyphs_that_are_missing_or_empty_are_named() {
    let face = ttf_parser::Face::parse(WHOLE, 0).unwrap();
    let glyph = |c: char| u32::from(face.glyph_index(c).unwrap().0);
    let all: Vec<char> = (' '..='~').chain("\u{b2}\u{b7}\u{2013}\u{201c}\u{201d}".chars()).collect();
    let mapped = |of: &dyn Fn(char) -> Option<u32>| {
        let group = |c: &char| of(*c).map(|glyph| [u32::from(*c), u32::from(*c), glyph]);
        whole().with(b"cmap", map(&ranges(12, &all.iter().filter_map(group).collect::<Vec<_>>()))).file()
    };
    assert!(trials::font(&mapped(&|c| Some(glyph(c)))));
    refused(mapped(&|c| (c != '5').then(|| glyph(c))), "the font has no `5`");
    // Glyph 0 is the box that stands for what a font lacks.
    refused(mapped(&|c| Some(if c == '5' { 0 } else { glyph(c) })), "the font has no `5`");
    refused(mapped(&|c| Some(if c == '5' { 60_000 } else { glyph(c) })), "the font has no `5`");
    refused(
        mapped(&|c| (!c.is_ascii_lowercase()).then(|| glyph(c))),
        "the font has no `a`, `b`, `c`, `d`, `e`, `f` and 20 more",
    );
    refused(mapped(&|c| Some(glyph(if c == '7' { ' ' } else { c }))), "the font draws nothing for `7`");
    refused(cff(&[14], &[]), "the font draws nothing for `0`, `1`, `2`, `3`, `4`, `5` and 76 more");
}

#[test]
fn character_maps_that_go_on_for_ever_are_refused() {
    let broken = "the font is broken and cannot be used: its character map lists more characters than there are";
    refused(whole().with(b"cmap", map(&ranges(12, &[[0, u32::MAX, 1]]))).file(), broken);
    refused(whole().with(b"cmap", map(&ranges(12, &[[0, 0x10_FFFF, 1]; 5]))).file(), broken);
    let last_resort = whole().with(b"cmap", map(&ranges(13, &[[0, 0x10_FFFF, 1]]))).file();
    let many =
        "the font is broken and cannot be used: it shows one glyph for many characters, to say that it lacks them";
    refused(last_resort, many);
    let maps = [&[0, 0, 0xff, 0xff][..], &[0, 3, 0, 10, 0, 0, 0, 4].repeat(65_535)].concat();
    refused(
        whole().with(b"cmap", maps).file(),
        "the font is broken and cannot be used: it has 65535 character maps, and at most 32 are read",
    );
}

/// Every glyph the same.
fn all_glyphs(glyph: &[u8]) -> Vec<u8> {
    let count = u32::from(ttf_parser::Face::parse(WHOLE, 0).unwrap().number_of_glyphs());
    let mut content = glyph.to_vec();
    content.resize(glyph.len().next_multiple_of(4), 0);
    let length = u32::try_from(content.len()).unwrap();
    let loca: Vec<u8> = (0..=count).flat_map(|k| (k * length).to_be_bytes()).collect();
    let wide = whole().changed(b"head", |head| head[51] = 1);
    wide.with(b"loca", loca).with(b"glyf", content.repeat(count as usize)).file()
}

#[test]
fn glyphs_made_of_each_other_are_refused() {
    // Two parts, each glyph 40: more components follow (0x20), distances (0x2); twice as many at each of 32 levels.
    let part = |more: u8| [0, more | 2, 0, 40, 0, 0];
    let twice = [&[0xff, 0xff, 0, 0, 0, 0, 0, 0, 0, 0][..], &part(0x20), &part(0)].concat();
    let want = "the font is broken and cannot be used: a glyph is made of glyphs that are made of glyphs, and so on without an end";
    refused(all_glyphs(&twice), want);
}

#[test]
fn outlines_without_end_are_refused() {
    // Sixteen levels of subroutines, each calling the next 64 times, in 3 kB: -107 and up are the first and the next.
    let level = |next: u8| [[32 + next, 29].repeat(64), vec![11]].concat();
    let levels: Vec<Vec<u8>> = (1..10).map(level).chain([vec![11]]).collect();
    let levels: Vec<&[u8]> = levels.iter().map(Vec::as_slice).collect();
    refused(
        cff(&[32, 29, 14], &levels),
        "the font is broken and cannot be used: its outlines take too many steps to draw",
    );
}
