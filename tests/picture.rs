//! Numbers as pictures by themselves: what is drawn is the number, alone and beside others.

use std::fs;

use resvg::usvg::roxmltree::Document;

use crate::support::raster::{Area, Bitmap};
use crate::support::run::process;
use crate::support::svg as vector;

/// The picture that the program prints.
#[track_caller]
fn printed(words: &[&str]) -> String {
    let at = tempfile::tempdir().expect("a folder");
    let ran = process(at.path(), &[&["picture"], words].concat()).with(0);
    assert!(ran.err.is_empty(), "{}", ran.err);
    ran.out
}

/// A picture as another library draws it.
#[track_caller]
fn drawn(text: &str) -> Bitmap {
    let document = Document::parse(text).expect("XML");
    let side = |name| -> f64 {
        let side = document.root_element().attribute(name).and_then(|side| side.strip_suffix("pt")?.parse().ok());
        side.expect("a length in points")
    };
    let scale = 3.0;
    let dots = |name| (side(name) * scale).round() as usize;
    vector::draw(text, scale, (dots("width"), dots("height")))
}

/// How many closed cells of about the most common size a picture has.
fn cells(text: &str) -> usize {
    let picture = drawn(text);
    let (right, bottom) = (picture.width as f64 / picture.scale, picture.height as f64 / picture.scale);
    let all = picture.enclosed(Area { left: 0.0, top: 0.0, right, bottom }, 128);
    let rectangles = all.iter().filter(|cell| cell.is_rectangle() && cell.width() > 4);
    let widest = rectangles.clone().map(|cell| cell.width()).max().unwrap_or(0);
    rectangles.filter(|cell| cell.width() + 2 >= widest && cell.width().abs_diff(cell.height()) <= 2).count()
}

#[test]
fn the_blocks_are_the_number_traded_or_not() {
    assert_eq!(cells(&printed(&["406"])), 406);
    assert_eq!(cells(&printed(&["123", "--trade", "hundreds", "--trade", "tens"])), 123);
    assert_eq!(cells(&printed(&["1 hundred 16 tens 4 ones"])), 264);
    let text = printed(&["264", "--trade", "hundreds"]);
    assert!(text.contains("<title id=\"p0-t\">1 hundred 16 tens 4 ones in blocks</title>"), "{text:.400}");
    assert!(text.contains("1 flat, 16 rods, 4 cubes"));
}

#[test]
fn every_form_says_what_it_shows() {
    #[track_caller]
    fn case(words: &[&str], title: &str, told: &str) {
        let text = printed(words);
        let document = Document::parse(&text).expect("XML");
        let child =
            |name: &str| document.descendants().find(|node| node.has_tag_name(name)).and_then(|node| node.text());
        assert_eq!(child("title"), Some(title));
        assert_eq!(child("desc").map(|told| told.trim_end_matches(".\n")), Some(told));
        // Something is drawn.
        assert!(drawn(&text).greys.iter().any(|grey| *grey < 64));
    }
    case(&["406", "--form", "chart"], "406 on a chart", "place-value chart: 4 hundreds, 0 tens, 6 ones");
    case(
        &["12045", "--form", "chart"],
        "12,045 on a chart",
        "place-value chart: 1 ten thousand, 2 thousands, 0 hundreds, 4 tens, 5 ones",
    );
    case(
        &["406", "--form", "cards"],
        "406 in layered cards",
        "the cards 400, 6, and the same laid on top of each other: 406",
    );
    case(&["17", "--form", "ten-frame"], "17 in ten-frames", "1 ten-frame, filled, and one with 7 of 10 boxes filled");
    case(
        &["4062", "--form", "number-line"],
        "4,062 on a number line",
        "number line from 4,000 to 5,000, a mark every 100; an arrow shows 4,062",
    );
    case(&["7", "--form", "blocks", "--ink", "colour"], "7 in blocks", "7 cubes");
}

#[test]
fn several_numbers_have_one_scale_and_a_file_each() {
    let at = tempfile::tempdir().expect("a folder");
    for form in ["blocks", "chart", "cards", "number-line"] {
        process(at.path(), &["picture", "6", "46", "406", "--form", form, "--out", form, "--size", "120 mm"]).with(0);
        let heads: Vec<String> = ["6", "46", "406"]
            .iter()
            .map(|number| {
                fs::read_to_string(at.path().join(form).join(format!("{number}-{form}.svg"))).expect("written")
            })
            .map(|text| text[..text.find("role").expect("a role")].to_owned())
            .collect();
        assert!(heads.iter().all(|head| *head == heads[0]), "{heads:?}");
        // At most 120 mm wide: 340.157 points.
        let width: f64 =
            heads[0].split("width=\"").nth(1).and_then(|rest| rest.split("pt").next()?.parse().ok()).expect("pt");
        assert!(width <= 340.158, "{form}: {width}");
    }
    // One goes to the file that is named; what is ours is replaced, what is not stays.
    process(at.path(), &["picture", "12", "--out", "twelve.svg"]).with(0);
    process(at.path(), &["picture", "12", "--out", "twelve.svg", "--clear"]).with(0);
    fs::write(at.path().join("mine.svg"), "<svg xmlns=\"http://www.w3.org/2000/svg\"/>").expect("written");
    let ran = process(at.path(), &["picture", "12", "--out", "mine.svg"]).with(3);
    assert!(ran.err.contains("was not drawn by Placewright"), "{}", ran.err);
    process(at.path(), &["picture", "12", "--out", "mine.svg", "--force"]).with(0);
}

#[test]
fn what_cannot_be_drawn_is_told() {
    #[track_caller]
    fn case(words: &[&str], told: &str) {
        let at = tempfile::tempdir().expect("a folder");
        let ran = process(at.path(), &[&["picture"], words].concat()).with(2);
        assert!(ran.out.is_empty() && ran.err.contains(told), "{}", ran.err);
    }
    case(&["10000"], "--form chart");
    case(&["101", "--form", "ten-frame"], "up to 100");
    case(&["0", "--form", "cards"], "0 has no cards");
    case(&["264", "--trade", "thousands"], "has no thousands to trade");
    case(&["264", "--trade", "hundreds", "--form", "cards"], "--form blocks or --form chart");
    case(&["2", "3"], "--out");
    case(&["four"], "expected a number such as 406");
    case(&["999", "--size", "40 mm"], "expected --size \"");
    case(&["999", "--size", "300 cm"], "longer than 2 m");
    case(&["6", "--form", "bloks"], "did you mean `blocks`?");
}
