//! What can be asked of a number: a task with two wrong answers, each made by one slip.

use crate::number::{Content, Feature, Form, Judged, Number, Skill, Slip, Style, Task};
use crate::wording::Wording;

/// A question that could be asked. There are thousands of them: what its answers look like is worked out for those that are.
#[derive(Debug, Clone, Copy)]
pub(super) struct Item {
    pub(super) of: Number,
    pub(super) task: Task,
    /// What makes it as hard as others; its slips give the two wrong answers.
    pub(super) kind: Kind,
    /// How unlikely the slips are together: places in the order of explanation, and far behind for rare ones.
    pub(super) rank: usize,
}

/// What makes questions of one skill equally hard: numbers of one kind, and wrong answers of the same slips.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Kind {
    /// The slips of the two wrong answers, the likelier first.
    pub(super) slips: [Slip; 2],
    digits: usize,
    /// Which digits are 0, the first in the highest bit.
    zeros: u8,
    repeats: bool,
    teen: bool,
    /// Which digit is asked about, or which two changed places: as how far down the question reaches into the numeral.
    reach: u32,
}

impl Item {
    /// Every item of a skill about a number: one for each task and each two slips that it provokes. Both numbers of a
    /// comparison must be allowed.
    pub(super) fn all(skill: Skill, of: Number, allows: &dyn Fn(Number) -> bool, style: &Style) -> Vec<Self> {
        let mut items = Vec::new();
        let mut kind = Kind::of(of);
        for task in skill.tasks(of) {
            if let Task::Greater(other) = task
                && !allows(other)
            {
                continue;
            }
            kind.reach = Kind::reach(of, task);
            let slips = slips(of, task, style);
            for (k, &first) in slips.iter().enumerate() {
                for (j, &second) in slips.iter().enumerate().skip(k + 1) {
                    let late = [first, second].iter().filter(|slip| slip.is_rare()).count() * 20;
                    kind.slips = [first, second];
                    items.push(Self { of, task, kind, rank: k + j + late });
                }
            }
        }
        items
    }

    /// The two wrong answers, the likelier slip first.
    pub(super) fn wrong(&self, style: &Style, wording: &dyn Wording) -> Vec<(Slip, Content)> {
        let mut wrong = wrong(self.of, self.task, style, wording);
        wrong.retain(|(slip, _)| self.kind.slips.contains(slip));
        wrong
    }

    /// Whether asking both on one paper would give an answer away: about one number, and one of them asks for its numeral.
    pub(super) fn tells(&self, other: &Self) -> bool {
        let wants = |item: &Self| matches!(item.task, Task::Forms { asked: Form::Numeral, .. });
        let numbers = |item: &Self| {
            let second = if let Task::Greater(second) = item.task { second } else { item.of };
            [item.of, second]
        };
        let shared = numbers(self).iter().any(|number| numbers(other).contains(number));
        shared && (wants(self) || wants(other) || self.task == other.task)
    }
}

impl Kind {
    /// Of any question about a number: its slips and its reach are still to be said.
    fn of(number: Number) -> Self {
        Self {
            slips: [Slip::ZeroDropped; 2],
            digits: number.len(),
            zeros: number.digits().fold(0, |zeros, (_, digit)| zeros << 1 | u8::from(digit == 0)),
            repeats: Feature::Repeat.is_in(number),
            teen: Feature::Teen.is_in(number),
            reach: 0,
        }
    }

    fn reach(number: Number, task: Task) -> u32 {
        match task {
            Task::Forms { .. } => 0,
            Task::Worth(place) => place.worth(),
            Task::Greater(other) => (number.value() - other.value()).checked_ilog10().map_or(1, |digits| digits + 1),
        }
    }
}

/// The slips behind the wrong answers to a task, each once, the likeliest first.
fn slips(of: Number, task: Task, style: &Style) -> Vec<Slip> {
    match task {
        Task::Greater(other) => {
            task.provokes().iter().copied().filter(|slip| slip.judges(of, other).is_some()).collect()
        }
        Task::Forms { .. } | Task::Worth(_) => task.slips(of, style),
    }
}

/// The wrong answers to a task, one a slip, the likeliest first.
fn wrong(of: Number, task: Task, style: &Style, wording: &dyn Wording) -> Vec<(Slip, Content)> {
    let mut answers: Vec<(Slip, Content)> = Vec::new();
    if let Task::Greater(other) = task {
        for &slip in task.provokes() {
            let content = match slip.judges(of, other) {
                Some(Judged::Lesser) => Form::Numeral.content(of.min(other), style),
                Some(Judged::Equal) => Some(Content::Text(wording.both_equal().to_owned())),
                None => None,
            };
            answers.extend(content.map(|content| (slip, content)));
        }
        return answers;
    }
    for (slip, content) in task.wrong(of, style) {
        if answers.iter().all(|(known, _)| *known != slip) {
            answers.push((slip, content));
        }
    }
    answers
}
