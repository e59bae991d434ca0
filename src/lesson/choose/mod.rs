//! Choosing numbers exactly: counting all sets that meet the requests, and drawing one evenly.
//!
//! In: a [`Spec`]. Out: the [`Chosen`] numbers of every role and version, with the count of sets each role had to choose
//! from; or, for each role that has none, the smallest group of requests that clash.
//!
//! 1. [`demand`] is what one role asks, and [`constraint`] each thing it asks, with its place in the file.
//! 2. [`count`] counts the sets of each role, exactly, and draws from them evenly. A role without a set is told with the
//!    requests that clash ([`clash`]): the smallest group, and the nearest change of each that has been counted to work.
//! 3. [`joint`] draws model, version A and exit independently until no two share a number, which is even among all
//!    disjoint triples that leave room for the versions. [`versions`] adds B, C ... with the profile of A (the same count
//!    of each feature asked for, the same largest group made of the same digits), as near to it in blocks and letters as
//!    was found. A number that two roles must have overlaps in any case; what `sort.always` names is in every version and
//!    is no overlap among them.
//! 4. [`why`] says what each number is there for. [`memory`] keeps what a desk will ask for again.
//!
//! Only where the range is too tight to keep the sets apart are they *searched* for and not drawn evenly: [`search`] fits
//! them around each other with the least overlap, and says why that is not counted. Everything else is counted. What
//! takes more steps than [`budget`] allows is told as too much: no class needs so much at once.
//!
//! Each purpose has a random stream of its own, no request depends on the order of keys, and all is kept in fixed orders:
//! the same lesson and seed give the same numbers everywhere.

mod budget;
mod clash;
mod constraint;
mod count;
mod demand;
mod joint;
mod memory;
mod search;
mod seats;
mod versions;
mod why;

use std::collections::BTreeMap;
use std::sync::Arc;

pub use clash::{clash, example, ways_out};
pub use constraint::{Constraint, only};
pub use count::{NoSets, Solutions};
pub use demand::{Demand, of as requests};
pub use memory::Memory;
pub use versions::{Work, spread};

use super::{Chosen, Reason, Role};
use crate::diag::{Diagnostic, Source};
use crate::number::{Feature, Number, Place, Style};
use crate::rng::Stream;
use crate::spec::{NumbersSpec, Spec, Version};
use budget::Budget;
use count::{Avoided, Candidates};
use memory::Asked;
use seats::{Counted, Seated, Seating};

/// Chooses the numbers of every role and version, or says for each role that has no set which requests clash.
/// `source` is the text that `spec` was read from.
pub fn choose(spec: &Spec, source: &Arc<Source>) -> Result<Chosen, Vec<Diagnostic>> {
    choose_with(spec, source, &Memory::default())
}

/// The same, with what is remembered of earlier lessons.
pub fn choose_with(spec: &Spec, source: &Arc<Source>, memory: &Memory) -> Result<Chosen, Vec<Diagnostic>> {
    let style = super::style(spec);
    let (versions, seed) = (spec.class.versions.value, spec.seed.value);
    let demands = demands(&spec.numbers);
    let asked = Asked { sorts: sorts(&spec.numbers, &demands, versions), demands, versions, seed, style };
    if let Some(chosen) = memory.chosen(&asked) {
        return Ok(chosen);
    }
    // All roles choose from the same numbers.
    let candidates = asked.demands.first().map(|(_, demand)| memory.candidates(demand)).unwrap_or_default();
    let solutions = |demand: &Demand| {
        let count = || Solutions::new(demand, &candidates, Avoided::default(), &Budget::default());
        memory.solutions(demand, count)
    };
    let mut wrong = Vec::new();
    let mut counted = |role: Role, demand: &Demand| {
        // The quick check wants numbers that something can be asked about, where there are enough of them.
        let mixed = Demand { mixed: true, ..demand.clone() };
        if role == Role::Exit
            && let Ok(solutions) = solutions(&mixed)
        {
            return Some((mixed, solutions));
        }
        match solutions(demand) {
            Ok(solutions) => return Some((demand.clone(), solutions)),
            Err(NoSets::Impossible) => wrong.push(clash::report(&spec.numbers, role, demand, source)),
            Err(NoSets::TooMany) => wrong.push(clash::too_much(&spec.numbers, role, source)),
        }
        None
    };
    // What no version can meet is told once.
    let common = asked.demands.iter().find(|(role, _)| *role == Role::Sort).map(|(_, demand)| demand);
    let hopeful = common.is_none_or(|demand| asked.sorts.is_empty() || counted(Role::Sort, demand).is_some());
    let own = asked.sorts.iter().filter(|_| hopeful);
    let sorts: Vec<Counted> = own.filter_map(|demand| counted(Role::Sort, demand)).collect();
    // The version that asks for most has the least choice: the others follow it.
    let first = (0..sorts.len()).rev().max_by_key(|at| sorts[*at].0.always.len()).unwrap_or(0);
    let mut roles = BTreeMap::new();
    for (role, demand) in &asked.demands {
        let found = if *role == Role::Sort && !asked.sorts.is_empty() {
            apart(&sorts, first, &candidates)
        } else {
            counted(*role, demand)
        };
        roles.extend(found.map(|found| (*role, found)));
    }
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let budget = Budget::default();
    let seating =
        Seating { roles: &roles, sorts: &sorts, first, candidates: &candidates, versions, seed, style, budget };
    let sets = joint::draw(&seating);
    let notes = overlap(&sets).into_iter().chain(unlike(&seating, &sets)).collect();
    let mut chosen = Chosen {
        model: Vec::new(),
        sort: Vec::new(),
        exit: Vec::new(),
        why: reasons(&seating, &sets),
        solutions: roles.iter().map(|(&role, (_, solutions))| (role, solutions.count().to_string())).collect(),
        notes,
    };
    in_order(&mut chosen, sets, seed, style);
    // A lesson without sort numbers still has its versions.
    chosen.sort.resize(versions as usize, Vec::new());
    memory.keep(asked, &chosen);
    Ok(chosen)
}

/// What each role that is not left out asks.
fn demands(numbers: &NumbersSpec) -> Vec<(Role, Demand)> {
    let all = Role::ALL.into_iter().map(|role| (role, Demand::new(numbers, role)));
    all.filter(|(_, demand)| demand.count > 0).collect()
}

/// The version drawn first, without the numbers that others ask for by name, unless it has no set without them.
fn apart(sorts: &[Counted], first: usize, candidates: &Candidates) -> Option<Counted> {
    let (demand, solutions) = sorts.get(first)?;
    let barred = seats::named_elsewhere(sorts, first);
    let avoided = Avoided { barred: Some(&barred), shared: None };
    let without = Solutions::new(demand, candidates, avoided, &Budget::default());
    Some((demand.clone(), without.map_or_else(|_| Arc::clone(solutions), Arc::new)))
}

/// What each version asks of its sort numbers, where one asks for numbers of its own; else nothing.
fn sorts(numbers: &NumbersSpec, demands: &[(Role, Demand)], versions: u32) -> Vec<Demand> {
    let sort = demands.iter().find(|(role, _)| *role == Role::Sort && !numbers.sort.always_in.is_empty());
    let of = |demand: &Demand, version| demand.of_version(numbers, version).unwrap_or_else(|| demand.clone());
    let all = sort.into_iter().flat_map(|(_, demand)| (0..).map(Version).map(|version| of(demand, version)));
    all.take(versions as usize).collect()
}

/// What each number is there for, in all its sets.
fn reasons(seating: &Seating<'_>, sets: &Seated) -> BTreeMap<Number, Vec<Reason>> {
    let mut all: BTreeMap<Number, Vec<Reason>> = BTreeMap::new();
    for (at, (_, set)) in sets.seats.iter().enumerate() {
        let demand = seating.demand_at(&sets.seats, at);
        for &number in set {
            let known = all.entry(number).or_default();
            for reason in why::why(demand, set, number) {
                if !known.contains(&reason) {
                    known.push(reason);
                }
            }
        }
    }
    all
}

/// What to say of versions that are not as hard as the one drawn first, because of what they ask for by name.
fn unlike(seating: &Seating<'_>, sets: &Seated) -> Option<String> {
    let sorts: Vec<&Vec<Number>> =
        sets.seats.iter().filter(|(role, _)| *role == Role::Sort).map(|(_, set)| set).collect();
    let (first, demand) = (sorts.get(seating.first).filter(|_| !seating.sorts.is_empty())?, seating.demand(Role::Sort));
    let profile = demand.profile(first);
    let others = (0..).map(Version).zip(&sorts).filter(|(_, set)| demand.profile(set) != profile);
    let others: Vec<String> = others.map(|(version, _)| version.to_string()).collect();
    let name = Version(u8::try_from(seating.first).unwrap_or(u8::MAX));
    (!others.is_empty()).then(|| {
        let (others, word) =
            (crate::diag::nearest::listed(&others, "and"), if others.len() == 1 { "version" } else { "versions" });
        format!("{word} {others} and version {name} are not equally hard: the numbers in always_in allow no others")
    })
}

/// What to say of numbers used in more than one set.
fn overlap(sets: &Seated) -> Option<String> {
    let used = match sets.overlap {
        0 => return None,
        1 => "1 number is used again in another set".to_owned(),
        many => format!("numbers are used again in other sets {many} times"),
    };
    let least = if sets.proven { "the range allows no fewer" } else { "no choice with fewer was found" };
    Some(format!("{used}: {least}"))
}

/// Puts every set into the order it is used in: models as they are taught, the others mixed.
fn in_order(chosen: &mut Chosen, sets: Seated, seed: u64, style: Style) {
    for (role, mut set) in sets.seats {
        match role {
            Role::Model => {
                taught(&mut set, &style);
                chosen.model = set;
            }
            Role::Sort => {
                shuffle(&mut set, &mut Stream::new(seed, &format!("order {}", chosen.sort.len())));
                chosen.sort.push(set);
            }
            Role::Exit => {
                shuffle(&mut set, &mut Stream::new(seed, "order exit"));
                chosen.exit = set;
            }
        }
    }
}

/// Puts numbers into the order in which they are taught: few places first, then those without a zero, then few blocks.
pub fn taught(set: &mut [Number], style: &Style) {
    set.sort_by_cached_key(|&number| {
        let zero = Place::ALL.into_iter().any(|place| Feature::Zero(place).is_in(number));
        (number.len(), zero, Work::of(number, style), number)
    });
}

/// An order that is neither rising nor falling, where there are enough numbers to avoid that.
fn shuffle(set: &mut [Number], stream: &mut Stream) {
    for _ in 0..16 {
        stream.shuffle(set);
        let trivial = set.is_sorted() || set.iter().rev().is_sorted();
        if !trivial || set.len() < 3 {
            break;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spec(sort: &str) -> (Arc<Source>, Spec) {
        let text = format!(
            "title = \"x\"\nminutes = 200\n[numbers]\nrange = [100, 999]\nmodel.count = 0\nexit.count = 0\n[numbers.sort]\n{sort}"
        );
        let source = Arc::new(Source { name: "x.toml".to_owned(), text });
        let spec = crate::spec::read(&source).expect("a lesson");
        (source, spec)
    }

    /// What is known of the sets after so many steps.
    fn judged(sort: &str, steps: u64) -> Option<NoSets> {
        let (_, spec) = spec(sort);
        let demand = Demand::new(&spec.numbers, Role::Sort);
        Solutions::new(&demand, &Candidates::new(&demand), Avoided::default(), &Budget::of(steps)).err()
    }

    #[test]
    fn work_that_runs_out_is_neither_yes_nor_no() {
        for sort in ["count = 8\nrepeats = 2", "count = 10\nsame_digits = 4"] {
            assert_eq!((judged(sort, 10), judged(sort, budget::STEPS)), (Some(NoSets::TooMany), None), "{sort}");
        }
        let impossible = "count = 4\nteens = { max = 0 }\nalways = [111]";
        assert_eq!(judged(impossible, budget::STEPS), Some(NoSets::Impossible));
    }

    #[test]
    fn what_is_too_much_is_told_at_the_count_with_the_limit() {
        let (source, spec) = spec("count = 8");
        let told = clash::too_much(&spec.numbers, Role::Sort, &source);
        assert_eq!(told.place.map(|place| place.line_column()), Some((8, 9)));
        let want = "what is asked of the 8 sort numbers is too much to work out: it takes more than 50,000,000 steps";
        assert_eq!(told.problem.message, want);
    }

    #[test]
    fn the_largest_requests_end() {
        // It has far more cases than can be gone through.
        let zeros = "zeros = { ones = { min = 10, max = 50 }, tens = { min = 10, max = 50 } }";
        let others =
            "repeats = { min = 20, max = 60 }\nteens = { min = 10, max = 60 }\nsame_digits = { min = 4, max = 6 }";
        let sort = &format!("count = 100\n{zeros}\n{others}");
        assert_eq!(judged(sort, 1_000_000), Some(NoSets::TooMany));
    }
}
