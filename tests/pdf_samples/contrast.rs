//! Contrast of every pair of colours that meets on a page, by the formula of WCAG 2.2 (W3C Recommendation, definitions of
//! relative luminance and contrast ratio; success criteria 1.4.3 and 1.4.11, both AA).

use std::collections::BTreeMap;
use std::sync::Arc;

use hayro_interpret::kurbo;
use placewright::measure::{Length, Point, Rect, Size};
use placewright::sheets::page::{Item, Layer, Node, Paint};

use super::files;
use crate::support::pdf::{Page, read};
use crate::support::samples;

type Colour = [u8; 3];

const WHITE: Colour = [255; 3];

/// Relative luminance, 0..=1.
fn luminance(colour: Colour) -> f64 {
    let [red, green, blue] = colour.map(|value| {
        let channel = f64::from(value) / 255.0;
        if channel <= 0.04045 { channel / 12.92 } else { ((channel + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

/// Contrast ratio, 1..=21.
fn contrast(a: Colour, b: Colour) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[test]
fn the_formula_gives_the_published_ratios() {
    // Black on white is 21:1 by the definition; the others are the pairs at the borders of 4.5 and 3.
    for (colour, ratio) in [([0; 3], 21.0), ([0x76; 3], 4.5422), ([0x77; 3], 4.4781), ([0x94; 3], 3.0335)] {
        assert!((contrast(colour, WHITE) - ratio).abs() < 5e-5, "{colour:?}");
    }
    assert!((contrast([255, 0, 0], WHITE) - 3.9985).abs() < 5e-5);
    assert!((contrast([0x1F, 0x4E, 0x79], WHITE) - 8.6630).abs() < 5e-5);
}

/// What lies under a point of the page: the fill painted last before the `limit`th path.
fn ground(page: &Page, at: (f64, f64)) -> Colour {
    let holds = |area: kurbo::Rect| area.x0 <= at.0 && at.0 <= area.x1 && area.y0 <= at.1 && at.1 <= area.y1;
    let mut fills = page.paths.iter().filter(|path| path.fill.is_some() && holds(path.bounds()));
    fills.next_back().and_then(|path| path.fill).unwrap_or(WHITE)
}

#[test]
fn all_text_stands_out_from_what_it_lies_on() {
    let mut worst: BTreeMap<(Colour, Colour), f64> = BTreeMap::new();
    each(|name, page| {
        for run in page.texts.iter().filter(|run| run.ink.is_some()) {
            let below = ground(page, (run.x + run.width / 2.0, run.y - run.size * 0.2));
            let ratio = contrast(run.colour, below);
            // Large text, 18 pt and more, may do with 3; we ask 4.5 of all.
            assert!(ratio >= 4.5, "{name}: `{}` has {ratio:.2} : 1", run.text);
            worst.insert((run.colour, below), ratio);
        }
    });
    assert!(!worst.is_empty());
}

#[test]
fn all_lines_stand_out_from_paper() {
    each(|name, page| {
        for path in &page.paths {
            if let Some((_, colour)) = path.stroke {
                let ratio = contrast(colour, WHITE);
                assert!(ratio >= 3.0, "{name}: a line {colour:?} has {ratio:.2} : 1");
            }
        }
    });
}

#[test]
fn every_filled_shape_has_an_outline_that_stands_out() {
    // A fill may be as light as it likes where an outline of the shape, or the shape it lies on, carries the meaning.
    each(|name, page| {
        if name.ends_with("-ticket.pdf") {
            // Its bands lead the eye along rows of black words and mean nothing themselves.
            return;
        }
        for path in page.paths.iter().filter(|path| path.stroke.is_none()) {
            let Some(fill) = path.fill.filter(|fill| contrast(*fill, WHITE) < 3.0) else { continue };
            let bounds = path.bounds().inflate(2.0, 2.0);
            let outlined = page.paths.iter().any(|other| {
                let area = other.bounds();
                other.stroke.is_some()
                    && area.x1 >= bounds.x0
                    && area.x0 <= bounds.x1
                    && area.y1 >= bounds.y0
                    && area.y0 <= bounds.y1
            });
            assert!(outlined, "{name}: a bare fill {fill:?} at {bounds:?}");
        }
    });
}

fn each(mut look: impl FnMut(&str, &Page)) {
    for file in files() {
        for page in &file.pages {
            look(&file.name, page);
        }
    }
}

#[test]
fn every_grey_and_colour_keeps_its_value_in_the_file() {
    // 256 greys are told apart by three decimals of DeviceGray.
    let mut packet = samples::all()[0].packets[0].clone();
    packet.pages.truncate(1);
    let page = &mut packet.pages[0];
    let square = |value: u8| Item::Rect {
        rect: Rect::new(Point::ORIGIN, Size::new(Length::mm(9), Length::mm(9))),
        fill: Some(if value.is_multiple_of(2) { Paint::Grey(value) } else { Paint::Rgb(value, 0, value) }),
        stroke: None,
    };
    let artifact = Node::Artifact((0..=255).map(square).collect());
    page.layers = vec![Arc::new(Layer { nodes: vec![artifact], ..Layer::default() })];
    let bytes = packet.bytes(files()[0].family, 1);
    let fills: Vec<Colour> = read(&bytes)[0].paths.iter().filter_map(|path| path.fill).collect();
    let want: Vec<Colour> = (0..=255_u8).map(|v| if v % 2 == 0 { [v; 3] } else { [v, 0, v] }).collect();
    assert_eq!(fills, want);
}
