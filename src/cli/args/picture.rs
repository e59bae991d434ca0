//! What `picture` takes.

use std::path::PathBuf;

use clap::Args;

use super::words::WordParser;
use crate::diag::Problem;
use crate::figure::{Amounts, View, WIDTHS};
use crate::measure::Length;
use crate::number::Place;
use crate::spec::Ink;

/// The places of which one can be traded.
const TRADED: [Place; 5] =
    [Place::Tens, Place::Hundreds, Place::Thousands, Place::TenThousands, Place::HundredThousands];

/// What to draw.
#[derive(Debug, Args)]
pub struct Picture {
    /// A number, or how many of each place show it, such as "1 hundred 16 tens 4 ones"
    #[arg(value_name = "NUMBER", required = true, value_parser = amounts)]
    pub numbers: Vec<Amounts>,
    /// How it is shown: blocks, chart, cards, ten-frame or number-line
    #[arg(long, value_name = "FORM", default_value = View::Blocks.word())]
    #[arg(value_parser = WordParser::new(&View::ALL, View::word))]
    pub form: View,
    /// Trade one of this place for ten of the next smaller one; may be given several times
    #[arg(long, value_name = "PLACE", value_parser = WordParser::new(&TRADED, Place::key))]
    pub trade: Vec<Place>,
    /// Grey or colour
    #[arg(long, value_name = "INK", default_value = "grey")]
    #[arg(value_parser = WordParser::new(&Ink::ALL, Ink::word))]
    pub ink: Ink,
    /// How wide a picture is at most
    #[arg(long, value_name = "WIDTH", default_value = "160 mm", value_parser = width)]
    pub size: Length,
    /// Leave out the white ground: what is behind the picture shows through
    #[arg(long)]
    pub clear: bool,
    /// Where to write: a file for one number, a folder for several; standard output when left out
    #[arg(long, value_name = "PATH")]
    pub out: Option<PathBuf>,
    /// Also replace files that Placewright did not write
    #[arg(long)]
    pub force: bool,
}

/// Reads a width.
fn width(text: &str) -> Result<Length, String> {
    let length = Length::parse(text).map_err(told)?;
    let (least, most) = WIDTHS;
    if (least..=most).contains(&length) { Ok(length) } else { Err(format!("expected a width from {least} to {most}")) }
}

/// Reads a number, or how many of each place show it.
fn amounts(text: &str) -> Result<Amounts, String> {
    Amounts::parse(text).map_err(told)
}

/// What is wrong and what was expected, in a line.
fn told(problem: Problem) -> String {
    match problem.hint {
        Some(hint) => format!("{}; {hint}", problem.message),
        None => problem.message,
    }
}
