//! How strips go on pages: each size on pages of its own, or all sizes on the same pages, whichever takes fewer.
//!
//! In: the bodies of the pages, the sizes, and how many strips of each every group of rows has. Out: [`Held`], how the pages are
//! held, chosen by counting alone; and, for a way that is kept, the pages.

use crate::measure::{Count, Rect};
use crate::sheets::kinds::pieces::design::{StripBand, StripPage, StripSize};
use crate::sheets::page::grid::{self, Limits};
use crate::sheets::page::layout::Turn;

/// The strips of a way, before they are on pages.
pub(super) struct Paging<'a> {
    /// The bodies of the pages, one for each way to hold them.
    pub(super) bodies: &'a [(Turn, Rect)],
    pub(super) limits: Limits,
    pub(super) classes: &'a [StripSize],
    /// By groups of rows, then by classes.
    pub(super) counts: &'a [Vec<u32>],
}

/// How pages are held.
pub(super) enum Held {
    /// Each size on pages of its own, held each in its way.
    Apart(Vec<(Turn, Rect)>),
    /// All sizes one below the other.
    Together((Turn, Rect)),
}

impl Paging<'_> {
    /// The way to hold the pages that takes the fewest, and how many that are; `None` where a strip is larger than a page.
    /// Pages with strips of one size are simpler to cut: they come first where they are as few.
    pub(super) fn best(&self) -> Option<(u32, Held)> {
        let bodies = || self.bodies.iter().copied();
        let apart = (0..self.classes.len()).map(|class| {
            let counted = bodies().filter_map(|held| Some((self.pages_apart(held.1, class)?, held)));
            counted.min_by_key(|(pages, _)| *pages)
        });
        let (apart, held): (Vec<u32>, Vec<(Turn, Rect)>) = apart.collect::<Option<Vec<_>>>()?.into_iter().unzip();
        let apart: u32 = apart.iter().sum();
        let together = bodies().filter_map(|held| Some((self.pages_together(held.1)?, held)));
        let together = together.min_by_key(|(pages, _)| *pages).filter(|(pages, _)| *pages < apart);
        Some(together.map_or((apart, Held::Apart(held)), |(pages, held)| (pages, Held::Together(held))))
    }

    /// The pages, a list for each group of rows; `None` where a strip is larger than a page.
    pub(super) fn pages(&self, held: &Held) -> Option<Vec<Vec<StripPage>>> {
        match held {
            Held::Together((turn, body)) => {
                let fits: Vec<(u32, u32)> = self.fits(*body)?;
                Some(self.counts.iter().map(|counts| together(*turn, &fits, counts)).collect())
            }
            Held::Apart(held) => {
                let mut pages = vec![Vec::new(); self.counts.len()];
                for (class, &(turn, body)) in held.iter().enumerate() {
                    let (columns, rows) = self.fit(body, class)?;
                    let page = |count| StripPage { turn, bands: vec![StripBand { class, columns, count }] };
                    for (pages, counts) in pages.iter_mut().zip(self.counts) {
                        pages.extend(grid::share(counts[class], columns * rows, columns).into_iter().map(page));
                    }
                }
                Some(pages)
            }
        }
    }

    /// How many strips of a size stand side by side on a page, and how many rows of them.
    fn fit(&self, body: Rect, class: usize) -> Option<(u32, u32)> {
        let piece = self.classes.get(class)?.piece;
        let columns = body.width().holds(piece.width).narrow().min(self.limits.columns.1);
        let rows = body.height().holds(piece.height).narrow().min(self.limits.rows.1);
        (columns > 0 && rows > 0).then_some((columns, rows))
    }

    fn fits(&self, body: Rect) -> Option<Vec<(u32, u32)>> {
        (0..self.classes.len()).map(|class| self.fit(body, class)).collect()
    }

    fn pages_apart(&self, body: Rect, class: usize) -> Option<u32> {
        let (columns, rows) = self.fit(body, class)?;
        Some(self.counts.iter().map(|counts| counts[class].div_ceil(columns * rows)).sum())
    }

    fn pages_together(&self, body: Rect) -> Option<u32> {
        let fits = self.fits(body)?;
        Some(self.counts.iter().map(|counts| rows_and_pages(&fits, counts).1).sum())
    }
}

/// The rows of each size, and the pages that hold all of them one below the other. All strips are equally high.
fn rows_and_pages(fits: &[(u32, u32)], counts: &[u32]) -> (Vec<u32>, u32) {
    let rows: Vec<u32> = counts.iter().zip(fits).map(|(count, (columns, _))| count.div_ceil(*columns)).collect();
    let most = fits.iter().map(|(_, rows)| *rows).min().unwrap_or(1);
    let pages = rows.iter().sum::<u32>().div_ceil(most);
    (rows, pages)
}

/// All sizes on the same pages. The rows of each are spread evenly, the odd ones of one size on the first pages and of the next
/// on the pages after those, so that no page has two rows more than another.
fn together(turn: Turn, fits: &[(u32, u32)], counts: &[u32]) -> Vec<StripPage> {
    let (rows, many) = rows_and_pages(fits, counts);
    let mut pages = vec![StripPage { turn, bands: Vec::new() }; many.index()];
    let mut odd = 0;
    for (class, ((&count, &(columns, _)), rows)) in counts.iter().zip(fits).zip(rows).enumerate() {
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
    use crate::measure::{Length, Point, Size};

    /// What is counted is what is made; every strip is on a page, and no page has two rows more than another.
    #[test]
    fn pages_are_counted_as_they_are_made() {
        let body = |wide, high| Rect::new(Point::ORIGIN, Size::new(Length::mm(wide), Length::mm(high)));
        let bodies = [(Turn::Portrait, body(200, 250)), (Turn::Landscape, body(260, 180))];
        let limits = Limits { columns: (1, 6), rows: (1, 14), gutter: Length::ZERO };
        let size = |wide, high| StripSize {
            forms: Vec::new(),
            wide: Length::mm(wide + 3),
            piece: Size::new(Length::mm(wide), Length::mm(high)),
        };
        let mut mixed = 0;
        for high in [18, 25, 40, 80] {
            for (text, pictures) in (0..30).flat_map(|text| (0..12).map(move |pictures| (text, pictures))) {
                let classes = [size(52, high), size(98, high)];
                let counts = [vec![text, pictures], vec![pictures, text]];
                let paging = Paging { bodies: &bodies, limits, classes: &classes, counts: &counts };
                let (many, held) = paging.best().expect("strips that fit");
                let pages = paging.pages(&held).expect("pages");
                assert_eq!(pages.iter().map(Vec::len).sum::<usize>(), many.index(), "{high} {counts:?}");
                for (pages, counts) in pages.iter().zip(&counts) {
                    for (class, count) in counts.iter().enumerate() {
                        let bands = pages.iter().flat_map(|page| &page.bands).filter(|band| band.class == class);
                        assert_eq!(bands.map(|band| band.count).sum::<u32>(), *count, "{high} {counts:?}");
                    }
                    if matches!(held, Held::Together(_)) {
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
