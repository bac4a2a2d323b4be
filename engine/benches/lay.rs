//! How long it takes to lay pairs of briefs on cloth 900 mm wide, and a room of twenty bodies on one cloth.
//!
//! Aims on an ordinary desktop machine: a single pair under 50 ms, twenty people with all of their
//! steps under 30 s (here they take a tenth of them).

#![allow(clippy::expect_used, reason = "a bench that cannot go on has nothing to measure")]
#![allow(missing_docs, reason = "the macros of criterion make the public items")]

use criterion::{Criterion, criterion_group, criterion_main};
use engine::base::Base;
use engine::drawing::Piece;
use engine::finish::FinishKind;
use engine::lay::{Cloth, Rules, Wanted, Ways, on_cloth};
use engine::quantity::Length;
use engine::sheet::{Body, Fabric, FinishSpec, Sheet, Style};
use std::hint::black_box;

/// The pieces of a brief with hems for a hip of so many millimetres.
fn pieces(hip: i64) -> Vec<Piece> {
    let mm = Length::from_whole_mm;
    let hem = FinishSpec::new(FinishKind::named("hem").expect("a hem is in the table"));
    let body = Body::new(mm(hip - 240), mm(hip), mm(200), mm(710 + (hip - 980) / 3));
    let brief = Style::new(Base::named("brief").expect("a brief is in the table"));
    let sheet = Sheet::new("bench", body, Fabric::new(60.0, 40.0), brief, hem.everywhere());
    engine::make(&sheet).expect("an ordinary body").drawing.pieces
}

fn wanted(pieces: &[Piece], pairs: u32) -> Vec<Wanted<'_>> {
    pieces.iter().map(|piece| Wanted { piece, taken: piece, times: pairs * piece.quantity }).collect()
}

fn cloth(width: f64) -> Cloth {
    Cloth { name: "jersey".to_owned(), width, ways: Ways::Both }
}

fn pairs(c: &mut Criterion) {
    let brief = pieces(980);
    let mut group = c.benchmark_group("lay");
    group.sample_size(10);
    for pairs in [1, 2, 4, 10] {
        let wanted = wanted(&brief, pairs);
        group.bench_function(format!("{pairs} pairs"), |b| {
            b.iter(|| on_cloth(black_box(&wanted), cloth(900.0), Rules::default(), &mut |_| ()));
        });
    }
    group.finish();
}

fn class(c: &mut Criterion) {
    let people: Vec<Vec<Piece>> = (0..20).map(|i| pieces(880 + 12 * i)).collect();
    let wanted: Vec<Wanted<'_>> = people.iter().flat_map(|pieces| wanted(pieces, 1)).collect();
    let tenth = Rules { steps: Some(6_000), ..Rules::default() };
    let mut group = c.benchmark_group("lay");
    group.sample_size(10);
    group.bench_function("twenty bodies, a tenth of the steps", |b| {
        b.iter(|| on_cloth(black_box(&wanted), cloth(1500.0), tenth, &mut |_| ()));
    });
    group.finish();
}

criterion_group!(benches, pairs, class);
criterion_main!(benches);
