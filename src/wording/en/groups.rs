//! What is said in small groups in English.

use super::English;
use crate::number::{Number, SlipFamily, Style};
use crate::wording::digits::extremes;
use crate::wording::groups::{BlocksOut, GroupTable};
use crate::wording::{Groups, Phrases};

impl Groups for English {
    fn groups_note(&self, table: GroupTable) -> String {
        let things = [
            (table.blocks == BlocksOut::TwoSets, "two sets of blocks"),
            (table.blocks == BlocksOut::OneSet, "blocks"),
            (table.mat, "a mat"),
            (table.cards, "layered cards"),
            (true, "paper"),
            (true, "pencils"),
        ];
        let things: Vec<&str> = things.into_iter().filter(|(lies, _)| *lies).map(|(_, what)| what).collect();
        let (each, checks) = if table.one_learner { ("letter", "quick check") } else { ("group", "quick checks") };
        format!(
            "For tomorrow, after you have read the tally and the {checks}. Ten minutes a {each}, at a table with {}.",
            self.list(&things)
        )
    }

    fn reading_title(&self, one_learner: bool) -> &'static str {
        if one_learner { "From the tally to tomorrow" } else { "From the tally to the groups" }
    }

    fn reading_steps(&self, one_learner: bool) -> Vec<&'static str> {
        let mark =
            "Mark a quick check with the key. For each wrong choice, put a mark in the tally under the slip's letter.";
        if one_learner {
            return vec![
                mark,
                "A single mark may be chance: ask once more before you decide.",
                "Begin with the letter that has most marks, and leave the next for the day after.",
                "No letter? Write the tasks at the end of this sheet on the board.",
            ];
        }
        vec![
            mark,
            "Go down the tally. A learner with two marks under one letter, or marks under letters of one group, goes to that group. A single mark may be chance: ask once more before you decide.",
            "Take the two or three groups with the most learners. Whoever is left over joins the group of their first letter, or waits for the day after.",
            "Learners without a letter have it. Write the tasks at the end of this sheet on the board; they work on them alone.",
        ]
    }

    fn groups_heads(&self, one_learner: bool) -> [&'static str; 4] {
        let (group, names) = if one_learner { ("About", "Day") } else { ("Group", "Names") };
        [group, "Letters on the tally", "What it finds out", names]
    }

    fn family(&self, family: SlipFamily) -> &'static str {
        match family {
            SlipFamily::Zeros => "Zeros",
            SlipFamily::Teens => "Teens",
            SlipFamily::Parts => "Parts",
            SlipFamily::Worth => "Worth",
            SlipFamily::Trades => "Trades",
            SlipFamily::Order => "Order",
        }
    }

    fn family_aim(&self, family: SlipFamily) -> &'static str {
        match family {
            SlipFamily::Zeros => "Every column gets a digit, the empty one too.",
            SlipFamily::Teens => "A teen is one ten and some ones, and the ten is written first.",
            SlipFamily::Parts => "Parts lie on top of each other: one digit for each column.",
            SlipFamily::Worth => "A digit tells how many, and its place tells how many of what.",
            SlipFamily::Trades => "One piece goes, ten of the next kind come, and the number stays the same.",
            SlipFamily::Order => "The largest place comes first, in writing and in comparing.",
        }
    }

    fn has_it(&self) -> &'static str {
        "Has it"
    }

    fn has_it_heads(&self) -> (&'static str, &'static str) {
        ("Write on the board", "Right")
    }

    fn no_letter(&self) -> &'static str {
        "none"
    }

    fn has_it_tasks(&self, numbers: &[Number], style: &Style) -> Vec<(String, String)> {
        let task = |number: &Number| {
            let (greatest, least) = extremes(*number, style);
            let question = format!(
                "Use all digits of {}. What are the greatest and the least number that you can make?",
                style.numeral(*number)
            );
            (question, format!("{greatest} and {least}"))
        };
        numbers.iter().map(task).collect()
    }
}
