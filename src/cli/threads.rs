//! Many lessons at a time: a print shop hands over hundreds of files at once.
//!
//! Each lesson is one piece of work on one thread; what comes of it is handed out in the order of the lessons, however they
//! finish, so that the output of a run never depends on the machine.

use std::collections::BTreeMap;
use std::num::NonZero;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;
use std::thread;

/// How many threads run at a time.
pub fn cores() -> usize {
    thread::available_parallelism().map_or(1, NonZero::get)
}

/// Does `work` for each item, several at a time, and gives every result to `done` in the order of the items, as soon as all
/// before it are there.
pub fn each<T: Sync + ?Sized, R: Send>(
    items: &[impl AsRef<T> + Sync],
    work: impl Fn(&T) -> R + Sync,
    mut done: impl FnMut(&T, R),
) {
    let threads = cores().min(items.len());
    if threads < 2 {
        for item in items {
            done(item.as_ref(), work(item.as_ref()));
        }
        return;
    }
    let next = AtomicUsize::new(0);
    let (to_printer, results) = mpsc::channel::<(usize, R)>();
    thread::scope(|scope| {
        for _ in 0..threads {
            let (next, work, to_printer) = (&next, &work, to_printer.clone());
            scope.spawn(move || {
                loop {
                    let k = next.fetch_add(1, Ordering::Relaxed);
                    let Some(item) = items.get(k) else { break };
                    if to_printer.send((k, work(item.as_ref()))).is_err() {
                        break;
                    }
                }
            });
        }
        drop(to_printer);
        let mut early = BTreeMap::new();
        let mut printed = 0;
        for (k, result) in results {
            early.insert(k, result);
            while let Some(result) = early.remove(&printed) {
                done(items[printed].as_ref(), result);
                printed += 1;
            }
        }
    });
}

/// Does two things at a time, the first on a thread of its own.
pub fn both<A: Send, B>(one: impl FnOnce() -> A + Send, other: impl FnOnce() -> B) -> (A, B) {
    thread::scope(|scope| {
        let one = scope.spawn(one);
        let other = other();
        (one.join().unwrap_or_else(|panic| resume_unwind(panic)), other)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    #[test]
    fn results_come_in_the_order_of_the_items() {
        let items: Vec<String> = (0..40).map(|k| k.to_string()).collect();
        let mut seen = Vec::new();
        let work = |item: &str| {
            // The first of each ten takes longest.
            thread::sleep(Duration::from_millis(if item.ends_with('0') { 8 } else { 0 }));
            item.len()
        };
        each(&items, work, |item: &str, length| seen.push((item.to_owned(), length)));
        assert_eq!(seen, items.iter().map(|item| (item.clone(), item.len())).collect::<Vec<_>>());
    }
}
