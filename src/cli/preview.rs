//! `preview`: the packets of a lesson with pictures of their pages, and a page that shows them.

use std::io::Write;
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use serde_json::json;

use super::Report;
use super::check::{assumed, findings, pages};
use super::failure::Failure;
use super::files::read::shown;
use super::files::write::{self, Content};
use super::files::{self, earlier};
use super::gather::{Planned, Shared};
use super::pages::Pages;
use super::table::{self, Row};
use crate::diag::Problem;
use crate::gallery::{self, Gallery, Image, Shown};
use crate::lesson::job::PrintSides;
use crate::raster::{self, Document, SMALL};
use crate::sheets::packets::Packet;
use crate::sheets::page::entry::Entry;
use crate::sheets::row;
use crate::spec::{SheetKind, limits::grouped};
use crate::{manifest, pdf};

/// How many pages of a file are pictured when nobody says which: more show a class what it has seen.
const UNASKED: usize = 200;
/// How many pages of a file can be asked for.
const MOST: usize = 5_000;

/// Which pages are pictured, how large, and where to.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'w> {
    /// These sheets alone; all of them where there is none.
    pub only: &'w [SheetKind],
    /// These pages of each file.
    pub pages: Option<&'w Pages>,
    /// Dots to the inch.
    pub dpi: u16,
    /// The folder that gets a folder for each lesson.
    pub out: &'w Path,
    /// Whether files of others may be replaced.
    pub force: bool,
}

/// A file and what is made from it.
struct Made {
    bytes: Arc<Vec<u8>>,
    shown: Shown,
    pictures: Vec<(String, Vec<u8>)>,
}

/// Makes the packets of a lesson, draws their pages, and writes all of it, or nothing. The packets are always whole:
/// what is left out are pictures.
pub fn run(shared: &Shared, path: &Path, wanted: &Wanted<'_>) -> Result<Report, Failure> {
    let folder = files::folder(wanted.out, path)?;
    let planned = shared.plan(path)?;
    let packets = shared.lay(&planned, &[])?;
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
        files: made.iter().map(|made| made.shown.clone()).collect(),
    });
    let contents = |out: &mut dyn Write| Ok(manifest::write(out, &planned.lesson, &packets)?);
    let mut files: Vec<(&str, Content<'_>)> = Vec::new();
    for (packet, made) in packets.iter().zip(&made) {
        files.push((packet.file(), content(&made.bytes)));
        files.extend(made.pictures.iter().map(|(name, bytes)| (name.as_str(), content(bytes))));
    }
    files.push((manifest::FILE, Box::new(contents)));
    files.push((gallery::FILE, content(index.as_bytes())));
    write::packets(&folder, &files, wanted.force)?;

    let pictures: usize = made.iter().map(|made| made.shown.images.len()).sum();
    let name = |file: &str| shown(&folder.join(file));
    let mut rows: Vec<Row> = packets.iter().map(|packet| Row::of(packet, name(packet.file()))).collect();
    rows.push(Row { file: name(manifest::FILE), pages: None, sheets: None, reader: "programs" });
    rows.push(Row { file: name(gallery::FILE), pages: None, sheets: None, reader: "you: open it in a browser" });
    let human = format!(
        "{}{} pictured, in {}/\n",
        table::draw(&rows, shared.coloured),
        pages(pictures),
        name(gallery::PICTURES)
    );
    let mut json = json!({ "findings": findings(&planned), "assumed": assumed(&planned) });
    json["written"] = files.iter().map(|(file, _)| name(file)).collect();
    drop(files);
    drop(packets);
    Ok(Report { human, notes, warnings: planned.warnings, json })
}

/// Bytes that are there already.
fn content(bytes: &[u8]) -> Content<'_> {
    Box::new(move |out: &mut dyn Write| Ok(out.write_all(bytes)?))
}

/// Makes a file and draws the pages of it that are wanted.
fn make(
    shared: &Shared,
    planned: &Planned,
    packet: &Packet<'_>,
    wanted: &Wanted<'_>,
    notes: &mut Vec<String>,
) -> Result<Made, Failure> {
    let file = packet.file();
    shared.progress.say(&format!("{file}: setting {}", pages(packet.len())));
    let bytes = match pdf::write(Vec::new(), packet, &planned.family, shared.threads) {
        Ok(bytes) => Arc::new(bytes),
        Err(pdf::Failure::Problem(problem)) => return Err(broken(file, problem)),
        Err(pdf::Failure::Io(error)) => return Err(broken(file, Problem::new(error.to_string()))),
    };
    let chosen = choose(packet, wanted, notes)?;
    let indices: Vec<usize> = chosen.iter().map(|(index, _)| *index).collect();
    let broken = |problem| broken(file, problem);
    let document = Document::open(Arc::clone(&bytes)).map_err(broken)?;
    let stem = format!("{}/{}", gallery::PICTURES, file.trim_end_matches(".pdf"));
    let digits = packet.len().to_string().len();
    let done = AtomicUsize::new(0);
    let drawn = document.each(&indices, [wanted.dpi, SMALL], shared.threads, |place, [large, small]| {
        let (index, entry) = chosen[place];
        let page = index + 1;
        let mut name = packet.page(index)?.name.clone();
        if let Some(learner) = entry.learner {
            name = format!("{name}, learner {learner}");
        }
        let image = Image {
            src: format!("{stem}-{page:0digits$}.png"),
            page,
            name,
            holds: row(entry.sheet).holds,
            width: large.width,
            height: large.height,
        };
        let png = raster::encode(&large, wanted.dpi)?;
        let count = done.fetch_add(1, Ordering::Relaxed) + 1;
        shared.progress.say(&format!("{file}: {count} of {} drawn", pages(indices.len())));
        Ok((image, png, small))
    });
    let drawn = drawn.map_err(broken)?;
    shared.progress.clear();

    let small: Vec<_> = drawn.iter().map(|(image, _, small)| (image.page, small)).collect();
    let contact = raster::sheet(&small);
    let mut pictures = Vec::with_capacity(drawn.len() + 1);
    let mut shown = Shown {
        about: *packet.kind.about(),
        pages: packet.len(),
        sheets: packet.sheets(),
        two_sided: packet.sides != PrintSides::One,
        contact: None,
        images: Vec::with_capacity(drawn.len()),
    };
    if let Some(sheet) = contact {
        let src = format!("{stem}-all.png");
        pictures.push((src.clone(), raster::encode(&sheet, SMALL).map_err(broken)?));
        let holds = "the pictured pages, small";
        let (width, height) = (sheet.width, sheet.height);
        shown.contact = Some(Image { src, page: 0, name: "All pages".to_owned(), holds, width, height });
    }
    for (image, png, _) in drawn {
        pictures.push((image.src.clone(), png));
        shown.images.push(image);
    }
    Ok(Made { bytes, shown, pictures })
}

/// The pages to picture, with what is said about each.
fn choose(packet: &Packet<'_>, wanted: &Wanted<'_>, notes: &mut Vec<String>) -> Result<Vec<(usize, Entry)>, Failure> {
    let only = |entry: &Entry| wanted.only.is_empty() || wanted.only.contains(&entry.sheet);
    let asked = |index: usize| wanted.pages.is_none_or(|pages| pages.holds(index + 1));
    let all = (0..).zip(packet.entries()).filter(|(index, entry)| asked(*index) && only(entry));
    let mut chosen: Vec<(usize, Entry)> = all.collect();
    let file = packet.file();
    let many = grouped(chosen.len() as u64);
    if wanted.pages.is_some() && chosen.len() > MOST {
        let problem = Problem::new(format!("--pages names {many} pages of {file}"));
        return Err(Failure::Usage(problem.hint(format!("expected at most {}", grouped(MOST as u64)))));
    }
    if wanted.pages.is_none() && chosen.len() > UNASKED {
        chosen.truncate(UNASKED);
        notes.push(format!("{file}: the first {UNASKED} of {many} pages are pictured; --pages names others"));
    }
    Ok(chosen)
}

fn broken(file: &str, problem: Problem) -> Failure {
    let problem = Problem { message: format!("{file}: {}", problem.message), ..problem };
    Failure::Lesson(vec![problem.unplaced()])
}
