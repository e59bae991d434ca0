//! `desk`: a page in the browser, for those who would rather not type commands.

mod folder;
mod workshop;

use std::io;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, mpsc};
use std::time::Duration;

use serde_json::json;

use super::args::{DeskArgs, Format, Input, Talk};
use super::failure::{Failure, reason};
use super::files::read::{self, shown};
use super::gather::Shared;
use super::term::Io;
use crate::desk;
use crate::diag::Problem;
use crate::lesson::choose::Memory;
use folder::Folder;
use workshop::Bench;

/// Opens the desk and serves it until it is closed.
pub fn run(given: &DeskArgs, talk: Talk, io: &mut Io) -> Result<(), Failure> {
    let root = given.lesson.as_deref().and_then(Path::parent).filter(|folder| !folder.as_os_str().is_empty());
    let root = root.unwrap_or(Path::new("."));
    let folder = Folder::at(root).map_err(|error| {
        let name = shown(root);
        Failure::file(name.clone(), Problem::new(format!("cannot read `{name}`: {}", reason(&error))))
    })?;
    let lesson = given.lesson.as_deref().map(|path| named(&folder, path)).transpose()?;
    let input = Input { lessons: Vec::new(), seed: None, only: Vec::new(), layouts: given.layouts.clone() };
    let mut shared = Shared::read(&input)?;
    // The other half of a lesson's threads is the page's.
    shared.threads = super::threads::cores();
    shared.memory = Arc::new(Memory::lasting());
    let out = folder.path().join(&given.out);
    let bench = Arc::new(Bench { folder, shared, out });
    let ready = desk::ready(bench, lesson, given.port).map_err(|error| taken(given.port, &error))?;
    let (stop, stopped) = mpsc::channel();
    let again = AtomicBool::new(false);
    // Where it cannot be caught, it ends the program as before; so does the second time.
    let _ = ctrlc::set_handler(move || {
        if again.swap(true, Ordering::SeqCst) || stop.send(()).is_err() {
            std::process::exit(130);
        }
    });
    tell(&ready.address, given, talk, io).map_err(Failure::Stream)?;
    if !given.no_browser {
        // Where no browser is found, the address was told.
        let _ = open::that_detached(&ready.address);
    }
    ready.serve(Duration::from_secs(given.linger), &stopped).map_err(Failure::Stream)
}

/// The name of a lesson file in its folder, and its text.
fn named(folder: &Folder, path: &Path) -> Result<(String, String), Failure> {
    let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
    let source = read::lesson(path)?;
    folder.lesson(name).map_err(Failure::Usage)?;
    Ok((name.to_owned(), source.text.clone()))
}

fn tell(address: &str, given: &DeskArgs, talk: Talk, io: &mut Io) -> io::Result<()> {
    if talk.format == Format::Json {
        writeln!(io.out, "{}", json!({ "address": address }))?;
    } else if given.no_browser || !talk.quiet {
        writeln!(io.out, "The desk is at {address}")?;
        if !talk.quiet {
            writeln!(io.err, "It ends when its page is closed for a while; Ctrl-C ends it now.")?;
        }
    }
    io.out.flush()?;
    io.err.flush()
}

/// Why nobody can listen.
fn taken(port: u16, error: &io::Error) -> Failure {
    let why = match error.kind() {
        io::ErrorKind::AddrInUse => "another program, perhaps another desk, has it".to_owned(),
        io::ErrorKind::PermissionDenied => "ports below 1024 are kept for the system".to_owned(),
        _ => reason(error),
    };
    let problem = Problem::new(format!("the desk cannot be opened at port {port}: {why}"));
    Failure::file("-", problem.hint("leave out --port: then a free one is taken"))
}
