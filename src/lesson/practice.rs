//! Practice: one page on the lesson's skills with fresh numbers, each exercise with its right answer and, where a slip of
//! this lesson would show, what that slip would give.
//!
//! In: the lesson, and whose page it is. Out: [`Exercise`]s in the order of the page: fewer for grade 1. Numbers that learners have met come last.

use std::collections::BTreeSet;

use super::fresh::fresh;
use super::{Lesson, LessonPart, timing};
use crate::number::{Content, Digits, Form, Judged, Number, Place, Skill, Slip, Style, Task};
use crate::rng::Stream;

/// How many parts a number line has between its ends.
pub const PARTS: u32 = 10;

/// Something to do on the practice page.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Exercise {
    /// Write what the digit in a place is worth.
    Worth(Number, Place),
    /// Write the numeral of a unit form of which one place is empty.
    Places(Number),
    /// One of the greatest place is traded for ten of the next: write how many of those there are then.
    Trade(Number),
    /// Write <, = or > between each two.
    Compare(Vec<(Number, Number)>),
    /// Write the numbers in order, the least first.
    Order(Vec<Number>),
    /// Write the number at the arrow on a line of [`PARTS`] equal parts from one number to another.
    Line {
        /// The left end.
        from: u32,
        /// From one mark to the next.
        step: u32,
        /// The number at the arrow: on a mark, and at neither end.
        at: Number,
    },
    /// Ring the one that shows another number.
    Odd {
        /// The number that the others show.
        of: Number,
        /// What is shown, each in a form of its own.
        shown: Vec<Content>,
        /// Which of them is odd.
        odd: usize,
        /// The task and the slip that made it.
        made: (Task, Slip),
    },
}

/// What can go wrong in an exercise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WrongAnswer {
    /// This is written.
    Written(Content),
    /// Of two numbers the lesser, the second, is taken for the greater.
    TakenForGreater(Number, Number),
    /// All look right.
    Overlooked,
}

impl Exercise {
    /// The wrong answers that slips of the lesson give, the likeliest first: one a slip.
    pub fn wrong(&self, lesson: &Lesson, style: &Style) -> Vec<(WrongAnswer, Slip)> {
        let task = |of: Number, task: Task| {
            let wrong = task.wrong(of, style).into_iter();
            wrong.map(|(slip, content)| (WrongAnswer::Written(content), slip)).collect()
        };
        let all: Vec<(WrongAnswer, Slip)> = match self {
            Self::Worth(of, place) => task(*of, Task::Worth(*place)),
            Self::Places(of) => task(*of, Task::forms(Form::Units, Form::Numeral)),
            Self::Compare(pairs) => pairs.iter().flat_map(|pair| misjudged(*pair)).collect(),
            Self::Odd { made: (_, slip), .. } => vec![(WrongAnswer::Overlooked, *slip)],
            Self::Trade(_) | Self::Order(_) | Self::Line { .. } => Vec::new(),
        };
        let mut told = BTreeSet::new();
        all.into_iter().filter(|(_, slip)| lesson.letter(*slip).is_some() && told.insert(*slip)).collect()
    }

    /// Every number that it shows or whose answer it is.
    pub fn numbers(&self) -> Vec<Number> {
        match self {
            Self::Worth(of, _) | Self::Places(of) | Self::Trade(of) | Self::Odd { of, .. } => vec![*of],
            Self::Compare(pairs) => pairs.iter().flat_map(|(one, other)| [*one, *other]).collect(),
            Self::Order(numbers) => numbers.clone(),
            Self::Line { at, .. } => vec![*at],
        }
    }

    /// What is left of the greatest place when one of it is traded, and how many of the next there are then.
    pub fn traded(of: Number) -> Option<[(Place, u32); 2]> {
        let mut digits = of.digits();
        let (top, most) = digits.next()?;
        let (next, some) = digits.next()?;
        Some([(top, u32::from(most).checked_sub(1)?), (next, u32::from(some) + 10)])
    }
}

/// How slips judge two numbers wrongly.
fn misjudged((one, other): (Number, Number)) -> Vec<(WrongAnswer, Slip)> {
    let (greater, lesser) = (one.max(other), one.min(other));
    let judged = |slip: &Slip| (slip.judges(greater, lesser) == Some(Judged::Lesser)).then_some(*slip);
    let slips = Task::Greater(lesser).provokes().iter().filter_map(judged);
    slips.map(|slip| (WrongAnswer::TakenForGreater(greater, lesser), slip)).collect()
}

/// The exercises of a practice page, easier ones first.
pub fn exercises(lesson: &Lesson, part: &LessonPart<'_>) -> Vec<Exercise> {
    let young = timing::grade(&lesson.spec) <= 1;
    let mut draw = Draw { lesson, style: part.style, numbers: fresh(lesson, part, "practice"), used: BTreeSet::new() };
    let mut stream = Stream::new(lesson.spec.seed.value, &part.purpose("practice order"));
    let mut all = Vec::new();
    all.extend(draw.worth(0));
    if !young {
        all.extend(draw.worth(1));
    }
    all.extend(draw.take(|n| n.len() > 1 && !Skill::Zero.tasks(n).is_empty()).map(Exercise::Places));
    let trades = |n: Number| Exercise::traded(n).is_some_and(|[(_, left), _]| left > 0);
    all.extend(draw.take(trades).map(Exercise::Trade));
    all.extend(draw.compare(if young { 2 } else { 3 }, &mut stream));
    all.extend(draw.order(if young { 3 } else { 4 }, &mut stream));
    all.extend(draw.line());
    all.extend(draw.odd(&mut stream));
    all
}

/// Numbers still to be used.
struct Draw<'a> {
    lesson: &'a Lesson,
    style: &'a Style,
    numbers: Vec<Number>,
    used: BTreeSet<Number>,
}

impl Draw<'_> {
    /// The next number like this.
    fn take(&mut self, suits: impl Fn(Number) -> bool) -> Option<Number> {
        let found = self.numbers.iter().copied().find(|n| !self.used.contains(n) && suits(*n))?;
        self.used.insert(found);
        Some(found)
    }

    /// The worth of the digit `from` places below the greatest, or of the nearest there is.
    fn worth(&mut self, from: usize) -> Option<Exercise> {
        let of = self
            .take(|n| Skill::Worth.tasks(n).len() > from)
            .or_else(|| self.take(|n| !Skill::Worth.tasks(n).is_empty()));
        let of = of?;
        let tasks = Skill::Worth.tasks(of);
        match tasks.get(from).or(tasks.first())? {
            Task::Worth(place) => Some(Exercise::Worth(of, *place)),
            Task::Forms { .. } | Task::Greater(_) => None,
        }
    }

    /// Pairs to compare: numbers with two digits exchanged where there are such, then any two. Each way round in turn.
    fn compare(&mut self, count: usize, stream: &mut Stream) -> Option<Exercise> {
        let lesser = |n: Number| {
            let mut tasks = Skill::Compare.tasks(n).into_iter();
            tasks.find_map(|task| if let Task::Greater(other) = task { Some(other) } else { None })
        };
        let mut pairs = Vec::new();
        while pairs.len() < count {
            let close = if pairs.len() + 1 < count { self.take(|n| lesser(n).is_some()) } else { None };
            let pair = match close {
                Some(of) => lesser(of).map(|other| (of, other)),
                None => self.take(|_| true).and_then(|one| Some((one, self.take(|_| true)?))),
            };
            let Some((one, other)) = pair else { break };
            pairs.push(if pairs.len() % 2 == 0 {
                (one.min(other), one.max(other))
            } else {
                (one.max(other), one.min(other))
            });
        }
        stream.shuffle(&mut pairs);
        (!pairs.is_empty()).then_some(Exercise::Compare(pairs))
    }

    /// Numbers to put in order, of the same digits where there are such; never in order already.
    fn order(&mut self, count: usize, stream: &mut Stream) -> Option<Exercise> {
        let mut numbers = vec![self.take(|n| n.len() > 1).or_else(|| self.take(|_| true))?];
        let first = numbers[0];
        while numbers.len() < count {
            let next = self.take(|n| Digits::of(n) == Digits::of(first));
            let next = next.or_else(|| self.take(|n| n.len() == first.len())).or_else(|| self.take(|_| true));
            numbers.push(next?);
        }
        while numbers.is_sorted() {
            stream.shuffle(&mut numbers);
        }
        Some(Exercise::Order(numbers))
    }

    /// A number on a line whose marks are of the place below its greatest; of a single digit, from 0 to 10.
    fn line(&mut self) -> Option<Exercise> {
        let place = |n: Number| Place::ALL[n.len().saturating_sub(2).min(Place::ALL.len() - 1)];
        // Neither an end nor the middle, which can be seen without counting.
        let telling = |n: Number| !matches!(n.digit(place(n)), 0 | 5);
        let from = |n: Number| n.value() - n.value() % (place(n).worth() * PARTS);
        // A line to 1,000,000 would end at a number that no lesson has.
        let ends = |n: Number| Number::new(from(n) + place(n).worth() * PARTS).is_some();
        let of = self.take(|n| telling(n) && ends(n))?;
        let step = place(of).worth();
        let at = Number::new(of.value() - of.value() % step)?;
        Some(Exercise::Line { from: from(of), step, at })
    }

    /// One number in four forms, one of them changed by a slip.
    fn odd(&mut self, stream: &mut Stream) -> Option<Exercise> {
        let (lesson, style) = (self.lesson, self.style);
        let forms = [Form::Words, Form::Expanded, Form::Units];
        let wrong = |of: Number| {
            let all = forms.iter().flat_map(|&asked| {
                let task = Task::forms(Form::Numeral, asked);
                task.wrong(of, style).into_iter().map(move |(slip, content)| (asked, task, slip, content))
            });
            // A slip that the class's other sheets can show as well.
            all.into_iter().find(|(_, _, slip, _)| lesson.letter(*slip).is_some())
        };
        let of = self.take(|n| n.len() > 1 && wrong(n).is_some())?;
        let (form, task, slip, content) = wrong(of)?;
        let mut shown = vec![Form::Numeral.content(of, style)?];
        for right in forms {
            shown.push(if right == form { content.clone() } else { right.content(of, style)? });
        }
        let mut order: Vec<usize> = (0..shown.len()).collect();
        stream.shuffle(&mut order);
        let shown: Vec<Content> = order.iter().filter_map(|k| shown.get(*k).cloned()).collect();
        let odd = shown.iter().position(|other| *other == content)?;
        Some(Exercise::Odd { of, shown, odd, made: (task, slip) })
    }
}
