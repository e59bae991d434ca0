//! What can be asked of a number: a task with two wrong answers, each made by one slip.

use crate::number::{Content, Feature, Features, Form, Judged, Number, Skill, Slip, SlipSet, Style, Task};
use crate::wording::Wording;

/// What can be asked about a number in one task, whichever two of its slips give the wrong answers. There are thousands of
/// them: what answers look like is worked out for those that are asked.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ask {
    pub(super) of: Number,
    pub(super) task: Task,
    pub(super) looks: Looks,
    /// The slips behind its wrong answers: two or more.
    slips: SlipSet,
}

/// A question that could be asked: a task with two slips.
#[derive(Debug, Clone, Copy)]
pub(super) struct Item {
    pub(super) of: Number,
    pub(super) task: Task,
    /// What makes it as hard as others; its slips give the two wrong answers.
    pub(super) kind: Kind,
}

/// What makes questions of one skill equally hard: wrong answers of the same slips, and numbers of one kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Kind {
    /// The slips of the two wrong answers, the likelier first.
    pub(super) slips: [Slip; 2],
    pub(super) looks: Looks,
}

/// What numbers of one kind share.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Looks {
    digits: usize,
    /// Which digits are 0, the first in the highest bit.
    zeros: u8,
    repeats: bool,
    teen: bool,
    /// Which digit is asked about, or which two changed places: as how far down the question reaches into the numeral.
    reach: u32,
}

impl Ask {
    /// All that a skill can ask about these numbers with two wrong answers, number by number: a task each. Both numbers of a
    /// comparison must be allowed.
    pub(super) fn all(
        skill: Skill,
        numbers: &[(Number, Looks)],
        allows: &dyn Fn(Number) -> bool,
        style: &Style,
    ) -> Vec<Self> {
        let mut all = Vec::new();
        for &(of, looks) in numbers {
            Self::add_all(&mut all, skill, (of, looks), allows, style);
        }
        all
    }

    fn add_all(
        to: &mut Vec<Self>,
        skill: Skill,
        (of, looks): (Number, Looks),
        allows: &dyn Fn(Number) -> bool,
        style: &Style,
    ) {
        skill.each_task(of, |task| {
            if let Task::Greater(other) = task
                && !allows(other)
            {
                return;
            }
            let slips = slips(of, task, style);
            if slips.count() > 1 {
                to.push(Self { of, task, looks: Looks { reach: Looks::reach(of, task), ..looks }, slips });
            }
        });
    }

    /// Its slips, the likeliest first, each at its place among all that the task provokes.
    pub(super) fn slips(&self) -> impl Iterator<Item = (usize, Slip)> {
        self.task.provokes().iter().copied().enumerate().filter(|(_, slip)| self.slips.contains(*slip))
    }

    /// Its questions, each with the [`rank`]s of both its slips.
    pub(super) fn items(&self) -> impl Iterator<Item = (usize, Item)> {
        let item = |((k, first), (j, second)): ((usize, Slip), (usize, Slip))| {
            let kind = Kind { slips: [first, second], looks: self.looks };
            (rank(k, first) + rank(j, second), Item { of: self.of, task: self.task, kind })
        };
        let slips = || self.slips().map(|(_, slip)| slip).enumerate();
        slips().flat_map(move |first| slips().skip(first.0 + 1).map(move |second| item((first, second))))
    }

    /// The question with these two slips, if it has both.
    pub(super) fn with(&self, slips: [Slip; 2]) -> Option<Item> {
        let kind = Kind { slips, looks: self.looks };
        slips.iter().all(|slip| self.slips.contains(*slip)).then_some(Item { of: self.of, task: self.task, kind })
    }
}

/// How unlikely a slip is of which a task has so many likelier ones: its place in the order of explanation, and far behind
/// for a rare one.
pub(super) fn rank(likelier: usize, slip: Slip) -> usize {
    likelier + 20 * usize::from(slip.is_rare())
}

impl Item {
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

impl Looks {
    /// Of any question about a number: its reach is still to be said.
    pub(super) fn of(number: Number) -> Self {
        let features = Features::of(number);
        Self {
            digits: number.len(),
            zeros: number.digits().fold(0, |zeros, (_, digit)| zeros << 1 | u8::from(digit == 0)),
            repeats: features.has(Feature::Repeat),
            teen: features.has(Feature::Teen),
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

/// The slips behind the wrong answers to a task.
fn slips(of: Number, task: Task, style: &Style) -> SlipSet {
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
