//! How strips go on pages: each size on pages of its own, or all sizes on the same pages, whichever takes fewer.
//!
//! In: the bodies of the pages, the sizes, and how many strips of each every group of rows has. Out: [`Held`], how the pages are
//! held, chosen by counting alone, since thousands of ways are counted; and, for a way that is measured, the pages.

use crate::measure::{Count, Length, Rect};
use crate::sheets::kinds::pieces::design::{StripBand, StripPage};
use crate::sheets::page::grid::{self, Limits};
use crate::sheets::page::layout::Turn;

/// Strips of some widths, before it is known how high they are.
pub(super) struct Paging<'a> {
    /// The bodies of the pages, one for each way to hold them.
    bodies: &'a [(Turn, Rect)],
    limits: Limits,
    /// For each body and then for each size how many strips stand side by side; 0 where one is wider than the page.
    columns: Vec<u32>,
    sizes: usize,
}

/// How pages are held.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Held {
    /// Each size on pages of its own, held each in its way.
    Apart,
    /// All sizes one below the other.
    Together,
}

impl<'a> Paging<'a> {
    /// Strips of these widths.
    pub(super) fn of(bodies: &'a [(Turn, Rect)], limits: Limits, widths: &[Length]) -> Self {
        let fit = |body: Rect, wide: Length| body.width().holds(wide).narrow().min(limits.columns.1);
        let columns = bodies.iter().flat_map(|(_, body)| widths.iter().map(|wide| fit(*body, *wide))).collect();
        Self { bodies, limits, columns, sizes: widths.len() }
    }

    /// The way to hold the pages that takes the fewest where strips are so high, and how many that are; `None` where a strip is
    /// larger than a page. `counts` are by groups of rows, then by sizes.
    /// Pages with strips of one size are simpler to cut: they come first where they are as few.
    pub(super) fn best(&self, high: Length, counts: &[Vec<u32>]) -> Option<(u32, Held)> {
        let mut apart = 0;
        for size in 0..self.sizes {
            apart += self.apart(high, counts, size)?.0;
        }
        let together = self.together(high, counts).filter(|(pages, _)| *pages < apart);
        Some(together.map_or((apart, Held::Apart), |(pages, _)| (pages, Held::Together)))
    }

    /// The pages, a list for each group of rows; `None` where a strip is larger than a page.
    pub(super) fn pages(&self, held: Held, high: Length, counts: &[Vec<u32>]) -> Option<Vec<Vec<StripPage>>> {
        if held == Held::Together {
            let (_, body) = self.together(high, counts)?;
            let (turn, columns, rows) = (self.bodies[body].0, self.columns_on(body), self.rows_on(body, high));
            return Some(counts.iter().map(|counts| together(turn, columns, rows, counts)).collect());
        }
        let mut pages = vec![Vec::new(); counts.len()];
        for class in 0..self.sizes {
            let (_, body) = self.apart(high, counts, class)?;
            let (turn, columns) = (self.bodies[body].0, self.columns_on(body)[class]);
            let page = |count| StripPage { turn, bands: vec![StripBand { class, columns, count }] };
            let most = columns * self.rows_on(body, high);
            for (pages, counts) in pages.iter_mut().zip(counts) {
                pages.extend(grid::share(counts[class], most, columns).into_iter().map(page));
            }
        }
        Some(pages)
    }

    /// How many strips of each size stand side by side on a body.
    fn columns_on(&self, body: usize) -> &[u32] {
        &self.columns[body * self.sizes..(body + 1) * self.sizes]
    }

    /// How many rows of strips a body holds: all are equally high.
    fn rows_on(&self, body: usize, high: Length) -> u32 {
        self.bodies[body].1.height().holds(high).narrow().min(self.limits.rows.1)
    }

    /// How many pages a size takes by itself, and the body on which it takes the fewest.
    fn apart(&self, high: Length, counts: &[Vec<u32>], size: usize) -> Option<(u32, usize)> {
        let counted = (0..self.bodies.len()).filter_map(|body| {
            let most = self.columns_on(body)[size] * self.rows_on(body, high);
            (most > 0).then(|| (counts.iter().map(|counts| counts[size].div_ceil(most)).sum(), body))
        });
        counted.min_by_key(|(pages, _)| *pages)
    }

    /// How many pages all sizes take together, and the body on which they take the fewest.
    fn together(&self, high: Length, counts: &[Vec<u32>]) -> Option<(u32, usize)> {
        let counted = (0..self.bodies.len()).filter_map(|body| {
            let (columns, most) = (self.columns_on(body), self.rows_on(body, high));
            let pages = |counts: &Vec<u32>| rows(columns, counts).sum::<u32>().div_ceil(most);
            (most > 0 && !columns.contains(&0)).then(|| (counts.iter().map(pages).sum(), body))
        });
        counted.min_by_key(|(pages, _)| *pages)
    }
}

/// The rows of each size.
fn rows(columns: &[u32], counts: &[u32]) -> impl Iterator<Item = u32> {
    counts.iter().zip(columns).map(|(count, columns)| count.div_ceil(*columns))
}

/// All sizes on the same pages, of `most` rows each. The rows of each size are spread evenly, the odd ones of one size on the first
/// pages and of the next on the pages after those, so that no page has two rows more than another.
fn together(turn: Turn, columns: &[u32], most: u32, counts: &[u32]) -> Vec<StripPage> {
    let rows: Vec<u32> = rows(columns, counts).collect();
    let many = rows.iter().sum::<u32>().div_ceil(most.max(1));
    let mut pages = vec![StripPage { turn, bands: Vec::new() }; many.index()];
    let mut odd = 0;
    for (class, ((&count, &columns), rows)) in counts.iter().zip(columns).zip(rows).enumerate() {
        let (each, over) = (rows / many.max(1), rows % many.max(1));
        let mut left = count;
        for (k, page) in (0..many).zip(&mut pages) {
            let more = u32::from((k + many - odd) % many < over);
            let count = left.min((each + more) * columns);
            left -= count;
            if count > 0 {
                page.bands.push(StripBand { class, columns, count });
            }
        }
        odd = (odd + over) % many.max(1);
    }
    pages
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::{Point, Size};

    /// What is counted is what is made; every strip is on a page, and no page has two rows more than another.
    #[test]
    fn pages_are_counted_as_they_are_made() {
        let body = |wide, high| Rect::new(Point::ORIGIN, Size::new(Length::mm(wide), Length::mm(high)));
        let bodies = [(Turn::Portrait, body(200, 250)), (Turn::Landscape, body(260, 180))];
        let limits = Limits { columns: (1, 6), rows: (1, 14), gutter: Length::ZERO };
        let paging = Paging::of(&bodies, limits, &[Length::mm(52), Length::mm(98)]);
        let mut mixed = 0;
        for high in [18, 25, 40, 80] {
            for (text, pictures) in (0..30).flat_map(|text| (0..12).map(move |pictures| (text, pictures))) {
                let counts = [vec![text, pictures], vec![pictures, text]];
                let high = Length::mm(high);
                let (many, held) = paging.best(high, &counts).expect("strips that fit");
                let pages = paging.pages(held, high, &counts).expect("pages");
                assert_eq!(pages.iter().map(Vec::len).sum::<usize>(), many.index(), "{high} {counts:?}");
                for (pages, counts) in pages.iter().zip(&counts) {
                    for (class, count) in counts.iter().enumerate() {
                        let bands = pages.iter().flat_map(|page| &page.bands).filter(|band| band.class == class);
                        assert_eq!(bands.map(|band| band.count).sum::<u32>(), *count, "{high} {counts:?}");
                    }
                    if held == Held::Together {
                        mixed += 1;
                        let rows = |page: &StripPage| -> u32 {
                            page.bands.iter().map(|band| band.count.div_ceil(band.columns)).sum()
                        };
                        let rows: Vec<u32> = pages.iter().map(rows).collect();
                        let (least, most) = (rows.iter().min().unwrap_or(&0), rows.iter().max().unwrap_or(&0));
                        assert!(most - least <= 1, "{high} {counts:?}: {rows:?}");
                    }
                }
            }
        }
        assert!(mixed > 100, "{mixed}");
    }
}
