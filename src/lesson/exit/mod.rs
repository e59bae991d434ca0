//! The quick check at the end: papers made from one blueprint, so that every learner meets the same skills in the same
//! order, with wrong choices of the same slips, on other numbers.
//!
//! In: the spec and the chosen numbers. Out: [`Check`]s, one for each exit number. Three choices a question; the right one
//! stands under each letter equally often on a paper and, from paper to paper, in another place.

mod blueprint;
pub mod check;
mod item;
mod kinds;
mod orders;

use super::choose::Work;
use super::types::Chosen;
use crate::measure::Count;
use crate::number::{Form, Number, Skill, Style, Task};
use crate::rng::Stream;
use crate::spec::{FormNames, Spec};
use crate::wording::Wording;
use item::Item;

pub use check::{Check, Choice, Question, letter};

/// Choices of a question.
const CHOICES: usize = 3;

/// All checks of a lesson or a group of its learners: one for each exit number. `others` are those of other groups: their
/// learners may sit beside these.
pub fn checks(spec: &Spec, chosen: &Chosen, style: &Style, wording: &dyn Wording, others: &[Check]) -> Vec<Check> {
    if chosen.exit.is_empty() {
        return Vec::new();
    }
    // Nothing is asked of the tens where only 10 has any.
    if spec.numbers.counts_to_ten() {
        return written(spec, chosen, style, wording);
    }
    let blueprint = blueprint::draw(spec, chosen, style);
    if blueprint.skills.is_empty() {
        return written(spec, chosen, style, wording);
    }
    let mut stream = Stream::new(spec.seed.value, "choices");
    let known: Vec<orders::Order> = others.iter().map(Check::places).collect();
    let orders = orders::deal(blueprint.skills.len(), blueprint.papers.len(), known, spec.seed.value, &mut stream);
    let papers = blueprint.papers.into_iter().zip(orders);
    papers
        .zip(1_u32..)
        .map(|((items, places), mark)| {
            let asked = items.into_iter().zip(&blueprint.skills).zip(places);
            let questions = asked.filter_map(|((item, skill), place)| {
                let said = Said { style, wording, names: &spec.forms.names };
                question(item, *skill, place, said, &mut stream)
            });
            Check { mark, questions: questions.collect() }
        })
        .collect()
}

/// How many questions a check has, at most.
pub fn longest(checks: &[Check]) -> u32 {
    checks.iter().map(|check| check.questions.len()).max().unwrap_or(0).narrow()
}

/// What to say of exit numbers that no check asks about.
pub fn unasked(chosen: &Chosen, checks: &[Check]) -> Option<String> {
    let asked: Vec<Number> = checks.iter().flat_map(Check::numbers).collect();
    let left = chosen.exit.iter().filter(|number| !asked.contains(number));
    let left: Vec<String> = left.map(ToString::to_string).collect();
    (!left.is_empty()).then(|| {
        format!(
            "the quick check does not ask about {}: no slip would show there",
            crate::diag::nearest::listed(&left, "and")
        )
    })
}

/// How a question is said.
#[derive(Clone, Copy)]
struct Said<'a> {
    style: &'a Style,
    wording: &'a dyn Wording,
    /// The class's own words for forms.
    names: &'a FormNames,
}

/// The question of an item, with its right answer in a place.
fn question(item: Item, skill: Skill, place: usize, said: Said<'_>, stream: &mut Stream) -> Option<Question> {
    let Said { style, wording, names } = said;
    let Item { of, task, .. } = item;
    let wrong = item.wrong(style, wording);
    let answer = task.right(of, style)?;
    let mut choices: Vec<Choice> =
        wrong.into_iter().map(|(slip, content)| Choice { content, slip: Some(slip) }).collect();
    stream.shuffle(&mut choices);
    choices.insert(place.min(choices.len()), Choice { content: answer.clone(), slip: None });
    let shown = match task {
        Task::Forms { shown: Form::Numeral, .. } | Task::Worth(_) | Task::Greater(_) => None,
        Task::Forms { shown, .. } => shown.content(of, style),
    };
    let sentence = match task {
        Task::Forms { shown: Form::Numeral, asked } => wording.which_form(asked, names.get(asked), &style.numeral(of)),
        Task::Forms { shown, .. } => wording.which_numeral(shown).to_owned(),
        Task::Worth(at) => wording.worth_question(of.digit(at), &style.numeral(of)),
        Task::Greater(other) => {
            // In the order in which the choices stand.
            let first = choices.iter().find(|choice| choice.content.worth(Form::Numeral, style.names).is_some());
            let is_first = first.is_some_and(|choice| choice.content == answer);
            let (one, two) = if is_first { (of, other) } else { (other, of) };
            wording.greater_question(&style.numeral(one), &style.numeral(two))
        }
    };
    Some(Question { of, skill, task, sentence, shown, answer, choices })
}

/// What is asked where answers are written: pictures and words, as far as the lesson has them.
pub fn written_skills(spec: &Spec) -> Vec<Skill> {
    let matched = &spec.forms.matched.value;
    let skills = [Skill::Picture, Skill::Words, Skill::SecondWords].into_iter();
    let skills: Vec<Skill> = skills.filter(|skill| skill.needs().is_none_or(|form| matched.contains(&form))).collect();
    if skills.is_empty() { vec![Skill::Words] } else { skills }
}

/// Checks where no number gives choices, such as those of single digits: pictures and words whose numeral is written.
fn written(spec: &Spec, chosen: &Chosen, style: &Style, wording: &dyn Wording) -> Vec<Check> {
    let skills = written_skills(spec);
    let count = chosen.exit.len();
    let paper = |at: usize, mark: u32| {
        let mut used: Vec<Number> = Vec::new();
        let questions = skills.iter().filter_map(|&skill| {
            // Each skill takes the next number that can show it, so that no question answers another.
            let numbers = (0..count).map(|step| chosen.exit[(at + step) % count]);
            let mut fresh = numbers.filter(|number| !used.contains(number));
            let (of, task) = fresh.find_map(|of| Some((of, skill.tasks(of).first().copied()?)))?;
            used.push(of);
            let Task::Forms { shown, .. } = task else { return None };
            let sentence = wording.write_numeral(shown).to_owned();
            let answer = task.right(of, style)?;
            Some(Question { of, skill, task, sentence, shown: shown.content(of, style), answer, choices: Vec::new() })
        });
        Check { mark, questions: questions.collect() }
    };
    (1_u32..).zip(0..count).map(|(mark, at)| paper(at, mark)).collect()
}

/// What the papers take: the least and the most among them, counted as for versions; `None` without any.
pub fn spread(checks: &[Check], style: &Style) -> Option<(Work, Work)> {
    let numbers = |check: &Check| check.questions.iter().map(|question| question.of).collect();
    super::choose::spread(&checks.iter().map(numbers).collect::<Vec<_>>(), style)
}
