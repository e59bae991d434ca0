//! The end of the lesson: sharing, the quick check and clearing away.

use super::building::{empty_places, places};
use super::means::Means;
use super::opening::twins;
use super::script::Script;
use super::sorting::same_digits;
use super::steps::Seen;
use crate::lesson::Wrong;
use crate::lesson::exit::{Check, Question};
use crate::lesson::job::KITS;
use crate::lesson::timing::{self, StripUse};
use crate::measure::Count;
use crate::number::{Content, Form, Number, Place, Slip, Task, Trading};
use crate::spec::SheetKind;
use crate::wording::cover::Papers;
use crate::wording::plan::{Asked, Deed, Laid, Right, Said, Undone};

/// Wrong choices that the plan explains; the key has them all.
const WRONG_NAMED: usize = 2;

/// Learners compare what they did.
pub(super) fn sharing(script: &mut Script<'_>) -> Vec<Laid> {
    let rows = script.sort();
    let strips = script.has(SheetKind::Strips) && script.load.strips != StripUse::Written;
    script.act(if strips { Deed::StopStrips } else { Deed::StopPencils });
    let zeros = |n: &Number| empty_places(*n).len();
    let zero = rows.iter().copied().filter(|n| n.len() > 1 && zeros(n) > 0).min_by_key(zeros);
    // Two numbers that differ late are the ones worth comparing; those that were told apart before are not compared again.
    let pairs = || rows.iter().enumerate().flat_map(|(k, a)| rows[k + 1..].iter().map(move |b| (*a, *b)));
    let alike = |(a, b): &(Number, Number)| a.len() == b.len() && a != b;
    let pair = same_digits(rows).into_iter().chain(pairs()).filter(alike).find(|(a, b)| !script.told_apart(*a, *b));
    // A lesson on trading ends with a trade, any other with a digit.
    let single = |n: &Number| Some(Asked::Regrouped(*n, Trading::ANY.single(*n, 1)?));
    let mut trades: Vec<Asked> = rows.iter().filter_map(single).filter(|asked| !script.has_asked(asked)).collect();
    // What the number's own strip shows was asked for there: another comes first.
    let shown = |n: Number| script.style().trading.regrouped(n);
    trades.sort_by_key(|asked| matches!(asked, Asked::Regrouped(n, counted) if shown(*n) == Some(*counted)));
    let last = if script.lesson.teaches_trading() { trades.into_iter().next() } else { twins(rows, None) };
    // Where learners do not write sums, a zero is asked about in the numeral.
    let sums = script.lesson.spec.forms.matched.value.contains(&Form::Expanded);
    let several = |n: &Number| n.parts().count() > 1;
    let zero = zero.map(|n| if sums && several(&n) { Asked::ZeroParts(n) } else { Asked::WhyZero(n) });
    let decoy = if strips { a_decoy(script) } else { None };
    let mut all: Vec<Asked> = pair.map(|(a, b)| Asked::Greater(a, b)).into_iter().chain(zero).chain(last).collect();
    all.extend(decoy);
    all.retain(|asked| !script.has_asked(asked));
    // The wrong strip is explained in any case; a lesson on trading has its trade too, any other compares two numbers first.
    let keeps = if script.lesson.teaches_trading() { 3 } else { 2 };
    while all.len() > timing::shared_questions(script.minutes).max(2) as usize {
        all.remove(all.len() - keeps);
    }
    // Whoever has another set sees there what is asked.
    if !script.one_set() {
        script.write_all(all.iter().flat_map(numbers));
    }
    for asked in all {
        script.ask(asked);
    }
    script.act(Deed::ShowRows { rows: strips || script.has(SheetKind::Board) });
    Vec::new()
}

/// The numbers that a question at the end is about.
fn numbers(asked: &Asked) -> Vec<Number> {
    match asked {
        Asked::Greater(a, b) | Asked::Twins(_, (a, _), (b, _), _) => vec![*a, *b],
        Asked::ZeroParts(n) | Asked::WhyZero(n) | Asked::Regrouped(n, _) | Asked::WentWrong(n, ..) => vec![*n],
        _ => Vec::new(),
    }
}

/// One decoy, shown to all: thinking about a wrong strip teaches more than seeing right ones.
fn a_decoy(script: &Script<'_>) -> Option<Asked> {
    let set = script.lesson.common_set()?;
    let rows = script.rows(set);
    // The question says the numeral: it is not asked what a wrong one should be.
    let asked = |wrong: &Wrong| wrong.content.line().is_some() && wrong.task.asked() != Form::Numeral;
    let texts = set.decoys().into_iter().filter(asked);
    // The last of the plainest: the first ones were explained while learners worked.
    let fewest = |wrong: &Wrong| wrong.task.pieces_traded(wrong.of, script.style()).max(1);
    let decoy = texts.filter(|wrong| rows.contains(&wrong.of)).rev().min_by_key(fewest);
    decoy.map(|wrong| Asked::WentWrong(wrong.of, wrong.task.asked(), wrong.content, wrong.slip))
}

/// The quick check.
pub(super) fn exit(script: &mut Script<'_>) -> Vec<Laid> {
    let checks = &script.lesson.checks;
    let on_paper = script.means.questions;
    let most = script.load.questions.min(on_paper).max(1) as usize;
    if !script.has(SheetKind::Exit) {
        // The sheet of paper on which numbers were worked is used on.
        let same = script.load.together && !script.has(SheetKind::Record);
        script.say(Said::CheckAloud { same });
        for question in aloud(checks, most) {
            script.ask(said_aloud(question));
        }
        return vec![Laid::Paper];
    }
    let shares = script.lesson.shares();
    script.act(if shares.is_empty() {
        Deed::GiveChecks { several: checks.len() > 1 }
    } else {
        Deed::GiveGroupChecks(shares)
    });
    let shown = || checks.iter().flat_map(|check| check.questions.iter().take(most));
    let marks = shown().any(|question| !question.choices.is_empty());
    let writes = shown().any(|question| question.choices.is_empty());
    script.say(Said::CheckRules { marks, writes });
    // Who drew so far, and cut no pictures, meets the pieces here.
    let pictures: Vec<Number> = shown().filter(|question| question.has_blocks()).map(|question| question.of).collect();
    let unnamed = places(&pictures).into_iter().filter(|place| !script.has_named(*place)).collect::<Vec<_>>();
    if !unnamed.is_empty() {
        let blocks = script.has(SheetKind::Blocks) || script.lesson.has_tub();
        script.say(if blocks { Said::BlocksWorth(unnamed) } else { Said::PicturesWorth(unnamed) });
    }
    if most < on_paper as usize {
        script.say(Said::QuestionsToday(most.narrow()));
    }
    script.act(Deed::ReadAloud);
    wrong_choices(script, checks, most);
    if !script.has(SheetKind::Key) {
        for check in checks {
            let right = |question: &Question| match question.letter() {
                Some(letter) => Right::Letter(letter),
                None => Right::Written(question.answer.clone()),
            };
            let asked = check.questions.iter().take(on_paper as usize);
            script.act(Deed::CheckAnswers(check.mark, asked.map(right).collect()));
        }
    }
    vec![Laid::OnlyPencils]
}

/// A wrong choice for each of a few slips.
fn wrong_choices(script: &mut Script<'_>, checks: &[Check], most: usize) {
    let mut named = Vec::new();
    let common = script.lesson.common_group();
    let first = |check: &&Check| common.is_none_or(|group| group.checks.contains(&check.mark));
    let rest = checks.iter().filter(|check| !first(check));
    for check in checks.iter().filter(first).chain(rest) {
        for (number, question) in (1..).zip(check.questions.iter().take(most)) {
            // What was explained before is in the key.
            let fresh = |slip: Slip| !named.contains(&slip) && !script.is_explained(slip);
            let Some((letter, choice, slip)) = question.wrong().find(|(_, _, slip)| fresh(*slip)) else {
                continue;
            };
            if named.len() == if script.minutes > 2 { WRONG_NAMED } else { 1 } {
                return;
            }
            named.push(slip);
            let wrong = Wrong { of: question.of, task: question.task, content: choice.content.clone(), slip };
            script.watch(Seen::Choice { check: check.mark, question: number, letter }, wrong);
        }
    }
}

/// Questions that can be asked without paper: those of the first check that show no picture.
fn aloud(checks: &[Check], most: usize) -> impl Iterator<Item = &Question> {
    let told = |question: &&Question| !matches!(question.shown, Some(Content::Blocks(_)));
    checks.iter().take(1).flat_map(|check| &check.questions).filter(told).take(most)
}

/// A question of a check, said aloud instead of chosen.
fn said_aloud(question: &Question) -> Asked {
    match (question.shown.as_ref().and_then(Content::line), question.task) {
        (Some(text), _) => Asked::Written(text.to_owned(), question.of),
        (_, Task::Forms { asked: Form::Words | Form::SecondWords, .. }) => Asked::Words(question.of),
        (_, Task::Forms { asked: Form::Expanded, .. }) => Asked::Expanded(question.of),
        (_, Task::Forms { .. }) => Asked::Read(question.of),
        (_, Task::Worth(place)) => Asked::Worth(question.of, place),
        (_, Task::Greater(other)) => Asked::Greater(question.of, other),
    }
}

/// The sheets that learners hand in besides their answers: those they wrote on, and strips that nobody cut.
pub fn handed_in(means: &Means<'_>) -> Vec<SheetKind> {
    let lesson = means.lesson;
    let load = lesson.load();
    let used = |kind: &SheetKind| match kind {
        SheetKind::Record => load.together || load.models > 0,
        SheetKind::Strips => load.strips == StripUse::Written,
        _ => load.rows > 0,
    };
    let kinds = [SheetKind::Record, SheetKind::Board, SheetKind::Strips];
    kinds.into_iter().filter(|kind| means.has(*kind) && used(kind)).collect()
}

/// Whether strips go into envelopes at the end.
pub fn bags_strips(means: &Means<'_>) -> bool {
    means.has(SheetKind::Strips) && means.lesson.load().bags_strips()
}

/// What may be left undone where the lesson is short for all it has.
fn undone(script: &Script<'_>) -> Vec<Undone> {
    let (spec, load) = (&script.lesson.fullest, &script.load);
    if timing::told(spec, script.means.questions).is_none() {
        return Vec::new();
    }
    let rows = if script.has(SheetKind::Board) { Undone::Rows } else { Undone::Numbers };
    let questions = load.questions < timing::questions(spec).min(script.means.questions);
    [(load.rows > 0, rows), (questions, Undone::Questions)]
        .into_iter()
        .filter_map(|(is, what)| is.then_some(what))
        .collect()
}

/// Everything goes back.
pub(super) fn clearing(script: &mut Script<'_>) -> Vec<Laid> {
    let spec = &script.lesson.spec;
    let learners = spec.class.learners.value;
    let sorted = script.load.rows > 0 && script.has(SheetKind::Strips);
    if sorted && script.load.strips == StripUse::Cut {
        script.act(Deed::CountScissors(learners));
    }
    if bags_strips(script.means) {
        script.act(Deed::BagStrips);
    }
    let kit: Vec<SheetKind> = KITS.into_iter().filter(|kind| script.has(*kind)).collect();
    if !kit.is_empty() && script.load.models + script.load.rows > 0 {
        script.act(Deed::PutAway(kit));
    }
    if script.model().iter().any(|n| script.means.built_with(*n) == super::means::BuiltWith::Tub) {
        script.act(Deed::BlocksToTub);
    }
    if script.load.questions > 0 {
        let papers = if script.has(SheetKind::Exit) { Papers::Checks } else { Papers::Answers };
        script.act(Deed::Collect { count: learners, papers });
    }
    let kept = handed_in(script.means);
    if !kept.is_empty() {
        script.act(Deed::CollectSheets(kept));
    }
    let home: Vec<SheetKind> =
        [SheetKind::Practice, SheetKind::Family].into_iter().filter(|kind| script.has(*kind)).collect();
    if !home.is_empty() {
        script.hand_out(&home);
        script.act(Deed::TakeHome(home));
    }
    let undone = undone(script);
    if !undone.is_empty() {
        script.act(Deed::NoteUndone(undone));
    }
    if script.minutes > 1 {
        last_word(script);
    }
    Vec::new()
}

/// A digit of one of the class's own numbers that was not asked about yet; a digit of the ones last.
fn last_word(script: &mut Script<'_>) {
    // Nobody has told of tens where only 10 has any.
    if script.lesson.spec.numbers.counts_to_ten() {
        return;
    }
    // Where learners have different sets, all know the model numbers only, and what stands on the board.
    let own = script.sort().iter().filter(|number| script.one_set() || script.is_on_board(**number));
    let numbers = script.model().iter().chain(own).copied().filter(|n| n.len() > 1);
    // Of a digit that the numeral has twice the answer would be half in the question.
    let told = |n: Number, digit: u8| digit > 0 && n.digits().filter(|(_, other)| *other == digit).count() == 1;
    let digits =
        numbers.flat_map(|n| n.digits().filter(move |(_, digit)| told(n, *digit)).map(move |(place, _)| (n, place)));
    let mut fresh: Vec<(Number, Place)> = digits.filter(|(n, place)| !script.knows_worth(*n, *place)).collect();
    fresh.sort_by_key(|(_, place)| *place == Place::Ones);
    script.ask_one(fresh.first().map(|(n, place)| Asked::DigitAt(*n, *place)));
}
