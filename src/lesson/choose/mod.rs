//! Choosing numbers exactly: counting all sets that meet the requests, and drawing one evenly.
//!
//! In: a [`Spec`]. Out: the [`Chosen`] numbers of every role and version, with the count of sets each role had to choose
//! from; or, for each role that has none, the smallest group of requests that clash.
//!
//! # One role
//!
//! What a request sees of a number is its *family* (the digits it is made of) and its *features* (a 0 shown in a place, a
//! digit twice, a teen). [`stock`] sorts the numbers of the range by both; members of such a class are interchangeable, so
//! taking j of n counts C(n, j) ways. [`rules`] turns the requests into counters that stop at the least number asked for,
//! or die above the most; [`state`] packs them a byte each. Only `same_digits` looks at whole families: then the numbers
//! of a family form a unit with a rule of its own for how many may be taken, and families with equal classes are
//! interchangeable in turn ([`cell`]): i of N of them count C(N, i) ways. [`net`] runs through the units group by group,
//! keeping every tally that can be reached; a counter that no later group can touch is settled and forgotten, which keeps
//! the layers small. Going back from the end, each tally gets the exact number of ways to complete it. The number in
//! front of the first group is the count of all sets; a draw follows it down again, taking each step as often as the ways
//! behind it say, so every set is equally likely. Integers are as wide as the bound C(pool, count) demands, so nothing
//! overflows ([`tally`], [`wide`]).
//!
//! `look_alikes` ties all numbers of a set together and has no such counters. Below 100 a look-alike can only be the number
//! turned around, which is a rule for families again. Elsewhere ([`alike`]) the sets are listed when there are few; when
//! there are many they are *not counted* (the role is then missing in [`Chosen::solutions`], and a note says so): a set
//! without the request is drawn until one meets it, which is even all the same, and a search decides whether there is
//! one. Only where a set in tens of thousands of draws does not turn up is the set of the search taken, which is not even.
//!
//! Where a role asks for so much at once that counting its sets takes more than [`meter`] allows, they are not counted
//! either: a [`walk`] trades numbers until all is met, and goes on until its beginning is forgotten, which is nearly even.
//! It cannot prove that there is none; only then is a lesson told to be too much.
//!
//! # All roles and versions
//!
//! Model, version A and exit are drawn evenly and independently until no two share a number: even among all disjoint
//! triples that leave room for the versions. Versions B, C ... are drawn from the sets with the same *profile* as A (the
//! same count of each feature asked for, the same largest group), disjoint from all before; of several the nearest in
//! blocks and letters is taken and brought nearer by trading numbers ([`versions`]). A number that two roles must have
//! overlaps in any case; what `sort.always` names is in every version and is no overlap among them.
//!
//! In a tight range [`joint`] redraws one set at a time so that it shares as few numbers as possible with the rest, and
//! [`deal`] looks exactly for less overlap or proves that there is none.
//!
//! # Clashes
//!
//! [`clash`] leaves requests out by halves until a minimal group is left, and tries each request of it softer, nearest
//! first, on the whole role: what it suggests has been counted.
//!
//! Each purpose has a random stream of its own, no request depends on the order of keys, and tables are kept in fixed
//! orders: the same lesson and seed give the same numbers everywhere.

mod alike;
mod ask;
mod cell;
mod clash;
mod deal;
mod demand;
mod joint;
mod meter;
mod nearest;
mod net;
mod pool;
mod rules;
mod sampler;
mod scan;
mod state;
mod stock;
mod tally;
mod versions;
mod walk;
mod why;
mod wide;

use std::collections::BTreeMap;
use std::sync::Arc;

pub use ask::{Ask, only};
pub use clash::{clash, example, ways_out};
pub use demand::{Demand, Facts, Feature, alike};
pub use nearest::look_alikes;
pub use sampler::Sampler;
pub use versions::{Work, spread};

use super::{Chosen, Reason, Role};
use crate::diag::{Diagnostic, Problem, Severity, Source};
use crate::number::{Number, Style};
use crate::rng::Stream;
use crate::spec::{NumbersSpec, Spec};
use demand::number;
use joint::{Sets, Table};
use pool::OPEN;
use stock::Stock;

/// Chooses the numbers of every role and version, or says for each role that has no set which requests clash.
/// `source` is the text that `spec` was read from.
pub fn choose(spec: &Spec, source: &Arc<Source>) -> Result<Chosen, Vec<Diagnostic>> {
    let roles = roles(&spec.numbers);
    // All roles choose from the same numbers.
    let stock = roles.values().next().map(Stock::new).unwrap_or_default();
    let sampler = |demand: &Demand| Sampler::or_walk(demand, &stock, OPEN);
    let samplers: BTreeMap<Role, Sampler> = roles.iter().map(|(&role, demand)| (role, sampler(demand))).collect();
    let judged = roles.iter().filter_map(|(&role, demand)| match samplers[&role].has_any() {
        Some(true) => None,
        Some(false) => Some(clash::report(&spec.numbers, role, demand, source)),
        None => Some(clash::too_much(&spec.numbers, role, source)),
    });
    let wrong: Vec<Diagnostic> = judged.collect();
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let style = super::style(spec);
    let versions = spec.class.versions.value;
    let table = Table { demands: &roles, stock: &stock, samplers: &samplers, versions, seed: spec.seed.value, style };
    let Some(sets) = table.draw() else {
        if stock.meter.is_spent() || samplers.values().any(Sampler::walks) {
            let hardest = roles.iter().max_by_key(|(_, demand)| (demand.look_alikes, demand.count));
            return Err(hardest.map(|(&role, _)| clash::too_much(&spec.numbers, role, source)).into_iter().collect());
        }
        let problem = Problem::new("internal: there are sets, but none was drawn").hint("please report this lesson");
        return Err(vec![Diagnostic { severity: Severity::Error, place: None, problem, related: Vec::new() }]);
    };
    let mut chosen = Chosen {
        model: Vec::new(),
        sort: Vec::new(),
        exit: Vec::new(),
        why: reasons(&roles, &sets),
        solutions: BTreeMap::new(),
        notes: Vec::new(),
    };
    for (&role, sampler) in &samplers {
        if let Some(count) = sampler.count() {
            chosen.solutions.insert(role, count.to_string());
            continue;
        }
        let tied = "look_alikes ties their numbers together";
        let why = if sampler.walks() { "there is too much to go through" } else { tied };
        chosen.notes.push(format!("the possible {} sets are not counted: {why}", role.word()));
    }
    chosen.notes.extend(overlap(&sets));
    seat(&mut chosen, sets, spec.seed.value, style);
    // A lesson without sort numbers still has its versions.
    chosen.sort.resize(versions as usize, Vec::new());
    Ok(chosen)
}

/// What each role that is not left out asks.
fn roles(numbers: &NumbersSpec) -> BTreeMap<Role, Demand> {
    let asked = Role::ALL.into_iter().filter(|&role| demand::of(numbers, role).count.value > 0);
    asked.map(|role| (role, Demand::new(numbers, role))).collect()
}

/// What each number is there for, in all its sets.
fn reasons(roles: &BTreeMap<Role, Demand>, sets: &Sets) -> BTreeMap<Number, Vec<Reason>> {
    let mut all: BTreeMap<Number, Vec<Reason>> = BTreeMap::new();
    for (role, set) in &sets.seats {
        for &value in set {
            let known = all.entry(number(value)).or_default();
            for reason in why::why(&roles[role], set, value) {
                if !known.contains(&reason) {
                    known.push(reason);
                }
            }
        }
    }
    all
}

/// What to say of numbers used in more than one set.
fn overlap(sets: &Sets) -> Option<String> {
    let used = match sets.overlap {
        0 => return None,
        1 => "1 number is used again in another set".to_owned(),
        many => format!("numbers are used again in other sets {many} times"),
    };
    let least = if sets.proven { "the range allows no fewer" } else { "no choice with fewer was found" };
    Some(format!("{used}: {least}"))
}

/// Puts every set into the order it is used in: models as they are taught, the others mixed.
fn seat(chosen: &mut Chosen, sets: Sets, seed: u64, style: Style) {
    for (role, mut set) in sets.seats {
        match role {
            Role::Model => {
                // Few places first, then those without a zero, then few blocks.
                set.sort_by_key(|&value| {
                    let easy = number(value);
                    (easy.len(), easy.digits().any(|(_, digit)| digit == 0), Work::of(easy, &style), value)
                });
                chosen.model = set.into_iter().map(number).collect();
            }
            Role::Sort => {
                shuffle(&mut set, &mut Stream::new(seed, &format!("order {}", chosen.sort.len())));
                chosen.sort.push(set.into_iter().map(number).collect());
            }
            Role::Exit => {
                shuffle(&mut set, &mut Stream::new(seed, "order exit"));
                chosen.exit = set.into_iter().map(number).collect();
            }
        }
    }
}

/// An order that is neither rising nor falling, where there are enough numbers to avoid that.
fn shuffle(set: &mut [u32], stream: &mut Stream) {
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
    use crate::lesson::choose::meter::Meter;
    use crate::lesson::choose::pool::Taken;
    use std::collections::BTreeSet;

    fn spec(sort: &str) -> (Arc<Source>, Spec) {
        let text = format!(
            "title = \"x\"\nminutes = 200\n[numbers]\nrange = [100, 999]\nmodel.count = 0\nexit.count = 0\n[numbers.sort]\n{sort}"
        );
        let source = Arc::new(Source { name: "x.toml".to_owned(), text });
        let spec = crate::spec::read(&source).expect("a lesson");
        (source, spec)
    }

    /// What a sampler knows after so many steps.
    fn judged(sort: &str, units: u64) -> Option<bool> {
        let (_, spec) = spec(sort);
        let demand = Demand::new(&spec.numbers, Role::Sort);
        Sampler::new(&demand, &Stock::metered(&demand, &Meter::of(units)), OPEN).has_any()
    }

    #[test]
    fn work_that_runs_out_is_neither_yes_nor_no() {
        for sort in ["count = 8\nrepeats = 2", "count = 6\nlook_alikes = 2", "count = 10\nsame_digits = 4"] {
            assert_eq!((judged(sort, 50), judged(sort, 100_000_000)), (None, Some(true)), "{sort}");
        }
        assert_eq!(judged("count = 4\nteens = { max = 0 }\nalways = [111]", 100_000_000), Some(false));
    }

    #[test]
    fn what_is_too_much_is_told_at_the_count_with_the_limit() {
        let (source, spec) = spec("count = 8");
        let told = clash::too_much(&spec.numbers, Role::Sort, &source);
        assert_eq!(told.place.map(|place| place.line_column()), Some((8, 9)));
        let want = "what is asked of the 8 sort numbers is too much to work out: it takes more than 300,000,000 steps";
        assert_eq!(told.problem.message, want);
    }

    #[test]
    fn the_largest_requests_end() {
        // Each of these has far more cases than can be gone through.
        for sort in [
            "count = 100\nlook_alikes = 40\nrepeats = { max = 3 }",
            "count = 100\nsame_digits = { min = 7, max = 7 }\nzeros = { ones = { min = 40, max = 50 }, tens = { min = 40, max = 50 } }\nrepeats = { min = 50, max = 60 }",
        ] {
            assert_eq!(judged(sort, 2_000_000), None, "{sort}");
        }
    }

    #[test]
    fn much_that_a_teacher_may_ask_is_met_though_not_counted() {
        for sort in [
            "count = 12\nlook_alikes = 2\nsame_digits = 3\nrepeats = 4\nzeros = { ones = 2, tens = 2 }",
            "count = 30\nsame_digits = { min = 3, max = 6 }\nrepeats = { min = 3, max = 16 }\nteens = { min = 2, max = 13 }\nzeros = { ones = { min = 2, max = 14 }, tens = { min = 2, max = 14 } }",
        ] {
            let (_, spec) = spec(sort);
            let demand = Demand::new(&spec.numbers, Role::Sort);
            for taken in [BTreeSet::new(), (100..300).collect()] {
                let sampler = Sampler::walking(&demand, Taken { barred: &taken, shared: None });
                let set = sampler.draw(&mut Stream::new(1, "test")).expect(sort);
                assert!(demand.holds(&set) && set.iter().all(|number| !taken.contains(number)), "{set:?}");
                assert_eq!((sampler.has_any(), sampler.count()), (Some(true), None));
            }
        }
    }

    #[test]
    fn a_walk_that_finds_nothing_proves_nothing() {
        let (_, spec) = spec("count = 3\nteens = { max = 0 }\nalways = [111]");
        let demand = Demand::new(&spec.numbers, Role::Sort);
        assert_eq!(Sampler::walking(&demand, OPEN).has_any(), None);
    }

    #[test]
    fn walks_come_to_all_sets_about_as_often() {
        let (_, spec) = spec("count = 4\nteens = { min = 2, max = 2 }");
        let demand = Demand::new(&spec.numbers, Role::Sort);
        let (sampler, mut stream) = (Sampler::walking(&demand, OPEN), Stream::new(3, "test"));
        let mut low = 0;
        for _ in 0..100 {
            let set = sampler.draw(&mut stream).expect("a set");
            low += set.iter().filter(|number| **number < 550).count();
        }
        // Half of all numbers of either kind lie below 550: 200 of 400, with a deviation of 10.
        assert!((155..=245).contains(&low), "{low}");
    }
}
