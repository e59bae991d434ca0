//! The frame of a plan: its phases, aims, what lies on the tables, and its labels.

use std::collections::BTreeMap;

use crate::number::{Form, Number, Slip};
use crate::spec::{Language, SheetKind, Version};
use crate::wording::area::area;
use crate::wording::{Tools, Usage};

/// A part of the lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Phase {
    /// Everybody arrives at the idea of the day.
    Opening,
    /// The model numbers are built with the class.
    Building,
    /// The same where they are drawn.
    Drawing,
    /// The same where their digits are written in columns.
    Columns,
    /// One example is worked together, step by step.
    Guided,
    /// Each learner sorts and matches.
    Sorting,
    /// The same where nothing is matched, only written.
    Writing,
    /// In a long lesson, everyone leaves the tables.
    Break,
    /// Learners compare what they did and why.
    Sharing,
    /// More to do with the same numbers, in a long lesson.
    Further,
    /// The quick check.
    Exit,
    /// The same where its questions are asked aloud.
    Aloud,
    /// Everything goes back where it belongs.
    Clearing,
    /// Time for which the lesson's papers have nothing more.
    Spare,
}

/// What a published standard asks for in the lesson's range.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Standard {
    /// Up to 10: numbers counted, said and written (CCSSM K.CC.A.3 and K.CC.B.5).
    Counting,
    /// Up to 120: tens and ones (CCSSM 1.NBT.B.2).
    TensAndOnes,
    /// Up to 1,000: hundreds, tens and ones, in several forms (CCSSM 2.NBT.A.1 and A.3).
    Hundreds,
    /// Up to 9,999: four digits (England, national curriculum, year 4).
    Thousands,
    /// From 10,000: places in periods (CCSSM 4.NBT.A.1 and A.2).
    Periods,
}

/// What learners will be able to do.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Aim {
    /// The standard's own skill, in a child's words: "I can ...".
    Can(Standard),
    /// The same where learners have numbers of different sizes.
    CanOwn,
    /// To trade pieces without changing the number.
    Trade,
    /// To match these forms of one number.
    Match(Vec<Form>),
    /// To build a number and write it in more than one way.
    Build,
    /// To write a number in more than one way.
    Write,
    /// What somebody should know who speaks only the lesson's language: number words are in this one too, on strips of their
    /// own or not.
    TwoLanguages(Language, bool),
}

/// Something that lies on the tables while a phase lasts.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Laid {
    /// Nothing yet; something to write on for all to see.
    Nothing,
    /// Nothing yet; the display pages at hand.
    Display,
    /// One of a sheet for so many learners together, with how many pages it has.
    Sheet {
        /// Which.
        sheet: SheetKind,
        /// How many pages one copy has.
        pages: u32,
        /// How many learners use it together.
        share: u32,
    },
    /// A learner's packet, with everything in it that is taken out now or later.
    Packet,
    /// Scissors, where what is cut lies in the packet.
    Scissors,
    /// Strips that are cut already, a pile for each learner.
    CutStrips,
    /// A page or more of strips for each learner to cut, and scissors.
    UncutStrips(Option<u32>),
    /// Strips that stay whole.
    WholeStrips(Option<u32>),
    /// A set of blocks from the class's tub for so many learners together.
    TubBlocks(u32),
    /// Paper folded into columns, one for each place.
    FoldedPaper,
    /// Paper and a pencil for each learner.
    Paper,
    /// A pencil for each learner.
    Pencils,
    /// An envelope for each learner's pieces.
    Envelopes,
    /// The tally, for the teacher.
    Tally,
    /// What lies there stays.
    AsTheyAre,
    /// Only a pencil; the teacher holds the quick checks.
    OnlyPencils,
}

/// What lies on the tables by how many learners share it, the fewest first: each with what it is.
pub fn by_share(laid: impl Iterator<Item = (u32, String)>, learners: u32) -> BTreeMap<u32, Vec<String>> {
    let mut groups: BTreeMap<u32, Vec<String>> = BTreeMap::new();
    for (share, what) in laid {
        groups.entry(share.min(learners)).or_default().push(what);
    }
    groups
}

/// The things of a list, sentence by sentence: three each, or four where one would be left. A longer list is lost on whoever
/// reads it while a class comes in.
pub fn in_sentences(things: &[String]) -> impl Iterator<Item = &[String]> {
    things.chunks(if things.len() == 4 { 4 } else { 3 })
}

area! {
    /// The frame of a plan.
    Frame;

    /// What the plan calls a phase; `one` where a single model number is shown in it.
    fn phase(phase: Phase, one: bool) -> &'static str;

    /// How long it takes, under its clock times.
    fn minutes(count: u32) -> String;

    /// The same where there is little room: "104 min".
    fn min(count: u32) -> String;

    /// The plan's title on its pages after the first.
    fn plan_again(title: &str) -> String;

    /// Under the plan's title: how long the lesson is, how the plan is read.
    fn plan_note(minutes: u32) -> String;

    /// An aim, in a sentence.
    fn aim(aim: &Aim, usage: &Usage<'_>) -> String;

    /// What lies on the tables, in a sentence or two; learners are so many.
    fn table(laid: &[Laid], learners: u32) -> String;

    /// Before what lies on the tables.
    fn label_table() -> &'static str;
    /// Before what the teacher does.
    fn label_do() -> &'static str;
    /// Before what the teacher says.
    fn label_say() -> &'static str;
    /// Before what the teacher asks.
    fn label_ask() -> &'static str;
    /// Before what the teacher looks out for.
    fn label_watch() -> &'static str;

    /// The answer to expect.
    fn expect(answer: &str) -> String;

    /// A slip by its letter in key and tally, where it has one, and its name: "a, zero dropped".
    fn slip_named(slip: Slip, letter: Option<char>) -> String;

    /// A wrong form in a learner's work that a slip, as [`Frame::slip_named`], explains.
    fn if_you_see(shown: &str, of: Number, slip: &str, usage: &Usage<'_>) -> String;

    /// A wrong strip in a row of a board; the set is named where there are several.
    fn if_you_see_strip(shown: &str, of: Number, slip: &str, set: Option<Version>, usage: &Usage<'_>) -> String;

    /// A wrong choice in a quick check: its number in the corner, the question, the choice's letter and what it shows.
    fn if_you_see_choice(check: u32, question: u32, letter: char, shown: &str, slip: &str) -> String;

    /// The thinking behind a slip, and what to do next with what there is.
    fn thinking_and_next(slip: Slip, tools: Tools) -> String;

    /// The same slip was explained before.
    fn as_above() -> &'static str;
}
