//! What is in the envelope: the pages of a lesson's packets, asked for counts, numbers and answers.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Arc;

use super::read::{Block, blocks, fit, whole};
use crate::support::answers::figures;
use crate::support::samples;
use placewright::diag::Source;
use placewright::lesson::{self, Lesson, Version};
use placewright::measure::fonts::{Bundled, bundled};
use placewright::sheets::files::PacketKind;
use placewright::sheets::packets;
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::sheets::page::{Page, Says};
use placewright::spec::{self, FontChoice, Keep, SheetKind};

/// A learner's page in one of the copy room's files: its sheet, version, learner and kit, and its pieces.
struct Copied {
    sheet: SheetKind,
    version: Option<Version>,
    /// The learner, or the kit.
    whose: Option<u32>,
    /// Of a learner's own page the file that it is in.
    file: Option<PacketKind>,
    pieces: usize,
    /// Bands that say whose pile begins there.
    bands: usize,
}

fn bands(page: &Page) -> usize {
    let pieces = page.layers.iter().flat_map(|layer| &layer.pieces);
    pieces.filter(|piece| piece.name.starts_with("band of ")).count()
}

/// The packets of a lesson.
pub struct Envelope {
    pub name: String,
    pub lesson: Lesson,
    /// What whoever stands in holds.
    pub pages: Vec<Page>,
    /// All versions' masters, keys and tally.
    teacher: Vec<Page>,
    copied: Vec<Copied>,
}

impl Envelope {
    /// The packets of a lesson file, or of a text with no roster.
    pub fn of(name: &str, text: &str, folder: Option<&Path>) -> Self {
        let source = |name: &str, text: String| Arc::new(Source { name: name.to_owned(), text });
        let read = source(name, text.to_owned());
        let spec = spec::read(&read).unwrap_or_else(|found| panic!("{name}: {found:#?}"));
        let roster = folder.map(|folder| samples::roster(&spec, &read, folder));
        let font = if spec.print.font.value == FontChoice::Lato { Bundled::Lato } else { Bundled::Andika };
        let family = bundled(font).expect("a font");
        let lesson = lesson::plan(&read, spec, roster.unwrap_or_default());
        let lesson = lesson.unwrap_or_else(|found| panic!("{name}: {found:#?}"));
        let layouts = Layouts::read(&[]).expect("layouts");
        let desk = Desk::new(&lesson, &layouts, &family);
        let made = packets::make(&desk, &[]).unwrap_or_else(|found| panic!("{name}: {found:#?}"));
        let (mut pages, mut teacher, mut copied) = (Vec::new(), Vec::new(), Vec::new());
        for packet in &made {
            let all = || (0..packet.len()).map(|k| packet.page(k).expect("a page").into_owned());
            match packet.kind {
                PacketKind::Substitute => pages.extend(all()),
                PacketKind::Teacher => teacher.extend(all()),
                PacketKind::Ticket => {}
                _ => copied.extend(packet.entries().zip(all()).map(|(entry, page)| Copied {
                    sheet: entry.sheet,
                    version: entry.version,
                    whose: entry.learner.or(entry.kit),
                    file: entry.learner.map(|_| packet.kind),
                    pieces: page.layers.iter().map(|layer| layer.pieces.len()).sum(),
                    bands: bands(&page),
                })),
            }
        }
        drop(made);
        Self { name: name.to_owned(), lesson, pages, teacher, copied }
    }

    pub fn learners(&self) -> u32 {
        self.lesson.spec.class.learners.value
    }

    /// The pages of a kind that whoever stands in holds.
    pub fn of_kind(&self, kind: SheetKind) -> impl Iterator<Item = &Page> {
        self.pages.iter().filter(move |page| page.sheet == kind)
    }

    pub fn has(&self, kind: SheetKind) -> bool {
        self.of_kind(kind).next().is_some()
    }

    /// Pages of one copy: of versions that differ, the most.
    pub fn pages_of(&self, kind: SheetKind) -> usize {
        let counts = self.page_counts(kind);
        if kind == SheetKind::Exit { counts.len().min(1) } else { counts.into_iter().max().unwrap_or(0) }
    }

    /// The same, of versions that differ the fewest.
    pub fn fewest_pages(&self, kind: SheetKind) -> usize {
        let counts = self.page_counts(kind);
        if kind == SheetKind::Exit { counts.len().min(1) } else { counts.into_iter().min().unwrap_or(0) }
    }

    /// The master's pages of each version.
    fn page_counts(&self, kind: SheetKind) -> Vec<usize> {
        let mut counts: BTreeMap<Option<Version>, usize> = BTreeMap::new();
        self.teacher
            .iter()
            .filter(|page| page.sheet == kind)
            .for_each(|page| *counts.entry(page.version).or_default() += 1);
        counts.into_values().collect()
    }

    /// How many copies of a sheet the copy room's files hold: of what is in pieces, as far as there are pieces for.
    pub fn copies(&self, kind: SheetKind) -> usize {
        let of = || self.copied.iter().filter(|page| page.sheet == kind);
        let whose: BTreeSet<u32> = of().filter_map(|page| page.whose).collect();
        if kind != SheetKind::Exit && of().all(|page| page.whose.is_some()) {
            return whose.len();
        }
        let bands: usize = of().map(|page| page.bands).sum();
        if bands > 0 {
            return bands;
        }
        let pieces: usize = of().map(|page| page.pieces).sum();
        if pieces == 0 {
            return of().count() / self.pages_of(kind).max(1);
        }
        if kind == SheetKind::Exit { pieces } else { pieces / self.pieces_of(kind).max(1) }
    }

    /// Which sheets come together, a packet for each learner: those of one file that bear a learner's number page by page.
    pub fn packets(&self) -> BTreeSet<BTreeSet<SheetKind>> {
        let files: BTreeSet<&str> =
            self.copied.iter().filter_map(|page| page.file).map(|file| file.about().file).collect();
        let of = |file: &str| -> BTreeSet<SheetKind> {
            let inside = |page: &&Copied| page.file.is_some_and(|kind| kind.about().file == file);
            self.copied.iter().filter(inside).map(|page| page.sheet).filter(|kind| *kind != SheetKind::Exit).collect()
        };
        files.into_iter().map(of).filter(|sheets| sheets.len() > 1).collect()
    }

    /// The letter of each learner's copies, without spare sets.
    pub fn dealt(&self) -> BTreeMap<u32, Version> {
        let sorts = |page: &&Copied| matches!(page.sheet, SheetKind::Board | SheetKind::Strips) && page.file.is_some();
        let own = self.copied.iter().filter(sorts).filter_map(|page| Some((page.whose?, page.version?)));
        own.filter(|(learner, _)| *learner <= self.learners()).collect()
    }

    /// How many sheets of a kind the copy room's files hold.
    pub fn printed(&self, kind: SheetKind) -> usize {
        self.copied.iter().filter(|page| page.sheet == kind).count()
    }

    /// The letters of the class's copies.
    pub fn letters(&self, kind: SheetKind) -> BTreeSet<Version> {
        let letters =
            |kind| self.copied.iter().filter(move |page: &&Copied| page.sheet == kind).filter_map(|page| page.version);
        // Piles mix the letters: a set of strips has its board's.
        let piled = letters(kind).next().is_none();
        letters(if piled { SheetKind::Board } else { kind }).collect()
    }

    /// Pieces of one copy: of versions that differ, the most.
    pub fn pieces_of(&self, kind: SheetKind) -> usize {
        let mut counts: BTreeMap<Option<Version>, usize> = BTreeMap::new();
        for page in self.teacher.iter().filter(|page| page.sheet == kind) {
            *counts.entry(page.version).or_default() +=
                page.layers.iter().map(|layer| layer.pieces.len()).sum::<usize>();
        }
        counts.into_values().max().unwrap_or(0)
    }

    /// The masters of a kind with a letter; with any where it is `None`.
    pub fn masters(&self, kind: SheetKind, letter: Option<&str>) -> impl Iterator<Item = &Page> {
        let is = move |page: &&Page| letter.is_none_or(|letter| page.version.is_some_and(|v| v.to_string() == letter));
        self.teacher.iter().filter(move |page| page.sheet == kind).filter(is)
    }

    /// The numbers that stand at the left of the boards with a letter, row by row; empty where another form stands there.
    pub fn rows(&self, letter: Option<&str>) -> Vec<u32> {
        let rows = blocks(self.masters(SheetKind::Board, letter)).into_iter();
        rows.filter_map(|block| if let Block::Row(cells) = block { figures(&cells[0]).first().copied() } else { None })
            .collect()
    }

    /// Every number that the lesson's pages show.
    pub fn numbers(&self) -> BTreeSet<u32> {
        let kinds = [SheetKind::Display, SheetKind::Record, SheetKind::Board, SheetKind::Exit, SheetKind::Key];
        let pages = self.teacher.iter().filter(|page| kinds.contains(&page.sheet));
        let mut numbers: BTreeSet<u32> = figures(&whole(pages)).into_iter().collect();
        // Of numbers whose sheets are not made the lesson alone knows.
        let chosen = &self.lesson.chosen;
        let all = chosen.model.iter().chain(chosen.sort.iter().flatten()).chain(&chosen.exit);
        numbers.extend(all.map(|number| number.value()));
        numbers
    }

    /// The slips of the key by their letters.
    pub fn slips(&self) -> BTreeMap<String, String> {
        let mut slips = BTreeMap::new();
        for block in blocks(self.of_kind(SheetKind::Key)) {
            if let Block::Row(cells) = block
                && let [letter, slip, _, _, _] = cells.as_slice()
                && letter.len() == 1
                && letter.bytes().all(|b| b.is_ascii_lowercase())
            {
                slips.insert(letter.clone(), slip.clone());
            }
        }
        slips
    }

    /// The numbers in the corners of the checks.
    pub fn checks(&self, letter: Option<&str>) -> BTreeSet<u32> {
        let names = self.masters(SheetKind::Exit, letter).flat_map(|page| &page.layers).flat_map(|layer| &layer.pieces);
        names.filter_map(|piece| figures(&piece.name).first().copied()).collect()
    }

    /// Questions on one check.
    pub fn questions(&self) -> u32 {
        // Each question is a heading that begins with its number.
        let number = |block| {
            let Block::Heading(asked) = block else { return None };
            asked.split_once(' ')?.0.parse().ok()
        };
        blocks(self.masters(SheetKind::Exit, None)).into_iter().filter_map(number).max().unwrap_or(0)
    }

    /// How many learners share one copy of what is kept.
    pub fn share(&self, kind: SheetKind) -> u32 {
        self.lesson.spec.class.share(kind)
    }

    pub fn kept(&self, kind: SheetKind) -> bool {
        self.lesson_keep(kind) == Some(Keep::Kit)
    }

    fn lesson_keep(&self, kind: SheetKind) -> Option<Keep> {
        match placewright::sheets::row(kind).reader {
            lesson::job::For::Learner(handling) => Some(handling.keep),
            _ => None,
        }
    }

    /// The number printed at the foot of a page.
    pub fn folio(page: &Page) -> Option<String> {
        let frame = page.layers.iter().flat_map(|layer| &layer.marks).find(|mark| mark.says == Says::Folio)?.frame;
        let mut found = None;
        for node in page.layers.iter().flat_map(|layer| &layer.nodes) {
            node.each(&mut |item| {
                if let placewright::sheets::page::Item::Text(text) = item
                    && frame.contains(placewright::measure::Rect::new(text.at, placewright::measure::Size::default()))
                {
                    found = Some(text.text.clone());
                }
            });
        }
        found
    }
}

/// The rows of the key to quick checks: for which checks, which question, and the cells.
pub fn key_rows(held: &Envelope) -> Vec<(String, String, Vec<String>)> {
    let mut question = String::new();
    let mut rows = Vec::new();
    for block in blocks(held.of_kind(SheetKind::Key)) {
        match block {
            Block::Heading(heading) => {
                if let Some(holes) = fit("Question {}: {}", &heading).or_else(|| fit("Pregunta {}: {}", &heading)) {
                    question = holes[0].to_owned();
                }
            }
            Block::Row(cells) if !question.is_empty() => rows.push((cells[0].clone(), question.clone(), cells)),
            _ => {}
        }
    }
    rows
}
