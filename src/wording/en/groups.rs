//! What is said in small groups in English.

use super::English;
use crate::number::{Content, Counted, Form, Names, Number, Place, Slip, SlipFamily, Style, Task};
use crate::wording::digits::{asked, built, counts, extremes, misheard, worth};
use crate::wording::{Checks, Groups, Phrases, Slips, Tools};

impl Groups for English {
    fn groups_note(&self, built: bool) -> &'static str {
        if built {
            "For tomorrow, after you have read the tally and the quick checks. Ten minutes a group, at a table with blocks and mats."
        } else {
            "For tomorrow, after you have read the tally and the quick checks. Ten minutes a group, at a table with paper and pencils."
        }
    }

    fn reading_title(&self) -> &'static str {
        "From the tally to the groups"
    }

    fn reading_steps(&self) -> [&'static str; 4] {
        [
            "Mark a quick check with the key. For each wrong choice, put a mark in the tally under the slip's letter.",
            "Go down the tally. A learner with two marks under one letter, or marks under letters of one group, goes to that group. A single mark may be chance: ask once more before you decide.",
            "Take the two or three groups with the most learners. Whoever is left over joins the group of their first letter, or waits for the day after.",
            "Learners without a letter have it. They work alone on the tasks at the end of this sheet.",
        ]
    }

    fn groups_heads(&self) -> [&'static str; 4] {
        ["Group", "Letters on the tally", "What it finds out", "Names"]
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

    fn lesson_title(&self, letter: char, slip: Slip) -> String {
        format!("{letter}, {} (group: {})", self.slip_name(slip), self.family(slip.family()))
    }

    fn group_build(&self, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let one = |number: Number| {
            let numeral = style.numeral(number);
            if let Some(built) = built(number, task, style) {
                return if tools.blocks {
                    format!("{numeral} with {}", held(&built))
                } else {
                    format!("{numeral} as {} in a chart on paper", counts(self, &built))
                };
            }
            if tools.blocks {
                format!("{numeral} with {}", self.pieces_of(number))
            } else {
                format!("{numeral} in a chart on paper, one digit in each column")
            }
        };
        match task {
            Task::Greater(other) => format!("{}, and {}.", one(number), one(other)),
            Task::Forms { .. } | Task::Worth(_) => format!("{}.", one(number)),
        }
    }

    fn group_question(&self, slip: Slip, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let numeral = style.numeral(number);
        let two = || if let Task::Greater(other) = task { style.numeral(other) } else { String::new() };
        match slip {
            Slip::ZeroDropped => "Which column is empty? What do we write for it?".to_owned(),
            Slip::ZeroMoved => format!("Where is the empty column of {numeral}? Where does its 0 stand?"),
            Slip::TeenTy => {
                let words = slip.spoken(style).words(number);
                match misheard(slip, number, task, style) {
                    Place::Tens if tools.blocks => format!("How many rods does {words} need? Say the words slowly."),
                    place => heard(&words, place),
                }
            }
            Slip::SoundAlike => heard(&slip.spoken(style).words(number), misheard(slip, number, task, style)),
            // Only Spanish words provoke it.
            Slip::HundredWord => format!("How do we say 100 in Spanish: in {numeral}, and by itself?"),
            Slip::TeenReversed => format!("Which digit of {numeral} stands for tens? Where do we write it?"),
            Slip::SideBySide | Slip::BigPartThenRest | Slip::HalfOverwritten => {
                "How many columns have we used? So how many digits do we write?".to_owned()
            }
            Slip::PlaceWordWritten => "Which words name a column? Do we write them as digits?".to_owned(),
            Slip::ReadInPieces => format!("Which digit of {numeral} do we read first, and what is its place?"),
            Slip::FaceValue => match task {
                Task::Greater(_) => format!("Are {numeral} and {} equal, since they have the same digits?", two()),
                Task::Forms { .. } | Task::Worth(_) => {
                    let place = asked(number, task);
                    let what = if tools.blocks { "Which blocks" } else { "How many of what" };
                    format!("{what} does the {} in {numeral} stand for?", number.digit(place))
                }
            },
            Slip::CountedAlike => "How many cubes make one rod? How do we count this picture?".to_owned(),
            Slip::PlaceOff => {
                let place = asked(number, task);
                format!("Name the places from the ones up. Where does the {} stand?", number.digit(place))
            }
            Slip::FromTheOnes => format!("Which place do we compare first in {numeral} and {}?", two()),
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew => self.trade_question(slip, number, task, style),
            Slip::CountsSideBySide | Slip::TenLeftOut => {
                "Which column has ten or more? What can we trade them for?".to_owned()
            }
            Slip::TensOnesSwapped => format!("Which digit of {numeral} tells how many tens?"),
            Slip::HundredsTensSwapped => format!("Which digit of {numeral} tells how many hundreds?"),
            Slip::Reversed => format!("Which digit of {numeral} do we write first, and why?"),
        }
    }

    fn group_answer(&self, slip: Slip, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        let numeral = style.numeral(number);
        let digit_at = |place: Place| u32::from(number.digit(place));
        let empty: Vec<Place> = number.digits().filter(|(_, digit)| *digit == 0).map(|(place, _)| place).collect();
        let (top, first) = number.digits().next().unwrap_or((Place::Ones, 0));
        match slip {
            Slip::ZeroDropped => format!("{}. We write 0 there: {numeral}.", self.capital(&self.columns(&empty))),
            Slip::ZeroMoved => format!("{}, and the 0 stands there: {numeral}.", self.capital(&self.columns(&empty))),
            Slip::TeenTy | Slip::SoundAlike => {
                let digit = number.digit(misheard(slip, number, task, style));
                format!("{digit}, so we write {numeral}.")
            }
            Slip::HundredWord => {
                let spoken = slip.spoken(style);
                format!("{}; by itself, {}.", self.capital(&spoken.words(number)), spoken.names.cardinal(100, false))
            }
            Slip::TeenReversed => {
                let digit = number.digit(misheard(slip, number, task, style));
                format!("The {digit}. It stands before the ones: {numeral}.")
            }
            Slip::SideBySide | Slip::BigPartThenRest | Slip::HalfOverwritten => {
                let columns = self.small(number.len());
                format!("{} columns, so {columns} digits: {numeral}.", self.capital(&columns))
            }
            Slip::PlaceWordWritten => {
                let words: Vec<&str> =
                    if number.value() < 1_000 { vec!["hundred"] } else { vec!["hundred", "thousand"] };
                format!("{}. No: only the count in a column is written: {numeral}.", self.capital(&self.list(&words)))
            }
            Slip::ReadInPieces => {
                format!("The {first}: {}. All of it: {}.", self.units(first.into(), top), style.words(number))
            }
            Slip::FaceValue => match task {
                Task::Greater(other) => format!(
                    "No. {} is greater than {}: the digits stand in other places.",
                    style.numeral(number.max(other)),
                    style.numeral(number.min(other))
                ),
                Task::Forms { .. } | Task::Worth(_) => {
                    let place = asked(number, task);
                    let pieces = self.pieces(digit_at(place), place).filter(|_| tools.blocks);
                    let pieces = pieces.unwrap_or_else(|| self.units(digit_at(place), place));
                    format!("{}, worth {}.", self.capital(&pieces), worth(number, place, style))
                }
            },
            Slip::CountedAlike => {
                let places = number.digits().filter(|(_, digit)| *digit > 0);
                let places: Vec<&str> = places.map(|(place, _)| self.place(place)).collect();
                format!("Ten. By {}, largest blocks first: {numeral}.", self.list(&places))
            }
            Slip::PlaceOff => {
                let place = asked(number, task);
                let places: Vec<&str> =
                    Place::ALL.into_iter().take(place.index() + 1).map(|place| self.place(place)).collect();
                let places = self.capital(&places.join(", "));
                format!("{places}. It is worth {}.", worth(number, place, style))
            }
            Slip::FromTheOnes => {
                let Task::Greater(other) = task else { return String::new() };
                let differs = number.digits().map(|(place, _)| place);
                let place = differs.into_iter().find(|place| number.digit(*place) != other.digit(*place));
                let place = place.unwrap_or(Place::Ones);
                let more = number.max(other);
                format!(
                    "The largest place in which they differ, the {}. {} has more, so it is greater.",
                    self.place(place),
                    style.numeral(more)
                )
            }
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew | Slip::CountsSideBySide | Slip::TenLeftOut => {
                self.trade_answer(slip, number, task, style)
            }
            Slip::TensOnesSwapped => told(self, number, Place::Tens, tools),
            Slip::HundredsTensSwapped => told(self, number, Place::Hundreds, tools),
            Slip::Reversed => format!("The {first}. It counts the {}, the largest place.", self.place(top)),
        }
    }

    fn group_try(&self, task: Task, tools: Tools) -> String {
        let what = match task {
            Task::Forms { asked: Form::Numeral, shown: Form::Words | Form::SecondWords } => {
                "Say each. Learners write the number."
            }
            Task::Forms { asked: Form::Numeral, shown: Form::Blocks | Form::Untraded } if tools.blocks => {
                "Lay each out in blocks. Learners write the number."
            }
            Task::Forms { asked: Form::Numeral, shown: Form::Blocks | Form::Untraded } => {
                "Draw each. Learners write the number."
            }
            Task::Forms { asked: Form::Numeral, .. } => "Show each. Learners write the number.",
            Task::Forms { asked: Form::Words | Form::SecondWords, .. } => "Show each. Learners read it aloud.",
            Task::Forms { asked: Form::Expanded, .. } => "Show each. Learners write it in expanded form.",
            Task::Forms { asked: Form::Units, .. } => "Show each. Learners say how many of each place it has.",
            Task::Forms { asked: Form::Regrouped, .. } => "Show each. Learners trade, and say what they have then.",
            Task::Forms { asked: Form::Blocks, .. } if tools.blocks => "Show each. Learners build it.",
            Task::Forms { asked: Form::Blocks, .. } => "Show each. Learners draw it.",
            Task::Forms { asked: Form::Untraded, .. } if tools.blocks => "Show each. Learners build it, and trade.",
            Task::Forms { asked: Form::Untraded, .. } => "Show each. Learners draw it, and trade.",
            Task::Worth(_) => "Show each. Learners say what the digit is worth.",
            Task::Greater(_) => "Show both. Learners say which is greater, and why.",
        };
        what.to_owned()
    }

    fn group_gone(&self, slip: Slip, tools: Tools) -> String {
        let sign = match slip {
            Slip::ZeroDropped => "names the empty column before writing",
            Slip::ZeroMoved => "points to the empty column and puts the 0 there",
            Slip::TeenTy => "hears the end of the word and takes one ten for teen",
            Slip::SoundAlike => "says how many tens before writing",
            Slip::HundredWord => "chooses the word by what follows it",
            Slip::TeenReversed => "writes the ten first, though the ones are said first",
            Slip::SideBySide | Slip::BigPartThenRest | Slip::HalfOverwritten => {
                "counts the columns before writing as many digits"
            }
            Slip::PlaceWordWritten => "writes a count for each column and nothing for its name",
            Slip::ReadInPieces => "says the place with the first digit and reads on without a break",
            Slip::FaceValue => "tells how many of what each digit stands for",
            Slip::CountedAlike => "counts every kind of block by its worth",
            Slip::PlaceOff => "names the places from the ones up before answering",
            Slip::FromTheOnes => "begins at the left and stops at the first place that differs",
            Slip::NotTakenAway if tools.blocks => "puts the traded piece back before the ten come",
            Slip::NotTakenAway => "crosses the traded piece out before drawing ten",
            Slip::OneForOne | Slip::OneTooFew => "counts ten pieces out for each one that is traded",
            Slip::CountsSideBySide | Slip::TenLeftOut => "trades every ten up before writing",
            Slip::TensOnesSwapped if !tools.blocks => "says which digit counts the tens without being told",
            Slip::HundredsTensSwapped if !tools.blocks => "says which digit counts the hundreds without being told",
            Slip::TensOnesSwapped => "lays rods for the tens digit without being told",
            Slip::HundredsTensSwapped => "lays flats for the hundreds digit without being told",
            Slip::Reversed => "begins with the largest place each time",
        };
        format!("Gone when all three are right and the learner {sign}.")
    }

    fn numbers_heads(&self) -> [&'static str; 3] {
        ["Show", "Right", "With the slip"]
    }

    fn shown_in(&self, number: Number, task: Task, style: &Style) -> String {
        match task {
            Task::Forms { shown, .. } => match shown.content(number, style) {
                Some(content @ (Content::Text(_) | Content::Both(_))) => content.text(style.names),
                Some(Content::Blocks(_)) => self.pieces_of(number),
                None => style.numeral(number),
            },
            Task::Worth(place) => self.digit_of(number.digit(place), &style.numeral(number)),
            Task::Greater(other) => {
                // The lesser first: whoever picks the first is not right by chance.
                format!("{} and {}", style.numeral(number.min(other)), style.numeral(number.max(other)))
            }
        }
    }
}

/// "The 6: 6 rods."
fn told(english: &English, number: Number, place: Place, tools: Tools) -> String {
    let digit = u32::from(number.digit(place));
    let pieces = english.pieces(digit, place).filter(|_| tools.blocks);
    let pieces = pieces.unwrap_or_else(|| english.units(digit, place));
    format!("The {digit}: {pieces}.")
}

/// How many blocks of each kind: "4 flats, 16 rods, 2 cubes".
fn held(counted: &Counted) -> String {
    let held = Place::ALL.into_iter().zip(counted).rev().filter(|(_, count)| **count > 0);
    held.filter_map(|(place, count)| English.pieces(*count, place)).collect::<Vec<_>>().join(", ")
}

/// A question for the digit that sounds decide.
fn heard(words: &str, place: Place) -> String {
    format!("Which digit stands for the {} in {words}? Say the words slowly.", English.place(place))
}
