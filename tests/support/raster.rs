//! Draws pages with an independent renderer (`hayro`) and counts what is enclosed by lines.
//!
//! In: the bytes of a file. Out: a bitmap of greys, and the enclosed regions of a rectangle with their sizes.

use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_syntax::Pdf;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::{PixmapSettings, RenderCache, RenderSettings, render};

/// A page as greys, 0 (black) to 255 (white).
pub struct Bitmap {
    pub width: usize,
    pub height: usize,
    /// Dots to the point.
    pub scale: f64,
    pub greys: Vec<u8>,
}

/// A rectangle of a page: points from the top left corner, y down.
#[derive(Debug, Clone, Copy)]
pub struct Area {
    pub left: f64,
    pub top: f64,
    pub right: f64,
    pub bottom: f64,
}

/// A region whose dots are joined by their sides and which does not reach the edge of the area looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cell {
    /// The first and last column and row that it has dots in, dots from the left and top of the page.
    pub left: usize,
    pub top: usize,
    pub right: usize,
    pub bottom: usize,
    /// How many dots it has.
    pub dots: usize,
}

impl Cell {
    /// Columns.
    pub fn width(&self) -> usize {
        self.right - self.left + 1
    }

    /// Rows.
    pub fn height(&self) -> usize {
        self.bottom - self.top + 1
    }

    /// Whether every dot of its box belongs to it, save the corners, which the lines that meet there darken: a whole
    /// square or rectangle, not an L or a letter.
    pub fn is_rectangle(&self) -> bool {
        self.dots + 4 >= self.width() * self.height()
    }
}

/// Draws page `index` (from 0) with `scale` dots to the point.
#[track_caller]
pub fn draw(bytes: &[u8], index: usize, scale: f64) -> Bitmap {
    with(bytes, index, scale, &RenderSettings::default())
}

/// The same with letters exactly where they are printed: none is moved to whole dots.
#[track_caller]
pub fn draw_unmoved(bytes: &[u8], index: usize, scale: f64) -> Bitmap {
    with(bytes, index, scale, &RenderSettings { hinting: false, ..RenderSettings::default() })
}

#[track_caller]
fn with(bytes: &[u8], index: usize, scale: f64, look: &RenderSettings) -> Bitmap {
    let pdf = Pdf::new(bytes.to_vec()).unwrap_or_else(|error| panic!("the file does not open: {error:?}"));
    let page = &pdf.pages()[index];
    let scaled = scale as f32;
    let settings = PixmapSettings { x_scale: scaled, y_scale: scaled, bg_color: WHITE };
    let cache = RenderCache::new();
    let drawn = render(page, &cache, &InterpreterSettings::default(), look, &settings);
    // Weights of ITU-R BT.709 luma; our greys have equal channels, so any weights would do for them.
    let grey = |[r, g, b, _]: [u8; 4]| (u32::from(r) * 54 + u32::from(g) * 183 + u32::from(b) * 19) / 256;
    let greys = drawn.data_as_u8_slice().chunks_exact(4).map(|p| grey([p[0], p[1], p[2], p[3]]) as u8).collect();
    Bitmap { width: usize::from(drawn.width()), height: usize::from(drawn.height()), scale, greys }
}

impl Bitmap {
    /// The grey of a dot.
    pub fn grey(&self, x: usize, y: usize) -> u8 {
        self.greys[y * self.width + x]
    }

    /// The columns and rows of an area, clipped to the page.
    fn dots(&self, area: Area) -> (usize, usize, usize, usize) {
        let dot = |points: f64, most: usize| ((points * self.scale).round().max(0.0) as usize).min(most);
        let (left, right) = (dot(area.left, self.width), dot(area.right, self.width));
        let (top, bottom) = (dot(area.top, self.height), dot(area.bottom, self.height));
        (left, top, right, bottom)
    }

    /// The regions lighter than `line` that lie wholly inside the area: what lines at least as dark as `line` enclose.
    /// With lines of black and fills no darker than a light grey, 128 tells them apart. In reading order of their top
    /// left corners.
    pub fn enclosed(&self, area: Area, line: u8) -> Vec<Cell> {
        let (left, top, right, bottom) = self.dots(area);
        let (width, height) = (right.saturating_sub(left), bottom.saturating_sub(top));
        let mut seen = vec![false; width * height];
        let mut cells = Vec::new();
        let mut queue = Vec::new();
        for start in 0..width * height {
            let (x, y) = (left + start % width, top + start / width);
            if seen[start] || self.grey(x, y) < line {
                continue;
            }
            let mut cell = Cell { left: x, top: y, right: x, bottom: y, dots: 0 };
            let mut open = false;
            seen[start] = true;
            queue.push((x, y));
            while let Some((x, y)) = queue.pop() {
                cell.left = cell.left.min(x);
                cell.right = cell.right.max(x);
                cell.top = cell.top.min(y);
                cell.bottom = cell.bottom.max(y);
                cell.dots += 1;
                open |= x == left || y == top || x + 1 == right || y + 1 == bottom;
                let neighbours = [(x.wrapping_sub(1), y), (x + 1, y), (x, y.wrapping_sub(1)), (x, y + 1)];
                for (x, y) in neighbours {
                    if (left..right).contains(&x) && (top..bottom).contains(&y) {
                        let place = (y - top) * width + (x - left);
                        if !seen[place] && self.grey(x, y) >= line {
                            seen[place] = true;
                            queue.push((x, y));
                        }
                    }
                }
            }
            if !open {
                cells.push(cell);
            }
        }
        cells
    }
}
