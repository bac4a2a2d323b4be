//! The worst of what is accepted: sought by climbing from sheet to sheet, kept in `fixtures/worst/`.

use super::inputs::FIRST;
use super::numbers::{sound, vary};
use engine::Made;
use engine::curve::curvature;
use engine::drawing::{Piece, Role};
use fastrand::Rng;
use kurbo::{ParamCurveNearest, PathSeg};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use toml::Table;

/// Something that can be bad about a garment: the more, the worse.
struct Fault {
    /// That of its fixture.
    name: &'static str,
    of: fn(&Made) -> f64,
}

const FAULTS: [Fault; 5] = [
    Fault { name: "seam", of: |made| most(made.garment.seams.iter().map(|s| s.difference.abs())) },
    Fault { name: "sewn", of: |made| most(made.garment.seams.iter().map(|s| (s.sewn_a - s.sewn_b).abs())) },
    Fault { name: "crossing", of: |made| most(made.garment.crossings.iter().map(|c| (c.angle - 180.0).abs())) },
    Fault { name: "radius", of: |made| most(made.drawing.pieces.iter().map(bent)) },
    Fault { name: "strip", of: |made| -least(made.drawing.pieces.iter().map(strip)) },
];

fn most(values: impl Iterator<Item = f64>) -> f64 {
    values.fold(0.0, f64::max)
}

fn least(values: impl Iterator<Item = f64>) -> f64 {
    values.fold(f64::MAX, f64::min)
}

fn edges(piece: &Piece, role: Role) -> impl Iterator<Item = (&str, &PathSeg)> {
    let loops = piece.loops.iter().filter(move |l| l.role == role);
    loops.flat_map(|l| &l.edges).flat_map(|e| e.path.segments().iter().map(move |s| (e.name.as_str(), s)))
}

/// How much a finished edge is bent where it is bent most, 1/mm.
fn bent(piece: &Piece) -> f64 {
    let cubics = edges(piece, Role::Finished).filter_map(|(_, segment)| match segment {
        PathSeg::Cubic(cubic) => Some(cubic),
        _ => None,
    });
    most(cubics.flat_map(|cubic| (0..=20).map(|i| curvature(cubic, f64::from(i) / 20.0).abs())))
}

/// The narrowest cloth between the top edge and a leg edge, mm.
fn strip(piece: &Piece) -> f64 {
    let of = |part: &str| -> Vec<PathSeg> {
        edges(piece, Role::Finished).filter(|(name, _)| name.contains(part)).map(|(_, segment)| *segment).collect()
    };
    let legs = of("leg");
    let points =
        of("top").into_iter().flat_map(|s| (0..=20).map(move |i| kurbo::ParamCurve::eval(&s, f64::from(i) / 20.0)));
    least(points.flat_map(|p| legs.iter().map(move |leg| leg.nearest(p, 1e-6).distance_sq.sqrt()).collect::<Vec<_>>()))
}

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/worst")
}

fn made(text: &str) -> Option<Made> {
    let sheet = quarterpin::sheet::read(text, "worst.toml").ok()?;
    engine::make(&sheet).ok()
}

/// What is kept is accepted still, is sound, and is as bad as it was when it was found.
#[test]
fn the_worst_that_is_accepted_is_sound() {
    for fault in &FAULTS {
        let text = fs::read_to_string(folder().join(format!("{}.toml", fault.name))).unwrap();
        let told: f64 = text.split_whitespace().nth(2).unwrap().parse().unwrap();
        let made = made(&text).unwrap_or_else(|| panic!("the worst {} is refused now: seek another", fault.name));
        sound(&made.garment, &text);
        let now = (fault.of)(&made);
        // Bad by so much that it is looked at again where that changes.
        assert!((now - told).abs() <= 0.1 * told.abs() + 1e-4, "the worst {}: {told} once, {now} now", fault.name);
    }
}

#[test]
#[ignore = "as long as FUZZ_SECONDS says; writes fixtures/worst/"]
fn seek_the_worst() {
    let seconds: u64 = std::env::var("FUZZ_SECONDS").ok().and_then(|s| s.parse().ok()).unwrap_or(60);
    let from: u64 = std::env::var("FUZZ_FROM").ok().and_then(|s| s.parse().ok()).unwrap_or(1);
    for fault in &FAULTS {
        let path = folder().join(format!("{}.toml", fault.name));
        let known = fs::read_to_string(&path).ok().and_then(|text| made(&text)).map_or(f64::MIN, |m| (fault.of)(&m));
        let (worst, text, tried) = climbed(fault, from, Duration::from_secs(seconds) / FAULTS.len() as u32);
        println!("{}: {worst} of {tried} tried, {known} before", fault.name);
        if worst > known {
            fs::create_dir_all(folder()).unwrap();
            fs::write(path, format!("# worst: {worst:.6}\n{text}")).unwrap();
        }
    }
}

/// From a sheet to a worse one, and from the start again where none is found any more.
fn climbed(fault: &Fault, from: u64, share: Duration) -> (f64, String, u64) {
    let (began, mut rng) = (Instant::now(), Rng::with_seed(from));
    let (mut worst, mut kept, mut tried) = (f64::MIN, String::new(), 0);
    while began.elapsed() < share {
        let (mut here, mut sheet): (f64, Table) = (f64::MIN, FIRST.parse().unwrap());
        let mut idle = 0;
        while idle < 300 && began.elapsed() < share {
            let mut next = sheet.clone();
            let (one_in, wild) = (rng.u8(8..=120), rng.u8(..3) == 0);
            vary(&mut rng, &mut next, one_in, wild);
            tried += 1;
            idle += 1;
            let text = toml::to_string(&next).unwrap();
            let Some(made) = made(&text) else { continue };
            sound(&made.garment, &text);
            let value = (fault.of)(&made);
            if value > here {
                (here, sheet, idle) = (value, next, 0);
                if value > worst {
                    (worst, kept) = (value, text);
                }
            }
        }
    }
    (worst, kept, tried)
}
