//! `completions` and `manual`: what shells and `man` read.

use std::fmt::Write as _;
use std::io;

use clap::{Command, CommandFactory};
use clap_complete::{Shell as Kind, generate};
use clap_mangen::Man;

use super::args::{Cli, Shell};

/// Completions for a shell.
pub fn completions(shell: Shell) -> Vec<u8> {
    let kind = match shell {
        Shell::Bash => Kind::Bash,
        Shell::Elvish => Kind::Elvish,
        Shell::Fish => Kind::Fish,
        Shell::Power => Kind::PowerShell,
        Shell::Zsh => Kind::Zsh,
    };
    let mut text = Vec::new();
    generate(kind, &mut Cli::command(), "placewright", &mut text);
    text
}

/// The manual page, as roff. One page holds the commands too, each under its name, so that it refers to no other page.
pub fn manual() -> io::Result<Vec<u8>> {
    let mut command = Cli::command();
    command.build();
    let page = Man::new(command.clone());
    let mut text = Vec::new();
    page.render_title(&mut text)?;
    page.render_name_section(&mut text)?;
    text.extend(b".SH SYNOPSIS\n\\fBplacewright\\fR \\fICOMMAND\\fR [\\fIOPTIONS\\fR]\n");
    page.render_description_section(&mut text)?;
    text.extend(list(&command).into_bytes());
    page.render_options_section(&mut text)?;
    page.render_extra_section(&mut text)?;
    for part in parts(&command) {
        let page = Man::new(part.clone());
        text.extend(format!(".SH \"{}\"\n", part.get_name().to_uppercase()).into_bytes());
        page.render_synopsis_section(&mut text)?;
        page.render_description_section(&mut text)?;
        page.render_options_section(&mut text)?;
        page.render_extra_section(&mut text)?;
    }
    Ok(text)
}

/// The commands, without the one that prints help.
fn parts(command: &Command) -> impl Iterator<Item = &Command> {
    command.get_subcommands().filter(|part| part.get_name() != "help")
}

/// What each command does.
fn list(command: &Command) -> String {
    let mut text = ".SH COMMANDS\n".to_owned();
    for part in parts(command) {
        let about = part.get_about().map(ToString::to_string).unwrap_or_default();
        let _ = write!(text, ".TP\n\\fB{}\\fR\n{}\n", part.get_name(), about.replace('-', "\\-"));
    }
    text
}
