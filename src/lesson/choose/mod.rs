//! Choosing numbers exactly.

mod alike;
mod ask;
mod cell;
mod clash;
mod deal;
mod demand;
mod joint;
mod nearest;
mod net;
mod pool;
mod sampler;
mod scan;
mod state;
mod tally;
mod versions;
mod why;

use std::collections::BTreeMap;
use std::sync::Arc;

pub use ask::{Ask, only};
pub use clash::{clash, example, ways_out};
pub use demand::{Demand, Facts, Feature, alike};

use super::{Chosen, Reason, Role};
use crate::diag::{Diagnostic, Problem, Source};
use crate::number::Number;
use crate::rng::Stream;
use crate::spec::Spec;
use demand::number;
use joint::Table;
pub use nearest::look_alikes;
pub use sampler::Sampler;
pub use versions::{Work, spread};

/// Chooses the numbers of every role and version, or says which requests clash.
pub fn choose(spec: &Spec, source: &Arc<Source>) -> Result<Chosen, Vec<Diagnostic>> {
    let mut demands = BTreeMap::new();
    let mut solutions = BTreeMap::new();
    let mut clashes = Vec::new();
    let mut notes = Vec::new();
    for role in Role::ALL {
        if demand::of(&spec.numbers, role).count.value == 0 {
            continue;
        }
        let demand = Demand::new(&spec.numbers, role);
        let sampler = Sampler::alone(&demand);
        if sampler.is_empty() {
            clashes.push(clash::report(&spec.numbers, role, &demand, source));
            continue;
        }
        match sampler.count() {
            Some(count) => {
                solutions.insert(role, count.to_string());
            }
            None => notes
                .push(format!("the {} sets are not counted: look_alikes ties every number to the others", role.word())),
        }
        demands.insert(role, demand);
    }
    if !clashes.is_empty() {
        return Err(clashes);
    }
    let seed = spec.seed.value;
    let style = super::style(&spec.forms);
    let table = Table { demands: &demands, versions: spec.class.versions.value, seed, style: &style };
    let Some(sets) = table.draw() else {
        return Err(vec![
            Problem::new("internal: sets were counted but none was drawn")
                .hint("please report this lesson")
                .at(source, 0..0),
        ]);
    };
    if sets.overlap > 0 {
        let times =
            if sets.overlap == 1 { "a number is".to_owned() } else { format!("numbers are {} times", sets.overlap) };
        let least = if sets.proven { "no choice repeats fewer" } else { "no choice was found that repeats fewer" };
        notes.push(format!("{times} used again in another set: {least}"));
    }
    let mut why: BTreeMap<Number, Vec<Reason>> = BTreeMap::new();
    for (role, set) in &sets.seats {
        for &value in set {
            let reasons = why.entry(number(value)).or_default();
            for reason in why::why(&demands[role], set, value) {
                if !reasons.contains(&reason) {
                    reasons.push(reason);
                }
            }
        }
    }
    let mut chosen = Chosen { model: Vec::new(), sort: Vec::new(), exit: Vec::new(), why, solutions, notes };
    for (role, mut set) in sets.seats {
        match role {
            Role::Model => {
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
    if chosen.sort.is_empty() {
        chosen.sort = vec![Vec::new(); spec.class.versions.value as usize];
    }
    Ok(chosen)
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
