//! All roles and versions together: disjoint where the range allows, else with the least overlap.
//!
//! Model, version A and exit are drawn evenly and independently and kept when no two share a number: so they are even
//! among all disjoint triples that leave room for the versions. The other versions are drawn from the sets with the same
//! profile as A ([`super::versions`]). Where the range is too tight for that, [`super::search`] fits the sets around each
//! other.

use std::collections::BTreeSet;

use super::search;
use super::seats::{Seat, Seated, Seating};
use super::versions::Versions;
use crate::lesson::Role;
use crate::number::Number;
use crate::rng::Stream;

/// How many independent draws are made before sets are fitted around each other.
const TRIES: u32 = 128;

/// Draws all sets.
pub(super) fn draw(seating: &Seating<'_>) -> Seated {
    evenly(seating).unwrap_or_else(|| search::fit(seating))
}

fn evenly(seating: &Seating<'_>) -> Option<Seated> {
    let forced = seating.forced();
    let streams = seating.roles.keys().map(|&role| (role, Stream::new(seating.seed, role.word())));
    let mut streams: Vec<(Role, Stream)> = streams.collect();
    'tries: for _ in 0..TRIES {
        let (mut used, mut seats) = (BTreeSet::new(), Vec::new());
        for (role, stream) in &mut streams {
            let set = seating.roles[role].1.draw(stream);
            for &number in &set {
                if !used.insert(number) && !forced.contains(&number) {
                    continue 'tries;
                }
            }
            seats.push((*role, set));
        }
        if add_versions(seating, &mut seats, &mut used).is_some() {
            seats.sort_by_key(|(role, _)| *role);
            return Some(Seated { overlap: seating.overlap(&seats), seats, proven: true });
        }
        if seating.budget.is_spent() {
            break;
        }
    }
    None
}

/// Adds versions B, C, ... that share nothing with what is used.
fn add_versions(seating: &Seating<'_>, seats: &mut Vec<Seat>, used: &mut BTreeSet<Number>) -> Option<()> {
    let Some((_, first)) = seats.iter().find(|(role, _)| *role == Role::Sort && seating.versions > 1) else {
        return Some(());
    };
    let Seating { candidates, budget, style, .. } = seating;
    let versions = Versions::of(first, seating.demand(Role::Sort), candidates, budget, *style)?;
    for version in 1..seating.versions {
        let set = versions.draw(used, &mut Stream::new(seating.seed, &format!("sort {version}")))?;
        used.extend(&set);
        seats.push((Role::Sort, set));
    }
    Some(())
}
