//! How many people a class makes in a second: read, drafted, every file of theirs made and written.
//!
//! The aim is 100 a second on two cores of an ordinary machine.

#![allow(missing_docs, reason = "criterion's macros write functions without a word")]
#![allow(clippy::unwrap_used, clippy::panic, reason = "a bench that cannot run has to stop")]

use criterion::{BatchSize, Criterion, Throughput, criterion_group, criterion_main};
use quarterpin::args::Typed;
use quarterpin::commands;
use std::fmt::Write as _;
use std::path::Path;

const BASE: &str = include_str!("../../fixtures/first-pair.toml");

/// Invented people, no two alike.
fn table(people: usize) -> String {
    let mut text = "name,waist,hips,waist to hip,crotch length,front crotch,thigh\n".to_owned();
    for i in 0..people {
        let at = |from: f64, step: f64| from + step * (i % 97) as f64;
        let [waist, hip, thigh] = [at(66.0, 0.2), at(92.0, 0.25), at(54.0, 0.15)];
        let _ = writeln!(text, "P{i},{waist:.2},{hip:.2},20,{:.2},{:.2},{thigh:.2}", at(69.0, 0.05), at(31.0, 0.02));
    }
    text
}

fn class(c: &mut Criterion) {
    let mut group = c.benchmark_group("class");
    group.sample_size(10);
    // Of a few people all prints are bound as one as well, of so many as here not.
    for people in [26, 130] {
        let folder = tempfile::tempdir().unwrap();
        let [table_at, base] = ["people.csv", "base.toml"].map(|name| folder.path().join(name));
        std::fs::write(&table_at, table(people)).unwrap();
        std::fs::write(&base, BASE).unwrap();
        let make = |out: &Path| {
            let [table_at, base, out] = [table_at.as_path(), &base, out].map(|path| path.to_str().unwrap());
            let words = ["quarterpin", "class", table_at, "--sheet", base, "-o", out, "--again"];
            let answer = commands::run(&Typed::read(words).unwrap());
            assert_eq!(answer.end.code(), 0, "{}", answer.err);
        };
        group.throughput(Throughput::Elements(people as u64));
        // Kept to the end: some file systems make new files slowly where others were just taken away.
        let mut times = 0;
        group.bench_function(format!("{people} people, all files, new"), |b| {
            let next = || {
                times += 1;
                folder.path().join(format!("new-{times}"))
            };
            b.iter_batched(next, |out| make(&out), BatchSize::PerIteration);
        });
        group.bench_function(format!("{people} people, all files, those of before replaced"), |b| {
            b.iter(|| make(&folder.path().join("again")));
        });
    }
    group.finish();
}

criterion_group!(benches, class);
criterion_main!(benches);
