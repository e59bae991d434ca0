//! Learners' names: every one fits.
//!
//! In: a name, the learner's number and the room for it. Out: the name set, at the face's size where it fits, otherwise
//! smaller, on several lines, or shortened with the number behind it. A name never stops a lesson.

use crate::measure::{Family, Length, Rect};
use crate::sheets::page::text::{self, Align, Face, Setting};
use crate::sheets::page::{Reader, ink};

/// Sets a name. What cannot be set at all (no room for a figure) is left out.
pub fn set(family: &Family, name: &str, number: Option<u32>, frame: Rect, face: &Face, align: Align) -> Setting {
    // A name is the learner's own: it may be smaller than the page's other text.
    let least = face.least.min(ink::SMALLEST);
    let face = Face { reader: Reader::Staff, least, ..*face };
    if let Ok(set) = text::set(family, name, frame, &face, align) {
        return set;
    }
    let small = face.at(least);
    let number = number.map(|number| number.to_string()).unwrap_or_default();
    let behind =
        if number.is_empty() { Length::ZERO } else { family.font(face.weight).width(&format!(" {number}"), least) };
    let beginning = shortened(family, name, frame.width() - behind, &small);
    let both = if number.is_empty() { beginning.clone() } else { format!("{beginning} {number}") };
    let tries = [both, plain(&beginning, &number), number];
    tries.iter().find_map(|text| text::set(family, text, frame, &small, align).ok()).unwrap_or_default()
}

/// The beginning without what reaches above capitals, for lines too low for it.
fn plain(beginning: &str, number: &str) -> String {
    use unicode_normalization::UnicodeNormalization;
    use unicode_normalization::char::is_combining_mark;
    let bare: String = beginning.nfd().filter(|c| !is_combining_mark(*c)).collect();
    format!("{bare} {number}").trim().to_owned()
}

/// One line of text no wider than `width` at the face's preferred size: whole, or its beginning with an ellipsis. Empty when
/// not even one letter fits.
pub fn shortened(family: &Family, text: &str, width: Length, face: &Face) -> String {
    let font = family.font(face.weight);
    if font.width(text, face.size) <= width {
        return text.to_owned();
    }
    let dots = if font.glyph('\u{2026}').is_some() { "\u{2026}" } else { "..." };
    let mut kept = String::new();
    for letter in text.chars() {
        kept.push(letter);
        if font.width(&kept, face.size) + font.width(dots, face.size) > width {
            kept.pop();
            break;
        }
    }
    let kept = kept.trim_end();
    if kept.is_empty() { String::new() } else { format!("{kept}{dots}") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::fonts::{Bundled, bundled};
    use crate::measure::{Point, Size, Weight};
    use crate::sheets::page::Paint;

    fn face() -> Face {
        let (size, least) = (Length::pt(14), Length::pt(14));
        Face { weight: Weight::Regular, paint: Paint::BLACK, reader: Reader::Learner, size, least, leading: 120 }
    }

    #[test]
    fn every_name_fits_every_room() {
        let long = "Quillfeather".repeat(6);
        let names = [
            "Wren",
            "\u{c1}gngj\u{1ea8}y",
            "\u{c5}sa Gry",
            &long,
            "Marrow Quill",
            "Nguy\u{1ec5}n Th\u{1ecb} \u{1ea8}ngy",
        ];
        let family = bundled(Bundled::Andika).unwrap();
        for (wide, high) in [(60, 8), (40, 6), (20, 5), (12, 12), (6, 4)] {
            let frame = Rect::new(Point::ORIGIN, Size::new(Length::mm(wide), Length::mm(high)));
            for align in [Align::LEFT, Align::CENTRE, Align::TOP] {
                for name in names {
                    let set = set(&family, name, Some(17), frame, &face(), align);
                    assert!(!set.lines.is_empty(), "{name} in {wide} by {high}");
                    for line in &set.lines {
                        let ink = family.regular.ink(&line.text, line.size, line.at).unwrap();
                        assert!(frame.contains(ink) && line.size >= ink::SMALLEST, "{name} in {wide} by {high}");
                    }
                }
            }
        }
        let narrow = Rect::new(Point::ORIGIN, Size::new(Length::mm(30), Length::mm(5)));
        let text: Vec<String> =
            set(&family, &long, Some(17), narrow, &face(), Align::LEFT).lines.into_iter().map(|l| l.text).collect();
        assert!(text.len() == 1 && text[0].starts_with("Quill") && text[0].ends_with("\u{2026} 17"), "{text:?}");
    }

    #[test]
    fn a_line_that_is_too_long_is_cut_short() {
        let family = bundled(Bundled::Andika).unwrap();
        let (short, long) = ("Marrow", "Quillfeather ".repeat(25));
        assert_eq!(shortened(&family, short, Length::mm(40), &face()), short);
        let cut = shortened(&family, &long, Length::mm(40), &face());
        assert!(cut.starts_with("Quillfeather") && cut.ends_with('\u{2026}'), "{cut}");
        assert!(family.regular.width(&cut, Length::pt(14)) <= Length::mm(40));
        assert_eq!(shortened(&family, "Wren", Length::mm(1), &face()), "");
    }
}
