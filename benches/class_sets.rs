//! How long the files of one class take: 1, 30, 300 and 3,000 learners, one board, one set of strips and a key each version.
//!
//! `cargo bench --bench class_sets`. Bytes go to a counter instead of a disk.

#![allow(clippy::pedantic, clippy::unwrap_used, reason = "tests and benches fail by unwrapping and read best plain")]

use std::hint::black_box;
use std::io::{self, Write};
use std::sync::Arc;

use criterion::{BenchmarkId, Criterion, Throughput, criterion_group, criterion_main};
use placewright::diag::Source;
use placewright::lesson::{self, Lesson};
use placewright::measure::Family;
use placewright::measure::fonts::{Bundled, bundled};
use placewright::sheets::packets::{self, Packet};
use placewright::sheets::page::desk::Desk;
use placewright::sheets::page::layout::Layouts;
use placewright::{pdf, spec};

/// Counts what is written.
#[derive(Default)]
struct Counter(u64);

impl Write for Counter {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0 += bytes.len() as u64;
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

fn planned(learners: u32, cut: &str) -> Lesson {
    let text = format!(
        "title = \"Harbour stalls\"\n[numbers]\nrange = [100, 999]\n[numbers.sort]\ncount = 8\n[class]\nlearners = {learners}\n\
         spares = 0\nversions = 3\n[print]\ncut = \"{cut}\"\n[sheets]\nmake = [\"board\", \"strips\", \"key\"]\n"
    );
    let source = Arc::new(Source { name: "bench.toml".to_owned(), text });
    let spec = spec::read(&source).unwrap_or_else(|found| panic!("{found:?}"));
    lesson::plan(&source, spec, Vec::new()).unwrap_or_else(|found| panic!("{found:?}"))
}

/// Lays out and writes everything; gives pages and bytes.
fn make(lesson: &Lesson, layouts: &Layouts, family: &Family) -> (u64, u64) {
    let desk = Desk::new(lesson, layouts, family);
    let packets = packets::make(&desk, &[]).unwrap_or_else(|found| panic!("{found:?}"));
    let common = pdf::Common::of(family, &packets, 2).unwrap_or_else(|found| panic!("{found:?}"));
    let write = |packet: &Packet<'_>| {
        let counter = pdf::write(Counter::default(), packet, &common, 2);
        counter.unwrap_or_else(|failure| panic!("{failure:?}")).0
    };
    let bytes = packets.iter().map(write).sum();
    (packets.iter().map(|packet| packet.len() as u64).sum(), bytes)
}

fn classes(criterion: &mut Criterion) {
    let layouts = Layouts::read(&[]).expect("bundled layouts");
    let family = bundled(Bundled::Andika).expect("a font");
    for cut in ["scissors", "stack"] {
        let mut group = criterion.benchmark_group(format!("class_sets/{cut}"));
        group.sample_size(10);
        for learners in [1, 30, 300, 3_000] {
            let lesson = planned(learners, cut);
            let (pages, bytes) = make(&lesson, &layouts, &family);
            eprintln!("{cut}, {learners} learners: {pages} pages, {bytes} bytes, {} a page", bytes / pages);
            group.throughput(Throughput::Elements(pages));
            group.bench_with_input(BenchmarkId::from_parameter(learners), &lesson, |bencher, lesson| {
                bencher.iter(|| black_box(make(lesson, &layouts, &family)));
            });
        }
        group.finish();
    }
}

criterion_group!(benches, classes);
criterion_main!(benches);
