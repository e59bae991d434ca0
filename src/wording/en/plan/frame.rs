//! The frame of a plan in English.

use super::{form_plural, inside, listed};
use crate::number::{Number, Slip};
use crate::spec::{SheetKind, Version};
use crate::wording::Tools;
use crate::wording::en::English;
use crate::wording::en::phrases::counted;
use crate::wording::plan::{Aim, Frame, Laid, Phase, Standard, by_share, in_sentences};
use crate::wording::{Phrases, Slips, Titles, Usage};

impl Frame for English {
    fn phase(&self, phase: Phase, one: bool) -> &'static str {
        match phase {
            Phase::Building if one => "Building the model number",
            Phase::Drawing if one => "Drawing the model number",
            Phase::Columns if one => "Writing the model number in columns",
            Phase::Opening => "Opening",
            Phase::Building => "Building the model numbers",
            Phase::Drawing => "Drawing the model numbers",
            Phase::Columns => "Writing the model numbers in columns",
            Phase::Guided => "Practice together",
            Phase::Sorting => "Sorting and matching",
            Phase::Writing => "Writing the same number",
            Phase::Break => "Break",
            Phase::Sharing => "Sharing",
            Phase::Further => "Going further",
            Phase::Exit => "Quick check",
            Phase::Aloud => "Questions at the end",
            Phase::Clearing => "Clearing away",
            Phase::Spare => "Time left over",
        }
    }

    fn minutes(&self, count: u32) -> String {
        counted(count, "minute")
    }

    fn min(&self, count: u32) -> String {
        format!("{count} min")
    }

    fn plan_again(&self, title: &str) -> String {
        format!("Plan for \u{201c}{title}\u{201d}")
    }

    fn plan_note(&self, minutes: u32) -> String {
        format!(
            "Lesson plan, {}. Bold lines behind a bar are said aloud. Times are minutes from the start.",
            counted(minutes, "minute")
        )
    }

    fn aim(&self, aim: &Aim, usage: &Usage<'_>) -> String {
        match aim {
            Aim::Can(Standard::Counting) => "I can read, write and show numbers up to 10.".to_owned(),
            Aim::Can(Standard::TensAndOnes) => "I can say how many tens and ones a number has.".to_owned(),
            Aim::Can(Standard::Hundreds) => "I can say what each digit is worth, up to 1,000.".to_owned(),
            Aim::Can(Standard::Thousands) => "I can say what each digit of a four-digit number is worth.".to_owned(),
            Aim::Can(Standard::Periods) => "I can read large numbers and say what digits are worth.".to_owned(),
            Aim::CanOwn => "I can say what each digit of my numbers is worth.".to_owned(),
            Aim::Trade => "I can trade and still have the same number.".to_owned(),
            Aim::Match(forms) => {
                let names: Vec<String> = forms.iter().map(|form| form_plural(*form, usage)).collect();
                let who = if usage.one_learner { "The learner matches" } else { "Learners match" };
                format!("{who} {} that show the same number.", listed(&names))
            }
            Aim::Write if usage.one_learner => "The learner writes the same number in more than one way.".to_owned(),
            Aim::Write => "Learners write the same number in more than one way.".to_owned(),
            Aim::Build => "Learners show a number and write it in more than one way.".to_owned(),
            Aim::TwoLanguages(second, true) => {
                let other = self.language(*second);
                format!(
                    "Number words are in two languages, English and {other}, each on strips of its own and in its own column. \
                     To have {other} read aloud, ask whoever speaks it."
                )
            }
            Aim::TwoLanguages(second, false) => {
                let other = self.language(*second);
                format!("Number words are in two languages, English and {other}. Accept either; you need only English.")
            }
        }
    }

    fn table(&self, laid: &[Laid], learners: u32) -> String {
        let mut sentences: Vec<String> = Vec::new();
        for (share, all) in by_share(laid.iter().filter_map(of_each), learners) {
            let lead = match (share, learners) {
                (_, 1) => "For the learner".to_owned(),
                (1, _) => "For each learner".to_owned(),
                (share, _) => format!("For every {} learners", self.small(share as usize)),
            };
            for (k, some) in in_sentences(&all).enumerate() {
                let again = format!("And {}", inside(&lead));
                sentences.push(format!("{}: {}.", if k == 0 { &lead } else { &again }, listed(some)));
            }
        }
        sentences.extend(laid.iter().filter_map(|laid| of_all(laid, learners == 1)).map(str::to_owned));
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
        format!("If the strip “{shown}” lies in the row of {}{set}: {slip}.", usage.style.numeral(of))
    }

    fn if_you_see_choice(&self, check: u32, question: u32, letter: char, shown: &str, slip: &str) -> String {
        format!("Check {check}, question {question}, choice {letter}, {shown}: {slip}.")
    }

    fn thinking_and_next(&self, slip: Slip, tools: Tools) -> String {
        format!("Thinking: {} Next: {}", self.slip_thinking(slip, tools.read), self.slip_next(slip, tools))
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
        Laid::Packet => "a packet".to_owned(),
        Laid::Scissors => "scissors".to_owned(),
        Laid::CutStrips => "a pile of cut strips".to_owned(),
        Laid::UncutStrips(None) => "the pages of strips, scissors".to_owned(),
        Laid::UncutStrips(Some(1)) => "a page of strips, scissors".to_owned(),
        Laid::UncutStrips(Some(pages)) => format!("{pages} pages of strips, scissors"),
        Laid::WholeStrips(None) => "the pages of strips, left whole".to_owned(),
        Laid::WholeStrips(Some(1)) => "a page of strips, left whole".to_owned(),
        Laid::WholeStrips(Some(pages)) => format!("{pages} pages of strips, left whole"),
        Laid::TubBlocks(together) => {
            share = together;
            "a set of blocks from the class tub".to_owned()
        }
        Laid::FoldedPaper => "paper folded into a column for each place".to_owned(),
        Laid::Paper => "paper and a pencil".to_owned(),
        Laid::Pencils => "a pencil".to_owned(),
        Laid::Envelopes => "an envelope for the pieces".to_owned(),
        Laid::Nothing | Laid::Display | Laid::Tally | Laid::AsTheyAre | Laid::OnlyPencils => return None,
    };
    Some((share, what))
}

/// What is said of the tables in a sentence of its own.
fn of_all(laid: &Laid, alone: bool) -> Option<&'static str> {
    match laid {
        Laid::Nothing => Some("Nothing yet. You need a board to write on."),
        Laid::Display => Some("Nothing yet. Have the display pages with you."),
        Laid::Tally => Some("For you: the class tally."),
        Laid::AsTheyAre => Some("What is on the tables stays there."),
        Laid::OnlyPencils if alone => Some("Only a pencil. You hold the quick check."),
        Laid::OnlyPencils => Some("Only a pencil. You hold the quick checks."),
        _ => None,
    }
}
