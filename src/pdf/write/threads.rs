//! Pages through any number of threads, in order.
//!
//! One thread plans and writes, in page order; the others build what is planned. No more runs are under way than the
//! threads can use, so memory stays flat however many pages come.

use std::borrow::Borrow;
use std::collections::BTreeMap;
use std::io::Write;
use std::sync::{Mutex, mpsc};
use std::thread;

use super::build::Builder;
use super::index::Index;
use super::plan::{Planner, RUN, Run};
use crate::diag::Problem;
use crate::pdf::failure::{WriteFailure, internal};
use crate::pdf::file::{Chunk, Output};
use crate::sheets::page::Page;

/// A run that has been built, or why it could not be.
type Built = Result<Chunk, Problem>;

/// The thread that plans and writes.
pub struct Writer<'f, W> {
    /// Where the bytes go.
    pub file: Output<W>,
    /// Gives out numbers.
    pub planner: Planner<'f>,
    /// What the end of the file has to know.
    pub index: Index,
}

impl<'f, W: Write> Writer<'f, W> {
    /// Writes all pages with so many threads; 0 and 1 make none besides this one.
    pub fn pages<P>(&mut self, mut pages: impl Iterator<Item = P>, threads: usize) -> Result<(), WriteFailure>
    where
        P: Borrow<Page> + Send,
    {
        let first: Vec<P> = pages.by_ref().take(RUN).collect();
        let second: Vec<P> = pages.by_ref().take(RUN).collect();
        self.planner.single = second.is_empty();
        let runs = Runs { ready: [first, second].into_iter(), pages };
        // A thread costs more than a single run gains.
        if threads < 2 || self.planner.single { self.alone(runs) } else { self.in_threads(runs, threads) }
    }

    fn alone<P: Borrow<Page>>(&mut self, runs: impl Iterator<Item = Vec<P>>) -> Result<(), WriteFailure> {
        let mut builder = Builder::new();
        for pages in runs {
            let run = self.plan(pages)?;
            self.write(builder.build(&run))?;
        }
        Ok(())
    }

    fn in_threads<P>(&mut self, mut runs: impl Iterator<Item = Vec<P>>, threads: usize) -> Result<(), WriteFailure>
    where
        P: Borrow<Page> + Send,
    {
        let (to_builders, orders) = mpsc::channel::<(usize, Run<'f, P>)>();
        let (to_writer, done) = mpsc::channel::<(usize, Built)>();
        let orders = Mutex::new(orders);
        thread::scope(|scope| {
            for _ in 0..threads {
                let (orders, to_writer) = (&orders, to_writer.clone());
                scope.spawn(move || {
                    let mut builder = Builder::new();
                    // The lock is held while waiting: one waits for an order, the others for the lock.
                    while let Some((k, run)) = orders.lock().ok().and_then(|orders| orders.recv().ok()) {
                        if to_writer.send((k, builder.build(&run))).is_err() {
                            break;
                        }
                    }
                });
            }
            drop(to_writer);
            // Dropping the sender, on whatever way out, sends the threads home.
            let to_builders = to_builders;
            let (mut planned, mut written) = (0, 0);
            let mut early = BTreeMap::new();
            loop {
                while planned < written + 2 * threads {
                    let Some(pages) = runs.next() else { break };
                    let run = self.plan(pages)?;
                    to_builders.send((planned, run)).map_err(|_| internal("the threads have gone"))?;
                    planned += 1;
                }
                if written == planned {
                    return Ok(());
                }
                let (k, built) = done.recv().map_err(|_| internal("the threads have gone"))?;
                early.insert(k, built);
                while let Some(built) = early.remove(&written) {
                    self.write(built)?;
                    written += 1;
                }
            }
        })
    }

    fn plan<P: Borrow<Page>>(&mut self, pages: Vec<P>) -> Result<Run<'f, P>, Problem> {
        let run = self.planner.run(pages)?;
        self.index.note(&run);
        Ok(run)
    }

    fn write(&mut self, built: Built) -> Result<(), WriteFailure> {
        Ok(self.file.chunk(&built?)?)
    }
}

/// Pages, a run at a time.
struct Runs<P, I> {
    ready: std::array::IntoIter<Vec<P>, 2>,
    pages: I,
}

impl<P, I: Iterator<Item = P>> Iterator for Runs<P, I> {
    type Item = Vec<P>;

    fn next(&mut self) -> Option<Vec<P>> {
        let run = self.ready.next().unwrap_or_else(|| self.pages.by_ref().take(RUN).collect());
        (!run.is_empty()).then_some(run)
    }
}
