//! What is said about arguments: help, the version, and what is wrong with them.

use std::io::Write;

use clap::error::ErrorKind;
use serde_json::json;

use super::args::{Format, Talk};
use super::failure::{DONE, Failure};
use super::term::{End, Io, coloured};
use crate::diag::Problem;

/// Prints help and the version, which were asked for, or what is wrong with the arguments: the exit status is 0 or 2.
pub fn tell(error: &clap::Error, talk: Talk, io: &mut Io) -> u8 {
    let asked_for = matches!(error.kind(), ErrorKind::DisplayHelp | ErrorKind::DisplayVersion);
    if !asked_for && talk.format == Format::Json {
        let findings = Failure::Usage(problem(error)).findings(None);
        let printed = writeln!(io.out, "{}", json!({ "findings": findings, "assumed": {} }));
        return match printed.and_then(|()| io.out.flush()) {
            Ok(()) => 2,
            Err(error) => Failure::Stream(error).status().max(2),
        };
    }
    let (stream, end): (&mut dyn Write, End) = if asked_for { (io.out, io.out_is) } else { (io.err, io.err_is) };
    let text = error.render();
    let text = if coloured(talk, end) { text.ansi().to_string() } else { text.to_string() };
    let printed = stream.write_all(text.as_bytes()).and_then(|()| stream.flush()).map_err(Failure::Stream);
    if asked_for { printed.map_or_else(|failure| failure.status(), |()| DONE) } else { 2 }
}

/// The library's words as ours: its first paragraph is the message, its advice the hint.
fn problem(error: &clap::Error) -> Problem {
    if matches!(error.kind(), ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand | ErrorKind::MissingSubcommand) {
        return Problem::new("a command is missing").hint("`placewright help` lists the commands");
    }
    let text = error.render().to_string();
    let joined = |part: &str| part.split_whitespace().collect::<Vec<_>>().join(" ");
    let mut parts = text.split("\n\n").map(str::trim);
    let message = joined(parts.next().unwrap_or_default().trim_start_matches("error: "));
    let (message, reason) = match message.split_once("': ") {
        Some((message, reason)) => (format!("{message}'"), Some(reason.to_owned())),
        None => (message, None),
    };
    let tip = parts.find_map(|part| part.strip_prefix("tip: ").map(joined));
    let hint = reason.or(tip).unwrap_or_else(|| "`placewright help` lists what can be typed".to_owned());
    Problem::new(message.trim_end_matches(':')).hint(hint)
}
