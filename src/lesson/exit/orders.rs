//! Under which letters the right answers stand, paper by paper.
//!
//! In: how many questions and papers. Out: an [`Order`] a paper. Each letter is right equally often on a paper. Papers come in
//! rounds of as many as there are choices, in which every right answer moves on by one letter from paper to paper, so that
//! neighbours share none; no two papers have one order while there are others, so that nobody can copy letters.

use super::CHOICES;
use crate::rng::Stream;

/// The place of the right answer among the choices of each question, from 0.
pub(super) type Order = Vec<usize>;

/// So many orders are weighed before a round begins with one.
const WEIGHED: usize = 96;

/// The orders of so many papers, apart from those `known` already. The first round of all takes its order from `stream`.
pub(super) fn deal(questions: usize, papers: usize, known: Vec<Order>, seed: u64, stream: &mut Stream) -> Vec<Order> {
    let mut others = Stream::new(seed, "orders of answers");
    let (first, mut all) = (known.len(), known);
    while all.len() < first + papers {
        let here = CHOICES.min(first + papers - all.len());
        let mut order: Order = (0..questions).map(|k| k % CHOICES).collect();
        if all.is_empty() {
            stream.shuffle(&mut order);
        } else {
            let drawn = (0..WEIGHED).map(|_| {
                let mut order = order.clone();
                others.shuffle(&mut order);
                order
            });
            // The round whose papers agree least with any other.
            let alike = |order: &Order| round(order, here).map(|own| most_shared(&own, &all)).max();
            order = drawn.min_by_key(alike).unwrap_or_default();
        }
        all.extend(round(&order, here).collect::<Vec<_>>());
    }
    all.split_off(first)
}

/// The papers of a round that begins with this order.
fn round(order: &Order, papers: usize) -> impl Iterator<Item = Order> + '_ {
    (0..papers).map(move |turn| order.iter().map(|place| (place + turn) % CHOICES).collect())
}

/// In how many questions an order has the letter of another, at most; more than all where the two are one.
fn most_shared(order: &Order, others: &[Order]) -> usize {
    let shared = |other: &Order| {
        let same = order.iter().zip(other).filter(|(one, two)| one == two).count();
        if same == order.len().min(other.len()) { same + 1 } else { same }
    };
    others.iter().map(shared).max().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn no_two_papers_have_one_order_while_there_are_others() {
        for seed in 0..20 {
            let mut stream = Stream::new(seed, "choices");
            // Of three questions there are six orders, of six ninety.
            for (questions, papers) in [(3, 6), (4, 9), (5, 12), (6, 12)] {
                let mut known = deal(questions, papers / 2, Vec::new(), seed, &mut stream);
                known.extend(deal(questions, papers - papers / 2, known.clone(), seed, &mut stream));
                assert_eq!(known.iter().collect::<BTreeSet<_>>().len(), papers, "{questions} questions: {known:?}");
                for order in &known {
                    let counts: Vec<usize> =
                        (0..CHOICES).map(|place| order.iter().filter(|other| **other == place).count()).collect();
                    assert!(counts.iter().max().unwrap() - counts.iter().min().unwrap() <= 1, "{order:?}");
                }
            }
        }
    }

    #[test]
    fn neighbours_share_no_letter_and_others_few() {
        let all = deal(6, 6, Vec::new(), 5, &mut Stream::new(5, "choices"));
        for round in all.chunks(CHOICES) {
            for (one, two) in round.iter().zip(&round[1..]) {
                assert!(one.iter().zip(two).all(|(one, two)| one != two));
            }
        }
        assert!((1..6).all(|k| most_shared(&all[k], &all[..k]) <= 3), "{all:?}");
    }
}
