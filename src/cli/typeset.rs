//! `typeset`: the packets of a lesson onto the disk.

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::path::Path;
use std::thread;

use serde_json::json;
use unicode_normalization::UnicodeNormalization;

use super::args::Input;
use super::check::{assumed, findings, pages};
use super::early_file::EarlyFile;
use super::failure::Failure;
use super::files::read::shown;
use super::files::write::{self, FileContent, Stance};
use super::files::{self, earlier};
use super::gather::{Planned, Shared};
use super::paper;
use super::report::Report;
use super::table::{self, Row};
use crate::desk::workshop::UnderWay;
use crate::diag::Problem;
use crate::manifest;
use crate::pdf::Common;
use crate::sheets::packets::Packet;

/// Looks at where the packets go before any work: clears up after runs that were stopped, and refuses lessons that would go
/// into the same folder. Folders whose names differ in case, or in how accents are stored, count as the same, because they
/// are on many disks.
pub fn open(input: &Input, out: &Path) -> Result<(), Failure> {
    let mut taken: BTreeMap<String, &Path> = BTreeMap::new();
    for lesson in &input.lessons {
        let folder = files::folder(out, lesson)?;
        let key = folder.to_string_lossy().to_lowercase().nfc().collect();
        if let Some(other) = taken.insert(key, lesson) {
            let (first, second, folder) = (shown(other), shown(lesson), shown(&folder));
            let problem = Problem::new(format!("`{first}` and `{second}` would both be written into `{folder}`"));
            return Err(Failure::Usage(problem.hint("rename one, or run twice with another --out")));
        }
    }
    files::tidy(out);
    Ok(())
}

/// Makes the packets of a lesson and writes them all, or none.
pub fn run(shared: &Shared, path: &Path, out: &Path, stance: Stance) -> Result<Report, Failure> {
    let folder = files::folder(out, path)?;
    let planned = shared.plan(path)?;
    if !stance.force {
        earlier::guard(&folder, shared.only())?;
    }
    let replaced = earlier::replaced(&folder, &planned.lesson.spec.title.value);
    let (packets, job) = shared.lay(&planned, shared.only())?;
    let written = write(shared, &planned, &packets, &folder, Vec::new(), stance, None)?;
    let mut human = table::draw(&rows(&packets, &folder), shared.coloured);
    if shared.only().is_empty() {
        human.push_str(&paper::totals(&job));
    }
    let mut json = json!({ "findings": findings(&planned), "assumed": assumed(&planned) });
    json["written"] = json!(written);
    drop(packets);
    let mut notes = planned.lesson.chosen.notes;
    notes.extend(replaced);
    Ok(Report { human, notes, warnings: planned.warnings, json })
}

/// Writes packets, what they hold for programs, and whatever else goes with them; the names of all files. Says how far it is
/// to whoever watches.
pub(super) fn write(
    shared: &Shared,
    planned: &Planned,
    packets: &[Packet<'_>],
    folder: &Path,
    more: Vec<(&str, FileContent<'_>)>,
    stance: Stance,
    watch: Option<&UnderWay>,
) -> Result<Vec<String>, Failure> {
    let common = Common::of(&planned.family, packets, shared.threads);
    let common = common.map_err(|problem| Failure::Lesson(vec![problem.unplaced()]))?;
    let early: Vec<EarlyFile<'_>> =
        packets.iter().map(|packet| EarlyFile::new(packet, &common, shared.threads)).collect();
    let mut files: Vec<(&str, FileContent<'_>)> = Vec::new();
    let mut before = 0;
    for file in &early {
        let content = move |out: &mut dyn Write| {
            let packet = file.packet;
            let doing = format!("{}: setting {}", packet.file(), pages(packet.len()));
            shared.progress.say(&doing);
            let Some(under_way) = watch else { return file.write(out, |_| ()) };
            under_way.begin(packet.kind.about().title, before);
            file.write(&mut Counted { out, under_way }, |page| under_way.reach(before + page))
        };
        files.push((file.packet.file(), Box::new(content)));
        before += file.packet.len();
    }
    if let Some(under_way) = watch {
        under_way.expect(before);
    }
    let contents = |out: &mut dyn Write| Ok(manifest::write(out, &planned.lesson, packets)?);
    files.push((manifest::FILE, Box::new(contents)));
    files.extend(more);
    thread::scope(|scope| {
        if shared.threads > 1 {
            // From the other end, so that the two meet only once.
            scope.spawn(|| early.iter().rev().for_each(EarlyFile::make));
        }
        write::packets(folder, &files, stance)
    })?;
    Ok(files.iter().map(|(file, _)| shown(&folder.join(file))).collect())
}

/// A file of which somebody is told how long it is already, and who may stop it.
struct Counted<'c> {
    out: &'c mut dyn Write,
    under_way: &'c UnderWay,
}

impl Write for Counted<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let written = self.out.write(bytes)?;
        self.under_way.wrote(written)?;
        Ok(written)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.out.flush()
    }
}

/// The closing table of packets in a folder.
pub(super) fn rows(packets: &[Packet<'_>], folder: &Path) -> Vec<Row> {
    let name = |file: &str| shown(&folder.join(file));
    let mut rows: Vec<Row> = packets.iter().map(|packet| Row::of(packet, name(packet.file()))).collect();
    rows.push(Row { file: name(manifest::FILE), pages: None, sheets: None, reader: "programs" });
    rows
}
