//! What is done, in English.

use super::{alone, build, early, first_ones, form_plural, in_form, inside, listed, numerals, rows, these};
use crate::number::{Form, Number, Place};
use crate::spec::{DisplayForm, SheetKind};
use crate::wording::class_groups::ClassGroups;
use crate::wording::cover::Papers;
use crate::wording::digits::{counts, parts};
use crate::wording::en::English;
use crate::wording::en::phrases::{counted, lettered, plural};
use crate::wording::plan::{Deed, Deeds, Right, Undone, Whose};
use crate::wording::{Phrases, Titles, Usage};

/// Those who sit beside each other.
fn neighbors(usage: &Usage<'_>) -> &'static str {
    usage.spelling.of("Neighbors", "Neighbours")
}

impl Deeds for English {
    #[allow(clippy::too_many_lines, reason = "one arm a text")]
    fn deed(&self, deed: &Deed, usage: &Usage<'_>) -> String {
        if let Some(alone) = usage.one_learner.then(|| alone::deed(deed, usage)).flatten() {
            return alone;
        }
        let numeral = |n: Number| usage.style.numeral(n);
        match deed {
            Deed::WriteAndWait(n) => {
                format!("Write {} where everyone can see it. Wait a moment before you say it.", numeral(*n))
            }
            Deed::Write(n) => format!("Write {} on the board.", numeral(*n)),
            Deed::PointTo(n) => format!("Point to {} again.", numeral(*n)),
            Deed::ReadTogether => "Let the class read it together, then one learner alone.".to_owned(),
            Deed::SayJoined(n) => {
                let how = if usage.style.and { "with" } else { "without" };
                format!(
                    "Numbers are said {how} \u{201c}and\u{201d} in this lesson: {} is \u{201c}{}\u{201d}.",
                    numeral(*n),
                    usage.style.words(*n)
                )
            }
            Deed::Build { number, first } => {
                let lead = if *first {
                    "Have the class build it".to_owned()
                } else {
                    format!("Write {} and build it the same way", numeral(*number))
                };
                format!("{lead}: {}", build(*number))
            }
            Deed::WriteColumns { number, mat, first } => columns(*number, *mat, *first, usage),
            Deed::ShowDisplay(n) => {
                format!("Show the display page for {}. Learners compare it with their own work.", numeral(*n))
            }
            Deed::ShowNumeral { number, wait } => {
                let wait = if *wait { " Wait a moment before you say it." } else { "" };
                format!("Show step 1 of the display for {}: the numeral by itself.{wait}", numeral(*number))
            }
            Deed::TurnTo(steps) => turn_to(steps, usage),
            Deed::TurnThrough { number, steps: (from, to) } => format!(
                "Turn through the display for {}, steps {from} to {to}, as the class answers.",
                numeral(*number)
            ),
            Deed::LayCards(n) => {
                let parts = listed(&parts(*n, usage.style));
                format!("Lay the cards {parts} on top of each other, right edges together.")
            }
            Deed::FillRow(n) => {
                format!("Find the row for {} on the recording sheet. Fill it in together.", numeral(*n))
            }
            Deed::OtherRows => "The other rows of the recording sheet are for another day.".to_owned(),
            Deed::OwnFirstRow => {
                "Everyone fills in the first row of the recording sheet. Rows differ from learner to learner."
                    .to_owned()
            }
            Deed::TopOfPage(n) => {
                format!("Everyone writes {} at the top of the page. Work on it together.", numeral(*n))
            }
            Deed::OtherSide(n, forms) => {
                let forms: Vec<String> = forms.iter().map(|form| in_form(*form, usage)).collect();
                format!(
                    "Turn the paper over. Everyone writes {} at the top, and below it the same number {}.",
                    numeral(*n),
                    listed(&forms)
                )
            }
            Deed::SpellWords => "If anyone asks how to spell a word, write it on the board.".to_owned(),
            Deed::PointToWordBank => "Point to the word bank. Learners copy hard words from it.".to_owned(),
            Deed::Alone(numbers, later) => {
                let later = if later.is_empty() {
                    String::new()
                } else {
                    let is = if later.len() == 1 { "is" } else { "are" };
                    format!(" {} {is} for whoever has time.", numerals(later, usage))
                };
                format!(
                    "Learners do {} alone or in pairs.{later} Walk around and look at what they write.",
                    numerals(numbers, usage)
                )
            }
            Deed::PickOne { pairs: false } => {
                "Each learner thinks of one more number like it and does the same. Walk around the room and listen."
                    .to_owned()
            }
            Deed::PickOne { pairs: true } => {
                "Each pair thinks of one more number like it and does the same. Walk around the room and listen."
                    .to_owned()
            }
            Deed::OwnRows => {
                "Whoever has time fills in another row. Walk around and look at what they write.".to_owned()
            }
            Deed::OwnNumberLast => {
                "Whoever is done writes a number of their own in the last row, and fills in that row.".to_owned()
            }
            Deed::GivePackets { sheets, now, whose } => {
                let what = match sheets.as_slice() {
                    // One page of them or several.
                    [SheetKind::Strips] if matches!(whose, Whose::Names | Whose::Packet) => "strips",
                    [SheetKind::Strips] => "set of strips",
                    [one] => self.sheet_in_text(*one, 1),
                    _ => "packet",
                };
                let give = give(what, whose, usage);
                if now.len() == sheets.len() {
                    return give;
                }
                format!("{give} They take out {} and leave the rest for later.", these(now))
            }
            Deed::TakeOut(sheets) => format!("Learners take {} out of their packets.", these(sheets)),
            Deed::GivePiles { named: true } => {
                "Give each learner the pile of strips with their name on the band.".to_owned()
            }
            Deed::GivePiles { named: false } => {
                "Give each learner the pile of strips whose band has the number of their packet.".to_owned()
            }
            Deed::GiveSets { boards, whose } => give(if *boards { "sorting board" } else { "set" }, whose, usage),
            Deed::GroupsQuiet => self.groups_quiet().to_owned(),
            Deed::Dictate(n) => format!(
                "Say \u{201c}{}\u{201d}, and write nothing yet. Learners write it in figures.",
                usage.style.words(*n)
            ),
            Deed::CubesInFrame => "On the mat, cubes fill the ten-frame: the top row first.".to_owned(),
            Deed::FlatsOnEachOther => {
                "Flats lie on each other in their column, each a little lower, so that all can be counted.".to_owned()
            }
            Deed::TradeBlocks(n, counted) => format!(
                "Trade with the blocks: {}. Count what is there now: {}. It is still {}.",
                self.trades(*n, counted),
                counts(self, counted),
                numeral(*n)
            ),
            Deed::TradeDrawn(n, counted) => format!(
                "Trade in the drawing: {}. Count what is there now: {}. It is still {}.",
                English::drawn_trades(*n, counted),
                counts(self, counted),
                numeral(*n)
            ),
            Deed::TradeSeveral(n, counted) => self.several_trades(*n, counted, &numeral(*n)),
            Deed::AnyTrade(n, counted) => self.any_trade(&numeral(*n), counted, false),
            Deed::MarkBuilding => "Walk around. Mark in the class tally who can do it.".to_owned(),
            Deed::MarkSorting { slips } => {
                let slips = if *slips { ", and the letter of each slip you see" } else { "" };
                format!("Walk around with the class tally. Mark who can do what{slips}.")
            }
            Deed::GroupSorts(share) => self.group_sorts(share, usage.style),
            Deed::GiveGroupChecks(shares) => self.give_checks(shares),
            Deed::CutStrips(pieces) => {
                format!(
                    "Learners cut along the lines: {} each. Keep each learner's pieces together.",
                    counted(*pieces, "piece")
                )
            }
            Deed::CutOwnStrips => "Learners cut along the lines. Keep each learner's pieces together.".to_owned(),
            Deed::LeaveStrips => "There is no time to cut today. The strips stay whole, for another day.".to_owned(),
            Deed::TurnOver => {
                "A row that is done is turned over. Its strips have the same mark on their backs when they belong \
                               together; the mark of a strip that belongs to no row is on no other."
                    .to_owned()
            }
            Deed::RowsToday { count, uneven: true } => format!(
                "There is time for up to {}. Whoever is done early goes on with the next row.",
                counted(*count, "row")
            ),
            Deed::RowsToday { count, uneven: false } => {
                format!("There is time for {}. Whoever is done early goes on with the next row.", rows(*count))
            }
            Deed::NumbersToday { count, more } => {
                format!("There is time for {}.{}", first_ones(*count), early(*more, "whoever is done early"))
            }
            Deed::WriteSet(set, numbers) => {
                format!("Write on the board, for set {set}: {}.", numerals(numbers, usage))
            }
            Deed::OneKindFirst(form) => {
                format!("Let them place one kind at a time. Begin with the {}.", form_plural(*form, usage))
            }
            Deed::WriteAll(one) if one.len() == 1 => format!("Write {} on the board.", numerals(one, usage)),
            Deed::WriteAll(numbers) => format!("Write these numbers on the board: {}.", numerals(numbers, usage)),
            Deed::DoneEarly { record: true, .. } => {
                "Whoever is done early checks with a partner, then fills in more rows of the recording sheet."
                    .to_owned()
            }
            Deed::DoneEarly { letters: true, .. } => {
                "Whoever is done early checks with a partner, then checks a board with another letter.".to_owned()
            }
            Deed::DoneEarly { letters: false, .. } => "Whoever is done early checks with a partner, then puts all the \
                                                   numbers in order from least to greatest."
                .to_owned(),
            Deed::Stretch => {
                "Halfway through, stop everyone. Let them stand, stretch and look at another table.".to_owned()
            }
            Deed::StopStrips => "Stop the work. Everyone looks at you, hands off the strips.".to_owned(),
            Deed::StopPencils => "Stop the work. Pencils down, and everyone looks at you.".to_owned(),
            Deed::ShowRows { rows: true } => {
                "Let two or three learners show one row and say why it is right.".to_owned()
            }
            Deed::ShowRows { rows: false } => {
                "Let two or three learners show how they wrote one number and say why it is right.".to_owned()
            }
            Deed::DoPractice(minutes) => format!(
                "{}: each learner works on the practice page. The key has the answers.",
                self.capital(&counted(*minutes, "minute"))
            ),
            Deed::SwapBoards(minutes) => format!(
                "{}: partners swap places and check each other's work. They say why each row is right.",
                self.capital(&counted(*minutes, "minute"))
            ),
            Deed::TakeBreak => {
                "Pencils and pieces stay where they lie. Everyone stands up, moves and has a drink, as the \
                                school's rules allow."
                    .to_owned()
            }
            Deed::SpareTime => {
                "The work of this lesson is done. Go on with what else the teacher planned. With nothing \
                                planned, read aloud to the class, or let learners finish what they began."
                    .to_owned()
            }
            Deed::PutInOrder { minutes, board } => {
                let which = if *board { "the numbers of the sorting board" } else { "the numbers on the board" };
                format!(
                    "{}: each learner writes {which} in order, from least to greatest.",
                    counted(*minutes, "minute")
                )
            }
            Deed::MakeWrong(minutes) => format!(
                "{}: each learner writes one number in a wrong way. A partner finds out what went wrong.",
                counted(*minutes, "minute")
            ),
            Deed::GuessMine(minutes) => format!(
                "{}: one learner thinks of a number and gives clues about digits and places. The others find it.",
                counted(*minutes, "minute")
            ),
            Deed::OwnNumber(minutes) => format!(
                "{}: each learner picks a number and writes it in every way of this lesson. A partner checks.",
                counted(*minutes, "minute")
            ),
            Deed::GiveChecks { several: true } => {
                format!("Give each learner one quick check. {} get checks with different numbers.", neighbors(usage))
            }
            Deed::GiveChecks { several: false } => "Give each learner one quick check.".to_owned(),
            Deed::ReadAloud => "Read a question aloud to anyone who asks. Do not help with the answer.".to_owned(),
            Deed::CheckAnswers(check, answers) => {
                let right = |(k, right): (u32, &Right)| format!("{k} {}", right.said(self));
                let answers: Vec<String> = (1..).zip(answers).map(right).collect();
                format!("Right answers of check {check}: {}.", answers.join(", "))
            }
            Deed::CountScissors(pairs) => {
                format!("Count the scissors back in: {}, closed.", counted(*pairs, "pair"))
            }
            Deed::BagStrips => "Strips go into the envelopes. Learners write their names on them. Collect the envelopes for the teacher.".to_owned(),
            Deed::CollectSheets(kinds) => {
                let names: Vec<String> =
                    kinds.iter().map(|kind| format!("the {}", self.sheet_in_text(*kind, 2))).collect();
                format!("Collect {}.", listed(&names))
            }
            Deed::PutAway(kinds) => {
                let names: Vec<&str> = kinds.iter().map(|kind| self.sheet_in_text(*kind, 2)).collect();
                let small =
                    if kinds.contains(&SheetKind::Blocks) { " Look under the tables for small pieces." } else { "" };
                format!("{} go back where they are kept.{small}", self.capital(&self.list(&names)))
            }
            Deed::BlocksToTub => "Blocks go back in the tub. Look under the tables for small pieces.".to_owned(),
            Deed::Collect { count, papers } => {
                let what = match papers {
                    Papers::Checks => "the quick checks",
                    Papers::Answers => "the answers",
                };
                format!("Collect {what} and count them: {}.", counted(*count, "paper"))
            }
            Deed::TakeHome(kinds) => {
                let names: Vec<String> =
                    kinds.iter().map(|kind| format!("the {}", self.sheet_in_text(*kind, 1))).collect();
                let names: Vec<&str> = names.iter().map(String::as_str).collect();
                format!("Each learner takes home {}.", self.list(&names))
            }
            Deed::NoteUndone(what) => {
                let name = |what: &Undone| match what {
                    Undone::Rows => "rows",
                    Undone::Numbers => "numbers",
                    Undone::Questions => "questions",
                };
                let names: Vec<&str> = what.iter().map(name).collect();
                format!("Note for the teacher which {} were left undone.", self.list(&names))
            }
        }
    }
}

/// How something is given out, one a learner.
fn give(what: &str, whose: &Whose, usage: &Usage<'_>) -> String {
    match whose {
        Whose::Anyone => format!("Give each learner one {what}."),
        Whose::Letters(letters) if letters.len() < 2 => format!("Give each learner one {what}."),
        Whose::Letters(letters) => {
            format!("Give each learner one {what}. {} get different letters: {}.", neighbors(usage), lettered(letters))
        }
        Whose::Names => format!("Give each learner the {what} with their name."),
        Whose::Packet => format!("Give each learner the {what} with the letter and the number of their packet."),
        Whose::Groups(shares) => English.give_sets(what, shares),
    }
}

fn columns(number: Number, mat: bool, first: bool, usage: &Usage<'_>) -> String {
    let numeral = usage.style.numeral(number);
    if !first {
        return format!("Learners write {numeral} the same way.");
    }
    match (mat, number.shows(Place::TenThousands)) {
        (true, _) => format!(
            "Learners write the digits of {numeral} on scraps of paper and lay them on the mat, one digit in each column."
        ),
        (false, true) => format!(
            "Draw two boxes, thousands and ones, with three columns each. Learners write {numeral}, one digit in each."
        ),
        (false, false) => format!(
            "Draw {} {}, one for each place. Learners write {numeral}, one digit in each.",
            English.small(number.len()),
            plural(number.len() as u32, "column")
        ),
    }
}

/// The pages of the display that come next, each with what is new on it.
fn turn_to(steps: &[(u32, DisplayForm)], usage: &Usage<'_>) -> String {
    let name = |form: &DisplayForm| {
        let own = |form: Form, usual: &str| usage.names.get(form).map_or_else(|| usual.to_owned(), inside);
        match form {
            DisplayForm::Numeral => own(Form::Numeral, "numeral"),
            DisplayForm::Blocks => own(Form::Blocks, "blocks"),
            DisplayForm::Chart => "chart with its columns".to_owned(),
            DisplayForm::Expanded => own(Form::Expanded, "expanded form"),
            DisplayForm::Words => own(Form::Words, "words"),
        }
    };
    let each: Vec<String> = steps.iter().map(|(step, form)| format!("step {step}, the {}", name(form))).collect();
    let then = match steps {
        // What comes second is what learners have built.
        [(2, DisplayForm::Blocks)] => " Learners compare them with their own work.",
        [(2, _)] => " Learners compare it with their own work.",
        [_] => "",
        _ => " Learners read each aloud before you turn on.",
    };
    format!("Turn to {}.{then}", each.join(", then to "))
}
