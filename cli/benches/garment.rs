//! How long one garment takes: drafted, checked, and with every file of it.
//!
//! Aims on an ordinary desktop machine: draft and offsets under 300 µs, with the checks under
//! 1 ms, the print under 15 ms, from the sheet's text to every file in memory under 20 ms.

#![allow(missing_docs, reason = "criterion's macros write functions without a word")]
#![allow(clippy::unwrap_used, clippy::panic, reason = "a bench that cannot run has to stop")]

use criterion::{Criterion, criterion_group, criterion_main};
use engine::sheet::Sheet;
use std::hint::black_box;

const SHEETS: [(&str, &str); 2] = [
    ("same legs", include_str!("../../fixtures/first-pair.toml")),
    ("different legs", include_str!("../../fixtures/uneven-legs.toml")),
];

fn read(source: &str) -> Sheet {
    quarterpin::sheet::read(source, "bench.toml").unwrap_or_else(|_| panic!("the demo sheet is not read"))
}

fn engine_alone(c: &mut Criterion) {
    for (name, source) in SHEETS {
        let sheet = read(source);
        c.bench_function(&format!("draft and offsets, {name}"), |b| {
            b.iter(|| engine::draft_pieces(black_box(&sheet)).unwrap());
        });
        c.bench_function(&format!("with checks, {name}"), |b| {
            b.iter(|| engine::record(black_box(&sheet)).unwrap());
        });
        c.bench_function(&format!("with checks, drawn, {name}"), |b| {
            b.iter(|| engine::make(black_box(&sheet)).unwrap());
        });
    }
}

/// The form of a body, flattened; `drawn` above includes the picture of the garment on it.
fn body_form(c: &mut Criterion) {
    let plan = engine::plan::Plan::of(&read(SHEETS[0].1)).unwrap_or_else(|_| panic!("the demo sheet is not planned"));
    c.bench_function("body form", |b| b.iter(|| engine::body::Form::of(black_box(&plan.body))));
}

/// The print alone, as it is by itself: A4, as few pages as possible.
fn print(c: &mut Criterion) {
    for (name, source) in SHEETS {
        let made = engine::make(&read(source)).unwrap();
        let options = export::pdf::Options::default();
        c.bench_function(&format!("print, {name}"), |b| {
            b.iter(|| export::pdf::print(black_box(&made.drawing), &options).unwrap());
        });
    }
}

/// Everything that `draft` does but starting and writing.
fn whole_command(c: &mut Criterion) {
    for (name, source) in SHEETS {
        c.bench_function(&format!("whole command, {name}"), |b| b.iter(|| every_file(black_box(source))));
    }
}

fn every_file(source: &str) -> usize {
    quarterpin::commands::files(source).unwrap().iter().map(|file| file.bytes.len()).sum()
}

criterion_group! {
    name = garment;
    config = Criterion::default().sample_size(40);
    targets = engine_alone, body_form, print, whole_command
}
criterion_main!(garment);
