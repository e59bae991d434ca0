//! Small groups for tomorrow: the slips in play, gathered into groups, each slip with fresh numbers that would show it.
//!
//! In: the slips in play, of the class or of one of its groups. Out: for each slip the task in which this lesson shows it and
//! three numbers of the learners' range, with what is right and what the slip would give, and the tools that are enough for
//! them. Numbers that learners have met in this lesson come last, and numbers that the kits cannot make after those they can.

mod laid;

use std::collections::{BTreeMap, BTreeSet};

use super::fresh::{candidates, drawn, met};
use super::kits::KitsAtHand;
use super::{InPlay, Lesson, LessonPart, Wrong, in_play, practice};
use crate::measure::Count;
use crate::number::{Content, Form, Judged, Number, Skill, Slip, SlipFamily, Style, Task};
use crate::rng::Stream;
use crate::spec::SheetKind;
use crate::wording::{BlocksOut, GroupStep, GroupTable, Tools};
use laid::Fit;

/// Who works with numbers up to this has not met larger ones (CCSSM K.CC.A.3: numbers to 20 are written).
const FIRST_NUMBERS: u32 = 20;

/// Numbers a slip.
pub const NUMBERS: usize = 3;

/// What a slip's group works on.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SlipLesson {
    /// The slip's letter.
    pub letter: char,
    /// The slip.
    pub slip: Slip,
    /// Three numbers; fewer only where the slip bears on fewer: two of the range, or none and fewer than three of this length.
    pub trials: Vec<Trial>,
    /// What is enough for the first number, which is worked on together.
    pub tools: Tools,
    /// Whether the first number's blocks come from two sets.
    pub two_sets: bool,
    /// What is enough for each number by itself.
    pub tools_of_each: Tools,
}

impl SlipLesson {
    /// Whether its numbers are laid out one after the other.
    fn works_with_blocks(&self) -> bool {
        self.trials.first().is_some_and(|first| laid::with_blocks(first.task))
    }

    /// What is worked on together; none where the slip bears on no number.
    pub fn step<'s>(&self, style: &'s Style) -> Option<GroupStep<'s>> {
        let first = self.trials.first()?;
        let (tools, two_sets) = (self.tools, self.two_sets);
        let taken = self.slip.taken_for(first.of, first.task, style);
        Some(GroupStep { slip: self.slip, of: first.of, task: first.task, taken, tools, two_sets, style })
    }
}

/// A fresh number, made so that a slip would show.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Trial {
    /// The number.
    pub of: Number,
    /// What is shown and what is asked.
    pub task: Task,
    /// The right answer.
    pub right: Content,
    /// What the slip gives; of two that are compared, `None` stands for the answer that they are equal.
    pub wrong: Option<Content>,
}

/// The lessons of all slips that these learners can show, family by family, in the order of their letters.
pub fn lessons(lesson: &Lesson, part: &LessonPart<'_>) -> Vec<SlipLesson> {
    let mut used = met(lesson);
    let mut stream = Stream::new(lesson.spec.seed.value, &part.purpose("groups"));
    let kits = lesson.kits();
    let mut lessons = Vec::new();
    let shown = shown(lesson, part);
    for in_play in by_family(lesson) {
        let Some((_, seen)) = shown.iter().find(|(slip, _)| *slip == in_play.slip) else { continue };
        let trials = trials(lesson, &kits, part, in_play.slip, seen, &used, &mut stream);
        used.extend(trials.iter().map(|trial| trial.of));
        lessons.push(equipped(lesson, &kits, part, in_play, trials));
    }
    lessons
}

/// A slip's numbers with what lies on the table for them: blocks and cards where they are enough.
fn equipped(
    lesson: &Lesson,
    kits: &KitsAtHand,
    part: &LessonPart<'_>,
    in_play: &InPlay,
    trials: Vec<Trial>,
) -> SlipLesson {
    let InPlay { letter, slip, .. } = *in_play;
    let first = trials.first();
    let usual = lesson.tools(first.map_or(Number::MAX, |trial| trial.of));
    let sets = first.and_then(|first| laid::sets(kits, part.style, slip, first.of, first.task));
    let cards = first.is_some_and(|first| kits.stacks(first.of));
    let each = trials.iter().all(|trial| laid::is_enough_for_each(kits, part.style, trial.of, trial.task));
    SlipLesson {
        letter,
        slip,
        tools: Tools { blocks: usual.blocks && sets.is_some(), cards: usual.cards && cards, ..usual },
        two_sets: usual.blocks && sets == Some(2),
        tools_of_each: Tools { blocks: usual.blocks && each, ..usual },
        trials,
    }
}

/// What a remedy can use against a wrong answer: blocks only where one set holds all that is laid out at once, cards
/// only where a kit stacks the number.
pub fn tools_against(lesson: &Lesson, kits: &KitsAtHand, wrong: &Wrong) -> Tools {
    let usual = lesson.tools(wrong.of);
    let holds = || laid::sets(kits, &lesson.style, wrong.slip, wrong.of, wrong.task).is_some();
    Tools { blocks: usual.blocks && holds(), cards: usual.cards && kits.stacks(wrong.of), ..usual }
}

/// What the groups of all these lessons need on their table.
pub fn table(lesson: &Lesson, all: &[&SlipLesson]) -> GroupTable {
    let blocks = |own: &SlipLesson| own.tools.blocks || own.tools_of_each.blocks && own.works_with_blocks();
    GroupTable {
        blocks: match all.iter().copied().any(blocks) {
            _ if all.iter().any(|own| own.two_sets) => BlocksOut::TwoSets,
            true => BlocksOut::OneSet,
            false => BlocksOut::None,
        },
        mat: all.iter().any(|own| own.tools.mat),
        cards: all.iter().any(|own| own.tools.cards && laid::stacks(own.slip)),
        one_learner: lesson.has_one_learner(),
    }
}

/// The slips in play, family by family, in the order of their letters.
pub fn by_family(lesson: &Lesson) -> impl Iterator<Item = &InPlay> {
    SlipFamily::ALL
        .into_iter()
        .flat_map(|family| lesson.slips.iter().filter(move |in_play| in_play.slip.family() == family))
}

/// The slips that these learners' strips, checks and practice show, each with the first that it makes there.
fn shown(lesson: &Lesson, part: &LessonPart<'_>) -> Vec<(Slip, Wrong)> {
    let own;
    let all = if part.versions.is_empty() {
        &lesson.slips
    } else {
        let sets = lesson.sets.iter().filter(|set| part.versions.contains(&set.version));
        let checks = lesson.checks.iter().filter(|check| part.checks.contains(&check.mark));
        own = in_play::list(&lesson.spec, sets, checks);
        &own
    };
    let mut shown: Vec<(Slip, Wrong)> =
        all.iter().filter_map(|in_play| Some((in_play.slip, in_play.seen.first()?.clone()))).collect();
    // The key names the letters of slips in their practice, too: what others show tells what kind of task it is.
    if lesson.makes(SheetKind::Practice) {
        let exercises = practice::exercises(lesson, part);
        let practised: BTreeSet<Slip> =
            exercises.iter().flat_map(|one| one.wrong(lesson, part.style)).map(|(_, slip)| slip).collect();
        let others = lesson.slips.iter().filter(|in_play| practised.contains(&in_play.slip));
        for in_play in others {
            if let Some(seen) = in_play.seen.first().filter(|_| shown.iter().all(|(slip, _)| *slip != in_play.slip)) {
                shown.push((in_play.slip, seen.clone()));
            }
        }
    }
    shown
}

/// Three numbers for learners who show no slip: with different digits, and more than one, where the range has them.
pub fn has_it(lesson: &Lesson, part: &LessonPart<'_>) -> Vec<Number> {
    let mut stream = Stream::new(lesson.spec.seed.value, &part.purpose("has it"));
    // The greatest and the least number of 20 are both 20, and so it is with 300: none begins with 0.
    let telling = |number: &Number| {
        let digits: BTreeSet<u8> = number.digits().map(|(_, digit)| digit).collect();
        let leading = number.parts().count();
        digits.len() > 1 && (number.len() > 2 || !digits.contains(&0)) && leading > 1
    };
    let mut numbers = candidates(part, &mut stream);
    numbers.retain(telling);
    let met = met(lesson);
    // Of two digits one order is the greatest number and the other the least; of more, neither answer stands in the task.
    let answer = |number: &Number| <[Number; 2]>::from(number.rearranged()).contains(number);
    // Of a numeral with a 0 the least number would begin with it, as a child puts it.
    let zero = |number: &Number| number.digits().any(|(_, digit)| digit == 0);
    numbers.sort_by_cached_key(|number| (number.len() < 3, answer(number), zero(number), met.contains(number)));
    let mut asked = BTreeSet::new();
    // Numbers of the same digits are one task.
    numbers.into_iter().filter(|number| asked.insert(number.rearranged())).take(NUMBERS).collect()
}

/// Three numbers in which a slip would show.
fn trials(
    lesson: &Lesson,
    kits: &KitsAtHand,
    part: &LessonPart<'_>,
    slip: Slip,
    seen: &Wrong,
    met: &BTreeSet<Number>,
    stream: &mut Stream,
) -> Vec<Trial> {
    let numbers = candidates(part, stream).into_iter();
    let (known, fresh): (Vec<Number>, Vec<Number>) = numbers.partition(|number| met.contains(number));
    // The plainest way to show a slip is its example's; a lesson whose numbers are too large for that shows its own.
    let plain = slip.example().task;
    let shows = |task: Task| {
        let mut found = fresh.iter().chain(&known).filter(|of| tried(part, slip, **of, task).next().is_some());
        found.nth(NUMBERS - 1).is_some()
    };
    let task = if shows(plain) { plain } else { seen.task };
    let find = |numbers: &[Number], trials: &mut Vec<Trial>| {
        let has = |trials: &[Trial], of: Number| trials.iter().any(|trial| trial.of == of);
        // No more of each fit than can be wanted, the best fit first.
        let mut found: BTreeMap<Fit, Vec<Trial>> = BTreeMap::new();
        for of in numbers.iter().copied().filter(|of| !has(trials, *of)) {
            if trials.len() + found.get(&Fit::Plain).map_or(0, Vec::len) >= NUMBERS {
                break;
            }
            for task in like(task, of) {
                let alike = found.entry(laid::fit(kits, lesson.tools(of), part.style, slip, of, task)).or_default();
                if alike.len() < NUMBERS && !has(alike, of) {
                    alike.extend(trial(part.style, slip, of, task));
                }
            }
        }
        for trial in found.into_values().flatten() {
            if trials.len() < NUMBERS && !has(trials, trial.of) {
                trials.push(trial);
            }
        }
    };
    let mut trials = Vec::new();
    find(&fresh, &mut trials);
    find(&known, &mut trials);
    // A range that holds none, or a single one, is widened to all numbers of the same length, unless learners are at
    // their first numbers: who counts to 10 does not know 77.
    let counts_up = part.numbers.range.value.1.value() <= FIRST_NUMBERS;
    if trials.len() < 2 && !counts_up {
        let ten = |digits: usize| 10_u32.pow(digits.narrow());
        let length = seen.of.len();
        let (least, most) = (if length == 1 { 0 } else { ten(length - 1) }, ten(length) - 1);
        find(&drawn(least, most, stream), &mut trials);
    }
    trials
}

/// A number tried in the same way as a task.
fn tried(part: &LessonPart<'_>, slip: Slip, of: Number, task: Task) -> impl Iterator<Item = Trial> {
    like(task, of).into_iter().filter_map(move |task| trial(part.style, slip, of, task))
}

/// The tasks about a number that ask what a task asks about another.
fn like(task: Task, of: Number) -> Vec<Task> {
    match task {
        // Nobody lays out a picture of nothing.
        Task::Forms { shown, asked } if of == Number::MIN && (shown.is_picture() || asked.is_picture()) => Vec::new(),
        Task::Forms { .. } => vec![task],
        Task::Worth(_) => Skill::Worth.tasks(of),
        Task::Greater(_) => Skill::Compare.tasks(of),
    }
}

fn trial(style: &Style, slip: Slip, of: Number, task: Task) -> Option<Trial> {
    if !laid::serves(slip, of) {
        return None;
    }
    let right = task.right(of, style)?;
    if let Task::Greater(other) = task {
        let wrong = match slip.judges(of, other)? {
            Judged::Lesser => Form::Numeral.content(of.min(other), style),
            Judged::Equal => None,
        };
        return Some(Trial { of, task, right, wrong });
    }
    let wrong = slip.wrong(of, task, style).into_iter().next()?;
    Some(Trial { of, task, right, wrong: Some(wrong) })
}
