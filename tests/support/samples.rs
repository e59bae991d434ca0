//! The packets of every sample lesson.

use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock};

use placewright::diag::Source;
use placewright::lesson::{Lesson, Roster};
use placewright::measure::Family;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::sheets::packets::{self, Packet};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::spec::{FontChoice, Spec};
use placewright::{lesson, pdf, spec};

use super::packets::Laid;

/// A sample's name, its packets and the type they are set in.
pub struct Sample {
    path: PathBuf,
    pub name: String,
    pub packets: Vec<Laid>,
    pub family: Family,
}

impl Sample {
    /// Its files as the program makes them, each with its name.
    pub fn files(&self, threads: usize) -> Vec<(String, Vec<u8>)> {
        with_packets(&planned(&self.path), &self.family, |packets| {
            let common = pdf::Common::of(&self.family, packets, threads).expect("what files have in common");
            let file = |packet: &Packet<'_>| {
                let bytes = pdf::bytes(packet, &common, threads).expect("a file");
                (format!("{}/{}", self.name, packet.file()), bytes)
            };
            packets.iter().map(file).collect()
        })
    }
}

fn source(path: &Path) -> Arc<Source> {
    let text = std::fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    Arc::new(Source { name: path.display().to_string(), text })
}

/// The lesson files of `samples/`, sorted.
pub fn files() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("samples");
    let entries = std::fs::read_dir(folder).expect("the folder of samples");
    let paths = entries.map(|entry| entry.expect("an entry").path());
    let mut files: Vec<_> = paths.filter(|path| path.extension().is_some_and(|end| end == "toml")).collect();
    files.sort();
    assert!(!files.is_empty(), "there are no samples");
    files
}

/// Who is in the class and in which group, as the lesson's roster in this folder says.
#[track_caller]
pub fn roster(spec: &Spec, lesson: &Arc<Source>, folder: &Path) -> Roster {
    let Some(name) = &spec.class.roster else { return Roster::default() };
    let text = source(&folder.join(&name.value));
    let rows = spec::roster::rows(&text).unwrap_or_else(|found| panic!("{found:#?}"));
    let groups = spec::roster::members(&text, &spec.groups, lesson).unwrap_or_else(|found| panic!("{found:#?}"));
    Roster { names: rows.into_iter().map(|(name, _)| name).collect(), groups }
}

/// A sample's lesson, by name.
pub fn lesson(name: &str) -> Lesson {
    planned(&Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("samples/{name}.toml")))
}

fn planned(path: &Path) -> Lesson {
    let text = source(path);
    let spec = spec::read(&text).unwrap_or_else(|found| panic!("{}: {found:#?}", path.display()));
    let roster = roster(&spec, &text, path.parent().expect("a folder"));
    lesson::plan(&text, spec, roster).unwrap_or_else(|found| panic!("{}: {found:#?}", path.display()))
}

/// Makes a lesson's packets, as the program does, for some work with them.
#[track_caller]
fn with_packets<T>(lesson: &Lesson, family: &Family, work: impl FnOnce(&[Packet<'_>]) -> T) -> T {
    let layouts = Layouts::read(&[]).unwrap_or_else(|found| panic!("{found:#?}"));
    let made = packets::make(&Desk::new(lesson, &layouts, family), &[]);
    work(&made.unwrap_or_else(|found| panic!("{}: {found:#?}", lesson.spec.title.value)))
}

/// Lays out a sample.
pub fn lay(path: &Path) -> Sample {
    let lesson = planned(path);
    let family = match lesson.spec.print.font.value {
        FontChoice::Lato => bundled(Bundled::Lato),
        _ => bundled(Bundled::Andika),
    };
    let family = family.expect("a bundled family");
    let packets = with_packets(&lesson, &family, |packets| packets.iter().map(Laid::new).collect());
    let name = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    Sample { path: path.to_owned(), name, packets, family }
}

/// Every sample, laid out once a test program.
pub fn all() -> &'static [Sample] {
    static ALL: LazyLock<Vec<Sample>> = LazyLock::new(|| files().iter().map(|path| lay(path)).collect());
    &ALL
}
