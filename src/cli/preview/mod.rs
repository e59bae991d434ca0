//! `preview`: the packets of a lesson with pictures of their pages, and a page that shows them.

pub(super) mod choose;
#[cfg(feature = "png")]
mod pixels;

use std::io::Write;
use std::path::Path;

use serde_json::json;

use super::check::{assumed, findings, pages};
use super::failure::Failure;
use super::files::read::shown;
use super::files::write::{FileContent, Stance};
use super::files::{self, earlier};
use super::gather::{Planned, Shared};
use super::report::Report;
use super::table::{self, Row};
use super::{numbers, typeset};
use crate::diag::Problem;
use crate::gallery::{self, Gallery, Image, Shown};
use crate::lesson::job::PrintSides;
use crate::sheets::packets::Packet;
use crate::sheets::page::Page;
use crate::sheets::row;
use crate::spec::SheetKind;
use crate::svg;

pub use choose::Which;

/// Which pages are pictured, how, and where to.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'w> {
    /// These sheets alone; all of them where there is none.
    pub only: &'w [SheetKind],
    /// Which pages of each file.
    pub which: Which<'w>,
    /// As pixels, of so many dots to the inch.
    #[cfg(feature = "png")]
    pub png: Option<u16>,
    /// The folder that gets a folder for each lesson.
    pub out: &'w Path,
    /// How files that are there already are dealt with.
    pub stance: Stance,
}

/// The pictures of a file, and what the page says about it.
struct Made {
    shown: Shown,
    /// Names and contents of the pictures, in the order of the images.
    pictures: Vec<(String, Vec<u8>)>,
}

/// Makes the packets of a lesson, draws their pages, and writes all of it, or nothing. The packets are always whole:
/// what is left out are pictures.
pub fn run(shared: &Shared, path: &Path, wanted: &Wanted<'_>) -> Result<Report, Failure> {
    let folder = files::folder(wanted.out, path)?;
    let planned = shared.plan(path)?;
    let (packets, _) = shared.lay(&planned, &[])?;
    let mut notes = planned.lesson.chosen.notes.clone();
    notes.extend(earlier::replaced(&folder, &planned.lesson.spec.title.value));
    let made = packets.iter().map(|packet| make(shared, &planned, packet, wanted, &mut notes));
    let made = made.collect::<Result<Vec<Made>, Failure>>()?;
    if made.iter().all(|made| made.pictures.is_empty()) {
        let problem = Problem::new("no page of the lesson is pictured");
        return Err(Failure::Usage(problem.hint("expected --pages or --only to name a page that the lesson has")));
    }

    let spec = &planned.lesson.spec;
    let index = gallery::write(&Gallery {
        title: spec.title.value.clone(),
        paper: spec.paper.value.name(),
        names: !planned.lesson.roster.is_empty(),
        seed: spec.seed.value,
        sets: numbers::list(&planned.lesson),
        files: made.iter().map(|made| made.shown.clone()).collect(),
    });
    let pictures: usize = made.iter().map(|made| made.pictures.len()).sum();
    let parts = made.iter().flat_map(|made| &made.pictures).map(|(name, bytes)| (name.as_str(), bytes.as_slice()));
    let parts = parts.chain([(gallery::FILE, index.as_bytes())]);
    let more = parts.map(|(name, bytes)| (name, content(bytes))).collect();
    let written = typeset::write(shared, &planned, &packets, &folder, more, wanted.stance, None)?;

    let name = |file: &str| shown(&folder.join(file));
    let mut rows: Vec<Row> = typeset::rows(&packets, &folder);
    rows.push(Row { file: name(gallery::FILE), pages: None, sheets: None, reader: "you: open it in a browser" });
    let human = format!(
        "{}{} pictured, in {}/\n",
        table::draw(&rows, shared.coloured),
        pages(pictures),
        name(gallery::PICTURES)
    );
    let mut json = json!({ "findings": findings(&planned), "assumed": assumed(&planned) });
    json["written"] = json!(written);
    drop(packets);
    Ok(Report { human, notes, warnings: planned.warnings, json })
}

/// Bytes that are there already.
fn content(bytes: &[u8]) -> FileContent<'_> {
    Box::new(move |out: &mut dyn Write| Ok(out.write_all(bytes)?))
}

/// Draws the pages of a file that are wanted.
fn make(
    shared: &Shared,
    planned: &Planned,
    packet: &Packet<'_>,
    wanted: &Wanted<'_>,
    notes: &mut Vec<String>,
) -> Result<Made, Failure> {
    let file = packet.file();
    let chosen = choose::pages(packet, wanted.which, wanted.only)?;
    notes.extend(chosen.note);
    let broken = |problem| broken(file, problem);
    let drawn = match format(wanted) {
        Format::Svg => vector(planned, packet, &chosen.pages).map_err(broken)?,
        #[cfg(feature = "png")]
        Format::Png(dpi) => pixels::draw(shared, planned, packet, &chosen.pages, dpi).map_err(broken)?,
    };
    shared.progress.clear();

    let stem = format!("{}/{}", gallery::PICTURES, file.trim_end_matches(".pdf"));
    let digits = packet.len().to_string().len();
    let (mut images, mut pictures) = (Vec::with_capacity(drawn.len()), Vec::with_capacity(drawn.len()));
    for Drawn { index, page, bytes } in drawn {
        let number = index + 1;
        let src = format!("{stem}-{number:0digits$}.{}", ending(wanted));
        let name =
            page.learner.map_or_else(|| page.name.clone(), |learner| format!("{}, learner {learner}", page.name));
        images.push(Image { src: src.clone(), page: number, name, holds: row(page.sheet).holds, size: page.size });
        pictures.push((src, bytes));
    }
    let shown = Shown {
        about: *packet.kind.about(),
        pages: packet.len(),
        sheets: packet.sheets(),
        two_sided: packet.sides != PrintSides::One,
        which: chosen.said,
        images,
    };
    Ok(Made { shown, pictures })
}

/// A page and its picture.
struct Drawn {
    /// Where it is in its file, from 0.
    index: usize,
    page: Page,
    bytes: Vec<u8>,
}

/// What pictures are made of.
enum Format {
    Svg,
    #[cfg(feature = "png")]
    Png(u16),
}

#[cfg(feature = "png")]
fn format(wanted: &Wanted<'_>) -> Format {
    wanted.png.map_or(Format::Svg, Format::Png)
}

#[cfg(not(feature = "png"))]
fn format(_: &Wanted<'_>) -> Format {
    Format::Svg
}

/// What the names of pictures end in.
fn ending(wanted: &Wanted<'_>) -> &'static str {
    match format(wanted) {
        Format::Svg => "svg",
        #[cfg(feature = "png")]
        Format::Png(_) => "png",
    }
}

/// Pages as SVG. What has nothing on it, such as the back of a sheet that is printed on one side, has no picture.
fn vector(planned: &Planned, packet: &Packet<'_>, wanted: &[usize]) -> Result<Vec<Drawn>, Problem> {
    let mut drawn = Vec::with_capacity(wanted.len());
    for &index in wanted {
        let page = packet.page(index)?.into_owned();
        if !page.layers.is_empty() {
            let bytes = svg::page(&page, &planned.family, 0).into_bytes();
            drawn.push(Drawn { index, page, bytes });
        }
    }
    Ok(drawn)
}

fn broken(file: &str, problem: Problem) -> Failure {
    let problem = Problem { message: format!("{file}: {}", problem.message), ..problem };
    Failure::Lesson(vec![problem.unplaced()])
}
