//! The sets of a lesson whose range is too tight to keep them apart by chance: fitted around each other by search.
//!
//! Sets are redrawn one at a time, evenly among those that share as few numbers as possible with the rest, from several
//! beginnings; then [`overlap`] looks exactly for less overlap, or proves that there is none. Searching is needed because
//! what overlaps ties the sets of all roles and versions together, and nothing short of all their numbers at once would
//! count that. So these sets are as good as any, but not drawn evenly among all that are.

mod overlap;

use std::collections::BTreeSet;

use super::count::{Avoided, Solutions};
use super::demand::Demand;
use super::seats::{Seat, Seated, Seating};
use crate::lesson::Role;
use crate::number::Number;
use crate::rng::Stream;
use overlap::{Outcome, Overlap};

/// How many beginnings the fitting has.
const BEGINNINGS: u32 = 4;
/// How many sets are redrawn from each beginning without getting nearer.
const REDRAWS: u32 = 16;

/// Fits the sets around each other, with the least overlap.
pub(super) fn fit(seating: &Seating<'_>) -> Seated {
    let mut stream = Stream::new(seating.seed, "fit");
    let mut best = fitted(seating, &mut stream);
    for _ in 1..BEGINNINGS {
        if best.proven {
            return best;
        }
        let next = fitted(seating, &mut stream);
        if next.overlap < best.overlap {
            best = next;
        }
    }
    // The exact search knows of no version that asks for more than another.
    if best.proven || !seating.sorts.is_empty() { best } else { less(seating, best, &mut stream) }
}

/// Sets fitted from one beginning.
fn fitted(seating: &Seating<'_>, stream: &mut Stream) -> Seated {
    let least = seating.least_overlap();
    let mut seats = begin(seating, stream);
    let mut overlap = seating.overlap(&seats);
    let (mut nearest, mut idle) = (overlap, 0);
    while nearest > least && idle < REDRAWS && !seating.budget.is_spent() {
        let at = stream.index(seats.len());
        if let Some(set) = redraw(seating, &seats, at, stream) {
            seats[at].1 = set;
        }
        overlap = seating.overlap(&seats);
        idle = if overlap < nearest { 0 } else { idle + 1 };
        nearest = nearest.min(overlap);
    }
    Seated { seats, overlap, proven: overlap <= least }
}

/// A beginning: each role drawn for itself, every version as A, or where one asks for numbers of its own, as it asks.
fn begin(seating: &Seating<'_>, stream: &mut Stream) -> Vec<Seat> {
    let mut seats = Vec::new();
    for (&role, (_, solutions)) in seating.roles {
        let set = solutions.draw(stream);
        if role == Role::Sort && !seating.sorts.is_empty() {
            for (demand, own) in seating.sorts {
                let like = Solutions::new(&demand.like(&set), seating.candidates, Avoided::default(), &seating.budget);
                seats.push((role, like.as_ref().unwrap_or(own).draw(stream)));
            }
            continue;
        }
        seats.extend((0..seating.copies(role)).map(|_| (role, set.clone())));
    }
    seats
}

/// Another set for one seat that shares as few numbers as possible with the rest.
fn redraw(seating: &Seating<'_>, seats: &[Seat], at: usize, stream: &mut Stream) -> Option<Vec<Number>> {
    let (role, set) = &seats[at];
    let demand = seating.demand_at(seats, at);
    let demand = if seating.copies(*role) == 1 { demand.clone() } else { demand.like(set) };
    let others = seats.iter().enumerate().filter(|(seat, _)| *seat != at);
    let others: BTreeSet<Number> = others.flat_map(|(_, (_, set))| set.iter().copied()).collect();
    (0..=demand.count).find_map(|most| {
        let avoided = Avoided { barred: None, shared: Some((&others, most)) };
        Some(Solutions::new(&demand, seating.candidates, avoided, &seating.budget).ok()?.draw(stream))
    })
}

/// Less overlap than that of `best`, if there is, by an exact search.
fn less(seating: &Seating<'_>, mut best: Seated, stream: &mut Stream) -> Seated {
    let seats: Vec<(Role, &Demand)> = best.seats.iter().map(|(role, _)| (*role, seating.demand(*role))).collect();
    let Some(mut search) = Overlap::new(&seats, &seating.budget) else { return best };
    let forced = seating.forced_overlap();
    best.proven = true;
    for extra in seating.least_overlap() - forced..best.overlap - forced {
        match search.sets(extra, stream) {
            Outcome::None => {}
            Outcome::Unknown => best.proven = false,
            Outcome::Sets(found) => {
                best.seats = seats.iter().map(|(role, _)| *role).zip(found).collect();
                best.overlap = seating.overlap(&best.seats);
                break;
            }
        }
    }
    best
}
