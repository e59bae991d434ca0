//! Reads a PDF with libraries that had no part in writing it (`hayro-syntax`, `hayro-interpret`).
//!
//! In: the bytes of a file. Out: for each page its size, the lines of text with place, size and Unicode text, the paths
//! with their pens, and which marked content each belongs to. Places are points (1/72 in) from the top left corner of
//! the page, y down.

use std::sync::Arc;

use hayro_interpret::font::{Glyph, GlyphRun};
use hayro_interpret::hayro_cmap::BfString;
use hayro_interpret::kurbo::{Affine, BezPath, Rect, Shape};
use hayro_interpret::{
    BlendMode, ClipPath, Context, Device, DrawMode, DrawProps, Image, ImageDrawProps, InterpreterCache,
    InterpreterSettings, Paint, SoftMask, TransformExt, interpret_page,
};
use hayro_syntax::Pdf;
use hayro_syntax::object::Dict;

/// A file whose streams are not deflated and whose objects stand each on its own: every key and every operator is there
/// to be searched for and changed.
pub fn opened(bytes: &[u8]) -> Vec<u8> {
    let mut document = lopdf::Document::load_mem(bytes).expect("a file");
    document.decompress();
    let mut opened = Vec::new();
    document.save_to(&mut opened).expect("a vector takes whatever is written");
    opened
}

/// One page as read back.
#[derive(Debug, Default)]
pub struct Page {
    /// Points.
    pub width: f64,
    /// Points.
    pub height: f64,
    /// In the order of the page stream.
    pub texts: Vec<Run>,
    /// In the order of the page stream; those of pictures drawn once and shown many times come each time.
    pub paths: Vec<Path>,
    /// Marked content inside marked content: the outer and the inner.
    pub nesting: Vec<(Mark, Mark)>,
    /// How many images, clips and transparency groups there are.
    pub images: usize,
    pub clips: usize,
    pub groups: usize,
}

/// Text shown in one go.
#[derive(Debug, Clone)]
pub struct Run {
    /// In Unicode, by the file's own maps; a space at the end is left out here and in the width.
    pub text: String,
    /// The left end of the base line.
    pub x: f64,
    /// The base line.
    pub y: f64,
    /// The em.
    pub size: f64,
    /// By the widths that the file declares.
    pub width: f64,
    /// One by one.
    pub glyphs: Vec<Shown>,
    /// The box around the glyphs' outlines; empty for spaces.
    pub ink: Option<Rect>,
    /// Red, green, blue, 0..=255.
    pub colour: [u8; 3],
    pub mark: Mark,
}

/// A glyph that was shown.
#[derive(Debug, Clone)]
pub struct Shown {
    /// The code in the page stream.
    pub code: u32,
    /// The glyph's index in the font program.
    pub glyph: u32,
    /// The declared width, thousandths of an em.
    pub width: f32,
    /// What the code means by the file's own map.
    pub unicode: Option<String>,
    /// The embedded font program.
    pub program: Option<Program>,
}

/// The bytes of an embedded font, shared.
#[derive(Clone)]
pub struct Program(Arc<dyn AsRef<[u8]> + Send + Sync>);

impl Program {
    /// The bytes.
    pub fn bytes(&self) -> &[u8] {
        (*self.0).as_ref()
    }
}

impl std::fmt::Debug for Program {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} bytes", self.bytes().len())
    }
}

/// A path that was painted.
#[derive(Debug, Clone)]
pub struct Path {
    /// In page space.
    pub path: BezPath,
    /// The colour it is filled with.
    pub fill: Option<[u8; 3]>,
    /// The width and colour of the pen.
    pub stroke: Option<(f64, [u8; 3])>,
    /// Whether the pen is dashed.
    pub dashed: bool,
    pub mark: Mark,
}

impl Run {
    /// What a listener hears: with the space at the end, if there is one.
    pub fn heard(&self) -> String {
        self.glyphs.iter().map(|glyph| glyph.unicode.as_deref().unwrap_or("\u{FFFD}")).collect()
    }
}

impl Page {
    /// Where shapes with a ground and a whole edge lie, painted at once or one after the other.
    pub fn edged(&self) -> Vec<Rect> {
        let same = |a: Rect, b: Rect| {
            [(a.x0, b.x0), (a.y0, b.y0), (a.x1, b.x1), (a.y1, b.y1)].into_iter().all(|(a, b)| (a - b).abs() < 0.05)
        };
        let whole = self.paths.iter().filter(|path| path.stroke.is_some() && !path.dashed);
        let edges: Vec<Rect> = whole.map(Path::bounds).collect();
        let grounds = self.paths.iter().filter(|path| path.fill.is_some()).map(Path::bounds);
        grounds.filter(|ground| edges.iter().any(|edge| same(*ground, *edge))).collect()
    }
}

impl Path {
    /// The box around the path, its pen left out.
    pub fn bounds(&self) -> Rect {
        self.path.bounding_box()
    }

    /// The box around the ink, half the pen included.
    pub fn ink(&self) -> Rect {
        let half = self.stroke.map_or(0.0, |(width, _)| width / 2.0);
        self.bounds().inflate(half, half)
    }
}

/// What painted content belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Mark {
    /// Neither tagged nor an artifact: never right in our files.
    Loose,
    Artifact,
    /// Marked content of this number.
    Content(i32),
}

/// Reads every page.
#[track_caller]
pub fn read(bytes: &[u8]) -> Vec<Page> {
    let pdf = Pdf::new(bytes.to_vec()).unwrap_or_else(|error| panic!("the file does not open: {error:?}"));
    let cache = InterpreterCache::new();
    let mut pages = Vec::new();
    for page in pdf.pages().iter() {
        let (width, height) = page.render_dimensions();
        let mut reader = Reader { page: Page::default(), marks: Vec::new() };
        let area = Rect::new(0.0, 0.0, f64::from(width), f64::from(height));
        let place = page.initial_transform(true).to_kurbo();
        let settings = InterpreterSettings::default();
        let mut context = Context::new(place, area, &cache, page.xref(), settings);
        interpret_page(page, &mut context, &mut reader);
        pages.push(Page { width: f64::from(width), height: f64::from(height), ..reader.page });
    }
    pages
}

/// Pages in order, texts in order, a line each.
pub fn text(pages: &[Page]) -> String {
    pages.iter().flat_map(|page| &page.texts).map(|run| run.text.clone() + "\n").collect()
}

struct Reader {
    page: Page,
    marks: Vec<Mark>,
}

impl Reader {
    /// The innermost mark that says something.
    fn mark(&self) -> Mark {
        self.marks.iter().rev().find(|mark| **mark != Mark::Loose).copied().unwrap_or(Mark::Loose)
    }
}

fn colour(paint: &Paint<'_>) -> [u8; 3] {
    match paint {
        Paint::Color(colour) => {
            let [red, green, blue, _] = colour.to_rgba().to_rgba8();
            [red, green, blue]
        }
        Paint::Pattern(_) => panic!("our files have no patterns"),
    }
}

/// How much a transform enlarges.
fn scale(transform: Affine) -> f64 {
    transform.determinant().abs().sqrt()
}

impl<'a> Device<'a> for Reader {
    fn draw_path(&mut self, path: &BezPath, props: DrawProps<'a>, mode: &DrawMode) {
        let ink = colour(&props.paint);
        let pen = |pen: &hayro_interpret::StrokeProps| (f64::from(pen.line_width) * scale(props.transform), ink);
        let (fill, stroke, dashed) = match mode {
            DrawMode::Fill(_) => (Some(ink), None, false),
            DrawMode::Stroke(stroke) => (None, Some(pen(stroke)), !stroke.dash_array.is_empty()),
            DrawMode::FillAndStroke(_, stroke) => (Some(ink), Some(pen(stroke)), !stroke.dash_array.is_empty()),
            DrawMode::Invisible => return,
        };
        let (mark, path) = (self.mark(), props.transform * path.clone());
        // The interpreter hands "fill and stroke" over as two drawings of one path.
        match self.page.paths.last_mut() {
            Some(last) if fill.is_none() && last.stroke.is_none() && last.path == path && last.mark == mark => {
                (last.stroke, last.dashed) = (stroke, dashed);
            }
            _ => self.page.paths.push(Path { path, fill, stroke, dashed, mark }),
        }
    }

    fn push_clip_path(&mut self, _: &ClipPath) {
        self.page.clips += 1;
    }

    fn push_transparency_group(&mut self, _: f32, _: Option<SoftMask<'a>>, _: BlendMode) {
        self.page.groups += 1;
    }

    fn draw_glyph_run(&mut self, run: &GlyphRun<'_, 'a>, props: DrawProps<'a>, _: &DrawMode) {
        let mut whole = Run {
            text: String::new(),
            x: 0.0,
            y: 0.0,
            size: 0.0,
            width: 0.0,
            glyphs: Vec::new(),
            ink: None,
            colour: colour(&props.paint),
            mark: self.mark(),
        };
        for (k, placed) in run.glyphs().iter().enumerate() {
            let transform = props.transform * placed.transform();
            let Glyph::Outline(glyph) = &**placed else { panic!("our files have no Type 3 fonts") };
            if k == 0 {
                let origin = transform * hayro_interpret::kurbo::Point::ORIGIN;
                // Glyph space has 1,000 units to the em.
                (whole.x, whole.y, whole.size) = (origin.x, origin.y, scale(transform) * 1000.0);
            }
            whole.width += f64::from(glyph.advance_width().unwrap_or(0.0)) * scale(transform);
            let unicode = glyph.as_unicode().map(|unicode| match unicode {
                BfString::Char(character) => character.to_string(),
                BfString::String(text) => text,
            });
            whole.text.push_str(unicode.as_deref().unwrap_or("\u{FFFD}"));
            whole.glyphs.push(Shown {
                code: glyph.char_code(),
                glyph: glyph.glyph_id().to_u32(),
                width: glyph.advance_width().unwrap_or(f32::NAN),
                unicode,
                program: glyph.font_data().map(|font| Program(font.data)),
            });
            let outline = transform * glyph.outline();
            if !outline.elements().is_empty() {
                let ink = outline.bounding_box();
                whole.ink = Some(whole.ink.map_or(ink, |before| before.union(ink)));
            }
        }
        while whole.text.ends_with(' ') {
            whole.text.pop();
            whole.width -= run.glyphs().last().map_or(0.0, |space| match &**space {
                Glyph::Outline(glyph) => {
                    f64::from(glyph.advance_width().unwrap_or(0.0)) * scale(props.transform * space.transform())
                }
                Glyph::Type3(_) => 0.0,
            });
        }
        self.page.texts.push(whole);
    }

    fn draw_image(&mut self, _: Image<'a, '_>, _: ImageDrawProps<'a>) {
        self.page.images += 1;
    }

    fn pop_clip(&mut self) {}

    fn pop_transparency_group(&mut self) {}

    fn begin_marked_content(&mut self, tag: &[u8], properties: Option<&Dict<'_>>) {
        let mcid = properties.and_then(|dict| dict.get::<i32>("MCID"));
        let mark = match mcid {
            Some(mcid) => Mark::Content(mcid),
            None if tag == b"Artifact" => Mark::Artifact,
            None => Mark::Loose,
        };
        let around = self.mark();
        if around != Mark::Loose && mark != Mark::Loose {
            self.page.nesting.push((around, mark));
        }
        self.marks.push(mark);
    }

    fn end_marked_content(&mut self) {
        self.marks.pop();
    }
}
