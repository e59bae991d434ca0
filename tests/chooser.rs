//! The chooser against brute force and the plain reading of every request.

#[path = "chooser/brute.rs"]
mod brute;

use brute::Plain;
use placewright::lesson::choose::{Demand, Feature, Sampler};
use placewright::number::Place;
use placewright::rng::Stream;
use placewright::spec::Bound;
use std::collections::{BTreeMap, BTreeSet};

/// A small lesson, drawn at random: a stretch of up to 14 numbers and a handful of requests.
fn small(stream: &mut Stream) -> Demand {
    let starts = [0, 5, 8, 10, 95, 98, 100, 104, 196, 333, 398, 995, 1_005, 9_995, 10_000, 99_995, 110_100];
    let low = match stream.below(3) {
        0 => u32::try_from(stream.below(1_200)).unwrap(),
        _ => starts[stream.index(starts.len())],
    };
    let size = 4 + u32::try_from(stream.below(11)).unwrap();
    let count = 1 + u32::try_from(stream.below(5)).unwrap();
    let bound = |stream: &mut Stream| {
        let min = u32::try_from(stream.below(u64::from(count) + 1)).unwrap();
        let max = (stream.below(3) == 0).then(|| min + u32::try_from(stream.below(3)).unwrap());
        Bound { min: if max.is_some() { min } else { min.min(3) }, max }
    };
    let mut demand = Demand {
        low,
        high: low + size - 1,
        never: BTreeSet::new(),
        at_most: [9; 6],
        count,
        always: BTreeSet::new(),
        wants: BTreeMap::new(),
        same_digits: None,
        look_alikes: 0,
    };
    let some = |stream: &mut Stream| low + u32::try_from(stream.below(u64::from(size))).unwrap();
    for _ in 0..stream.below(3) {
        demand.never.insert(some(stream));
    }
    for _ in 0..stream.below(2) {
        demand.always.insert(some(stream));
    }
    if stream.below(4) == 0 {
        demand.at_most[stream.index(3)] = 3 + u8::try_from(stream.below(6)).unwrap();
    }
    for feature in [Feature::Zero(Place::Ones), Feature::Zero(Place::Tens), Feature::Repeats, Feature::Teens] {
        if stream.below(3) == 0 {
            demand.wants.insert(feature, bound(stream));
        }
    }
    if stream.below(3) == 0 {
        demand.same_digits = Some(bound(stream));
    }
    if stream.below(4) == 0 {
        demand.look_alikes = 1 + u32::try_from(stream.below(2)).unwrap();
    }
    demand
}

#[test]
fn counts_equal_brute_force() {
    let mut stream = Stream::new(1, "small lessons");
    let (mut feasible, mut empty) = (0, 0);
    for case in 0..900 {
        let demand = small(&mut stream);
        let all = Plain::new(&demand).all();
        let sampler = Sampler::alone(&demand);
        assert_eq!(sampler.is_empty(), all.is_empty(), "case {case}: {demand:?}");
        if let Some(count) = sampler.count() {
            assert_eq!(count, all.len().into(), "case {case}: {demand:?}");
        }
        match sampler.draw(&mut Stream::new(case, "draw")) {
            Some(set) => assert!(all.contains(&set) && demand.holds(&set), "case {case}: {set:?} {demand:?}"),
            None => assert!(all.is_empty()),
        }
        if all.is_empty() { empty += 1 } else { feasible += 1 }
    }
    assert!(feasible >= 250 && empty >= 150, "{feasible} feasible, {empty} empty");
}
