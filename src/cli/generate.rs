//! `--generate`: completions for shells, and the manual.

use std::io;

use clap::{CommandFactory, ValueEnum};
use clap_complete::{Shell, generate};

use super::args::Cli;

/// What can be generated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Kind {
    /// Completions for bash
    Bash,
    /// Completions for fish
    Fish,
    /// Completions for `PowerShell`
    #[value(name = "powershell")]
    PowerShell,
    /// Completions for zsh
    Zsh,
    /// The manual page of the program and all its commands, as roff
    Man,
}

/// The text.
pub fn text(kind: Kind) -> io::Result<Vec<u8>> {
    let mut command = Cli::command();
    let mut text = Vec::new();
    let shell = match kind {
        Kind::Bash => Shell::Bash,
        Kind::Fish => Shell::Fish,
        Kind::PowerShell => Shell::PowerShell,
        Kind::Zsh => Shell::Zsh,
        Kind::Man => {
            command.build();
            clap_mangen::Man::new(command.clone()).render(&mut text)?;
            for part in command.get_subcommands() {
                // One page holds the commands too: each begins with its name as a heading.
                let page = clap_mangen::Man::new(part.clone());
                text.extend(format!(".SH \"{}\"\n", part.get_name().to_uppercase()).into_bytes());
                page.render_synopsis_section(&mut text)?;
                page.render_description_section(&mut text)?;
                page.render_options_section(&mut text)?;
                page.render_extra_section(&mut text)?;
            }
            return Ok(text);
        }
    };
    generate(shell, &mut command, "placewright", &mut text);
    Ok(text)
}
