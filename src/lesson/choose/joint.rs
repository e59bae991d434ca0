//! All roles and versions together: disjoint where the range allows, else with the least overlap.
//!
//! Model, version A and exit are drawn evenly and independently and kept when no two share a number: so they are even
//! among all disjoint triples that leave room for the versions. The other versions are drawn from the sets with the same
//! profile as A ([`super::versions`]). Where the range is too tight for that, [`super::search`] fits the sets around each
//! other.

use std::collections::BTreeSet;

use super::demand::Demand;
use super::search;
use super::seats::{Seat, Seated, Seating, named_elsewhere};
use super::versions::Versions;
use crate::lesson::Role;
use crate::number::Number;
use crate::rng::Stream;

/// How many independent draws are made before sets are fitted around each other.
const TRIES: u32 = 128;
/// How many are made for versions as hard as each other where these ask for numbers by themselves.
const ALIKE: u32 = 8;

/// Draws all sets.
pub(super) fn draw(seating: &Seating<'_>) -> Seated {
    evenly(seating).unwrap_or_else(|| search::fit(seating))
}

fn evenly(seating: &Seating<'_>) -> Option<Seated> {
    // Where versions ask for numbers by themselves there may be none as hard as the first; then they come as they can.
    let alike = if seating.sorts.is_empty() { TRIES } else { ALIKE };
    tried(seating, alike, true).or_else(|| if seating.sorts.is_empty() { None } else { tried(seating, TRIES, false) })
}

/// Draws until all fits; with `alike` only versions that are equally hard do.
fn tried(seating: &Seating<'_>, tries: u32, alike: bool) -> Option<Seated> {
    let forced = seating.forced();
    let streams = seating.roles.keys().map(|&role| (role, Stream::new(seating.seed, role.word())));
    let mut streams: Vec<(Role, Stream)> = streams.collect();
    'tries: for _ in 0..tries {
        let (mut used, mut seats) = (named_elsewhere(seating.sorts, seating.first), Vec::new());
        for (role, stream) in &mut streams {
            let set = seating.roles[role].1.draw(stream);
            for &number in &set {
                if !used.insert(number) && !forced.contains(&number) {
                    continue 'tries;
                }
            }
            seats.push((*role, set));
        }
        if add_versions(seating, &mut seats, &mut used, alike).is_some() {
            seats.sort_by_key(|(role, _)| *role);
            return Some(Seated { overlap: seating.overlap(&seats), seats, proven: true });
        }
        if seating.budget.is_spent() {
            break;
        }
    }
    None
}

/// Adds the other versions, which share nothing with what is used; the sort sets are then in the order of their letters.
fn add_versions(seating: &Seating<'_>, seats: &mut Vec<Seat>, used: &mut BTreeSet<Number>, alike: bool) -> Option<()> {
    let first = seats.iter().position(|(role, _)| *role == Role::Sort && seating.versions > 1);
    let Some(first) = first.map(|at| seats.remove(at).1) else { return Some(()) };
    let Seating { candidates, budget, style, .. } = seating;
    let mut same: Option<Versions<'_>> = None;
    let mut sets = Vec::new();
    for version in 0..seating.versions {
        let at = version as usize;
        if at == seating.first {
            sets.push(first.clone());
            continue;
        }
        if same.is_none() || !seating.sorts.is_empty() {
            let demand = seating.sort(at);
            let meeting = |demand: &Demand| Versions::of(&first, demand, candidates, budget, *style);
            let like = meeting(&demand.like(&first));
            same = if alike { like } else { like.or_else(|| meeting(demand)) };
        }
        let set = same.as_ref()?.draw(used, &mut Stream::new(seating.seed, &format!("sort {version}")))?;
        used.extend(&set);
        sets.push(set);
    }
    seats.extend(sets.into_iter().map(|set| (Role::Sort, set)));
    Some(())
}
