//! The command line: arguments and streams in, exit status out.
//!
//! One file a command; [`files`] alone touches the disk, and [`Failure`] alone knows exit statuses.

mod answers;
mod args;
mod check;
mod crowded;
mod desk;
mod early_file;
mod failure;
mod files;
mod fix;
mod gather;
mod keys;
mod left;
mod licences;
mod manual;
mod numbers;
mod pages;
mod paper;
mod picture;
mod preview;
mod reasons;
mod report;
mod sheets;
mod start;
mod table;
mod term;
mod threads;
mod typeset;
mod usage;

use std::collections::BTreeMap;
use std::ffi::OsString;
use std::path::Path;
use std::time::Instant;

use clap::Parser;
use serde_json::json;

use args::{Cli, Command, Format, Input, Talk};
use failure::{DONE, Failure};
use files::watch::FileState;
use files::write::Stance;
use gather::Shared;
use report::Report;
use term::Progress;

use crate::diag::Problem;
use crate::diag::report::draw;
use crate::spec;

pub use term::{End, Io};

/// Runs the program: `args` begins with the program's name. Results go to `io.out`, talk to `io.err`. Returns the exit
/// status: 0 done, 1 the lesson cannot be made, 2 wrong usage, 3 a file could not be read or written, 130 stopped with
/// Ctrl-C.
pub fn run(args: impl IntoIterator<Item = OsString>, io: &mut Io) -> u8 {
    let mut args = Talk::before_help(args.into_iter().collect());
    if args.len() < 2 && io.clicked {
        args.push("desk".into());
    }
    let cli = match Cli::try_parse_from(&args) {
        Ok(cli) => cli,
        Err(error) => return usage::tell(&error, Talk::glimpse(&args), io),
    };
    let mut desk = Desk { cli: &cli, io, fixed: BTreeMap::new() };
    match &cli.command {
        Command::Desk(given) => {
            let opened = desk::run(given, cli.talk, desk.io);
            desk.close(opened.map(|()| None))
        }
        Command::Start(given) => {
            let asker = desk.io.can_ask.then(|| start::Asker { coloured: term::coloured(cli.talk, desk.io.err_is) });
            desk.close(start::run(given, asker).map(Some))
        }
        Command::Picture(given) => desk.close(picture::run(given).map(Some)),
        Command::Sheets => desk.close(sheets::run(&cli.talk).map(Some)),
        Command::Keys { schema: true, .. } => desk.raw(Ok(spec::keys::schema::text().into_bytes())),
        Command::Keys { key, .. } => {
            let coloured = term::coloured(cli.talk, desk.io.out_is);
            desk.close(keys::run(key.as_deref(), coloured).map(Some))
        }
        Command::Licences => desk.raw(Ok(licences::TEXT.as_bytes().to_vec())),
        Command::Completions { shell } => desk.raw(Ok(manual::completions(*shell))),
        Command::Manual => desk.raw(manual::manual()),
        Command::Check { input, fix } => match fix.then(|| desk.mend(input)).transpose() {
            Ok(_) => desk.each(input, check::run),
            Err(failure) => desk.close(Err(failure)),
        },
        Command::Numbers { input } => desk.each(input, numbers::run),
        Command::Typeset { input, out, force, watch } => match typeset::open(input, out) {
            Ok(()) => {
                let stance = Stance { force: *force, keep: *watch };
                desk.again(input, *watch, |shared, path| typeset::run(shared, path, out, stance))
            }
            Err(failure) => desk.close(Err(failure)),
        },
        Command::Preview(given) => match typeset::open(&given.input, &given.out) {
            Ok(()) => desk.again(&given.input, given.watch, |shared, path| preview::run(shared, path, &given.wanted())),
            Err(failure) => desk.close(Err(failure)),
        },
    }
}

/// Prints what commands say.
struct Desk<'c, 's, 'i> {
    cli: &'c Cli,
    io: &'i mut Io<'s>,
    /// What was repaired, by lesson as it was named.
    fixed: BTreeMap<String, Vec<fix::Change>>,
}

impl Desk<'_, '_, '_> {
    /// Runs a command for each lesson, several at a time, and prints what they say in the order of the lessons. A mistake in
    /// one does not stop the others. The gravest status counts.
    fn each(&mut self, input: &Input, run: impl Fn(&Shared, &Path) -> Result<Report, Failure> + Sync) -> u8 {
        let mut shared = match Shared::read(input) {
            Ok(shared) => shared,
            Err(failure) => return self.close(Err(failure)),
        };
        let progress = Progress::new(self.cli.talk, self.io.err_is);
        let (all, start) = (shared.lessons().len(), Instant::now());
        // Of many lessons only the count is told: several are under way at a time.
        if all == 1 {
            shared.progress = progress;
        }
        shared.coloured = term::coloured(self.cli.talk, self.io.out_is);
        let (mut status, mut done) = (DONE, 0);
        let work = |path: &Path| run(&shared, path);
        threads::each(shared.lessons(), work, |path, result| {
            progress.clear();
            let printed = self.print(Some(path), result);
            status = status.max(printed);
            done += 1;
            if done < all {
                progress.say(&left::line(done, all, start.elapsed()));
            }
        });
        status
    }

    /// [`Desk::each`], and with `watch` once more whenever a file that was read is saved, until the program is stopped or no
    /// one is left to talk to. What was made stays in place while a file has mistakes.
    fn again(
        &mut self,
        input: &Input,
        watch: bool,
        run: impl Fn(&Shared, &Path) -> Result<Report, Failure> + Sync,
    ) -> u8 {
        if watch && input.lessons.iter().any(|lesson| lesson == Path::new("-")) {
            let problem =
                Problem::new("standard input cannot be watched").hint("name the lesson file, or leave out --watch");
            return self.close(Err(Failure::Usage(problem)));
        }
        if !watch {
            return self.each(input, run);
        }
        loop {
            // Looked at first, so that what is saved during the work is not missed.
            let seen = FileState::now(input);
            self.each(input, &run);
            let told = if self.cli.talk.quiet {
                Ok(())
            } else {
                writeln!(self.io.err, "Waiting for the next save; Ctrl-C stops.")
            };
            if let Err(error) = told.and_then(|()| self.io.err.flush()) {
                return Failure::Stream(error).status();
            }
            seen.wait(input);
        }
    }

    /// Repairs the lessons and shows what changed. Files that cannot be read are told of afterwards, like the others.
    fn mend(&mut self, input: &Input) -> Result<(), Failure> {
        for path in &input.lessons {
            let changes = match fix::mend(path) {
                Err(failure @ Failure::Usage(_)) => return Err(failure),
                result => result.unwrap_or_default(),
            };
            let name = files::read::shown(path);
            if !changes.is_empty() && !self.cli.talk.quiet && self.cli.talk.format == Format::Human {
                let drawn: String = changes.iter().map(fix::Change::draw).collect();
                writeln!(self.io.out, "{name}: repaired\n{drawn}").map_err(Failure::Stream)?;
            }
            self.fixed.insert(name, changes);
        }
        Ok(())
    }

    /// Prints what another program reads.
    fn raw(&mut self, text: std::io::Result<Vec<u8>>) -> u8 {
        match text.and_then(|text| self.io.out.write_all(&text)).and_then(|()| self.io.out.flush()) {
            Ok(()) => DONE,
            Err(error) => self.close(Err(Failure::Stream(error))),
        }
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
                if let Some(changes) = self.fixed.get(&lesson) {
                    value["fixed"] = changes.iter().map(fix::Change::json).collect();
                }
                value["lesson"] = json!(lesson);
            }
            writeln!(self.io.out, "{value}")?;
            return self.io.out.flush();
        }
        let look = term::look(talk, self.io.err_is);
        match result {
            Ok(report) => {
                for warning in &report.warnings {
                    self.io.err.write_all(draw(warning, look).as_bytes())?;
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
