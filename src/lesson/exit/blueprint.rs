//! One blueprint, many papers: which skills, with which two slips each, and which number on which paper.
//!
//! For each skill the items of all numbers are put in groups of one [`Kind`]; the group that serves best is the
//! blueprint's, so that every paper asks the same of numbers of one kind. From it come as many items as there are papers, as near to each other in
//! work (blocks, letters) as can be had. Each exit number stands on its own paper, in the first place where it fits.

use std::collections::{BTreeMap, BTreeSet};
use std::panic::resume_unwind;
use std::thread;

use super::item::{Ask, Item, Kind, Looks};
use super::kinds::Kinds;
use crate::lesson::choose::Work;
use crate::lesson::types::Chosen;
use crate::measure::Count;
use crate::number::{Feature, Features, Number, Place, Skill, Style};
use crate::rng::Stream;
use crate::spec::{Pool, RoleSpec, Spec, TextSize};

/// The most skills on a paper, and on one with large text.
const MOST: usize = 6;
const MOST_LARGE: usize = 4;
/// Fewer skills than these bring in those that stand in for others.
const FEWEST: usize = 4;
/// How many places in the order of explanation a slip falls back for each earlier question that has it.
const AGAIN: usize = 3;
/// From how many numbers of the lesson's range items are made, where it has more.
const SAMPLE: u32 = 900;
/// For fewer numbers a second thread takes longer to begin than the work does.
const MANY: usize = 200;

/// The items of every paper, in the blueprint's order of skills.
pub(super) struct Blueprint {
    pub(super) skills: Vec<Skill>,
    /// One a paper, each with one item a skill.
    pub(super) papers: Vec<Vec<Item>>,
}

/// What a blueprint is drawn from.
struct Draft<'a> {
    spec: &'a Spec,
    chosen: &'a Chosen,
    style: &'a Style,
    /// Numbers that learners have seen in this lesson.
    seen: BTreeSet<Number>,
    wishes: Wishes,
}

/// What the lesson's requests ask of its numbers.
struct Wishes {
    zeros: BTreeSet<Place>,
    repeats: bool,
    teens: bool,
}

impl Wishes {
    fn of(spec: &Spec) -> Self {
        let roles = [&spec.numbers.model, &spec.numbers.sort, &spec.numbers.exit];
        let asks = |role: &RoleSpec, place| role.zeros.get(&place).is_some_and(|bound| bound.value.min > 0);
        let any = |holds: fn(&RoleSpec) -> bool| roles.iter().any(|role| holds(role));
        Self {
            zeros: Place::ALL.into_iter().filter(|place| roles.iter().any(|role| asks(role, *place))).collect(),
            repeats: any(|role| role.repeats.is_some_and(|bound| bound.value.min > 0)),
            teens: any(|role| role.teens.is_some_and(|bound| bound.value.min > 0)),
        }
    }

    /// How well a number shows what this skill is asked about: 2 as the lesson asks for it, 1 nearly, 0 not.
    fn met(&self, skill: Skill, number: Number) -> u8 {
        let features = Features::of(number);
        let zero_in = |place: &Place| features.has(Feature::Zero(*place));
        let inner = Place::ALL[1..].iter().any(zero_in);
        let asked = self.zeros.iter().any(zero_in);
        let zero = if asked || self.zeros.is_empty() && inner { 2 } else { u8::from(inner) };
        match skill {
            Skill::Words | Skill::SecondWords | Skill::Reading | Skill::Worth if self.teens => {
                2 * u8::from(features.has(Feature::Teen))
            }
            Skill::Expanded | Skill::Joining | Skill::Picture if self.repeats => {
                2 * u8::from(features.has(Feature::Repeat))
            }
            Skill::Words | Skill::SecondWords | Skill::Zero => zero,
            Skill::Worth
            | Skill::Picture
            | Skill::Expanded
            | Skill::Joining
            | Skill::Reading
            | Skill::Regrouping
            | Skill::Trading
            | Skill::Compare => 0,
        }
    }
}

/// Draws the blueprint of a lesson: a paper for each exit number. Skills that no number of the lesson can show are left out.
pub(super) fn draw(spec: &Spec, chosen: &Chosen, style: &Style) -> Blueprint {
    let seen = chosen.built().collect();
    let draft = Draft { spec, chosen, style, seen, wishes: Wishes::of(spec) };
    let mut stream = Stream::new(spec.seed.value, "checks");
    let pool: Vec<(Number, Looks)> = draft.pool(&mut stream).into_iter().map(|of| (of, Looks::of(of))).collect();
    let mut open: Vec<(Skill, Vec<Ask>)> = Vec::new();
    let matched = &spec.forms.matched.value;
    let most = if spec.print.text.value == TextSize::Large { MOST_LARGE } else { MOST };
    let allowed = Pool::new(&spec.numbers);
    let asks = |skill: Skill, numbers: &[(Number, Looks)]| {
        let allows = |number: Number| allowed.holds(number);
        Ask::all(skill, numbers, &allows, style)
    };
    let taught = |skill: &Skill| skill.needs().is_none_or(|form| matched.contains(&form));
    let skills: Vec<Skill> = Skill::BY_NEED.into_iter().filter(taught).collect();
    // Those that are asked about for certain, unless no number shows them.
    let certain = skills.iter().take(most).take_while(|skill| !skill.stands_in()).count();
    let mut found = shared(&skills[..certain], &pool, asks).into_iter();
    for skill in skills {
        if open.len() == most || (skill.stands_in() && open.len() >= FEWEST) {
            continue;
        }
        let mut asks = found.next().unwrap_or_else(|| asks(skill, &pool));
        few_pieces(&mut asks, chosen.exit.len(), style);
        if !asks.is_empty() {
            open.push((skill, asks));
        }
    }
    open.sort_by_key(|(skill, _)| *skill);
    draft.papers(open, &mut stream)
}

/// What each of these skills asks, each of two threads looking at half of the numbers where they are many: nothing else can be done
/// before a lesson is planned.
fn shared<'n>(
    skills: &[Skill],
    numbers: &'n [(Number, Looks)],
    asks: impl Fn(Skill, &'n [(Number, Looks)]) -> Vec<Ask> + Sync,
) -> Vec<Vec<Ask>> {
    let all = |part| skills.iter().map(|skill| asks(*skill, part)).collect::<Vec<_>>();
    if numbers.len() < MANY {
        return all(numbers);
    }
    let (one, other) = numbers.split_at(numbers.len() / 2);
    thread::scope(|scope| {
        let other = scope.spawn(|| all(other));
        let mut found = all(one);
        for (asks, more) in found.iter_mut().zip(other.join().unwrap_or_else(|panic| resume_unwind(panic))) {
            asks.extend(more);
        }
        found
    })
}

/// Of trades those of one piece, as they are first taught; of two pieces and more only where the numbers have too few for all
/// papers.
fn few_pieces(asks: &mut Vec<Ask>, papers: usize, style: &Style) {
    let pieces = |ask: &Ask| ask.task.pieces_traded(ask.of, style);
    let most = asks.iter().map(pieces).max().unwrap_or(0);
    let enough = |least: &u32| {
        let numbers: BTreeSet<Number> = asks.iter().filter(|ask| pieces(ask) <= *least).map(|ask| ask.of).collect();
        numbers.len() >= papers
    };
    if let Some(most) = (0..most).find(enough) {
        asks.retain(|ask| pieces(ask) <= most);
    }
}

impl Draft<'_> {
    /// The numbers that items are made from: all of the lesson's, or an even draw from them; exit numbers always.
    fn pool(&self, stream: &mut Stream) -> Vec<Number> {
        let numbers = Pool::new(&self.spec.numbers);
        let (least, most) = self.spec.numbers.range.value;
        let wide = most.value() - least.value() + 1;
        let mut pool: BTreeSet<Number> = self.chosen.exit.iter().copied().collect();
        if wide <= SAMPLE {
            pool.extend(numbers.numbers());
        } else {
            let drawn = (0..SAMPLE).filter_map(|_| {
                let above = stream.below(wide.into()).narrow();
                Number::new(least.value() + above).filter(|number| numbers.holds(*number))
            });
            pool.extend(drawn);
        }
        pool.into_iter().collect()
    }

    /// Chooses a kind for each skill and deals its items out to the papers.
    fn papers(&self, open: Vec<(Skill, Vec<Ask>)>, stream: &mut Stream) -> Blueprint {
        let count = self.chosen.exit.len();
        let mut slots: Vec<Slot> = Vec::new();
        for (skill, asks) in open {
            let slot = self.slot(skill, asks, count, &slots);
            slots.extend(slot);
        }
        let mut papers: Vec<Vec<Option<Item>>> = vec![vec![None; slots.len()]; count];
        for (paper, &number) in papers.iter_mut().zip(&self.chosen.exit) {
            // In the kind that all papers share if it can be, else with the same slips, else wherever it can be asked about.
            let exact = |slot: &Slot, item: &Item| item.kind == slot.kind;
            let alike = |slot: &Slot, item: &Item| item.kind.slips == slot.kind.slips;
            let any = |_: &Slot, _: &Item| true;
            let fits: [&dyn Fn(&Slot, &Item) -> bool; 3] = [&exact, &alike, &any];
            let found = fits.iter().find_map(|fits| {
                slots.iter().enumerate().find_map(|(at, slot)| {
                    let own = slot.asks.iter().filter(|ask| ask.of == number).flat_map(Ask::items);
                    let best = own.filter(|(_, item)| fits(slot, item)).min_by_key(|(rank, _)| *rank);
                    best.map(|(_, item)| (at, item))
                })
            });
            if let Some((at, item)) = found {
                paper[at] = Some(item);
            }
        }
        let mut used: BTreeSet<Number> = self.chosen.exit.iter().copied().collect();
        let mut works = Works { style: self.style, known: BTreeMap::new() };
        for at in 0..slots.len() {
            let kind = slots[at].kind;
            let mut own: Vec<Item> = slots[at].asks.iter().filter_map(|ask| ask.with(kind.slips)).collect();
            stream.shuffle(&mut own);
            // The work that the others come near to: of an exit number's item, or of any of the kind.
            let goal =
                papers.iter().filter_map(|paper| paper[at].as_ref()).find(|item| item.kind == kind).map(|item| item.of);
            let goal = goal.or_else(|| own.iter().find(|item| item.kind == kind).map(|item| item.of));
            if let Some(goal) = goal {
                let goal = works.of(goal);
                own.sort_by_cached_key(|item| (item.kind != kind, works.of(item.of).apart(goal)));
            }
            for paper in &mut papers {
                if paper[at].is_some() {
                    continue;
                }
                let suits = |item: &&Item| paper.iter().flatten().all(|other| !item.tells(other));
                let fresh = |item: &&Item| !used.contains(&item.of);
                let unseen = |item: &&Item| !self.seen.contains(&item.of);
                let same = |item: &&Item| item.kind == kind;
                let item = own.iter().find(|item| same(item) && fresh(item) && unseen(item) && suits(item));
                let item = item.or_else(|| own.iter().find(|item| fresh(item) && unseen(item) && suits(item)));
                let item = item.or_else(|| own.iter().find(|item| fresh(item) && suits(item)));
                let item = item.or_else(|| own.iter().find(suits)).copied();
                used.extend(item.iter().map(|item| item.of));
                paper[at] = item;
            }
        }
        // A skill that some paper cannot ask about is left out of all.
        let whole: Vec<bool> = (0..slots.len()).map(|at| papers.iter().all(|paper| paper[at].is_some())).collect();
        let kept = |at: &usize| whole[*at];
        Blueprint {
            skills: (0..slots.len()).filter(kept).map(|at| slots[at].skill).collect(),
            papers: papers
                .into_iter()
                .map(|paper| {
                    paper.into_iter().enumerate().filter(|(at, _)| kept(at)).filter_map(|(_, item)| item).collect()
                })
                .collect(),
        }
    }

    /// The kind that serves a skill best: enough numbers for all papers that learners have not seen, what the lesson
    /// asks for, and the likeliest slips that no earlier question has.
    fn slot(&self, skill: Skill, asks: Vec<Ask>, count: usize, before: &[Slot]) -> Option<Slot> {
        let again = |kind: &Kind| {
            let known = before.iter().flat_map(|slot| slot.kind.slips);
            known.filter(|slip| kind.slips.contains(slip)).count()
        };
        let mut kinds = Kinds::of(asks.first()?.task.provokes());
        // All that is asked of a number stands side by side.
        for asks in asks.chunk_by(|one, next| one.of == next.of) {
            let Some(&Ask { of, .. }) = asks.first() else { continue };
            let (is_new, met) = (!self.seen.contains(&of), self.wishes.met(skill, of));
            for ask in asks {
                kinds.add(ask, is_new, met);
            }
        }
        let best = kinds.all().max_by_key(|(kind, serves)| {
            let rank = std::cmp::Reverse(serves.rank + AGAIN * again(kind));
            (serves.numbers.min(count), serves.met, rank, serves.numbers, *kind)
        });
        let (kind, _) = best?;
        Some(Slot { skill, kind, asks })
    }
}

/// A skill's place on every paper.
struct Slot {
    skill: Skill,
    kind: Kind,
    /// All that could be asked, number by number.
    asks: Vec<Ask>,
}

/// What numbers take, in blocks to build and letters to read: worked out once for all skills.
struct Works<'a> {
    style: &'a Style,
    known: BTreeMap<Number, Work>,
}

impl Works<'_> {
    fn of(&mut self, number: Number) -> Work {
        *self.known.entry(number).or_insert_with(|| Work::of(number, self.style))
    }
}
