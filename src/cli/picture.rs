//! `picture`: a number as a picture by itself, onto the disk or to standard output.

use std::path::{Path, PathBuf};

use serde_json::json;

use super::args::Picture;
use super::failure::{Failure, reason};
use super::files::read::shown;
use super::files::write;
use super::report::Report;
use crate::diag::Problem;
use crate::figure::{self, Amounts, Finish};
use crate::measure::fonts::{Bundled, bundled};
use crate::svg;

/// Draws each of the numbers. One goes to a file or to standard output, several into a folder.
pub fn run(given: &Picture) -> Result<Report, Failure> {
    let shown = given.numbers.iter().map(|amounts| {
        given.trade.iter().try_fold(*amounts, |amounts, place| amounts.traded(*place)).map_err(Failure::Usage)
    });
    let shown = shown.collect::<Result<Vec<Amounts>, Failure>>()?;
    let family = bundled(Bundled::Andika).map_err(Failure::Usage)?;
    let finish = Finish { family: &family, ink: given.ink, width: given.size };
    let mut drawings = figure::draw(given.form, &shown, &finish).map_err(Failure::Usage)?;
    if given.clear {
        for drawing in &mut drawings {
            drawing.ground = None;
        }
    }
    let texts: Vec<String> = drawings.iter().map(|drawing| svg::drawing(drawing, &family, 0)).collect();
    match (&given.out, texts.as_slice()) {
        (None, [text]) => {
            let json = json!({ "findings": [], "pictures": [{ "title": drawings[0].title, "svg": text }] });
            Ok(Report { human: text.clone(), notes: Vec::new(), warnings: Vec::new(), json })
        }
        (None, _) => {
            let problem = Problem::new(format!("{} pictures do not go to standard output", texts.len()));
            Err(Failure::Usage(problem.hint("name a folder for them with --out, or one number at a time")))
        }
        (Some(out), _) => save(given, &places(given, &shown, out), &texts),
    }
}

/// Where each picture goes: the file that is named, or one a number in the folder that is.
fn places(given: &Picture, shown: &[Amounts], out: &Path) -> Vec<PathBuf> {
    let is_file = out.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("svg"));
    if is_file && shown.len() == 1 {
        return vec![out.to_owned()];
    }
    let name = |amounts: &Amounts| {
        let number = if amounts.is_traded() {
            amounts.to_string().replace(' ', "-")
        } else {
            amounts.number().value().to_string()
        };
        out.join(format!("{number}-{}.svg", given.form.word()))
    };
    shown.iter().map(name).collect()
}

/// Writes the pictures; pictures of ours that are there already are replaced.
fn save(given: &Picture, places: &[PathBuf], texts: &[String]) -> Result<Report, Failure> {
    let mut written: Vec<String> = Vec::new();
    for (place, text) in places.iter().zip(texts) {
        let name = shown(place);
        if written.contains(&name) {
            continue;
        }
        write::picture(place, text, given.force).map_err(|error| {
            let problem = Problem::new(format!("cannot write `{name}`: {}", reason(&error)));
            let problem = match error.kind() {
                std::io::ErrorKind::AlreadyExists => {
                    Problem::new(format!("`{name}` is there already and was not drawn by Placewright"))
                        .hint("choose another --out, or use --force")
                }
                _ => problem,
            };
            Failure::file(name.clone(), problem)
        })?;
        written.push(name);
    }
    let human = written.iter().fold(String::new(), |text, name| text + name + "\n");
    let json = json!({ "findings": [], "written": written });
    Ok(Report { human, notes: Vec::new(), warnings: Vec::new(), json })
}
