//! The engine's stages, one by one, on an ordinary brief with turned and trimmed edges.

#![allow(clippy::expect_used, reason = "a bench that cannot go on has nothing to measure")]
#![allow(missing_docs, reason = "the macros of criterion make the public items")]

use criterion::{Criterion, criterion_group, criterion_main};
use engine::base::Base;
use engine::body::Form;
use engine::finish::FinishKind;
use engine::quantity::Length;
use engine::sheet::{Body, Elastic, Fabric, FinishSpec, PerOpening, Sheet, Style};
use engine::stages;
use std::hint::black_box;

fn sheet() -> Option<Sheet> {
    let mm = Length::from_whole_mm;
    let with = |kind: &str| {
        Some(FinishSpec { elastic: Some("soft 8".to_owned()), ..FinishSpec::new(FinishKind::named(kind)?) })
    };
    let finish = PerOpening { top: with("turned")?, left_leg: with("trim")?, right_leg: with("trim")? };
    let body = Body::new(mm(740), mm(980), mm(200), mm(710));
    let mut sheet = Sheet::new("bench", body, Fabric::new(60.0, 40.0), Style::new(Base::named("brief")?), finish);
    let soft = Elastic {
        width: mm(8),
        picot: Length::ZERO,
        stretch: None,
        growth: None,
        latex: None,
        price: None,
        pull: Vec::new(),
    };
    sheet.elastics.insert("soft 8".to_owned(), soft);
    Some(sheet)
}

fn each(c: &mut Criterion) {
    let sheet = sheet().expect("bases and finishes are in their tables");
    let plan = stages::plan(&sheet).expect("an ordinary sheet");
    let draft = stages::draft(&plan).expect("an ordinary body");
    let cut = stages::cut(&plan, &draft).expect("ordinary finishes");
    let garment = stages::walk(&sheet, &plan, &draft, &cut).expect("every part is there");
    let mut group = c.benchmark_group("stage");
    group.bench_function("plan", |b| b.iter(|| stages::plan(black_box(&sheet))));
    group.bench_function("body form", |b| b.iter(|| Form::of(black_box(&plan.body))));
    group.bench_function("draft", |b| b.iter(|| stages::draft(black_box(&plan))));
    group.bench_function("cut", |b| b.iter(|| stages::cut(black_box(&plan), &draft)));
    group.bench_function("walk", |b| b.iter(|| stages::walk(black_box(&sheet), &plan, &draft, &cut)));
    group.bench_function("check", |b| b.iter(|| stages::check(black_box(&sheet), &plan, &draft, &garment)));
    group.bench_function("order", |b| b.iter(|| stages::order(black_box(&plan), &garment)));
    group.bench_function("draw", |b| b.iter(|| stages::draw(black_box(&sheet), &plan, &draft, &garment, &[])));
    group.bench_function("all, not drawn", |b| b.iter(|| engine::record(black_box(&sheet))));
    group.finish();
}

criterion_group!(benches, each);
criterion_main!(benches);
