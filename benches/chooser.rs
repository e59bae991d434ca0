//! How long a lesson's numbers take to choose, and how that grows. Compare ratios within one run.

#![allow(clippy::pedantic, clippy::unwrap_used, reason = "tests and benches fail by unwrapping and read best plain")]

use std::hint::black_box;
use std::sync::Arc;

use criterion::{BenchmarkId, Criterion, criterion_group, criterion_main};
use placewright::diag::Source;
use placewright::lesson::choose::choose;
use placewright::spec::{self, Spec};

/// Six requests of the sort numbers, three versions, model and exit.
fn lesson(range: &str, count: u32, requests: &str) -> (Spec, Arc<Source>) {
    let text = format!(
        "title = \"Bench\"\n[numbers]\nrange = {range}\n\
         [numbers.model]\ncount = 3\nzeros = {{ tens = 1 }}\nrepeats = 1\nteens = 1\n\
         [numbers.sort]\ncount = {count}\n{requests}\n[numbers.exit]\ncount = 4\n[class]\nversions = 3\n"
    );
    let source = Arc::new(Source { name: "bench.toml".into(), text });
    let spec = spec::read(&source).unwrap_or_else(|wrong| panic!("{wrong:?}"));
    (spec, source)
}

const SIX: &str = "zeros = { tens = 2, ones = 1 }\nrepeats = 2\nteens = 1\nsame_digits = 3\nalways = [640]";
const FIVE: &str = "zeros = { tens = 2, ones = 1 }\nrepeats = 2\nteens = 1\nalways = [640]";

fn whole(c: &mut Criterion) {
    let mut group = c.benchmark_group("lesson");
    group.sample_size(20);
    for (range, requests) in [
        ("[100, 999]", SIX),
        ("[0, 9999]", SIX),
        ("[0, 99999]", SIX),
        ("[0, 999999]", SIX),
        ("[0, 999999]", FIVE),
        ("[123, 876543]", SIX),
    ] {
        let (spec, source) = lesson(range, 8, requests);
        let name = if requests == SIX { "six requests" } else { "without same_digits" };
        group.bench_function(BenchmarkId::new(name, range), |b| b.iter(|| choose(black_box(&spec), &source)));
    }
    for count in [6, 12, 24, 48] {
        let (spec, source) = lesson("[100, 999]", count, SIX);
        group
            .bench_function(BenchmarkId::new("numbers a set", count), |b| b.iter(|| choose(black_box(&spec), &source)));
    }
    for sample in ["harbour", "star-atlas"] {
        let name = format!("samples/{sample}.toml");
        let source = Arc::new(Source { text: std::fs::read_to_string(&name).unwrap(), name });
        let spec = spec::read(&source).unwrap();
        group.bench_function(BenchmarkId::new("sample", sample), |b| b.iter(|| choose(black_box(&spec), &source)));
    }
    group.finish();
}

criterion_group!(benches, whole);
criterion_main!(benches);
