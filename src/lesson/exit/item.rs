//! What can be asked of a number: a task with two wrong answers, each made by one slip.

use crate::number::{Content, Feature, Form, Judged, Number, Skill, Slip, Style, Task};
use crate::wording::Wording;

/// A question that could be asked.
#[derive(Debug, Clone)]
pub(super) struct Item {
    pub(super) of: Number,
    pub(super) task: Task,
    /// The two wrong answers, the likelier slip first.
    pub(super) wrong: [(Slip, Content); 2],
    /// How unlikely the slips are together: places in the order of explanation, and far behind for rare ones.
    pub(super) rank: usize,
}

/// What makes questions of one skill equally hard: numbers of one kind, and wrong answers of the same slips.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Kind {
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
    pub(super) fn all(
        skill: Skill,
        of: Number,
        allows: &dyn Fn(Number) -> bool,
        style: &Style,
        wording: &dyn Wording,
    ) -> Vec<Self> {
        let mut items = Vec::new();
        for task in skill.tasks(of) {
            if let Task::Greater(other) = task
                && !allows(other)
            {
                continue;
            }
            let wrong = wrong(of, task, style, wording);
            for (k, first) in wrong.iter().enumerate() {
                for (j, second) in wrong.iter().enumerate().skip(k + 1) {
                    let late = [first.0, second.0].iter().filter(|slip| slip.is_rare()).count() * 20;
                    items.push(Self { of, task, wrong: [first.clone(), second.clone()], rank: k + j + late });
                }
            }
        }
        items
    }

    /// Its kind.
    pub(super) fn kind(&self) -> Kind {
        let reach = match self.task {
            Task::Forms { .. } => 0,
            Task::Worth(place) => place.worth(),
            Task::Greater(other) => (self.of.value() - other.value()).to_string().len().try_into().unwrap_or(0),
        };
        let [first, second] = &self.wrong;
        Kind {
            slips: [first.0, second.0],
            digits: self.of.len(),
            zeros: self.of.digits().fold(0, |zeros, (_, digit)| zeros << 1 | u8::from(digit == 0)),
            repeats: Feature::Repeat.is_in(self.of),
            teen: Feature::Teen.is_in(self.of),
            reach,
        }
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
