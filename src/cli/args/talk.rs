//! How the program talks: what every command takes besides its own options.

use std::ffi::OsString;

use clap::{Args, ValueEnum};

/// How to talk.
#[derive(Debug, Clone, Copy, Args)]
pub struct Talk {
    /// How results are printed
    #[arg(long, global = true, value_name = "FORMAT", value_enum, default_value_t = Format::Human)]
    pub format: Format,
    /// Print no results and no notes, and each error on one line
    #[arg(short, long, global = true)]
    pub quiet: bool,
    /// When to colour
    #[arg(long, global = true, value_name = "WHEN", value_enum, default_value_t = Color::Auto)]
    pub color: Color,
}

/// For whom results are printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Format {
    /// For people
    Human,
    /// For programs: one JSON object a line for each lesson
    Json,
}

/// When to colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Color {
    /// On a terminal, unless `NO_COLOR` is set
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

impl Talk {
    /// The arguments with `help` and what it is asked about behind all options: the parser takes them in front only.
    pub fn before_help(mut args: Vec<OsString>) -> Vec<OsString> {
        if args.get(1).is_some_and(|word| word == "help") {
            let mut valued = false;
            let (options, words): (Vec<OsString>, Vec<OsString>) = args.drain(1..).partition(|word| {
                let option = valued || word.to_str().is_some_and(|word| word.starts_with('-'));
                valued = !valued && ["--format", "--color"].iter().any(|name| word == name);
                option
            });
            args.extend(options);
            args.extend(words);
        }
        args
    }

    /// What arguments say that make no sense as a whole, or that ask for help: how to talk about them.
    pub fn glimpse(args: &[OsString]) -> Self {
        let words = || args.iter().map(|arg| arg.to_str().unwrap_or_default()).take_while(|word| *word != "--");
        let said = |option: &str| {
            let apart = words().zip(words().skip(1)).filter(|(name, _)| *name == option).map(|(_, value)| value);
            let joined = words().filter_map(|word| word.strip_prefix(option)?.strip_prefix('='));
            apart.chain(joined).last()
        };
        let format = said("--format").and_then(|word| Format::from_str(word, true).ok());
        let color = said("--color").and_then(|word| Color::from_str(word, true).ok());
        let quiet = words().any(|word| word == "-q" || word == "--quiet");
        Self { format: format.unwrap_or(Format::Human), quiet, color: color.unwrap_or(Color::Auto) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn talk_is_glimpsed_in_arguments_that_make_no_sense() {
        #[track_caller]
        fn case(args: &[&str], format: Format, color: Color) {
            let args: Vec<OsString> = args.iter().map(Into::into).collect();
            let talk = Talk::glimpse(&args);
            assert_eq!((talk.format, talk.color), (format, color), "{args:?}");
        }
        case(&["typset", "--format", "json"], Format::Json, Color::Auto);
        case(&["--color=never", "--format=json", "x"], Format::Json, Color::Never);
        case(&["check", "--format", "xml", "--", "--format", "json"], Format::Human, Color::Auto);
    }
}
