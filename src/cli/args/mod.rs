//! What can be typed. The doc comments are the help.

mod desk;
mod input;
mod picture;
mod preview;
mod start;
mod talk;
mod words;

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

pub use desk::DeskArgs;
pub use input::Input;
pub use picture::Picture;
pub use preview::Preview;
pub use start::Start;
pub use talk::{Color, Format, Talk};

/// Makes print-ready packets for a lesson on place value from a short lesson file.
#[derive(Debug, Parser)]
#[command(name = "placewright", version, max_term_width = 100)]
#[command(arg_required_else_help = true)]
#[command(after_help = "Examples:
  placewright desk                      fill in a lesson on a page in your browser, and print it
  placewright start harbour.toml        write a first lesson file, asking a few questions
  placewright check harbour.toml        what will come out, and what was assumed
  placewright typeset harbour.toml      write the packets into out/harbour/
  placewright preview harbour.toml      the same, with pictures of the pages
  placewright picture 406 > 406.svg     one number in blocks, for a slide
  placewright sheets                    what can be made

Exit status: 0 done, 1 the lesson cannot be made, 2 wrong usage, 3 a file could not be read or \
written, 130 stopped with Ctrl-C.")]
pub struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
    /// How to talk.
    #[command(flatten)]
    pub talk: Talk,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Open a page in the browser to fill in a lesson, see its pages and make the files
    #[command(after_help = "Examples:
  placewright desk
  placewright desk lessons/harbour.toml
  placewright desk --no-browser --port 4711

The page is served on this machine only, to the browser that is opened with it, and reads and \
writes files of the lesson's folder only (of the current folder without a lesson). It ends when \
the page was closed for a while, or on Ctrl-C. A double click on the program opens it too where \
there is no terminal.")]
    Desk(DeskArgs),
    /// Write a short lesson file with comments, asking a few plain questions on a terminal
    #[command(after_help = "Examples:
  placewright start                                        asks; Enter takes the answer shown
  placewright start harbour.toml                           asks, and writes this file
  placewright start --title \"Tram stops\" --range 10-99    asks nothing

With any of the options that answer a question, or without a terminal, nothing is asked. A file \
that is there already is left alone unless --force is given.")]
    Start(Start),
    /// Read lessons, choose numbers and lay out every page, but write nothing
    #[command(after_help = "Examples:
  placewright check harbour.toml
  placewright check --fix harbour.toml
  placewright check --format json lessons/*.toml")]
    Check {
        /// What to read.
        #[command(flatten)]
        input: Input,
        /// Write repairs of which there is no doubt into the lesson files, and show them
        #[arg(long)]
        fix: bool,
    },
    /// Print the chosen numbers and why each is there
    #[command(after_help = "Examples:
  placewright numbers harbour.toml
  placewright numbers --seed 7 harbour.toml")]
    Numbers {
        /// What to read.
        #[command(flatten)]
        input: Input,
    },
    /// Write the packets of lessons as PDF files
    #[command(after_help = "Examples:
  placewright typeset harbour.toml
  placewright typeset lessons/*.toml --out packets
  placewright typeset harbour.toml --only board,strips --out again

The packets of harbour.toml go into out/harbour/, which is replaced as a whole. A folder that \
holds files of other origin is left alone unless --force is given; so is a packet that holds \
more than the sheets that --only names.")]
    Typeset {
        /// What to read.
        #[command(flatten)]
        input: Input,
        /// The folder that gets a folder for each lesson
        #[arg(long, value_name = "DIR", default_value = "out")]
        out: PathBuf,
        /// Also replace files that Placewright did not write
        #[arg(long)]
        force: bool,
        /// Make the packets again each time a lesson file is saved, until stopped with Ctrl-C
        #[arg(long)]
        watch: bool,
    },
    /// Write the packets together with pictures of their pages, and a page that shows them
    #[command(after_help = "Examples:
  placewright preview harbour.toml
  placewright preview harbour.toml --only board
  placewright preview harbour.toml --all
  placewright preview harbour.toml --pages 1-3,7 --watch

Open out/harbour/index.html in a browser: it shows what each file looks like, who gets it and how \
to print it, and which numbers were chosen and why. The pictures are SVG files in \
out/harbour/pictures/. Of a class set one learner of each version is pictured. The packets are \
always written whole.")]
    Preview(Preview),
    /// Draw a number as a picture by itself, for slides and documents
    #[command(after_help = "Examples:
  placewright picture 406 > 406.svg
  placewright picture 406 460 640 --out pictures
  placewright picture 264 --trade hundreds --form chart
  placewright picture \"1 hundred 16 tens 4 ones\" --ink colour
  placewright picture 7 --form ten-frame --size \"80 mm\"

Pictures are SVG: they stay sharp at any size. All pictures of one run have the same scale, so \
that they can be compared. Several numbers go into the folder given with --out, a file each.")]
    Picture(Picture),
    /// List what can be made
    #[command(after_help = "Examples:
  placewright sheets
  placewright sheets --format json")]
    Sheets,
    /// Explain what a lesson file can say: every key with its values, default and an example
    #[command(after_help = "Examples:
  placewright keys
  placewright keys margin
  placewright keys print
  placewright keys --schema > lesson.schema.json

Editors that know JSON Schema complete keys and words in a lesson file that begins with the \
line `#:schema lesson.schema.json`.")]
    Keys {
        /// A key such as margin or print.margin, or a table such as print
        #[arg(value_name = "KEY")]
        key: Option<String>,
        /// Print them as a JSON Schema
        #[arg(long, conflicts_with = "key")]
        schema: bool,
    },
    /// Print the licences of the program, its fonts and the libraries in it
    Licences,
    /// Print completions for a shell
    #[command(after_help = "Examples:
  placewright completions bash > ~/.local/share/bash-completion/completions/placewright
  placewright completions zsh > ~/.zfunc/_placewright
  placewright completions fish > ~/.config/fish/completions/placewright.fish
  placewright completions powershell >> $PROFILE

For zsh, the folder must be in fpath: put `fpath+=~/.zfunc` before `compinit` in ~/.zshrc.")]
    Completions {
        /// The shell
        #[arg(value_name = "SHELL", value_enum)]
        shell: Shell,
    },
    /// Print the manual page of the program and all its commands
    #[command(after_help = "Examples:
  placewright manual > placewright.1
  placewright manual | man -l -")]
    Manual,
}

/// A shell that can complete words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Shell {
    /// GNU Bash
    Bash,
    /// Elvish
    Elvish,
    /// Fish
    Fish,
    /// `PowerShell`
    #[value(name = "powershell")]
    Power,
    /// Zsh
    Zsh,
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_arguments_are_sound() {
        Cli::command().debug_assert();
    }
}
