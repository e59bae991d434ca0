//! What the substitute's first page says in English.

use super::English;
use super::phrases::{counted, listed};
use crate::number::{Form, Number};
use crate::spec::SheetKind;
use crate::wording::class_groups::ClassGroups;
use crate::wording::cover::{
    ByHand, Caution, CopiedSets, CoverWords, KeyPages, LeftBehind, PageRange, Papers, SortSheets,
};
use crate::wording::{Phrases, Titles, Usage};

/// "page 3", "pages 3–5".
fn on(pages: PageRange) -> String {
    let noun = if pages.first == pages.last { "page" } else { "pages" };
    format!("{noun} {}", pages.figures())
}

/// The pages of keys, with the letters of sets where there are several: "pages 66–67 (A), 68 (B) and 69 (C)".
fn on_each(keys: &KeyPages) -> String {
    if keys.sets.is_empty() {
        return on(keys.all);
    }
    let each: Vec<String> = keys.sets.iter().map(|(set, pages)| format!("{}\u{a0}({set})", pages.figures())).collect();
    format!("pages {}", listed(&each))
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

    fn lay_out_first(&self, cut: bool) -> &'static str {
        if cut {
            "Put things on a side table. Hand out nothing yet. Nothing cut? The plan has \u{201c}If nobody had time\u{201d}."
        } else {
            "Put the things to lay out on a side table. Hand out nothing yet."
        }
    }

    fn begin_with(&self, number: Number, shown: bool, usage: &Usage<'_>) -> String {
        if shown {
            return format!(
                "Have the display pages ready: the lesson begins with step 1 for {}.",
                usage.style.numeral(number)
            );
        }
        format!("Keep the board free: the lesson begins when you write {} on it.", usage.style.numeral(number))
    }

    fn answers_on(&self, sorts: Option<(KeyPages, SortSheets)>, checks: Option<PageRange>, planned: bool) -> String {
        let sorts = sorts.map(|(pages, sheets)| match sheets {
            SortSheets::BoardsAndStrips => format!("sorting boards and strips are on {}", on_each(&pages)),
            SortSheets::Boards => format!("sorting boards are on {}", on_each(&pages)),
            SortSheets::Strips => format!("strips are on {}", on_each(&pages)),
            SortSheets::Numbers => format!("the numbers on the board are on {}", on_each(&pages)),
        });
        match (sorts, checks) {
            (Some(sorts), Some(checks)) => format!("Answers to {sorts}, to quick checks on {}.", on(checks)),
            (Some(sorts), None) => format!("Answers to {sorts}."),
            (None, Some(checks)) => format!("Answers to quick checks are on {}.", on(checks)),
            (None, None) if planned => {
                "There is no key here. The plan answers its own questions and those of the quick checks.".to_owned()
            }
            (None, None) => "There is no key here. The plan has an answer to each of its questions.".to_owned(),
        }
    }

    fn contents_heads(&self) -> (&'static str, [&'static str; 3]) {
        ("In this packet", ["Page", "What", "Copies"])
    }

    fn pages_with_letters(&self) -> &'static str {
        "Pages of each set: see below"
    }

    fn set_heads(&self) -> (&'static str, [&'static str; 3]) {
        ("One set for each group", ["Set", "For", "Copies"])
    }

    fn pages_copied(&self, pages: PageRange, copies: u32) -> String {
        let copies = if copies == 1 { "1 copy".to_owned() } else { format!("{copies} copies") };
        format!("{} ({copies})", pages.figures())
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

    fn copy_pages(&self, sets: &CopiedSets, uncut: bool, kits: &[SheetKind], unmarked: bool, apart: bool) -> String {
        let set = match sets {
            CopiedSets::All => String::new(),
            CopiedSets::One(set) => format!(" Everyone then works with set {set}."),
            CopiedSets::FirstOfGroups => " All of a row get its first set.".to_owned(),
        };
        let uncut =
            if uncut { " Strips are not needed: learners write in the boxes of the sorting board." } else { "" };
        let kits = match kits {
            [] => String::new(),
            kinds => {
                let names: Vec<&str> = kinds.iter().map(|kind| self.sheet_in_text(*kind, 2)).collect();
                let names = self.capital(&self.list(&names));
                format!(" {names} are not needed: the plan has \u{201c}If nobody had time\u{201d}.")
            }
        };
        let unmarked = if unmarked { " Such strips have no marks on their backs." } else { "" };
        let apart = if apart { " Cut quick checks apart first." } else { "" };
        format!("Copy each page as often as stands beside it, at actual size.{apart}{set}{uncut}{kits}{unmarked}")
    }

    fn no_copier(&self, by_hand: &ByHand, forms: &[Form], usage: &Usage<'_>) -> String {
        let (who, whose) = if usage.one_learner { ("The learner writes", "the") } else { ("Learners write", "their") };
        let (start, what) = match by_hand {
            ByHand::Aloud => {
                return "Without a copier: ask the questions of the plan aloud. Learners answer on paper.".to_owned();
            }
            ByHand::Check { mark, page, choices } => {
                let (with, letters) = if *choices { (", with their choices", "the letters of ") } else { ("", "") };
                return format!(
                    "Without a copier: write the questions of quick check {mark} (page {page}) on the board, one at a \
                     time{with}. {who} {letters}{whose} answers on paper."
                );
            }
            ByHand::Numbers(numbers) => {
                let numerals: Vec<String> = numbers.iter().map(|n| usage.style.numeral(*n)).collect();
                (
                    format!("Without a copier: write {} on the board", listed(&numerals)),
                    if numbers.len() > 1 { "each" } else { "it" },
                )
            }
            ByHand::Boards(rows) => (
                format!(
                    "Without a copier: write on the board the {} of each set's sorting board",
                    if *rows == 1 { "first number".to_owned() } else { format!("first {rows} numbers") }
                ),
                "their own",
            ),
            ByHand::Lists(lists) => {
                let lists = self.lists_by_hand(lists, usage.style);
                (format!("Without a copier, write a list for each group. {lists}"), "their own")
            }
        };
        let forms: Vec<String> = forms
            .iter()
            .filter(|form| **form != Form::Numeral)
            .map(|form| super::plan::in_form(*form, usage))
            .collect();
        format!("{start}. {who} {what} {}.", listed(&forms))
    }

    fn cautions_title(&self) -> &'static str {
        "Cautions"
    }

    fn caution(&self, caution: Caution, alone: bool) -> &'static str {
        match caution {
            Caution::SchoolFirst => "The school's own rules come first. Find out where emergency procedures are kept.",
            Caution::Scissors => {
                "Scissors: blunt tips. Learners sit to cut and pass them closed, handles first. Count them back in."
            }
            Caution::NoScissors if alone => {
                "A learner who may not use scissors has you cut, or writes in the boxes of the sorting board."
            }
            Caution::NoScissors => {
                "Whoever may not use scissors has a partner cut, or writes in the boxes of the sorting board."
            }
            Caution::NoScissorsNoBoxes if alone => "A learner who may not use scissors has you cut.",
            Caution::NoScissorsNoBoxes => "Whoever may not use scissors has a partner cut.",
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
                "Learners with own plans",
            ],
        )
    }

    fn back_lines(&self) -> (&'static str, [&'static str; 5]) {
        (
            "Note back to the teacher",
            ["Taught by, when", "Who finished", "Who needs help", "Left undone", "What surprised you"],
        )
    }

    fn leave_behind(&self, left: &LeftBehind<'_>, learners: u32) -> String {
        let mut things = vec!["this page".to_owned()];
        things.extend(left.written.iter().map(|kind| format!("the {}", self.sheet_in_text(*kind, learners))));
        if left.envelopes {
            things.push(if learners == 1 { "the envelope" } else { "the envelopes" }.to_owned());
        }
        if left.tally {
            things.push("the class tally".to_owned());
        }
        match left.papers {
            Some(Papers::Checks) => things.push(format!("the {}", self.sheet_in_text(SheetKind::Exit, learners))),
            Some(Papers::Answers) if learners == 1 => things.push("the learner's answers".to_owned()),
            Some(Papers::Answers) => things.push("the learners' answers".to_owned()),
            None => {}
        }
        let groups = if left.groups && learners > 1 {
            " On the page for small groups write in the names you are sure of."
        } else {
            ""
        };
        format!("Leave behind: {}.{groups}", listed(&things))
    }
}
