//! What `preview` takes.

use std::path::PathBuf;

use clap::Args;

use super::Input;
use crate::cli::files::write::Stance;
use crate::cli::pages::Pages;
use crate::cli::preview::{Wanted, Which};
#[cfg(feature = "png")]
use crate::raster::{LEAST_DPI, MOST_DPI};

/// What to picture.
#[derive(Debug, Args)]
pub struct Preview {
    /// What to read.
    #[command(flatten)]
    pub input: Input,
    /// The folder that gets a folder for each lesson
    #[arg(long, value_name = "DIR", default_value = "out")]
    pub out: PathBuf,
    /// Picture every page of each file: every learner's, not one a version
    #[arg(long, conflicts_with = "pages")]
    pub all: bool,
    /// Picture these pages of each file, such as 3, 2-5 or 1,4-6
    #[arg(long, value_name = "PAGES", value_parser = Pages::parse)]
    pub pages: Option<Pages>,
    /// Picture pages as PNG instead of SVG, of so many dots to the inch (96 if not said)
    #[cfg(feature = "png")]
    #[arg(long, value_name = "DPI", num_args = 0..=1, require_equals = true, default_missing_value = "96")]
    #[arg(value_parser = clap::value_parser!(u16).range(i64::from(LEAST_DPI)..=i64::from(MOST_DPI)))]
    pub png: Option<u16>,
    /// Also replace files that Placewright did not write
    #[arg(long)]
    pub force: bool,
    /// Make everything again each time a lesson file is saved, until stopped with Ctrl-C
    #[arg(long)]
    pub watch: bool,
}

impl Preview {
    /// What of it concerns pictures.
    pub fn wanted(&self) -> Wanted<'_> {
        let which = match &self.pages {
            Some(pages) => Which::Listed(pages),
            None if self.all => Which::All,
            None => Which::One,
        };
        Wanted {
            only: &self.input.only,
            which,
            #[cfg(feature = "png")]
            png: self.png,
            out: &self.out,
            stance: Stance { force: self.force, keep: self.watch },
        }
    }
}
