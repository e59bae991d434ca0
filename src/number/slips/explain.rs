//! The wrong answers to a task, each with the one slip that explains it.

use super::answer::Answer;
use super::catalogue::Rule;
use super::judging::{self, Judged};
use super::{Content, Form, Number, Slip, SlipSet, Style, Task};

impl Task {
    /// The right answer. Returns `None` where the number does not have the form asked for.
    pub fn right(self, number: Number, style: &Style) -> Option<Content> {
        Answer::right(self, number, style)?.content(self.asked(), style)
    }

    /// Every wrong answer with the one slip that explains it, the likeliest slips first.
    pub fn wrong(self, number: Number, style: &Style) -> Vec<(Slip, Content)> {
        let answers = self.answers(number, style).into_iter();
        answers.filter_map(|(slip, answer)| Some((slip, answer.content(self.asked(), style)?))).collect()
    }

    /// The slips that explain wrong answers: those of [`Task::wrong`], and nothing is written out for it.
    pub fn slips(self, number: Number, style: &Style) -> SlipSet {
        self.answers(number, style).into_iter().map(|(slip, _)| slip).collect()
    }

    fn answers(self, number: Number, style: &Style) -> Vec<(Slip, Answer)> {
        let is_shown = match self {
            Self::Forms { shown, .. } => shown.is_of(number, style),
            Self::Worth(place) => number.shows(place),
            Self::Greater(_) => true,
        };
        let Some(right) = Answer::right(self, number, style).filter(|_| is_shown) else { return Vec::new() };
        let asked = self.asked();
        let mut answers: Vec<(Slip, Answer)> = Vec::with_capacity(self.provokes().len());
        for &slip in self.provokes() {
            slip.each(number, self, style, &mut |answer| {
                let alike = |(_, other): &(Slip, Answer)| other.looks_like(&answer, asked, style);
                if !answer.is_as(&right, asked, style) && !answers.iter().any(alike) {
                    answers.push((slip, answer));
                }
            });
        }
        answers
    }
}

impl Slip {
    /// How numbers are said where it is taught about in a task: in the language whose words provoke it, or that are shown.
    pub fn spoken(self, task: Task, style: &Style) -> Style {
        let says = |second: &Style| match self.only() {
            Some(tag) => tag == second.names.tag(),
            None => task.shown() == Form::SecondWords,
        };
        style.in_second().filter(says).unwrap_or(*style)
    }

    /// The number that it takes a number for, where it takes it for another one, right or wrong.
    pub fn taken_for(self, number: Number, task: Task, style: &Style) -> Option<Number> {
        let Task::Forms { shown, asked } = task else { return None };
        let Rule::Number(rule) = self.row().rule else { return None };
        rule(number, shown, &style.spoken(if shown.is_words() { shown } else { asked }))
    }

    /// The wrong answers that this slip, and no likelier one, makes of a number in a task. None where it makes none: the
    /// result would be right, or begin with 0, or what is shown does not provoke it.
    pub fn wrong(self, number: Number, task: Task, style: &Style) -> Vec<Content> {
        let own = task.answers(number, style).into_iter().filter(|(slip, _)| *slip == self);
        own.filter_map(|(_, answer)| answer.content(task.asked(), style)).collect()
    }

    /// How this slip, and no likelier one, judges two different numbers that are compared; `None` where it judges right or
    /// not at all.
    pub fn judges(self, one: Number, other: Number) -> Option<Judged> {
        let judged = judging::greater(self, one, other)?;
        let first =
            Task::Greater(other).provokes().iter().find(|slip| judging::greater(**slip, one, other) == Some(judged));
        (first == Some(&self)).then_some(judged)
    }

    /// What the rule gives, right or wrong.
    pub(super) fn each(self, number: Number, task: Task, style: &Style, found: &mut dyn FnMut(Answer)) {
        let (shown, asked) = match task {
            Task::Forms { shown, asked } => (shown, asked),
            Task::Worth(place) => {
                return judging::worths(self, number, place).for_each(|worth| found(Answer::numeral(worth)));
            }
            // That both are equal is no numeral: see [`Slip::judges`].
            Task::Greater(other) => {
                if self.judges(number, other) == Some(Judged::Lesser) {
                    found(Answer::numeral(number.min(other)));
                }
                return;
            }
        };
        // Where words stand in two languages at once, nobody is misled by those of one.
        if style.both && self.only().is_some() && (shown == Form::Words || asked == Form::Words) {
            return;
        }
        match self.row().rule {
            Rule::Number(_) => {
                let other = self.taken_for(number, task, style).and_then(|other| Answer::of(other, asked, style));
                other.into_iter().for_each(found);
            }
            Rule::Digits(rule) => {
                rule(number, shown, &style.spoken(shown)).map(Answer::digits).into_iter().for_each(found);
            }
            Rule::Forms(rule) if asked == Form::Words && style.both => {
                let [first, second] =
                    [Form::Words, Form::SecondWords].map(|form| rule(number, asked, &style.spoken(form)));
                let both = first.zip(second).and_then(both);
                both.map(|content| Answer::other(content, asked, style)).into_iter().for_each(found);
            }
            Rule::Forms(rule) => {
                let content = rule(number, asked, &style.spoken(asked));
                content.map(|content| Answer::other(content, asked, style)).into_iter().for_each(found);
            }
            Rule::Judging => {}
        }
    }
}

/// The same mistake in two languages.
fn both(pair: (Content, Content)) -> Option<Content> {
    match pair {
        (Content::Text(first), Content::Text(second)) => Some(Content::Both([first, second])),
        _ => None,
    }
}
