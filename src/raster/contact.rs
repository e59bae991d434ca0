//! A contact sheet: all pages of a file side by side on one picture, each with its number.

use super::{Picture, digits};

/// The resolution of the small pages, in dots to the inch.
pub const SMALL: u16 = 24;

/// Pixels around each page.
const GAP: u32 = 16;
/// The ground, the number and the edge of a page.
const GROUND: u8 = 226;
const INK: u8 = 48;
const EDGE: u8 = 120;

/// Lays out small pages in rows, each with its number in the file beneath, in the order given. Without pages, there is no
/// sheet.
pub fn sheet(pages: &[(usize, &Picture)]) -> Option<Picture> {
    let (wide, high) = (pages.iter().map(|(_, p)| p.width).max()?, pages.iter().map(|(_, p)| p.height).max()?);
    let count = u32::try_from(pages.len()).ok()?;
    let columns = columns(count);
    let (cell_width, cell_height) = (wide + GAP, high + 2 * GAP + digits::HEIGHT);
    let (width, height) = (columns * cell_width + GAP, count.div_ceil(columns) * cell_height);
    let mut sheet = Sheet { width, greys: vec![[GROUND; 3]; (width as usize) * (height as usize)] };
    for (k, (number, page)) in (0..).zip(pages) {
        let left = GAP + k % columns * cell_width + (wide - page.width) / 2;
        let top = GAP + k / columns * cell_height;
        sheet.page(left, top + high - page.height, page);
        let middle = left + page.width / 2;
        let start = middle.saturating_sub(digits::width(*number) / 2);
        digits::draw(*number, |x, y| sheet.dot(start + x, top + high + GAP / 2 + y, [INK; 3]));
    }
    Some(Picture { width, height, rgb: sheet.greys.concat() })
}

/// How many pages to a row: the sheet is about as wide as a screen, and wider only where it would get very long.
fn columns(pages: u32) -> u32 {
    pages.clamp(1, 6).max(pages.isqrt())
}

struct Sheet {
    width: u32,
    greys: Vec<[u8; 3]>,
}

impl Sheet {
    fn dot(&mut self, x: u32, y: u32, colour: [u8; 3]) {
        let place = y as usize * self.width as usize + x as usize;
        if let Some(dot) = self.greys.get_mut(place).filter(|_| x < self.width) {
            *dot = colour;
        }
    }

    fn page(&mut self, left: u32, top: u32, page: &Picture) {
        for y in 0..page.height + 2 {
            for x in 0..page.width + 2 {
                self.dot(left + x - 1, top + y - 1, [EDGE; 3]);
            }
        }
        for (k, pixel) in (0..).zip(page.rgb.chunks_exact(3)) {
            self.dot(left + k % page.width, top + k / page.width, [pixel[0], pixel[1], pixel[2]]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn blank(width: u32, height: u32) -> Picture {
        Picture { width, height, rgb: vec![255; (3 * width * height) as usize] }
    }

    #[test]
    fn every_page_is_on_the_sheet_whole() {
        let (tall, flat) = (blank(30, 40), blank(40, 30));
        for count in [1, 5, 6, 7, 49, 200] {
            let pages: Vec<_> = (1..=count).map(|k| (k, if k % 3 == 0 { &flat } else { &tall })).collect();
            let sheet = sheet(&pages).expect("a sheet");
            assert_eq!(sheet.rgb.len(), (3 * sheet.width * sheet.height) as usize);
            let white = sheet.rgb.chunks_exact(3).filter(|pixel| **pixel == [255; 3]).count();
            assert_eq!(white, count * 1200, "{count}");
        }
        assert_eq!(sheet(&[]), None);
    }

    #[test]
    fn long_files_get_wider_rows() {
        assert_eq!([1, 4, 6, 30, 100, 400].map(columns), [1, 4, 6, 6, 10, 20]);
    }
}
