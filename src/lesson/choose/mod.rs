//! Choosing numbers exactly.

mod cell;
mod clash;
mod demand;
mod joint;
mod net;
mod pool;
mod sampler;
mod state;
mod tally;
mod versions;
mod why;

use std::collections::BTreeMap;
use std::sync::Arc;

pub use demand::{Demand, Facts, Feature, alike};

use super::{Chosen, Reason, Role};
use crate::diag::{Diagnostic, Problem, Source};
use crate::number::Number;
use crate::rng::Stream;
use crate::spec::Spec;
use demand::number;
use joint::Table;
pub use sampler::Sampler;

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
            clashes.push(
                Problem::new(format!("no {} numbers meet all requests", role.word()))
                    .at(source, spec.numbers.range.span().unwrap_or(0..0)),
            );
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
    let table = Table { demands: &demands, versions: spec.class.versions.value, seed };
    let Some(sets) = table.draw() else {
        return Err(vec![
            Problem::new("internal: sets were counted but none was drawn")
                .hint("please report this lesson")
                .at(source, 0..0),
        ]);
    };
    if sets.overlap > 0 {
        notes.push(format!("{} numbers are used more than once, because the range has too few", sets.overlap));
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
                set.sort_by_key(|&value| (Facts::of(value).bits.count_ones(), versions::blocks(&[value]), value));
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
