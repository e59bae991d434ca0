//! Draws SVG with an independent renderer (`resvg`), and measures how far two bitmaps differ.

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

use super::raster::Bitmap;

/// A picture on white, with `scale` dots to the point and so many in a row and rows.
#[track_caller]
pub fn draw(text: &str, scale: f64, (width, height): (usize, usize)) -> Bitmap {
    // Points as they are written, not as pixels of a screen.
    let options = Options { dpi: 72.0, ..Options::default() };
    let tree = Tree::from_str(text, &options).unwrap_or_else(|error| panic!("{error}: {text:.400}"));
    let mut pixels = Pixmap::new(width as u32, height as u32).expect("a size");
    pixels.fill(resvg::tiny_skia::Color::WHITE);
    resvg::render(&tree, Transform::from_scale(scale as f32, scale as f32), &mut pixels.as_mut());
    assert!((f64::from(tree.size().width()) * scale - width as f64).abs() < 1.0, "{}", tree.size().width());
    assert!((f64::from(tree.size().height()) * scale - height as f64).abs() < 1.0, "{}", tree.size().height());
    // Weights of ITU-R BT.709 luma, as for pages of a PDF.
    let mut greys = Vec::with_capacity(width * height);
    for dot in pixels.data().chunks_exact(4) {
        greys.push(((u32::from(dot[0]) * 54 + u32::from(dot[1]) * 183 + u32::from(dot[2]) * 19) / 256) as u8);
    }
    Bitmap { width, height, scale, greys }
}

/// How far two pictures of one size differ.
#[derive(Debug, Clone, Copy)]
pub struct Difference {
    /// The mean difference of a dot, of 255.
    pub mean: f64,
    /// The greatest difference of the mean greys of a square of [`SIDE`] dots, of 255: ink that one of them lacks.
    pub worst: f64,
    /// How many dots are black in one and white in the other, or nearly so.
    pub opposite: usize,
}

/// The side of a square that is compared as a whole: less than a small letter at two dots to the point.
const SIDE: usize = 8;

/// Measures how far two pictures differ.
pub fn difference(one: &Bitmap, other: &Bitmap) -> Difference {
    assert_eq!((one.width, one.height), (other.width, other.height));
    let columns = one.width.div_ceil(SIDE);
    let mut squares = vec![0_i32; columns * one.height.div_ceil(SIDE)];
    let (mut sum, mut opposite) = (0_u64, 0);
    let mut at = 0;
    for y in 0..one.height {
        let row = y / SIDE * columns;
        for x in 0..one.width {
            let apart = i32::from(one.greys[at]) - i32::from(other.greys[at]);
            at += 1;
            if apart != 0 {
                squares[row + x / SIDE] += apart;
                sum += u64::from(apart.unsigned_abs());
                opposite += usize::from(apart.abs() > 200);
            }
        }
    }
    let worst = squares.iter().map(|sum| sum.abs()).max().unwrap_or(0);
    Difference { mean: sum as f64 / one.greys.len() as f64, worst: f64::from(worst) / (SIDE * SIDE) as f64, opposite }
}
