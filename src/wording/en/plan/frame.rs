//! The frame of a plan in English.

use super::{form_plural, listed};
use crate::number::{Number, Slip};
use crate::spec::{SheetKind, Version};
use crate::wording::en::English;
use crate::wording::en::phrases::counted;
use crate::wording::plan::{Aim, Frame, Laid, Phase, Standard, Tools};
use crate::wording::{Phrases, Slips, Titles, Usage};

impl Frame for English {
    fn phase(&self, phase: Phase) -> &'static str {
        match phase {
            Phase::Opening => "Opening",
            Phase::Building => "Building the model numbers",
            Phase::Guided => "Practice together",
            Phase::Sorting => "Sorting and matching",
            Phase::Sharing => "Sharing",
            Phase::Further => "Going further",
            Phase::Exit => "Quick check",
            Phase::Clearing => "Clearing away",
        }
    }

    fn phase_again(&self, phase: Phase) -> String {
        format!("{} (goes on)", self.phase(phase))
    }

    fn minutes(&self, count: u32) -> String {
        counted(count, "minute")
    }

    fn min(&self, count: u32) -> String {
        format!("{count} min")
    }

    fn plan_again(&self, title: &str) -> String {
        format!("{title}: plan")
    }

    fn plan_note(&self, minutes: u32) -> String {
        format!(
            "Lesson plan, {}. Bold lines behind a bar are said aloud. Times are minutes from the start.",
            counted(minutes, "minute")
        )
    }

    fn aim(&self, aim: &Aim, usage: &Usage<'_>) -> String {
        match aim {
            Aim::Can(Standard::TensAndOnes) => "I can say how many tens and ones a number has.".to_owned(),
            Aim::Can(Standard::Hundreds) => "I can say what each digit of a number up to 1,000 is worth.".to_owned(),
            Aim::Can(Standard::Thousands) => "I can say what each digit of a four-digit number is worth.".to_owned(),
            Aim::Can(Standard::Periods) => "I can read a large number and say what each digit is worth.".to_owned(),
            Aim::Match(forms) => {
                let names: Vec<String> = forms.iter().map(|form| form_plural(*form, usage)).collect();
                format!("Learners match {} that show the same number.", listed(&names))
            }
            Aim::Build => "Learners build a number and write it in more than one way.".to_owned(),
        }
    }

    fn table(&self, laid: &[Laid], learners: u32) -> String {
        let mut groups: Vec<(u32, Vec<String>)> = Vec::new();
        for (share, what) in laid.iter().filter_map(of_each) {
            let share = share.min(learners);
            match groups.iter_mut().find(|(of, _)| *of == share) {
                Some((_, all)) => all.push(what),
                None => groups.push((share, vec![what])),
            }
        }
        groups.sort_by_key(|(share, _)| *share);
        let mut sentences: Vec<String> = Vec::new();
        for (share, all) in &groups {
            let lead = match (share, learners) {
                (_, 1) => "For the learner".to_owned(),
                (1, _) => "For each learner".to_owned(),
                (share, _) => format!("For every {} learners", self.small(*share as usize)),
            };
            // Three things a sentence: a longer list is lost on whoever reads it while a class comes in.
            for (k, some) in all.chunks(3).enumerate() {
                let lead = if k == 0 { lead.as_str() } else { "Also" };
                sentences.push(format!("{lead}: {}.", listed(some)));
            }
        }
        sentences.extend(laid.iter().filter_map(of_all).map(str::to_owned));
        sentences.join(" ")
    }

    fn label_table(&self) -> &'static str {
        "Table"
    }

    fn label_do(&self) -> &'static str {
        "Do"
    }

    fn label_say(&self) -> &'static str {
        "Say"
    }

    fn label_ask(&self) -> &'static str {
        "Ask"
    }

    fn label_watch(&self) -> &'static str {
        "Watch"
    }

    fn expect(&self, answer: &str) -> String {
        format!("Expect: {answer}")
    }

    fn slip_named(&self, slip: Slip, letter: Option<char>) -> String {
        let letter = letter.map(|letter| format!("{letter}, ")).unwrap_or_default();
        format!("{letter}{}", self.slip_name(slip))
    }

    fn if_you_see(&self, shown: &str, of: Number, slip: &str, usage: &Usage<'_>) -> String {
        format!("If you see {shown} for {}: {slip}.", usage.style.numeral(of))
    }

    fn if_you_see_strip(&self, shown: &str, of: Number, slip: &str, set: Option<Version>, usage: &Usage<'_>) -> String {
        let set = set.map(|set| format!(" (set {set})")).unwrap_or_default();
        format!("If the strip {shown} lies in the row of {}{set}: {slip}.", usage.style.numeral(of))
    }

    fn if_you_see_choice(&self, check: u32, question: u32, letter: char, shown: &str, slip: &str) -> String {
        format!("Check {check}, question {question}, choice {letter}, {shown}: {slip}.")
    }

    fn thinking_and_next(&self, slip: Slip, tools: Tools) -> String {
        format!("Thinking: {} Next: {}", self.slip_thinking(slip), next(slip, tools))
    }

    fn as_above(&self) -> &'static str {
        "Explained above."
    }
}

/// What lies before each learner, or before so many together, with its article; nothing for what is said in a sentence of its
/// own.
fn of_each(laid: &Laid) -> Option<(u32, String)> {
    let mut share = 1;
    let what = match *laid {
        Laid::Sheet { sheet, pages, share: together } => {
            share = together;
            let one = English.sheet_in_text(sheet, 1);
            match (sheet, pages) {
                (SheetKind::Blocks, _) => "a set of cut-out blocks".to_owned(),
                (_, 1) => format!("a {one}"),
                (SheetKind::Mat, _) => format!("a {one} with its {pages} pages joined"),
                (_, _) => format!("a {one} of {pages} pages"),
            }
        }
        Laid::CutStrips => "a pile of cut strips".to_owned(),
        Laid::UncutStrips(1) => "a page of strips, scissors".to_owned(),
        Laid::UncutStrips(pages) => format!("{pages} pages of strips, scissors"),
        Laid::WholeStrips(1) => "a page of strips, left whole".to_owned(),
        Laid::WholeStrips(pages) => format!("{pages} pages of strips, left whole"),
        Laid::TubBlocks => "base-ten blocks from the class tub".to_owned(),
        Laid::FoldedPaper => "paper folded into a column for each place".to_owned(),
        Laid::Paper => "paper and a pencil".to_owned(),
        Laid::Pencils => "a pencil".to_owned(),
        Laid::Envelopes => "an envelope for the pieces".to_owned(),
        Laid::Nothing | Laid::Display | Laid::Tally | Laid::AsTheyAre | Laid::OnlyPencils => return None,
    };
    Some((share, what))
}

/// What is said of the tables in a sentence of its own.
fn of_all(laid: &Laid) -> Option<&'static str> {
    match laid {
        Laid::Nothing => Some("Nothing yet. You need a board to write on."),
        Laid::Display => Some("Nothing yet. Have the display pages with you."),
        Laid::Tally => Some("For you: the class tally."),
        Laid::AsTheyAre => Some("Everything stays as it is."),
        Laid::OnlyPencils => Some("Only a pencil. You hold the quick checks."),
        _ => None,
    }
}

/// What to do next about a slip, with what learners can touch.
fn next(slip: Slip, tools: Tools) -> &'static str {
    let Tools { mat, blocks, cards } = tools;
    match slip {
        Slip::ZeroDropped if mat && blocks => {
            "Build the number on the mat, point to the empty column, and write 0 for it."
        }
        Slip::ZeroDropped => "Write the digits under the names of their places, and find the place left empty.",
        Slip::ZeroMoved if blocks => "Build both numbers and ask which one has no pieces of which kind.",
        Slip::ZeroMoved => "Write both numbers below each other and ask which place is empty in each.",
        Slip::TeenTy if blocks => "Say both words slowly, build both with rods and cubes, and compare them.",
        Slip::TeenTy => "Say both words slowly, draw a line for each ten and a dot for each one, and compare.",
        Slip::TeenReversed if blocks => "Build the teen as one rod and some cubes, then write the rod's digit first.",
        Slip::TeenReversed => "Draw the teen as one line and some dots, then write the digit of the line first.",
        Slip::SideBySide if cards => "Stack the layered cards, so that each smaller part covers the zeros under it.",
        Slip::SideBySide => "Write the parts below each other, ones under ones, and add them up.",
        Slip::BigPartThenRest if cards => "Lay the cards for the rest on top of the biggest card, and read the result.",
        Slip::BigPartThenRest => "Write the rest below the biggest part, ones under ones, and add them up.",
        Slip::HalfOverwritten if mat => {
            "Count the columns on the mat and the digits written: one digit for each column."
        }
        Slip::HalfOverwritten => {
            "Name the places from the left and count the digits written: one digit for each place."
        }
        Slip::PlaceWordWritten if mat => {
            "Show that hundred and thousand name columns of the mat; only the count in a column is written."
        }
        Slip::PlaceWordWritten => "Say that hundred and thousand name places; only the count in a place is written.",
        Slip::FaceValue if blocks => "Ask which blocks each digit stands for, and lay a rod beside a cube to compare.",
        Slip::FaceValue => "Point to one digit after another, and ask each time: how many of what?",
        Slip::CountedAlike if blocks => {
            "Lay ten cubes along a rod, then count the picture: flats by hundreds, rods by tens, cubes by ones."
        }
        Slip::CountedAlike => "Count the picture aloud: squares by hundreds, lines by tens, dots by ones.",
        Slip::PlaceOff if blocks => {
            "Name the places aloud from the ones up, a finger on each digit, and build the number."
        }
        Slip::PlaceOff => "Name the places aloud from the ones up, with a finger on each digit.",
        Slip::FromTheOnes if blocks => "Build both numbers and compare the largest blocks first, then the next.",
        Slip::FromTheOnes => "Write both numbers below each other and compare the largest place first.",
        Slip::ReadInPieces => "Cover all but the first digit, say it with its place, then read the rest as one number.",
        Slip::TensOnesSwapped if blocks => "Build both numbers with rods and cubes, and ask which has more tens.",
        Slip::TensOnesSwapped => "Write both numbers below each other, and ask which has more tens.",
        Slip::HundredsTensSwapped if blocks => {
            "Build both numbers with flats and rods, and ask which has more hundreds."
        }
        Slip::HundredsTensSwapped => "Write both numbers below each other, and ask which has more hundreds.",
        Slip::Reversed if mat => "Point to the left end of the mat, and write the largest place first.",
        Slip::Reversed => "Name the places from the left, and write the largest place first.",
    }
}
