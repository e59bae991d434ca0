//! What `desk` takes.

use std::path::PathBuf;

use clap::Args;

/// How the desk is opened.
#[derive(Debug, Clone, Args)]
pub struct DeskArgs {
    /// The lesson file to begin with; without it, the page offers starting points and the files of this folder
    #[arg(value_name = "LESSON")]
    pub lesson: Option<PathBuf>,
    /// The folder that gets a folder for each lesson, looked for in the folder of the lesson
    #[arg(long, value_name = "DIR", default_value = "out")]
    pub out: PathBuf,
    /// A folder of layout files that override the built-in ones
    #[arg(long, value_name = "DIR")]
    pub layouts: Option<PathBuf>,
    /// The port of this machine to serve the page at; 0 takes one that is free
    #[arg(long, value_name = "N", default_value_t = 0)]
    pub port: u16,
    /// Print the address of the page and leave opening it to you
    #[arg(long)]
    pub no_browser: bool,
    /// End this long after the page was closed
    #[arg(long, value_name = "SECONDS", default_value_t = 600, value_parser = clap::value_parser!(u64).range(1..=86_400))]
    pub linger: u64,
}
