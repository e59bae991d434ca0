//! The lesson as it will be taught: chosen numbers, their forms, strips and times. No lengths, no pages.
//!
//! In: a [`Spec`](crate::spec::Spec). Out: a [`Lesson`], or the reason why there is none.

pub mod choose;
pub mod deal;
pub mod decoys;
pub mod display;
pub mod exit;
mod fresh;
mod grouped;
pub mod groups;
pub mod home;
mod in_play;
pub mod job;
pub mod kits;
mod planned;
pub mod practice;
mod settle;
mod strips;
pub mod teach;
pub mod timing;
mod types;
pub mod warm_up;
pub mod week;
pub mod words;

use std::sync::Arc;

use crate::diag::{Diagnostic, Source};
use crate::measure::Count;
use crate::number::{Form, Number, Skill};
use crate::spec::{FormNames, FormsSpec, Language, NumbersSpec, SheetKind, SidesAsked, Spec};
use crate::wording::class_groups::GroupShare;
use crate::wording::plan::Aim;
use crate::wording::{self, Spelling, Usage, Wording};
use deal::Seat;
use timing::{Load, StripUse};

pub use crate::spec::Version;
pub use grouped::Roster;
pub use in_play::InPlay;
pub use planned::{Lesson, LessonGroup, LessonPart};
pub use settle::style;
use settle::{settle, settle_cards, sort_sets};
pub use types::{Chosen, Reason, Role, SortSet, Strip, Wrong};

/// Plans a lesson: chooses its numbers, settles what the file leaves open, and makes a set of strips for each version.
///
/// `source` is the text that `spec` was read from; `roster` has the names in order, and is empty without a roster. Where
/// the file is silent, a roster gives the number of learners, the minutes grow to what the numbers need, and no more
/// decoys are made than slips can make. Fails with every mistake found.
pub fn plan(source: &Arc<Source>, spec: Spec, roster: impl Into<Roster>) -> Result<Lesson, Vec<Diagnostic>> {
    let memory = choose::Memory::default();
    let numbers = numbers(source, &spec, &memory);
    plan_with(source, spec, numbers, roster, &memory)
}

/// The numbers of a lesson, or why it has none; none yet of a lesson with groups.
pub type NumbersChosen = Option<Result<Chosen, Vec<Diagnostic>>>;

/// Chooses the numbers of a lesson, which need no roster. Those of groups are dealt to their learners, and so they are
/// chosen where these are known.
pub fn numbers(source: &Arc<Source>, spec: &Spec, memory: &choose::Memory) -> NumbersChosen {
    spec.groups.is_empty().then(|| choose::choose_with(spec, source, memory))
}

/// [`plan`] with its numbers, and with what is remembered of earlier lessons.
pub fn plan_with(
    source: &Arc<Source>,
    spec: Spec,
    numbers: NumbersChosen,
    roster: impl Into<Roster>,
    memory: &choose::Memory,
) -> Result<Lesson, Vec<Diagnostic>> {
    let roster: Roster = roster.into();
    let mut lesson = match numbers {
        Some(Ok(chosen)) => with_numbers(source, spec, chosen, roster.names)?,
        Some(Err(mut wrong)) => {
            wrong.extend(settle(source, &mut spec.clone(), &roster.names));
            return Err(wrong);
        }
        None => grouped::plan(source, spec, roster, memory)?,
    };
    settle::all_have_blocks(source, &lesson).map_err(|wrong| vec![wrong])?;
    let told = warm_up::told(&lesson);
    lesson.chosen.notes.extend(told);
    Ok(lesson)
}

/// [`plan`] with numbers that are already chosen.
pub fn with_numbers(
    source: &Arc<Source>,
    mut spec: Spec,
    mut chosen: Chosen,
    roster: Vec<String>,
) -> Result<Lesson, Vec<Diagnostic>> {
    let mut wrong = settle(source, &mut spec, &roster);
    settle_cards(&mut spec, &chosen);
    let style = style(&spec);
    match sort_sets(source, &mut spec, &mut chosen, &style, 0) {
        Ok(sets) if wrong.is_empty() => {
            let checks = exit::checks(&spec, &chosen, &style, wording::of(spec.language.value), &[]);
            chosen.notes.extend(timing::told(&spec, exit::longest(&checks)));
            chosen.notes.extend(exit::unasked(&chosen, &checks));
            let slips = in_play::list(&spec, &sets, &checks);
            let (fullest, groups, warm_up) = (spec.clone(), Vec::new(), None);
            let lesson = Lesson { spec, fullest, style, chosen, sets, checks, slips, roster, groups, warm_up };
            Ok(lesson.warmed_up())
        }
        Ok(_) => Err(wrong),
        Err(more) => {
            wrong.extend(more);
            Err(wrong)
        }
    }
}

impl Lesson {
    /// The lesson with its warm-up, where it makes one: its numbers are chosen away from all others.
    fn warmed_up(self) -> Self {
        Self { warm_up: warm_up::asked_for(&self), ..self }
    }

    /// The words of its pages.
    pub fn wording(&self) -> &'static dyn Wording {
        wording::of(self.spec.language.value)
    }

    /// The second language of its pages, if they have one.
    pub fn second(&self) -> Option<Language> {
        self.spec.second_language.map(|given| given.value)
    }

    /// The same lesson in its second language, for a page that says the same as one in the first. What a class calls forms is
    /// in the first language, and is left out.
    pub fn in_second(&self) -> Option<Self> {
        let second = self.spec.second_language?;
        let mut other = self.clone();
        for spec in [&mut other.spec, &mut other.fullest] {
            spec.forms.names = FormNames::default();
            spec.language = second;
            spec.second_language = None;
        }
        other.style = self.style.in_second()?;
        Some(other)
    }

    /// What a form is called on this class's pages: its own word, or the language's for numbers as large as these.
    pub fn form_heading(&self, form: Form) -> &str {
        heading(&self.spec, &self.spec.numbers, &self.spec.forms, form)
    }

    /// What being able to read or write a form is called: the class's word for the form where it has one, or what heads the
    /// column of words of a language.
    pub fn form_skill(&self, form: Form) -> String {
        let own = self.spec.forms.names.get(form).map(str::to_owned);
        let skill = || self.wording().form_skill(form, self.usage().greatest);
        own.or_else(|| self.headed(form)).unwrap_or_else(skill)
    }

    /// What a skill of the quick check is called, in the class's word for its form where it has one.
    pub fn skill_name(&self, skill: Skill) -> String {
        let own = skill.needs().and_then(|form| self.spec.forms.names.get(form)).map(str::to_owned);
        let headed = match skill {
            Skill::Words => self.headed(Form::Words),
            Skill::SecondWords => self.headed(Form::SecondWords),
            _ => None,
        };
        own.or(headed).unwrap_or_else(|| self.wording().skill(skill).to_owned())
    }

    /// What heads the column of number words where they are matched in two languages: "words in Spanish".
    fn headed(&self, form: Form) -> Option<String> {
        let told_apart = self.usage().second.is_some() && matches!(form, Form::Words | Form::SecondWords);
        told_apart.then(|| self.wording().inside(self.form_heading(form)))
    }

    /// What a learner can do after the lesson, in a child's words: the skill of a published standard for these numbers, or
    /// where numbers of different sizes are met, what all can do.
    pub fn can(&self) -> String {
        self.wording().aim(&self.aim(), &self.usage())
    }

    /// The same, before it is said: of parts with other numbers or other forms, what is true of each.
    fn aim(&self) -> Aim {
        let mut aims = self.parts().into_iter().map(|part| self.part_aim(&part));
        let first = aims.next().unwrap_or_else(|| Aim::Can(timing::skill(&self.spec)));
        if aims.all(|aim| aim == first) { first } else { Aim::CanOwn }
    }

    /// What a learner of a part of the class can do after it.
    pub fn part_can(&self, part: &LessonPart<'_>) -> String {
        self.wording().aim(&self.part_aim(part), &self.usage())
    }

    fn part_aim(&self, part: &LessonPart<'_>) -> Aim {
        let skill = timing::skill_to(part.numbers.range.value.1);
        if self.teaches_trading_to(part) { Aim::Trade } else { Aim::Can(skill) }
    }

    /// Whether the lesson is on trading: at least half of the forms that are looked for are traded.
    pub fn teaches_trading(&self) -> bool {
        mostly_traded(self.spec.forms.matched.value.get(1..).unwrap_or_default())
    }

    /// The same for a part of the class, which may match other forms.
    pub fn teaches_trading_to(&self, part: &LessonPart<'_>) -> bool {
        let own = self.sets.iter().find(|set| part.versions.contains(&set.version));
        own.map_or_else(|| self.teaches_trading(), |set| mostly_traded(&set.forms))
    }

    /// Whether any form is traded that learners match or write.
    pub fn trades(&self) -> bool {
        self.matched().iter().any(|form| form.is_traded())
    }

    /// Whether strips have marks on their backs by which learners check their own rows.
    pub fn marks_strips(&self) -> bool {
        self.spec.print.sides.value == SidesAsked::Two && self.makes(SheetKind::Strips)
    }

    /// Whether there are strips that nobody has time to cut: learners write in the boxes of their boards, and the strips stay
    /// whole for another day.
    pub fn keeps_strips_whole(&self) -> bool {
        self.makes(SheetKind::Strips) && self.load().strips == StripUse::Written
    }

    /// What there is time for, where groups have unlike boards of the longest.
    pub fn load(&self) -> Load {
        timing::load(&self.fullest, self.spec.minutes.value)
    }

    /// Whether it is taught to one learner, who has no neighbor and no group.
    pub fn has_one_learner(&self) -> bool {
        self.spec.class.learners.value == 1
    }

    /// How words are spelled that two countries spell differently.
    pub fn spelling(&self) -> Spelling {
        Spelling::from(self.spec.paper.value)
    }

    /// How this class writes numbers and what it calls their forms.
    pub fn usage(&self) -> Usage<'_> {
        let one_learner = self.has_one_learner();
        let spelling = self.spelling();
        let greatest = self.spec.numbers.range.value.1.greatest_place();
        let matched = self.spec.forms.matched.value.contains(&Form::SecondWords);
        let second = self.spec.second_language.as_ref().filter(|_| matched).map(|second| second.value);
        Usage { style: &self.style, names: &self.spec.forms.names, greatest, spelling, second, one_learner }
    }
}

impl Lesson {
    /// What a form is called on a set's pages.
    pub fn set_heading(&self, set: &SortSet, form: Form) -> &str {
        let Some(group) = set.group.and_then(|group| self.groups.get(group)) else { return self.form_heading(form) };
        heading(&self.spec, &group.numbers, &group.forms, form)
    }

    /// The same in the second language, where there is one.
    pub fn second_heading(&self, set: &SortSet, form: Form) -> Option<&'static str> {
        let second = wording::of(self.second()?);
        let group = set.group.and_then(|group| self.groups.get(group));
        let (numbers, forms) = match group {
            Some(group) => (&group.numbers, &group.forms),
            None => (&self.spec.numbers, &self.spec.forms),
        };
        Some(called(second, &self.spec, numbers, forms, form))
    }

    /// Whom the whole class is spoken to as: everyone else, or the group with most learners; none without groups.
    pub fn common_group(&self) -> Option<&LessonGroup> {
        self.groups.iter().max_by_key(|group| (group.name.is_none(), group.learners.len()))
    }

    /// The set whose numbers stand for all where the whole class is spoken to: with groups, of the common one.
    pub fn common_set(&self) -> Option<&SortSet> {
        let version = self.common_group().and_then(|group| group.versions.first());
        self.sets.iter().find(|set| version.is_none_or(|version| set.version == *version)).or(self.sets.first())
    }

    /// Whether some sets have fewer rows than others.
    pub fn has_uneven_sets(&self) -> bool {
        self.sets.windows(2).any(|pair| pair[0].rows.len() != pair[1].rows.len())
    }

    /// The greatest number that any learner may meet.
    pub fn greatest(&self) -> Number {
        let own = self.groups.iter().map(|group| group.numbers.range.value.1);
        own.chain([self.spec.numbers.range.value.1]).max().unwrap_or(Number::MAX)
    }

    /// Who gets which set, and so many spare ones: learners in the order of the roster.
    pub fn seats(&self, spares: u32) -> Vec<Seat> {
        if self.groups.is_empty() || self.sets.is_empty() {
            let versions = self.sets.len().narrow().max(1);
            return deal::deal(self.spec.class.learners.value, spares, versions);
        }
        let own = |group: &LessonGroup| (group.learners.clone(), group.versions.clone());
        deal::deal_groups(&self.groups.iter().map(own).collect::<Vec<_>>(), spares)
    }

    /// What each group works with, in the order of the letters; empty where all get the class's numbers.
    pub fn shares(&self) -> Vec<GroupShare> {
        let share = |group: &LessonGroup| {
            let sets = || self.sets.iter().filter(|set| group.versions.contains(&set.version));
            GroupShare {
                name: group.name.clone(),
                learners: together(&group.learners),
                versions: group.versions.clone(),
                checks: group.checks.clone(),
                rows: sets().map(|set| set.rows.len()).max().unwrap_or(0).narrow(),
                strips: sets().map(|set| set.strips.len()).max().unwrap_or(0).narrow(),
                range: group.numbers.range.value,
            }
        };
        self.groups.iter().map(share).collect()
    }

    /// The group that has a version, where there are groups.
    pub fn group_of(&self, version: Version) -> Option<&LessonGroup> {
        self.groups.iter().find(|group| group.versions.contains(&version))
    }
}

/// Whether at least half of these forms are traded.
fn mostly_traded(sought: &[Form]) -> bool {
    let traded = sought.iter().filter(|form| form.is_traded()).count();
    traded > 0 && traded * 2 >= sought.len()
}

/// What a form is called: the class's own word, or the language's.
fn heading<'s>(spec: &Spec, numbers: &NumbersSpec, forms: &'s FormsSpec, form: Form) -> &'s str {
    let language = wording::of(spec.language.value);
    forms.names.get(form).unwrap_or_else(|| called(language, spec, numbers, forms, form))
}

/// What a form is called in a language. Words say which language they are in where there are words in both.
fn called(
    language: &'static dyn Wording,
    spec: &Spec,
    numbers: &NumbersSpec,
    forms: &FormsSpec,
    form: Form,
) -> &'static str {
    let second = spec.second_language.filter(|_| forms.matched.value.contains(&Form::SecondWords));
    match (form, second) {
        (Form::Words, Some(_)) => language.words_in(spec.language.value),
        (Form::SecondWords, Some(second)) => language.words_in(second.value),
        _ => {
            let greatest = numbers.range.value.1.greatest_place();
            language.form_heading(form, greatest)
        }
    }
}

/// Rising numbers with neighbours drawn together: first and last of each run.
fn together(numbers: &[u32]) -> Vec<(u32, u32)> {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &number in numbers {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == number => *last = number,
            _ => runs.push((number, number)),
        }
    }
    runs
}

#[cfg(test)]
mod tests;
