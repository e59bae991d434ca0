//! The command line: arguments and streams in, exit status out.
//!
//! One file a command; [`files`] alone touches the disk, and [`Failure`] alone knows exit statuses.

mod args;
mod check;
mod crew;
mod failure;
mod files;
mod gather;
mod numbers;
mod sheets;
mod term;
mod typeset;

use std::ffi::OsString;
use std::io::Write;
use std::path::Path;

use clap::Parser;
use clap::error::ErrorKind;
use serde_json::{Value, json};

use args::{Cli, Command, Format, Input};
use failure::{DONE, Failure};
use gather::Shared;

use crate::diag::{Diagnostic, report};

pub use term::Io;

/// Runs the program: `args` begins with the program's name. Results go to `io.out`, talk to `io.err`. Returns the exit
/// status: 0 done, 1 the lesson cannot be made, 2 wrong usage, 3 a file could not be read or written.
pub fn run(args: impl IntoIterator<Item = OsString>, io: &mut Io) -> u8 {
    let cli = match Cli::try_parse_from(args) {
        Ok(cli) => cli,
        Err(error) => {
            let asked_for = matches!(error.kind(), ErrorKind::DisplayHelp | ErrorKind::DisplayVersion);
            let text = error.render().to_string();
            let stream: &mut dyn Write = if asked_for { io.out } else { io.err };
            let printed = stream.write_all(text.as_bytes()).and_then(|()| stream.flush()).map_err(Failure::Stream);
            return if asked_for { printed.map_or_else(|failure| failure.status(), |()| DONE) } else { 2 };
        }
    };
    let mut desk = Desk { cli: &cli, io };
    match &cli.command {
        Command::Sheets => desk.close(sheets::run(&cli.talk).map(Some)),
        Command::Check { input } => desk.each(input, check::run),
        Command::Numbers { input } => desk.each(input, numbers::run),
        Command::Typeset { input, out, force } => match typeset::folders(input, out) {
            Ok(_) => desk.each(input, |shared, path| typeset::run(shared, path, out, *force)),
            Err(failure) => desk.close(Err(failure)),
        },
    }
}

/// What a command has to say about one lesson.
pub(crate) struct Report {
    /// For people: the result.
    human: String,
    /// For people: what is worth knowing besides, a line each.
    notes: Vec<String>,
    /// What may not come out as meant.
    warnings: Vec<Diagnostic>,
    /// For programs.
    json: Value,
}

/// Prints what commands say.
struct Desk<'c, 's, 'i> {
    cli: &'c Cli,
    io: &'i mut Io<'s>,
}

impl Desk<'_, '_, '_> {
    /// Runs a command for each lesson, several at a time, and prints what they say in the order of the lessons. A mistake in
    /// one does not stop the others. The gravest status counts.
    fn each(&mut self, input: &Input, run: impl Fn(&Shared, &Path) -> Result<Report, Failure> + Sync) -> u8 {
        let shared = match Shared::read(input) {
            Ok(shared) => shared,
            Err(failure) => return self.close(Err(failure)),
        };
        let mut status = DONE;
        let work = |path: &Path| run(&shared, path);
        crew::each(shared.lessons(), work, |path, result| {
            let printed = self.print(Some(path), result);
            status = status.max(printed);
        });
        status
    }

    fn close(&mut self, result: Result<Option<Report>, Failure>) -> u8 {
        match result {
            Ok(Some(report)) => self.print(None, Ok(report)),
            Ok(None) => DONE,
            Err(failure) => self.print(None, Err(failure)),
        }
    }

    /// Prints one result and returns its status.
    fn print(&mut self, path: Option<&Path>, result: Result<Report, Failure>) -> u8 {
        let status = result.as_ref().map_or_else(Failure::status, |_| DONE);
        match self.try_print(path, result) {
            Ok(()) => status,
            Err(error) => status.max(Failure::Stream(error).status()),
        }
    }

    fn try_print(&mut self, path: Option<&Path>, result: Result<Report, Failure>) -> std::io::Result<()> {
        let talk = self.cli.talk;
        let quiet = talk.quiet;
        let lesson = path.map(files::read::shown);
        if talk.format == Format::Json {
            let mut value = match result {
                Ok(report) => report.json,
                Err(failure) => json!({ "findings": failure.findings(lesson.as_deref()), "assumed": {} }),
            };
            if let Some(lesson) = lesson {
                value["lesson"] = json!(lesson);
            }
            writeln!(self.io.out, "{value}")?;
            return self.io.out.flush();
        }
        let look = term::look(talk, self.io.err_is_colourful);
        match result {
            Ok(report) => {
                for warning in &report.warnings {
                    self.io.err.write_all(report::draw(warning, look).as_bytes())?;
                }
                if !quiet {
                    self.io.out.write_all(report.human.as_bytes())?;
                    self.io.out.flush()?;
                    for note in report.notes {
                        writeln!(self.io.err, "note: {note}")?;
                    }
                }
            }
            Err(failure) => {
                self.io.err.write_all(failure.draw(look, lesson.as_deref()).as_bytes())?;
            }
        }
        self.io.err.flush()
    }
}
