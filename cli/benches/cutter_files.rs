//! How long the files for cutters and plotters take, from the drawing to the bytes.
//!
//! Aim on an ordinary desktop machine: under 3 ms for each.

#![allow(missing_docs, reason = "criterion's macros write functions without a word")]
#![allow(clippy::unwrap_used, clippy::panic, reason = "a bench that cannot run has to stop")]

use criterion::{Criterion, criterion_group, criterion_main};
use export::cutter::{Cutting, Notches};
use export::dxf::{Curves, Options};
use std::hint::black_box;

const SHEET: &str = include_str!("../../fixtures/first-pair.toml");

fn files(c: &mut Criterion) {
    let sheet = quarterpin::sheet::read(SHEET, "bench.toml").unwrap_or_else(|_| panic!("the demo sheet is not read"));
    let drawing = engine::make(&sheet).unwrap().drawing;
    for curves in [Curves::Polylines, Curves::Arcs, Curves::Splines] {
        let options = Options { curves, ..Options::default() };
        c.bench_function(&format!("file to cut by, {curves:?}"), |b| {
            b.iter(|| export::dxf::cut(black_box(&drawing), &options).unwrap());
        });
    }
    c.bench_function("file to exchange", |b| {
        b.iter(|| export::dxf::pieces(black_box(&drawing), Notches::Slits).unwrap());
    });
    c.bench_function("plotter file", |b| {
        b.iter(|| export::hpgl::hpgl(black_box(&drawing), &Cutting::default()).unwrap());
    });
}

criterion_group! {
    name = cutter_files;
    config = Criterion::default().sample_size(40);
    targets = files
}
criterion_main!(cutter_files);
