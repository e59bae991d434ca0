//! What is done, asked and expected in the ten minutes of a slip's group, in English.

use super::English;
use super::phrases::{a_digit, listed, plural};
use crate::number::{Content, Form, Names, Number, Place, Slip, Style, Task, fewest_blocks};
use crate::wording::digits::{asked, column_words, empty, first_difference, parts, pictured, worth};
use crate::wording::groups::GroupStep;
use crate::wording::{Checks, GroupSteps, Groups, Phrases, ReadIn, Slips, Tools};

impl GroupSteps for English {
    fn lesson_title(&self, letter: char, slip: Slip, one_learner: bool) -> String {
        let (name, family) = (self.slip_name(slip), self.family(slip.family()));
        if one_learner { format!("{letter}, {name}") } else { format!("{letter}, {name} (group: {family})") }
    }

    fn group_build(&self, step: &GroupStep<'_>) -> String {
        let GroupStep { slip, of, task, tools, style, .. } = *step;
        let numeral = style.numeral(of);
        let taken = step.taken.map(|taken| style.numeral(taken)).unwrap_or_default();
        let made = || made(of, tools, style);
        match slip {
            Slip::ZeroDropped => {
                let which = if empty(of).len() > 1 { "each empty column" } else { "the empty column" };
                format!("{} Point to {which}, and write 0 for it.", in_columns(of, tools, style))
            }
            Slip::ZeroMoved => format!("{} Then change it to {taken}.", in_columns(of, tools, style)),
            Slip::TeenTy | Slip::SoundAlike => confused(step),
            Slip::HundredWord => {
                format!("Read {numeral} aloud and 100 by itself, and compare the words for a hundred.")
            }
            Slip::TeenReversed => {
                let Some(teen) = step.teen() else {
                    return String::new();
                };
                let rod = if tools.blocks { "rod" } else { "line" };
                format!("{} Write the digit of the {rod} first.", made_of(teen, tools, style))
            }
            Slip::SideBySide | Slip::BigPartThenRest => {
                let parts = parts(of, style);
                let several = parts.len() > 2;
                let parts = listed(&parts);
                if tools.cards {
                    let which =
                        if several { "each smaller one on the larger ones" } else { "the smaller on the larger" };
                    format!("Take the layered cards {parts}. Lay {which}, right edges together.")
                } else {
                    format!("Write the parts of {numeral} below each other, ones under ones: {parts}. Add them up.")
                }
            }
            Slip::HalfOverwritten => {
                format!("{} Count the columns, and write one digit for each.", in_columns(of, tools, style))
            }
            Slip::PlaceWordWritten => {
                format!(
                    "{} Point to the names of the columns, and write only the counts.",
                    in_columns(of, tools, style)
                )
            }
            Slip::ReadInPieces if tools.read == ReadIn::Periods => format!(
                "Write {numeral}. Cover the last three digits, read what is left and say thousand. Then read the last three."
            ),
            Slip::ReadInPieces => format!(
                "Write {numeral}. Cover all but the first digit and say it with its place. Then read the rest as one number."
            ),
            Slip::FaceValue => match task {
                Task::Greater(other) => two(of, other, step),
                Task::Forms { .. } | Task::Worth(_) if tools.blocks => {
                    format!("{} Lay a rod beside a cube to compare them.", made())
                }
                Task::Forms { .. } | Task::Worth(_) => {
                    format!("Write {numeral}. Point to one digit after another, and say how many of what it tells.")
                }
            },
            Slip::CountedAlike if tools.blocks => {
                let pieces = task.shown().content(of, style).map(|content| self.content(&content)).unwrap_or_default();
                format!("Lay ten cubes along a rod. Then build {numeral} with {pieces}.")
            }
            Slip::CountedAlike => {
                let counts = pictured(of, task, style).unwrap_or_default();
                format!("Draw {numeral} with {}.", marks(counts))
            }
            Slip::PlaceOff => {
                let built =
                    if tools.blocks { format!(" and build it with {}", self.pieces_of(of)) } else { String::new() };
                format!("Write {numeral}{built}. Name the places aloud from the ones up, a finger on each digit.")
            }
            Slip::FromTheOnes => match task {
                Task::Greater(other) => two(of, other, step),
                Task::Forms { .. } | Task::Worth(_) => String::new(),
            },
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew => {
                format!("{} {}", made(), self.trade_step(slip, of, task, tools, style))
            }
            Slip::CountsSideBySide | Slip::TenLeftOut => self.trade_up(of, task, tools, style),
            Slip::TensOnesSwapped | Slip::HundredsTensSwapped if tools.blocks => {
                format!("{} Then change it to {taken}.", made())
            }
            Slip::TensOnesSwapped => format!("Write {taken} below {numeral}. Which has more tens?"),
            Slip::HundredsTensSwapped => format!("Write {taken} below {numeral}. Which has more hundreds?"),
            Slip::Reversed => {
                format!("{} Begin at the left end, and write the largest place first.", in_columns(of, tools, style))
            }
        }
    }

    fn group_question(&self, step: &GroupStep<'_>) -> String {
        let GroupStep { slip, of, task, tools, style, .. } = *step;
        let numeral = style.numeral(of);
        let other = || if let Task::Greater(other) = task { style.numeral(other) } else { String::new() };
        match slip {
            Slip::ZeroDropped => match empty(of).len() {
                1 => "Which column is empty? What do we write for it?".to_owned(),
                _ => "Which columns are empty? What do we write for them?".to_owned(),
            },
            Slip::ZeroMoved => {
                let taken = step.taken.unwrap_or(of);
                let which = if empty(of).len() > 1 { "Which columns are" } else { "Which column is" };
                format!("{which} empty in {numeral}? And in {}?", style.numeral(taken))
            }
            Slip::TeenTy | Slip::SoundAlike => {
                let spoken = slip.spoken(task, style);
                let Some(heard) = step.heard() else { return String::new() };
                let [one, two] = heard.words(&spoken);
                format!("Listen: {one}, {two}. Which digit stands in the {} place of each?", self.place(heard.place))
            }
            // Only Spanish words provoke it.
            Slip::HundredWord => format!("How do we say 100 in Spanish: in {numeral}, and by itself?"),
            Slip::TeenReversed => {
                let teen = step.teen().unwrap_or(of);
                format!("Which digit of {} stands for the ten? Where do we write it?", style.words(teen))
            }
            Slip::SideBySide | Slip::BigPartThenRest => {
                "How many digits has the whole number? What became of the zeros?".to_owned()
            }
            Slip::HalfOverwritten => {
                "How many columns are there, up to the largest? So how many digits do we write?".to_owned()
            }
            Slip::PlaceWordWritten => {
                let spoken = slip.spoken(task, style);
                let (which, them) = match column_words(of, &spoken).len() {
                    1 => ("word names", "it"),
                    _ => ("words name", "them"),
                };
                format!("Listen: {}. Which {which} a column? Do we write {them} in digits?", spoken.words(of))
            }
            Slip::ReadInPieces if tools.read == ReadIn::Periods => {
                format!("What do we read first in {numeral}, and which word comes then?")
            }
            Slip::ReadInPieces => format!("Which digit of {numeral} do we read first, and what is its place?"),
            Slip::FaceValue => match task {
                Task::Greater(_) => format!("Are {numeral} and {} equal, since they have the same digits?", other()),
                Task::Forms { .. } | Task::Worth(_) => {
                    let what = if tools.blocks { "Which blocks" } else { "How many of what" };
                    format!("{what} does the {} in {numeral} stand for?", of.digit(asked(of, task)))
                }
            },
            Slip::CountedAlike if tools.blocks => {
                "How many cubes make one rod? How do we count these blocks?".to_owned()
            }
            Slip::CountedAlike => {
                let (larger, smaller) = if of.value() >= 100 { ("square", "lines") } else { ("line", "dots") };
                format!("How many {smaller} is one {larger} worth? How do we count this drawing?")
            }
            Slip::PlaceOff => {
                format!("In which place does the {} stand? What is it worth?", of.digit(asked(of, task)))
            }
            Slip::FromTheOnes => format!("Which place decides between {numeral} and {}?", other()),
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew => self.trade_question(slip, of, task, style),
            Slip::CountsSideBySide | Slip::TenLeftOut => {
                "Of which kind are there ten or more? What can we trade ten of them for?".to_owned()
            }
            Slip::TensOnesSwapped => format!("Which digit of {numeral} tells how many tens?"),
            Slip::HundredsTensSwapped => format!("Which digit of {numeral} tells how many hundreds?"),
            Slip::Reversed => format!("Which digit of {numeral} do we write first, and why?"),
        }
    }

    fn group_answer(&self, step: &GroupStep<'_>) -> String {
        let GroupStep { slip, of, task, tools, style, .. } = *step;
        let numeral = style.numeral(of);
        let digit_at = |place: Place| u32::from(of.digit(place));
        let (top, first) = of.digits().next().unwrap_or((Place::Ones, 0));
        match slip {
            Slip::ZeroDropped => {
                let there = if empty(of).len() > 1 { "in each" } else { "there" };
                format!("{}. We write 0 {there}: {numeral}.", self.capital(&self.columns(&empty(of))))
            }
            Slip::ZeroMoved => {
                let taken = step.taken.unwrap_or(of);
                let (here, there) = (self.columns(&empty(of)), self.columns(&empty(taken)));
                format!("{} in {numeral}, {there} in {}.", self.capital(&here), style.numeral(taken))
            }
            Slip::TeenTy | Slip::SoundAlike => {
                let Some(heard) = step.heard() else { return String::new() };
                let spoken = slip.spoken(task, style);
                let [one, two] = heard.words(&spoken);
                let digit = |number: Number| a_digit(number.digit(heard.place));
                let taken = step.taken.unwrap_or(of);
                let whole = if spoken.words(of) == one {
                    String::new()
                } else {
                    format!(" {} is {numeral}.", self.capital(&spoken.words(of)))
                };
                format!("{} has {}, and {two} {}.{whole}", self.capital(&one), digit(of), digit(taken))
            }
            Slip::HundredWord => {
                let spoken = slip.spoken(task, style);
                format!("{}; by itself, {}.", self.capital(&spoken.words(of)), spoken.names.cardinal(100, false))
            }
            Slip::TeenReversed => {
                let Some(heard) = step.heard() else { return String::new() };
                let ones = heard.teen().map_or(0, |teen| teen.digit(Place::Ones));
                format!("The 1. It stands before the {ones}: {} is {numeral}.", style.words(of))
            }
            Slip::SideBySide | Slip::BigPartThenRest => {
                let count = self.capital(&self.small(of.len()));
                let part = if of.parts().count() > 2 { "Each smaller part" } else { "The smaller part" };
                format!("{count}: {numeral}. {part} takes the place of zeros.")
            }
            Slip::HalfOverwritten => {
                let columns = self.small(of.len());
                format!("{} columns, so {columns} digits: {numeral}.", self.capital(&columns))
            }
            Slip::PlaceWordWritten => {
                let named = column_words(of, &slip.spoken(task, style));
                let named = self.capital(&listed(&named));
                format!("{named}. No: only the count in a column is written: {numeral}.")
            }
            Slip::ReadInPieces if tools.read == ReadIn::Periods => {
                format!("{}, then thousand. All of it: {}.", of.value() / 1_000, style.words(of))
            }
            Slip::ReadInPieces => {
                format!("The {first}: {}. All of it: {}.", self.units(first.into(), top), style.words(of))
            }
            Slip::FaceValue => match task {
                Task::Greater(other) => format!(
                    "No. {} is greater than {}: the digits stand in other places.",
                    style.numeral(of.max(other)),
                    style.numeral(of.min(other))
                ),
                Task::Forms { .. } | Task::Worth(_) => {
                    let place = asked(of, task);
                    let pieces = self.pieces(digit_at(place), place).filter(|_| tools.blocks);
                    let pieces = pieces.unwrap_or_else(|| self.units(digit_at(place), place));
                    format!("{}, worth {}.", self.capital(&pieces), worth(of, place, style))
                }
            },
            Slip::CountedAlike => {
                let counts = pictured(of, task, style).or(fewest_blocks(of)).unwrap_or_default();
                let places = [Place::Thousands, Place::Hundreds, Place::Tens, Place::Ones];
                let shown = places.into_iter().zip(counts).filter(|(_, count)| *count > 0);
                let shown: Vec<&str> = shown.map(|(place, _)| self.place(place)).collect();
                format!("Ten. By {}, the largest first: {numeral}.", self.list(&shown))
            }
            Slip::PlaceOff => {
                let place = asked(of, task);
                format!("In the {} place. It is worth {}.", self.place(place), worth(of, place, style))
            }
            Slip::FromTheOnes => {
                let Task::Greater(other) = task else { return String::new() };
                let place = first_difference(of, other).unwrap_or(Place::Ones);
                let (more, less) = (of.max(other), of.min(other));
                let (greater, lesser) = (style.numeral(more), style.numeral(less));
                format!(
                    "The {}, the largest place in which they differ. {greater} has {} there and {lesser} has {}, so \
                     {greater} is greater.",
                    self.place(place),
                    more.digit(place),
                    less.digit(place),
                )
            }
            Slip::NotTakenAway | Slip::OneForOne | Slip::OneTooFew | Slip::CountsSideBySide | Slip::TenLeftOut => {
                self.trade_answer(slip, of, task, style)
            }
            Slip::TensOnesSwapped => told(self, of, Place::Tens, tools),
            Slip::HundredsTensSwapped => told(self, of, Place::Hundreds, tools),
            Slip::Reversed => format!("The {first}. It counts the {}, the largest place.", self.place(top)),
        }
    }

    fn group_try(&self, task: Task, tools: Tools, one_learner: bool) -> String {
        let (who, s, what) = if one_learner { ("The learner", "s", "there is") } else { ("Learners", "", "they have") };
        let (show, does) = match task {
            Task::Forms { asked: Form::Numeral, shown } => {
                let show = match shown {
                    Form::Words | Form::SecondWords => "Say each",
                    Form::Blocks | Form::Untraded if tools.blocks => "Lay each out in blocks",
                    Form::Blocks | Form::Untraded => "Draw each",
                    Form::Numeral | Form::Expanded | Form::Units | Form::Regrouped => "Show each",
                };
                (show, format!("write{s} the number"))
            }
            Task::Forms { asked, .. } => {
                let build = if tools.blocks { "build" } else { "draw" };
                let does = match asked {
                    Form::Words | Form::SecondWords => format!("read{s} it aloud"),
                    Form::Expanded => format!("write{s} it in expanded form"),
                    Form::Units => format!("say{s} how many of each place it has"),
                    Form::Regrouped => format!("trade{s}, and say{s} what {what} then"),
                    Form::Untraded => format!("{build}{s} it, and trade{s}"),
                    Form::Blocks | Form::Numeral => format!("{build}{s} it"),
                };
                ("Show each", does)
            }
            Task::Worth(_) => ("Show each", format!("say{s} what the digit is worth")),
            Task::Greater(_) => ("Show both", format!("say{s} which is greater, and why")),
        };
        format!("{show}. {who} {does}.")
    }

    fn group_gone(&self, slip: Slip, tools: Tools) -> String {
        let sign = match slip {
            Slip::ZeroDropped => "names the empty column before writing",
            Slip::ZeroMoved => "points to the empty column and puts the 0 there",
            Slip::TeenTy => "hears the end of the word and takes one ten for teen",
            Slip::SoundAlike => "says how many tens before writing",
            Slip::HundredWord => "chooses the word by what follows it",
            Slip::TeenReversed => "writes the ten first, though the ones are said first",
            Slip::SideBySide | Slip::BigPartThenRest => "lets each smaller part take the place of zeros",
            Slip::HalfOverwritten => "counts the columns before writing as many digits",
            Slip::PlaceWordWritten => "writes a count for each column and nothing for its name",
            Slip::ReadInPieces if tools.read == ReadIn::Periods => {
                "reads up to the thousands as one number and the rest as another"
            }
            Slip::ReadInPieces => "says the place with the first digit and reads on without a break",
            Slip::FaceValue => "tells how many of what each digit stands for",
            Slip::CountedAlike => "counts every kind of block by its worth",
            Slip::PlaceOff => "names the place of the digit before its worth",
            Slip::FromTheOnes => "begins at the left and stops at the first place that differs",
            Slip::NotTakenAway if tools.blocks => "puts the traded piece back before the ten come",
            Slip::NotTakenAway => "takes the traded piece away before the ten come",
            Slip::OneForOne | Slip::OneTooFew => "counts ten pieces out for each one that is traded",
            Slip::CountsSideBySide | Slip::TenLeftOut => "trades every ten up before writing",
            Slip::TensOnesSwapped if !tools.blocks => "says which digit counts the tens without being told",
            Slip::HundredsTensSwapped if !tools.blocks => "says which digit counts the hundreds without being told",
            Slip::TensOnesSwapped => "lays rods for the tens digit without being told",
            Slip::HundredsTensSwapped => "lays flats for the hundreds digit without being told",
            Slip::Reversed => "begins with the largest place each time",
        };
        format!("The slip is gone when all are right and the learner {sign}.")
    }

    fn numbers_heads(&self, task: Task, tools: Tools) -> [&'static str; 3] {
        let lead = match task {
            Task::Forms { shown: Form::Words | Form::SecondWords, asked: Form::Numeral } => "Say",
            Task::Forms { shown: Form::Blocks | Form::Untraded, .. } if tools.blocks => "Lay out",
            Task::Forms { shown: Form::Blocks | Form::Untraded, .. } => "Draw",
            Task::Forms { .. } | Task::Worth(_) | Task::Greater(_) => "Show",
        };
        [lead, "Right", "With the slip"]
    }

    fn shown_in(&self, number: Number, task: Task, tools: Tools, style: &Style) -> String {
        match task {
            Task::Forms { shown, asked } => {
                let text = match shown.content(number, style) {
                    Some(content @ (Content::Text(_) | Content::Both(_))) => content.text(style.names),
                    Some(content @ Content::Blocks(_)) if tools.blocks => self.content(&content),
                    Some(Content::Blocks(counts)) => marks(counts),
                    None => style.numeral(number),
                };
                match asked {
                    Form::Regrouped | Form::Untraded => format!("{text}: {}", self.trade_asked(number, task, style)),
                    Form::Numeral | Form::Words | Form::SecondWords | Form::Expanded | Form::Units | Form::Blocks => {
                        text
                    }
                }
            }
            Task::Worth(place) => self.digit_of(number.digit(place), &style.numeral(number)),
            Task::Greater(other) => {
                // The lesser first: whoever picks the first is not right by chance.
                format!("{} and {}", style.numeral(number.min(other)), style.numeral(number.max(other)))
            }
        }
    }
}

/// "Build 604 with 6 flats and 4 cubes." or drawn, or digit by digit.
fn made(number: Number, tools: Tools, style: &Style) -> String {
    match fewest_blocks(number) {
        Some(_) => made_of(number, tools, style),
        None if tools.mat => format!(
            "Write the digits of {} on scraps of paper, and lay one in each column of the mat.",
            style.numeral(number)
        ),
        None => format!("Write {} in a chart on paper, one digit in each column.", style.numeral(number)),
    }
}

/// The same of a number up to 9,999.
fn made_of(number: Number, tools: Tools, style: &Style) -> String {
    let (verb, how) = making(number, tools);
    format!("{verb} {} with {how}.", style.numeral(number))
}

/// How a number is built, or drawn where there are no blocks.
fn making(number: Number, tools: Tools) -> (&'static str, String) {
    if tools.blocks {
        ("Build", English.pieces_of(number))
    } else {
        ("Draw", marks(fewest_blocks(number).unwrap_or_default()))
    }
}

/// What is drawn for so many thousands, flats, rods and cubes: "6 squares and 4 dots".
pub(super) fn marks(counts: [u32; 4]) -> String {
    let marks = counts.into_iter().zip(["box", "square", "line", "dot"]).filter(|(count, _)| *count > 0);
    let marks = marks.map(|(count, mark)| match (count, mark) {
        (1, _) => format!("1 {mark}"),
        (_, "box") => format!("{count} boxes"),
        _ => format!("{count} {}", plural(count, mark)),
    });
    let marks: Vec<String> = marks.collect();
    if marks.is_empty() { "nothing at all".to_owned() } else { listed(&marks) }
}

/// A number in the columns of the mat or of a chart, those of its zeros empty.
fn in_columns(number: Number, tools: Tools, style: &Style) -> String {
    let place = if tools.mat { "on the mat" } else { "in a chart on paper" };
    let counts = number.parts();
    let counts: Vec<String> = counts.map(|(place, digit)| English.units(digit.into(), place)).collect();
    let (numeral, several) = (style.numeral(number), counts.len() > 1);
    if tools.blocks {
        let column = if several { ", each kind in its own column" } else { "" };
        return format!("Build {numeral} {place} with {}{column}.", English.pieces_of(number));
    }
    let scraps = match (tools.mat, several) {
        (true, true) => " Write each count on a scrap of paper.",
        (true, false) => " Write the count on a scrap of paper.",
        (false, _) => "",
    };
    let column = if several { "each count in its own column" } else { "in its column" };
    format!("Show {numeral} {place}: {}, {column}.{scraps}", listed(&counts))
}

/// Two numbers side by side, and how they are compared.
fn two(of: Number, other: Number, step: &GroupStep<'_>) -> String {
    let (one, two) = (step.style.numeral(of), step.style.numeral(other));
    if !step.tools.blocks {
        return format!(
            "Write {one} and {two} below each other, ones under ones. Compare the largest place first, then the next."
        );
    }
    let from = if step.two_sets { "from a second set of blocks, " } else { "" };
    let (here, there) = (English.pieces_of(of), English.pieces_of(other));
    format!(
        "Build {one} with {here}, and beside it, {from}{two} with {there}. Compare the largest \
         blocks first, then the next."
    )
}

/// The two words that are taken for each other, said and built.
fn confused(step: &GroupStep<'_>) -> String {
    let GroupStep { tools, style, .. } = *step;
    let Some(heard) = step.heard() else { return String::new() };
    let [one, two] = heard.words(&step.slip.spoken(step.task, style));
    let [here, there] = heard.both.map(|number| (style.numeral(number), making(number, tools)));
    let from = if step.two_sets { ", from a second set," } else { "" };
    let ((first, (verb, how)), (second, (_, so))) = (here, there);
    format!("Say {one} and {two} slowly. {verb} {first} with {how}, and{from} {second} with {so}. Compare them.")
}

/// "The 6: 6 rods."
fn told(english: &English, number: Number, place: Place, tools: Tools) -> String {
    let digit = u32::from(number.digit(place));
    let pieces = english.pieces(digit, place).filter(|_| tools.blocks);
    let pieces = pieces.unwrap_or_else(|| english.units(digit, place));
    format!("The {digit}: {pieces}.")
}
