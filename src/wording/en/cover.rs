//! What the substitute's first page says in English.

use super::English;
use super::phrases::{counted, listed};
use crate::number::{Form, Number};
use crate::wording::Usage;
use crate::wording::cover::{Caution, CoverWords, PageRange};

/// "page 3", "pages 3–5".
fn on(pages: PageRange) -> String {
    let noun = if pages.first == pages.last { "page" } else { "pages" };
    format!("{noun} {}", pages.figures())
}

/// "page 3", "pages 3–5 and 8".
fn on_all(pages: &[PageRange]) -> String {
    if let [one] = pages {
        return on(*one);
    }
    let figures: Vec<String> = pages.iter().map(|pages| pages.figures()).collect();
    format!("pages {}", listed(&figures))
}

impl CoverWords for English {
    fn cover_heading(&self, title: &str) -> String {
        format!("Start here: {title}")
    }

    fn cover_again(&self) -> &'static str {
        "Start here, continued"
    }

    fn cover_note(&self, minutes: u32, learners: u32, grade: Option<&str>) -> String {
        let grade = grade.map(|grade| format!(", grade {grade}")).unwrap_or_default();
        format!(
            "For whoever teaches this lesson today: {}, {}{grade}.",
            counted(minutes, "minute"),
            counted(learners, "learner")
        )
    }

    fn first_title(&self) -> &'static str {
        "The first five minutes"
    }

    fn read_plan(&self, pages: PageRange) -> String {
        format!(
            "Read the plan on {}: bold lines are said aloud, and each question has its answer beside it.",
            on(pages)
        )
    }

    fn lay_out_first(&self) -> &'static str {
        "Put the things to lay out on a side table. Hand out nothing yet."
    }

    fn write_first(&self, number: Number, usage: &Usage<'_>) -> String {
        format!("Write {} on the board: the lesson begins with it.", usage.style.numeral(number))
    }

    fn answers_on(&self, boards: Option<PageRange>, checks: Option<PageRange>) -> String {
        match (boards, checks) {
            (Some(boards), Some(checks)) => {
                format!("Answers to boards and strips are on {}, to quick checks on {}.", on(boards), on(checks))
            }
            (Some(boards), None) => format!("Answers to boards and strips are on {}.", on(boards)),
            (None, Some(checks)) => format!("Answers to quick checks are on {}.", on(checks)),
            (None, None) => "All answers are in the plan.".to_owned(),
        }
    }

    fn contents_heads(&self) -> (&'static str, [&'static str; 2]) {
        ("In this packet", ["Page", "What"])
    }

    fn things_heads(&self) -> (&'static str, [&'static str; 2]) {
        ("To lay out", ["Count", "What"])
    }

    fn late_title(&self) -> &'static str {
        "If you start late"
    }

    fn missing_title(&self) -> &'static str {
        "If the copies are missing"
    }

    fn copy_pages(&self, copies: &[(u32, Vec<PageRange>)], only_set: Option<&str>) -> String {
        let of = |count: u32| if count == 1 { "1 copy".to_owned() } else { format!("{count} copies") };
        let each: Vec<String> =
            copies.iter().map(|(count, pages)| format!("{} of {}", of(*count), on_all(pages))).collect();
        let set = only_set.map(|set| format!(" Everyone then works with set {set}.")).unwrap_or_default();
        format!("Make {}, at actual size.{set}", listed(&each))
    }

    fn no_copier(&self, numbers: &[Number], forms: &[Form], usage: &Usage<'_>) -> String {
        let numerals: Vec<String> = numbers.iter().map(|n| usage.style.numeral(*n)).collect();
        if numerals.is_empty() {
            return "Without a copier: ask the questions of the plan aloud. Learners answer on paper.".to_owned();
        }
        let forms: Vec<String> = forms
            .iter()
            .filter(|form| **form != Form::Numeral)
            .map(|form| super::plan::written_form(*form, usage))
            .collect();
        format!(
            "Without a copier: write {} on the board. Learners write each as {}.",
            listed(&numerals),
            listed(&forms)
        )
    }

    fn cautions_title(&self) -> &'static str {
        "Cautions"
    }

    fn caution(&self, caution: Caution) -> &'static str {
        match caution {
            Caution::SchoolFirst => "The school's own rules come first. Find out where emergency procedures are kept.",
            Caution::Scissors => {
                "Scissors: blunt tips. Learners sit to cut and pass them closed, handles first. Count them back in."
            }
            Caution::NoScissors => {
                "Whoever may not use scissors has a partner cut, or writes in the boxes of the board."
            }
            Caution::Guillotine => "A paper guillotine is for adults only, with its guard on.",
            Caution::SmallPieces => "Small pieces stay on the tables. Keep them from children under three.",
        }
    }

    fn school_lines(&self) -> (&'static str, [&'static str; 5]) {
        (
            "Only the school can fill this in",
            [
                "Room, bell times",
                "Where things are",
                "Routines, who helps",
                "Office, emergencies",
                "Plans of their own",
            ],
        )
    }

    fn back_lines(&self) -> (&'static str, [&'static str; 5]) {
        (
            "Note back to the teacher",
            ["Taught by, when", "Who finished", "Who needs help", "Left undone", "What surprised you"],
        )
    }

    fn leave_behind(&self, tally: bool, checks: bool, groups: bool) -> String {
        let mut things = vec!["this page".to_owned()];
        if tally {
            things.push("the class tally".to_owned());
        }
        if checks {
            things.push("the quick checks".to_owned());
        }
        let groups = if groups { " On the page for small groups write in the names you are sure of." } else { "" };
        format!("Leave behind: {}.{groups}", listed(&things))
    }
}
