//! Pages of finished files as pixels, where the program was built with the feature `png`: for documents that take no SVG.
//!
//! In: the bytes of a PDF. Out: pages at a chosen resolution, as PNG files. The pages are drawn from the file itself, by a
//! renderer that knows nothing of how it was made, so a picture shows what is really in it.

mod png;

use std::sync::Arc;

use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_interpret::util::TransformExt;
use hayro::hayro_syntax::Pdf;
use hayro::kurbo::Affine;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::vello_cpu::{self, Level, Pixmap, RasterizerSettings, RenderContext, Resources, TargetInit};
use hayro::{RenderCache, RenderSettings, render_into};

use crate::diag::Problem;

pub use png::{MARK, encode};

/// The resolutions a page can be drawn at, in dots to the inch: below, nothing can be read; above, print the file.
pub const LEAST_DPI: u16 = 24;
/// See [`LEAST_DPI`].
pub const MOST_DPI: u16 = 300;

/// Points to the inch.
const POINTS: f64 = 72.0;

/// A file whose pages can be drawn.
pub struct Document {
    pdf: Pdf,
}

/// Pixels in rows from the top, three bytes each: red, green and blue.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Pixels {
    /// Pixels in a row, at least 1.
    pub width: u32,
    /// Rows, at least 1.
    pub height: u32,
    /// `3 * width * height` bytes.
    pub rgb: Vec<u8>,
}

impl Document {
    /// Opens a file that [`pdf`](crate::pdf) wrote.
    pub fn open(bytes: Arc<Vec<u8>>) -> Result<Self, Problem> {
        let pdf = Pdf::new(bytes).map_err(|error| internal(&format!("{error:?}")))?;
        Ok(Self { pdf })
    }

    /// How many pages it has.
    pub fn len(&self) -> usize {
        self.pdf.pages().len()
    }

    /// Whether it has no page.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// Draws the pages of the file that `wanted` lists, from 0, at a resolution, several at a time on so many threads, and
    /// keeps what `keep` makes of a page's place in `wanted` and its picture.
    pub fn each<T: Send>(
        &self,
        wanted: &[usize],
        dpi: u16,
        threads: usize,
        keep: impl Fn(usize, Pixels) -> Result<T, Problem> + Sync,
    ) -> Result<Vec<T>, Problem> {
        let share = wanted.len().div_ceil(threads.max(1)).max(1);
        let draw = |start: usize, part: &[usize]| {
            let pen = Pen::new(&self.pdf);
            let pages = (start..).zip(part);
            pages.map(|(place, &index)| keep(place, pen.page(index, dpi)?)).collect::<Result<Vec<T>, Problem>>()
        };
        let draw = &draw;
        std::thread::scope(|scope| {
            let parts = (0..).step_by(share).zip(wanted.chunks(share));
            let crew: Vec<_> = parts.map(|(start, part)| scope.spawn(move || draw(start, part))).collect();
            let mut all = Vec::with_capacity(wanted.len());
            for worker in crew {
                all.extend(worker.join().map_err(|_| internal("a page could not be drawn"))??);
            }
            Ok(all)
        })
    }
}

/// What one thread draws with: glyphs are looked up once a file.
struct Pen<'p> {
    pdf: &'p Pdf,
    cache: RenderCache<'p>,
}

impl<'p> Pen<'p> {
    fn new(pdf: &'p Pdf) -> Self {
        Self { pdf, cache: RenderCache::new() }
    }

    /// One page. The processor's widest instructions may round differently from machine to machine, so the same plain
    /// ones are used on all, and letters are not fitted to the pixels: the picture shows where they are printed.
    fn page(&self, index: usize, dpi: u16) -> Result<Pixels, Problem> {
        let page = self.pdf.pages().get(index).ok_or_else(|| internal(&format!("there is no page {}", index + 1)))?;
        let scale = f64::from(dpi.clamp(LEAST_DPI, MOST_DPI)) / POINTS;
        let (width, height) = page.render_dimensions();
        let (Some(width), Some(height)) = (dots(width, scale), dots(height, scale)) else {
            return Err(internal("a page is too large"));
        };
        let plain = vello_cpu::RenderSettings { level: Level::baseline(), num_threads: 0 };
        let mut context = RenderContext::new_with(width, height, plain);
        let transform = Affine::scale(scale) * page.initial_transform(true).to_kurbo();
        let settings = RenderSettings { hinting: false, ..RenderSettings::default() };
        render_into(page, &self.cache, &InterpreterSettings::default(), &settings, &mut context, transform);
        context.flush();
        let mut pixels = Pixmap::new(width, height);
        let clear = RasterizerSettings { target_init: TargetInit::Clear(WHITE), ..RasterizerSettings::default() };
        context.render_with(&mut pixels, &mut Resources::default(), clear);
        let rgb = pixels.data_as_u8_slice().chunks_exact(4).flat_map(|pixel| [pixel[0], pixel[1], pixel[2]]).collect();
        Ok(Pixels { width: u32::from(width), height: u32::from(height), rgb })
    }
}

/// A length in points as whole dots, at least one.
fn dots(points: f32, scale: f64) -> Option<u16> {
    let dots = (f64::from(points) * scale).round().max(1.0);
    // The comparison rules out what does not fit, and what is no number.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "1 <= dots <= 65535")]
    (dots <= f64::from(u16::MAX)).then_some(dots as u16)
}

/// A mistake of the program, not of a lesson.
fn internal(what: &str) -> Problem {
    Problem::new(format!("internal mistake while drawing a picture: {what}"))
        .hint("this is a fault of placewright; please report it with the lesson file")
}
