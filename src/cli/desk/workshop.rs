//! What stands behind the desk: the files of its folder, and the same stages that the other commands go through.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::folder::Folder;
use crate::cli::answers::Answers;
use crate::cli::failure::{Failure, reason};
use crate::cli::files::read::{self, shown};
use crate::cli::files::write::{self, Stance};
use crate::cli::files::{self, earlier};
use crate::cli::gather::{Planned, Shared};
use crate::cli::preview::choose::{self, Which};
use crate::cli::{check, fix, numbers, paper, reasons, start, typeset};
use crate::desk::workshop::{
    ChosenNumber, LaidFile, LaidLesson, LaidPage, Made, NumberSet, Refused, UnderWay, Workshop,
};
use crate::diag::{Diagnostic, Problem, Source};
use crate::lesson::job::JobFacts;
use crate::lesson::{LessonGroup, Reason, Role, Version};
use crate::number::Number;
use crate::sheets::packets::Packet;
use crate::sheets::row;
use crate::spec::{self, FontChoice, Given};

/// The program behind a desk.
pub struct Bench {
    /// The folder that it was started for.
    pub folder: Folder,
    /// What all lessons share.
    pub shared: Shared,
    /// The folder that gets a folder for each lesson.
    pub out: PathBuf,
}

impl Bench {
    fn planned(&self, name: &str, text: &str) -> Result<(PathBuf, Planned), Vec<Diagnostic>> {
        let path = self.folder.lesson(name).map_err(|problem| vec![problem.unplaced()])?;
        let source = Arc::new(Source { name: name.to_owned(), text: text.to_owned() });
        self.reach(&path, &source)?;
        let planned = self.shared.plan_text(&path, source).map_err(told)?;
        Ok((path, planned))
    }

    /// Refuses a lesson that names files outside the folder.
    fn reach(&self, path: &Path, source: &Arc<Source>) -> Result<(), Vec<Diagnostic>> {
        let spec = spec::read(source)?;
        let at = |problem: Problem, given: &Given<String>| problem.at(source, given.span().unwrap_or(0..0));
        let within = |given: &Given<String>| self.folder.beside(path, &given.value).map_err(|p| at(p, given));
        let mut wrong: Vec<Diagnostic> = spec.class.roster.iter().filter_map(|given| within(given).err()).collect();
        if let FontChoice::File(name) = &spec.print.font.value {
            let given = Given::read(name.clone(), spec.print.font.span().unwrap_or(0..0));
            wrong.extend(within(&given).err());
        }
        if let Some(given) = &spec.sheets.layouts {
            match within(given) {
                Ok(folder) => {
                    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
                    let out = |entry: &std::fs::DirEntry| entry.file_type().is_ok_and(|kind| kind.is_symlink());
                    if entries.into_iter().any(|entry| out(&entry)) {
                        let problem = Problem::new(format!("`{}` holds links to other files", given.value));
                        wrong.push(at(problem.hint("copy the files themselves into it"), given));
                    }
                }
                Err(diagnostic) => wrong.push(diagnostic),
            }
        }
        if wrong.is_empty() { Ok(()) } else { Err(wrong) }
    }

    /// Refuses a place for packets that looks as if it were in the folder and is not. Elsewhere is where it was asked for.
    fn stays(&self, place: &Path) -> Result<(), Problem> {
        let Ok(below) = place.strip_prefix(self.folder.path()) else { return Ok(()) };
        let name = below.to_str().unwrap_or_default();
        self.folder.beside(&self.folder.path().join("x"), name).map(drop).map_err(|_| {
            Problem::new(format!("`{}` is a link that leads out of the folder", shown(below)))
                .hint("take the link away, or start the desk with --out and the folder that you mean")
        })
    }

    fn laid(&self, planned: &Planned, wanted: &dyn Fn() -> bool) -> Option<Result<LaidLesson, Vec<Diagnostic>>> {
        let (packets, job) = match self.shared.lay(planned, &[]) {
            Ok(laid) => laid,
            Err(failure) => return Some(Err(told(failure))),
        };
        let mut pages = Vec::new();
        for (file, packet) in packets.iter().enumerate() {
            if !wanted() {
                return None;
            }
            match pictured(file, packet) {
                Ok(more) => pages.extend(more),
                Err(failure) => return Some(Err(told(failure))),
            }
        }
        let facts =
            |packet: &Packet<'_>| LaidFile { about: packet.kind.about(), pages: packet.len(), sheets: packet.sheets() };
        let warnings = planned.warnings.iter().map(|warning| warning.problem.message.clone());
        Some(Ok(LaidLesson {
            title: planned.lesson.spec.title.value.clone(),
            sets: sets(planned),
            files: packets.iter().map(facts).collect(),
            pages,
            family: planned.family.clone(),
            assumed: check::assumed(planned).into_iter().collect(),
            paper: paper_lines(&job),
            notes: warnings.chain(planned.lesson.chosen.notes.iter().cloned()).collect(),
        }))
    }

    fn write(&self, name: &str, text: &str, under_way: &UnderWay) -> Result<Made, Vec<Diagnostic>> {
        let go_on = || if under_way.is_stopped() { Err(told(Failure::Stopped)) } else { Ok(()) };
        let (path, planned) = self.planned(name, text)?;
        go_on()?;
        let folder = files::folder(&self.out, &path).map_err(told)?;
        self.stays(&folder).map_err(|problem| vec![problem.unplaced()])?;
        files::tidy(&self.out);
        let (packets, _) = self.shared.lay(&planned, &[]).map_err(told)?;
        go_on()?;
        let stance = Stance { force: false, keep: false };
        let replaced = earlier::replaced(&folder, &planned.lesson.spec.title.value);
        typeset::write(&self.shared, &planned, &packets, &folder, Vec::new(), stance, Some(under_way)).map_err(told)?;
        let size = |packet: &Packet<'_>| {
            let file = packet.file().to_owned();
            let bytes = std::fs::metadata(folder.join(&file)).map_or(0, |metadata| metadata.len());
            (file, bytes)
        };
        let shown = self.folder.short(&folder).unwrap_or_else(|| shown(&folder));
        Ok(Made { folder: shown, files: packets.iter().map(size).collect(), note: replaced })
    }
}

impl Workshop for Bench {
    fn folder(&self) -> String {
        self.folder.name()
    }

    fn lessons(&self) -> Vec<String> {
        let within = |path: &PathBuf| !path.starts_with(&self.out);
        let files = self.folder.files(&["toml"]).into_iter().filter(within);
        files.filter_map(|path| self.folder.short(&path)).collect()
    }

    fn beside(&self, lesson: Option<&str>, endings: &[&str]) -> Vec<String> {
        // A lesson names files from where it stands; those below it are offered.
        let folder = lesson.and_then(|name| name.rsplit_once('/')).map(|(folder, _)| format!("{folder}/"));
        let files = self.folder.files(endings).into_iter().filter_map(|path| self.folder.short(&path));
        let below = |name: String| match &folder {
            Some(folder) => name.strip_prefix(folder.as_str()).map(str::to_owned),
            None => Some(name),
        };
        let mut files: Vec<String> = files.filter_map(below).collect();
        files.sort();
        files
    }

    fn open(&self, name: &str) -> Result<String, Refused> {
        let path = self.folder.lesson(name).map_err(|problem| because(&problem))?;
        let source = read::lesson(&path).map_err(|failure| refused(name, failure))?;
        Ok(source.text.clone())
    }

    fn save(&self, name: &str, text: &str, replace: bool) -> Result<(), Refused> {
        let path = self.folder.lesson(name).map_err(|problem| because(&problem))?;
        start::placed(&path).map_err(|failure| refused(name, failure))?;
        write::lesson(&path, text, replace).map_err(|error| match error.kind() {
            io::ErrorKind::AlreadyExists if !replace => Refused::There,
            _ => {
                because(&Problem::new(format!("`{name}` cannot be written: {}", reason(&error))).hint(
                    "nothing was lost: the lesson is still here; save it under another name or in another folder",
                ))
            }
        })
    }

    fn name_for(&self, title: &str) -> String {
        shown(&start::named_after(title))
    }

    fn blank(&self, title: &str, range: (u32, u32)) -> String {
        let name = self.name_for(title);
        start::text::write(&Answers { title: title.to_owned(), range, ..Answers::default() }, &name)
    }

    fn lay(&self, name: &str, text: &str, wanted: &dyn Fn() -> bool) -> Option<Result<LaidLesson, Vec<Diagnostic>>> {
        if !wanted() {
            return None;
        }
        let planned = self.planned(name, text);
        if !wanted() {
            return None;
        }
        match planned {
            Ok((_, planned)) => self.laid(&planned, wanted),
            Err(found) => Some(Err(found)),
        }
    }

    fn make(&self, name: &str, text: &str, under_way: &UnderWay) -> Result<Made, Vec<Diagnostic>> {
        self.write(name, text, under_way)
    }

    fn made(&self, made: &Made, file: &str) -> Result<(Box<dyn Read + Send>, u64), Refused> {
        let gone = |error: io::Error| Refused::Because(reason(&error));
        let path = self.folder.path().join(&made.folder).join(file);
        self.stays(&path).map_err(|problem| because(&problem))?;
        // The folder is one that this desk has just written; what has become a link since is not followed.
        if std::fs::symlink_metadata(&path).map_err(gone)?.is_symlink() {
            return Err(Refused::Because("it is a link".to_owned()));
        }
        let opened = File::open(&path).map_err(gone)?;
        let length = opened.metadata().map_err(gone)?.len();
        Ok((Box::new(opened), length))
    }

    fn mended(&self, name: &str, text: &str) -> String {
        fix::mended(&Arc::new(Source { name: name.to_owned(), text: text.to_owned() })).0
    }
}

/// What was found, whatever kind of failure it is.
fn told(failure: Failure) -> Vec<Diagnostic> {
    match failure {
        Failure::Lesson(found) => found,
        Failure::File { diagnostic, .. } => vec![*diagnostic],
        Failure::Usage(problem) => vec![problem.unplaced()],
        Failure::Stream(error) => vec![Problem::new(reason(&error)).unplaced()],
        Failure::Stopped => vec![Problem::new("stopped").unplaced()],
    }
}

fn because(problem: &Problem) -> Refused {
    let hint = problem.hint.as_ref().map(|hint| format!("; {hint}")).unwrap_or_default();
    Refused::Because(format!("{}{hint}", problem.message))
}

fn refused(name: &str, failure: Failure) -> Refused {
    let first = told(failure).into_iter().next();
    first.map_or_else(|| Refused::Because(format!("`{name}` cannot be read")), |found| because(&found.problem))
}

/// The pages of a file that are shown.
fn pictured(file: usize, packet: &Packet<'_>) -> Result<Vec<LaidPage>, Failure> {
    let chosen = choose::pages(packet, Which::One, &[])?.pages;
    let mut pages = Vec::with_capacity(chosen.len());
    for index in chosen {
        let page = packet.page(index).map_err(|problem| Failure::Lesson(vec![problem.unplaced()]))?.into_owned();
        if !page.layers.is_empty() {
            pages.push(LaidPage { file, number: index + 1, holds: row(page.sheet).holds, page });
        }
    }
    Ok(pages)
}

fn sets(planned: &Planned) -> Vec<NumberSet> {
    let (lesson, chosen) = (&planned.lesson, &planned.lesson.chosen);
    let number = |number: &Number| {
        let why = chosen.why.get(number).map(Vec::as_slice).unwrap_or_default();
        ChosenNumber {
            value: number.value(),
            written: lesson.style.numeral(*number),
            why: reasons::list(why),
            besides: reasons::list(
                &why.iter().copied().filter(|reason| *reason != Reason::Always).collect::<Vec<Reason>>(),
            ),
            always: why.contains(&Reason::Always),
        }
    };
    let set = |role: Role, version: Option<Version>, numbers: &[Number], group: Option<&LessonGroup>| NumberSet {
        role,
        table: format!("{}.{}", table_of(planned, group), role.word()),
        version,
        own: version.and_then(|version| own(version, chosen.sort.len(), group)),
        whose: group.map(|group| group.name.clone().unwrap_or_else(|| "everyone else".to_owned())),
        ways: numbers::ways(group.map_or(&chosen.solutions, |group| &group.solutions), role),
        numbers: numbers.iter().map(number).collect(),
    };
    let several = chosen.sort.len() > 1;
    let mut all = vec![set(Role::Model, None, &chosen.model, None)];
    for (version, rows) in (0..).map(Version).zip(&chosen.sort) {
        all.push(set(Role::Sort, several.then_some(version), rows, lesson.group_of(version)));
    }
    if lesson.groups.is_empty() {
        all.push(set(Role::Exit, None, &chosen.exit, None));
    }
    all.extend(lesson.groups.iter().map(|group| set(Role::Exit, None, &group.exit, Some(group))));
    all.retain(|set| !set.numbers.is_empty());
    all
}

/// A version counted from the first of its group, or of the class of so many versions; none where there is no other.
fn own(version: Version, versions: usize, group: Option<&LessonGroup>) -> Option<Version> {
    let Some(group) = group else { return (versions > 1).then_some(version) };
    let at = group.versions.iter().position(|own| *own == version).filter(|_| group.versions.len() > 1)?;
    u8::try_from(at).ok().map(Version)
}

/// The table of the file that asks for a group's numbers.
fn table_of(planned: &Planned, group: Option<&LessonGroup>) -> String {
    let name = group.and_then(|group| group.name.as_ref());
    let all = &planned.lesson.spec.groups;
    let at = name.and_then(|name| all.iter().position(|group| group.name.value == *name));
    at.map_or_else(|| "numbers".to_owned(), |at| format!("group.{at}"))
}

/// How much paper the copies take and what would save most, as sentences.
fn paper_lines(job: &JobFacts) -> Vec<String> {
    if job.files.is_empty() {
        return Vec::new();
    }
    let sentence = |line: &str| {
        let mut letters = line.chars();
        letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
    };
    paper::totals(job).lines().map(sentence).collect()
}
