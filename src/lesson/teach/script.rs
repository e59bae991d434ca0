//! The plan while it is written: what was asked, said and explained already.

use std::collections::{BTreeSet, HashSet};

use super::means::{BuiltWith, Means};
use super::steps::{Seen, Step};
use crate::lesson::display;
use crate::lesson::groups;
use crate::lesson::timing::Load;
use crate::lesson::{Lesson, SortSet, Wrong};
use crate::number::{Counted, Number, Place, Slip, Style, Task, Trading, pieces_traded};
use crate::spec::{DisplayForm, SheetKind, Version};
use crate::wording::plan::{Asked, Deed, Laid, Said, Whose};

/// The plan while it is written.
pub(super) struct Script<'a> {
    pub(super) lesson: &'a Lesson,
    pub(super) means: &'a Means<'a>,
    /// What there is time for.
    pub(super) load: Load,
    /// Minutes of the phase that is being written.
    pub(super) minutes: u32,
    /// The model numbers that there is time for.
    models: &'a [Number],
    steps: Vec<Step>,
    asked: HashSet<Asked>,
    said: HashSet<Said>,
    /// Digits whose worth was asked for, however it was asked.
    worths: HashSet<(Number, Place)>,
    explained: HashSet<Slip>,
    /// Numbers that stand on the board.
    written: BTreeSet<Number>,
    /// Numbers that stand there for learners to work on.
    listed: BTreeSet<Number>,
    /// What is done once.
    done: HashSet<Deed>,
    /// Packets that learners have, by their first sheet.
    given: BTreeSet<SheetKind>,
    /// The sheets that learners have taken out of packets.
    out: BTreeSet<SheetKind>,
}

impl<'a> Script<'a> {
    pub(super) fn new(means: &'a Means<'a>, models: &'a [Number]) -> Self {
        let lesson = means.lesson;
        Self {
            lesson,
            means,
            load: lesson.load(),
            minutes: 0,
            models,
            steps: Vec::new(),
            asked: HashSet::new(),
            said: HashSet::new(),
            worths: HashSet::new(),
            explained: HashSet::new(),
            written: BTreeSet::new(),
            listed: BTreeSet::new(),
            done: HashSet::new(),
            given: BTreeSet::new(),
            out: BTreeSet::new(),
        }
    }

    pub(super) fn begin(&mut self, minutes: u32) {
        self.minutes = minutes;
    }

    /// The steps written since they were taken last.
    pub(super) fn steps(&mut self) -> Vec<Step> {
        std::mem::take(&mut self.steps)
    }

    pub(super) fn act(&mut self, deed: Deed) {
        self.steps.push(Step::Do(deed));
    }

    /// A phase in which this is all that is done; nothing is laid out for it.
    pub(super) fn only(&mut self, deed: Deed) -> Vec<Laid> {
        self.act(deed);
        Vec::new()
    }

    /// Does it, unless it was done before.
    pub(super) fn act_once(&mut self, deed: Deed) {
        if self.done.insert(deed.clone()) {
            self.act(deed);
        }
    }

    /// Says it, unless it was said before.
    pub(super) fn say(&mut self, said: Said) {
        if self.said.insert(said.clone()) {
            self.steps.push(Step::Say(said));
        }
    }

    /// Shows one trade of a number with what it is built with, where the lesson trades.
    pub(super) fn trade(&mut self, number: Number, turn: usize) {
        if !self.lesson.trades() {
            return;
        }
        let trading = self.style().trading;
        let any = || Trading { seed: trading.seed, ..Trading::ANY }.single(number, turn);
        match (self.means.built_with(number), trading.single(number, turn)) {
            (BuiltWith::Blocks | BuiltWith::Tub, Some(counted)) => self.shown_trade(Deed::TradeBlocks, number, counted),
            (BuiltWith::Drawn, _) => {
                if let Some(counted) = any() {
                    self.shown_trade(Deed::TradeDrawn, number, counted);
                }
            }
            // Blocks that the tub has too few of are traded in the head.
            (BuiltWith::Blocks | BuiltWith::Tub, None) | (BuiltWith::Columns, _) => {
                if let Some(counted) = any() {
                    self.ask(Asked::Regrouped(number, counted));
                }
            }
        }
    }

    fn shown_trade(&mut self, deed: fn(Number, Counted) -> Deed, number: Number, counted: Counted) {
        // What was shown is not asked.
        if self.asked.insert(Asked::Regrouped(number, counted)) {
            self.act(deed(number, counted));
        }
    }

    /// Shows how several pieces of a place are traded: once, since what comes next is asked for.
    pub(super) fn trade_several(&mut self, number: Number, counted: Counted) {
        if self.has_traded_several() {
            self.ask(Asked::Regrouped(number, counted));
        } else {
            self.shown_trade(Deed::TradeSeveral, number, counted);
        }
    }

    /// Whether it was shown how several pieces are traded.
    pub(super) fn has_traded_several(&self) -> bool {
        self.asked
            .iter()
            .any(|asked| matches!(asked, Asked::Regrouped(number, counted) if gives_several(*number, counted)))
    }

    /// Whether that was asked, or shown.
    pub(super) fn has_asked(&self, asked: &Asked) -> bool {
        self.asked.contains(asked)
    }

    /// Whether a trade was shown or asked for.
    pub(super) fn has_traded(&self) -> bool {
        self.asked.iter().any(|asked| matches!(asked, Asked::Regrouped(..)))
    }

    /// Whether it was said what a block of a place is worth.
    pub(super) fn has_named(&self, place: Place) -> bool {
        self.said
            .iter()
            .any(|said| matches!(said, Said::BlocksWorth(told) | Said::PicturesWorth(told) if told.contains(&place)))
    }

    /// Whether it was said how each of these places is drawn by hand.
    pub(super) fn has_drawn(&self, places: &[Place]) -> bool {
        let tells = |said: &Said, place: &Place| match said {
            Said::Draw(number) => number.digit(*place) > 0,
            Said::DrawMarks(told) => told.contains(place),
            _ => false,
        };
        places.iter().all(|place| self.said.iter().any(|said| tells(said, place)))
    }

    /// Asks, unless that was asked before; whether it did.
    pub(super) fn ask(&mut self, asked: Asked) -> bool {
        if let Asked::Worth(number, place) | Asked::DigitAt(number, place) = &asked
            && !self.worths.insert((*number, *place))
        {
            return false;
        }
        let is_new = self.asked.insert(asked.clone().of_no_set());
        if is_new {
            self.steps.push(Step::Ask(asked));
        }
        is_new
    }

    /// Asks the first of these that was not asked before.
    pub(super) fn ask_one(&mut self, asked: impl IntoIterator<Item = Asked>) -> bool {
        asked.into_iter().any(|asked| self.ask(asked))
    }

    /// Asks as many of these as `count`, those that were asked before left out.
    pub(super) fn ask_some(&mut self, asked: Vec<Asked>, count: usize) {
        let mut left = count;
        for asked in asked {
            if left == 0 {
                break;
            }
            left -= usize::from(self.ask(asked));
        }
    }

    /// Whether it was asked how two numbers are told apart.
    pub(super) fn told_apart(&self, a: Number, b: Number) -> bool {
        let apart =
            |asked: &Asked| matches!(asked, Asked::TellApart(c, d, _) if (*c, *d) == (a, b) || (*c, *d) == (b, a));
        self.asked.iter().any(apart)
    }

    /// Whether the digit's worth was asked for.
    pub(super) fn knows_worth(&self, number: Number, place: Place) -> bool {
        self.worths.contains(&(number, place))
    }

    /// Shows a number or writes it on the board, or points to it where it is to be seen.
    pub(super) fn on_board(&mut self, number: Number) {
        let deed = match self.written.insert(number) {
            true if self.steps_of(number).is_empty() => Deed::Write(number),
            true => Deed::ShowNumeral { number, wait: false },
            false => Deed::PointTo(number),
        };
        self.act(deed);
    }

    /// Writes these numbers on the board for all to work on, those that do not stand there for that yet.
    pub(super) fn write_all(&mut self, numbers: impl IntoIterator<Item = Number>) {
        let fresh: Vec<Number> = numbers.into_iter().filter(|number| self.listed.insert(*number)).collect();
        if !fresh.is_empty() {
            self.written.extend(&fresh);
            self.act(Deed::WriteAll(fresh));
        }
    }

    /// Writes the numbers of a set on the board, for those who have it.
    pub(super) fn write_set(&mut self, set: &SortSet) {
        self.listed.extend(&set.rows);
        self.written.extend(&set.rows);
        self.act(Deed::WriteSet(set.version, set.rows.clone()));
    }

    /// Whether all see the number.
    pub(super) fn is_on_board(&self, number: Number) -> bool {
        self.written.contains(&number)
    }

    /// Shows a number where all see it, before anything is said of it.
    pub(super) fn first_on_board(&mut self, number: Number) {
        self.written.insert(number);
        let stepped = !self.steps_of(number).is_empty();
        self.act(if stepped { Deed::ShowNumeral { number, wait: true } } else { Deed::WriteAndWait(number) });
    }

    /// The steps in which the display shows a number; empty where it has no page, or one with all forms.
    pub(super) fn steps_of(&self, number: Number) -> Vec<(u32, DisplayForm)> {
        let shown = self.has(SheetKind::Display) && self.lesson.chosen.model.contains(&number);
        if shown { display::steps(self.lesson) } else { Vec::new() }
    }

    /// Turns the display to the pages that add these forms, where it shows the number in steps.
    pub(super) fn turn_to(&mut self, number: Number, forms: &[DisplayForm]) {
        let mut steps = self.steps_of(number);
        steps.retain(|(_, form)| forms.contains(form));
        if !steps.is_empty() {
            self.act(Deed::TurnTo(steps));
        }
    }

    /// Something to look out for; an explanation is given once.
    pub(super) fn watch(&mut self, seen: Seen, wrong: Wrong) {
        let tools = groups::tools_against(self.lesson, &self.lesson.kits(), &wrong);
        let told = !self.explained.insert(wrong.slip);
        let letter = self.lesson.letter(wrong.slip);
        self.steps.push(Step::Watch { seen, wrong, tools, letter, told });
    }

    /// A wrong answer to look out for in learners' work: of the likeliest slip in play that was not explained.
    pub(super) fn look_for(&mut self, number: Number, task: Task) {
        let in_play = |slip: &Slip| self.lesson.slips.iter().any(|in_play| in_play.slip == *slip);
        let fresh = |slip: &Slip| in_play(slip) && !self.explained.contains(slip);
        // Nobody drops the zeros of 100 and writes 1.
        let parts = number.parts().count();
        let likely = |slip: &Slip| *slip != Slip::ZeroDropped || parts > 1;
        let mut wrong = task.wrong(number, self.style()).into_iter().filter(|(slip, _)| fresh(slip) && likely(slip));
        let found = wrong.find(|(_, content)| content.line().is_some());
        if let Some((slip, content)) = found {
            self.watch(Seen::Work, Wrong { of: number, task, content, slip });
        }
    }

    pub(super) fn is_explained(&self, slip: Slip) -> bool {
        self.explained.contains(&slip)
    }

    pub(super) fn style(&self) -> &'a Style {
        &self.lesson.style
    }

    pub(super) fn has(&self, kind: SheetKind) -> bool {
        self.means.has(kind)
    }

    /// Gives out the packets that hold these sheets, or has learners take the sheets from packets that they have. Whether all of
    /// the sheets come in packets.
    pub(super) fn hand_out(&mut self, now: &[SheetKind]) -> bool {
        let mut more = Vec::new();
        // What was taken out before lies on the tables.
        let fresh: Vec<SheetKind> = now.iter().copied().filter(|kind| !self.out.contains(kind)).collect();
        let mut found = now.len() - fresh.len();
        for packet in self.means.packets() {
            let out: Vec<SheetKind> = packet.iter().copied().filter(|kind| fresh.contains(kind)).collect();
            let (Some(first), false) = (packet.first(), out.is_empty()) else { continue };
            found += out.len();
            self.out.extend(out.iter().copied());
            let later = !self.given.is_empty();
            if self.given.insert(*first) {
                let whose = match self.whose(packet) {
                    // Who has which letter was settled by what was given out before.
                    Whose::Letters(letters) if later && letters.len() > 1 => Whose::Packet,
                    Whose::Groups(_) if later => Whose::Packet,
                    whose => whose,
                };
                self.act(Deed::GivePackets { sheets: packet.to_vec(), now: out, whose });
            } else {
                more.extend(out);
            }
        }
        if !more.is_empty() {
            self.act(Deed::TakeOut(more));
        }
        found == now.len()
    }

    /// By what packets of these sheets are given out.
    pub(super) fn whose(&self, sheets: &[SheetKind]) -> Whose {
        let lesson = self.lesson;
        let lettered = sheets.iter().any(|kind| lesson.is_lettered(*kind));
        if !lesson.roster.is_empty() {
            Whose::Names
        } else if !lettered {
            Whose::Anyone
        } else if lesson.groups.is_empty() {
            Whose::Letters(lesson.sets.iter().map(|set| set.version).collect())
        } else {
            Whose::Groups(lesson.shares())
        }
    }

    /// A learner's sheet on the tables.
    pub(super) fn laid(&self, sheet: SheetKind) -> Laid {
        let share = self.means.sheet(sheet).map_or(1, |sheet| sheet.share.max(1));
        // Where learners get different numbers of pages, none is said.
        Laid::Sheet { sheet, pages: self.means.pages_of_all(sheet).unwrap_or(1), share }
    }

    /// The model numbers that there is time for.
    pub(super) fn model(&self) -> &'a [Number] {
        self.models
    }

    /// Whether the recording sheet has rows of model numbers for which there is no time.
    pub(super) fn has_more_rows(&self) -> bool {
        self.lesson.chosen.model.len() > self.models.len()
    }

    /// The rows of a set that there is time for.
    pub(super) fn rows(&self, set: &'a SortSet) -> &'a [Number] {
        &set.rows[..set.rows.len().min(self.load.rows as usize)]
    }

    /// The rows of the set that the class speaks of, as far as there is time for them.
    pub(super) fn sort(&self) -> &'a [Number] {
        self.lesson.common_set().map_or(&[], |set| self.rows(set))
    }

    /// Whether all learners have the same sort numbers before them.
    pub(super) fn one_set(&self) -> bool {
        self.lesson.sets.len() < 2
    }

    /// The letter of a set where there are several.
    pub(super) fn letter(&self, set: &SortSet) -> Option<Version> {
        (self.lesson.sets.len() > 1).then_some(set.version)
    }

    /// The letter of the set that the class speaks of, where there are several.
    pub(super) fn common_letter(&self) -> Option<Version> {
        self.lesson.common_set().and_then(|set| self.letter(set))
    }

    /// How many rows are done, where that is not all of them.
    pub(super) fn some_rows(&self) -> Option<u32> {
        (self.load.rows < self.lesson.fullest.numbers.sort.count.value).then_some(self.load.rows)
    }
}

/// Whether several pieces are traded away.
pub(super) fn gives_several(number: Number, counted: &Counted) -> bool {
    pieces_traded(number, counted) > 1
}
