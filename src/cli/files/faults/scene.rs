//! A folder for packets, what is in it before and after, and a disk with a fault.

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::sync::atomic::{AtomicU64, Ordering};

use crate::cli::files::disk::{Disk, Real};
use crate::cli::files::write::FileContent;
use crate::cli::{Io, run};

/// Files by their paths from a folder.
pub type Files = BTreeMap<String, Vec<u8>>;

/// What a fault does.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// Nothing.
    None,
    /// The step with this number fails.
    Once(u64),
    /// So do all that follow, as on a disk that was pulled out.
    From(u64),
    /// The disk takes so many bytes.
    Full(u64),
    /// At this step the process says so and waits to be killed.
    Stop(u64),
}

/// A disk with a fault. It does not wait for bytes to reach the metal, which would take most of the time.
#[derive(Debug)]
pub struct Faulty {
    pub fault: Fault,
    /// Whether folders can be exchanged in one step.
    pub exchanges: bool,
    /// Steps so far.
    pub steps: AtomicU64,
    /// Bytes so far.
    pub bytes: AtomicU64,
}

impl Faulty {
    pub fn new(fault: Fault, exchanges: bool) -> Self {
        Self { fault, exchanges, steps: AtomicU64::new(0), bytes: AtomicU64::new(0) }
    }

    fn step(&self) -> io::Result<()> {
        let step = self.steps.fetch_add(1, Ordering::Relaxed);
        match self.fault {
            Fault::Once(at) if at == step => Err(io::ErrorKind::PermissionDenied.into()),
            Fault::From(at) if at <= step => Err(io::ErrorKind::ReadOnlyFilesystem.into()),
            Fault::Stop(at) if at == step => {
                println!("\nstopped");
                io::stdout().flush().unwrap();
                // Until the parent kills us; if it is gone, on our own.
                io::stdin().read_line(&mut String::new()).unwrap();
                std::process::exit(1)
            }
            _ => Ok(()),
        }
    }
}

impl Disk for Faulty {
    fn create_folder(&self, path: &Path) -> io::Result<()> {
        self.step().and_then(|()| Real.create_folder(path))
    }

    fn create_file(&self, path: &Path) -> io::Result<File> {
        self.step().and_then(|()| Real.create_file(path))
    }

    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<usize> {
        // Whatever happens at this step, half of the bytes are there by then.
        let half = bytes.len() / 2;
        let stops = matches!(self.fault, Fault::Once(at) | Fault::From(at) | Fault::Stop(at)
            if at == self.steps.load(Ordering::Relaxed));
        if stops {
            file.write_all(&bytes[..half])?;
        }
        self.step()?;
        let before = self.bytes.fetch_add(bytes.len() as u64, Ordering::Relaxed);
        let Fault::Full(most) = self.fault else { return Real.write(file, bytes) };
        match most.saturating_sub(before) {
            0 => Err(io::ErrorKind::StorageFull.into()),
            fits => Real.write(file, &bytes[..bytes.len().min(usize::try_from(fits).unwrap())]),
        }
    }

    fn sync(&self, _: &File) -> io::Result<()> {
        self.step()
    }

    fn sync_folder(&self, _: &Path) -> io::Result<()> {
        self.step()
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step().and_then(|()| Real.rename(from, to))
    }

    fn link(&self, from: &Path, to: &Path) -> io::Result<()> {
        self.step().and_then(|()| Real.link(from, to))
    }

    fn exchange(&self, one: &Path, other: &Path) -> io::Result<()> {
        self.step()?;
        if self.exchanges { Real.exchange(one, other) } else { Err(io::ErrorKind::Unsupported.into()) }
    }

    fn remove_file(&self, path: &Path) -> io::Result<()> {
        self.step().and_then(|()| Real.remove_file(path))
    }

    fn remove_folder(&self, path: &Path) -> io::Result<()> {
        self.step().and_then(|()| Real.remove_folder(path))
    }

    fn lock(&self, path: &Path) -> io::Result<Option<File>> {
        self.step().and_then(|()| Real.lock(path))
    }
}

/// The packets of a lesson in two versions: with pictures, and with other numbers and without. Made once.
pub fn packets() -> &'static (Files, Files) {
    static PACKETS: OnceLock<(Files, Files)> = OnceLock::new();
    PACKETS.get_or_init(|| {
        let at = tempfile::tempdir().unwrap();
        let lesson = at.path().join("tram.toml");
        let text = "title = \"Tram stops\"\n[numbers]\nrange = [100, 999]\n[class]\nlearners = 2\nspares = 0\n";
        fs::write(&lesson, format!("{text}[sheets]\nmake = [\"board\", \"strips\"]\n")).unwrap();
        let made = |args: &[&str], out: &str| {
            let out = at.path().join(out);
            let mut all: Vec<OsString> = vec!["placewright".into()];
            all.extend(args.iter().map(Into::into));
            all.extend([lesson.clone().into(), "--out".into(), out.clone().into()]);
            let (mut results, mut talk) = (Vec::new(), Vec::new());
            let status = run(all, &mut Io::plain(&mut results, &mut talk));
            assert_eq!(status, 0, "{}", String::from_utf8_lossy(&talk));
            files(&out.join("tram"))
        };
        let mut old = made(&["preview", "--pages", "1"], "old");
        let mut new = made(&["typeset", "--seed", "7"], "new");
        // A file that does not change.
        let same = new["teacher.pdf"].clone();
        for files in [&mut old, &mut new] {
            files.insert("same.pdf".to_owned(), same.clone());
        }
        (old, new)
    })
}

/// What is in a folder and those inside it; empty folders end in `/`.
pub fn files(folder: &Path) -> Files {
    let mut found = Files::new();
    let mut open = vec![PathBuf::new()];
    while let Some(inner) = open.pop() {
        let Ok(entries) = fs::read_dir(folder.join(&inner)) else { continue };
        let mut count = 0;
        for entry in entries.map(Result::unwrap) {
            count += 1;
            let path = inner.join(entry.file_name());
            if entry.file_type().unwrap().is_dir() {
                open.push(path);
            } else {
                found.insert(path.to_str().unwrap().to_owned(), fs::read(entry.path()).unwrap());
            }
        }
        if count == 0 && inner != Path::new("") {
            found.insert(format!("{}/", inner.display()), Vec::new());
        }
    }
    found
}

/// Writes files into a folder.
pub fn put(folder: &Path, files: &Files) {
    for (name, bytes) in files {
        let path = folder.join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }
}

/// Files as [`super::super::write::packets`] takes them.
pub fn contents(files: &Files) -> Vec<(&str, FileContent<'_>)> {
    files
        .iter()
        .map(|(name, bytes)| -> (&str, FileContent<'_>) {
            (
                name,
                Box::new(move |out: &mut dyn Write| {
                    Ok(bytes.chunks(5_000).try_for_each(|part| out.write_all(part))?)
                }),
            )
        })
        .collect()
}

/// Where a case begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Before {
    /// There is not even the folder for all packets.
    Nothing,
    /// The old packet.
    Old,
    /// The old packet with files of others, one of which has the name of one of ours.
    Notes,
}

/// A folder for packets with something in it.
pub struct Scene {
    at: tempfile::TempDir,
    pub before: Before,
    pub exchanges: bool,
}

impl Scene {
    pub fn set(before: Before, exchanges: bool) -> Self {
        let scene = Self { at: tempfile::tempdir().unwrap(), before, exchanges };
        if before != Before::Nothing {
            put(&scene.target(), &packets().0);
        }
        if before == Before::Notes {
            put(&scene.target(), &notes());
            fs::write(scene.target().join("teacher.pdf"), "mine, but let go").unwrap();
        }
        scene
    }

    pub fn out(&self) -> PathBuf {
        self.at.path().join("out")
    }

    pub fn target(&self) -> PathBuf {
        self.out().join("tram")
    }

    /// Everything below the temporary folder.
    pub fn all(&self) -> Files {
        files(self.at.path())
    }

    /// What is in place: whether it is the new packet, or the old one; anything else fails. Notes are somewhere, whole.
    #[track_caller]
    pub fn look(&self, case: &str) -> Option<bool> {
        let all = self.all();
        let is_note = |name: &str| notes().keys().any(|note| name.ends_with(note));
        let let_go = b"mine, but let go".to_vec();
        if self.before == Before::Notes {
            for (note, bytes) in notes() {
                let found = all.iter().filter(|(name, found)| name.ends_with(&note) && **found == bytes).count();
                assert_eq!(found, 1, "{case}: {note} in {:?}", all.keys());
            }
        }
        if !self.target().exists() {
            return None;
        }
        let mut there = files(&self.target());
        // The folder that a note is about to go back to may be there before the note.
        there.retain(|name, _| !is_note(name) && name != "pictures/");
        if there.get("teacher.pdf.kept") == Some(&let_go) {
            // What a run was forced to replace when it was killed: the next one cannot know, and keeps it.
            there.remove("teacher.pdf.kept");
        }
        let (old, new) = packets();
        if there == *new {
            return Some(true);
        }
        let mut old = old.clone();
        if self.before == Before::Notes {
            old.insert("teacher.pdf".to_owned(), let_go);
        }
        assert!(there == old, "{case}: torn: {:?}", there.keys());
        Some(false)
    }

    /// Nothing but packets and notes is left.
    #[track_caller]
    pub fn no_strays(&self, case: &str) {
        for name in self.all().keys() {
            assert!(
                (name.starts_with("out/tram/") || name == "out/") && !name.contains(".placewright"),
                "{case}: stray {name}"
            );
        }
    }
}

/// Files of others.
pub fn notes() -> Files {
    let notes = [("notes/monday.txt", "bring scissors"), ("pictures/note.txt", "hang up"), ("mine.txt", "keep")];
    notes.into_iter().map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec())).collect()
}
