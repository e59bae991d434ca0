//! From paths to finished pages: what `check`, `numbers` and `typeset` share.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::args::Input;
use super::failure::Failure;
use super::files::read;
use super::term::Progress;
use super::threads;
use crate::diag::{Diagnostic, FilePlace, Problem, Severity, Source};
use crate::lesson::choose::Memory;
use crate::lesson::job::JobFacts;
use crate::lesson::{self, Lesson, Roster};
use crate::measure::{Family, fonts};
use crate::sheets::job::names;
use crate::sheets::packets::{self, Packet};
use crate::sheets::page::desk::Desk;
use crate::sheets::page::layout::Layouts;
use crate::spec::{self, FontChoice, Given, SheetKind, Spec};

/// What all lessons of a run share.
#[derive(Clone)]
pub struct Shared {
    input: Input,
    layouts: Layouts,
    /// What is remembered of the numbers chosen before; nothing unless lessons come again and again.
    pub memory: Arc<Memory>,
    /// How many threads may make the pages of one lesson: what many lessons at a time leave over.
    pub threads: usize,
    /// Where to say how far the work is.
    pub progress: Progress,
    /// Whether results are coloured.
    pub coloured: bool,
}

/// A lesson that was read and planned.
pub struct Planned {
    /// Its text.
    pub source: Arc<Source>,
    /// Its plan.
    pub lesson: Lesson,
    /// The typeface it is set in.
    pub family: Family,
    /// The layouts that the lesson itself names, unless the command line names others.
    layouts: Option<Layouts>,
    /// What may not come out as meant: names that cannot be printed.
    pub warnings: Vec<Diagnostic>,
}

impl Shared {
    /// Reads what all lessons share.
    pub fn read(input: &Input) -> Result<Self, Failure> {
        let texts = input.layouts.as_deref().map(read::layouts).transpose()?.unwrap_or_default();
        let layouts = Layouts::read(&texts).map_err(Failure::Lesson)?;
        let threads = (threads::cores() / input.lessons.len().max(1)).max(1);
        Ok(Self {
            input: input.clone(),
            layouts,
            memory: Arc::default(),
            threads,
            progress: Progress::default(),
            coloured: false,
        })
    }

    /// The lessons as they were given.
    pub fn lessons(&self) -> &[PathBuf] {
        &self.input.lessons
    }

    /// Reads a lesson and everything it names, and chooses its numbers.
    pub fn plan(&self, path: &Path) -> Result<Planned, Failure> {
        self.plan_text(path, read::lesson(path)?)
    }

    /// The same for a text that is at hand; what it names is looked for as if it stood at `path`.
    pub fn plan_text(&self, path: &Path, source: Arc<Source>) -> Result<Planned, Failure> {
        let spec = spec::read(&source).map_err(Failure::Lesson)?;
        self.plan_spec(path, source, spec)
    }

    /// A lesson with a change that its file does not make.
    pub fn otherwise(&self, path: &Path, planned: &Planned, change: &dyn Fn(&mut Spec)) -> Result<Planned, Failure> {
        let mut spec = spec::read(&planned.source).map_err(Failure::Lesson)?;
        change(&mut spec);
        self.plan_spec(path, Arc::clone(&planned.source), spec)
    }

    fn plan_spec(&self, path: &Path, source: Arc<Source>, mut spec: Spec) -> Result<Planned, Failure> {
        if let Some(seed) = self.input.seed {
            spec.seed = Given::read(seed, 0..0);
        }
        let measured = || family(path, &spec, &source);
        let chosen = || lesson::numbers(&source, &spec, &self.memory);
        // A typeface is measured while numbers are chosen: neither needs the other.
        let (family, numbers) = if self.threads > 1 {
            let (family, numbers) = threads::both(measured, chosen);
            (family?, numbers)
        } else {
            (measured()?, chosen())
        };
        let (roster, warnings) = roster(path, &spec, &source, &family)?;
        let own = spec.sheets.layouts.as_ref().filter(|_| self.input.layouts.is_none());
        let layouts = own.map(|folder| layouts(path, folder, &source)).transpose()?;
        let lesson = lesson::plan_with(&source, spec, numbers, roster, &self.memory).map_err(Failure::Lesson)?;
        Ok(Planned { source, lesson, family, layouts, warnings })
    }

    /// The sheets that are asked for; none where all are.
    pub fn only(&self) -> &[SheetKind] {
        &self.input.only
    }

    /// What sheets are made from.
    pub fn desk<'p>(&'p self, planned: &'p Planned) -> Desk<'p> {
        let layouts = planned.layouts.as_ref().unwrap_or(&self.layouts);
        Desk::new(&planned.lesson, layouts, &planned.family)
    }

    /// Makes the packets of a lesson, or with `only` the pages of those sheets alone; no packet is empty, and each of the
    /// sheets has a page. Beside them the facts of the job.
    pub fn lay<'p>(&'p self, planned: &'p Planned, only: &[SheetKind]) -> Result<(Vec<Packet<'p>>, JobFacts), Failure> {
        let desk = self.desk(planned);
        let (packets, job) = packets::told(&desk, only, self.threads).map_err(Failure::Lesson)?;
        let has = |kind: &SheetKind| packets.iter().any(|packet| packet.entries().any(|page| page.sheet == *kind));
        let problem = match only.iter().find(|kind| !has(kind)) {
            Some(kind) => Problem::new(format!("the lesson has nothing to put on the sheet `{}`", kind.word()))
                .hint("the role whose numbers it shows is left out"),
            None if packets.is_empty() => {
                Problem::new("the lesson has no pages").hint("list more sheets under [sheets] make")
            }
            None => return Ok((packets, job)),
        };
        Err(Failure::Lesson(vec![problem.unplaced()]))
    }
}

/// The names of the roster that the lesson names, if it does, and what to say of those that cannot be printed.
fn roster(
    path: &Path,
    spec: &Spec,
    source: &Arc<Source>,
    family: &Family,
) -> Result<(Roster, Vec<Diagnostic>), Failure> {
    let Some(name) = &spec.class.roster else { return Ok((Roster::default(), Vec::new())) };
    let text = read::roster(path, &name.value).map_err(|failure| named_at(failure, source, name))?;
    let rows = spec::roster::rows(&text).map_err(Failure::Lesson)?;
    let few = few(spec, source, rows.len());
    let groups = spec::roster::members(&text, &spec.groups, source).map_err(Failure::Lesson)?;
    let (names, mut warnings) = names::settle(&text, rows, family);
    warnings.extend(few);
    Ok((Roster { names, groups }, warnings))
}

/// A word on a roster with fewer names than the lesson has learners.
fn few(spec: &Spec, source: &Arc<Source>, names: usize) -> Option<Diagnostic> {
    let learners = &spec.class.learners;
    let span = learners.span().filter(|_| names < learners.value as usize)?;
    let count = if names == 1 { "1 name".to_owned() } else { format!("{names} names") };
    let problem = Problem::new(format!("the roster has {count} for {} learners", learners.value))
        .hint("the others get pages without a name; leave out `learners` to make pages for the names alone");
    let mut warning = problem.at(source, span);
    warning.severity = Severity::Warning;
    let roster = spec.class.roster.as_ref().and_then(Given::span);
    warning
        .related
        .extend(roster.map(|span| (FilePlace { source: Arc::clone(source), span }, "the roster".to_owned())));
    Some(warning)
}

/// The layouts in the folder that the lesson names.
fn layouts(path: &Path, folder: &Given<String>, source: &Arc<Source>) -> Result<Layouts, Failure> {
    let texts =
        read::layouts(&read::beside(path, &folder.value)).map_err(|failure| named_at(failure, source, folder))?;
    Layouts::read(&texts).map_err(Failure::Lesson)
}

/// The typeface that the lesson names.
fn family(path: &Path, spec: &Spec, source: &Arc<Source>) -> Result<Family, Failure> {
    let font = &spec.print.font;
    let family = match &font.value {
        FontChoice::Andika => fonts::bundled(fonts::Bundled::Andika),
        FontChoice::Lato => fonts::bundled(fonts::Bundled::Lato),
        FontChoice::File(name) => {
            let bytes = read::font(path, name).map_err(|failure| named_at(failure, source, font))?;
            fonts::single(bytes)
        }
    };
    family.map_err(|problem| {
        let span = font.span().unwrap_or(0..0);
        Failure::Lesson(vec![problem.at(source, span)])
    })
}

/// Points at the place in the lesson that names a file which could not be read.
fn named_at<T>(failure: Failure, source: &Arc<Source>, given: &Given<T>) -> Failure {
    match given.span() {
        Some(span) => failure.named_at(FilePlace { source: Arc::clone(source), span }),
        None => failure,
    }
}
