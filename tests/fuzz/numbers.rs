//! Sheets that are sound, with numbers from the whole of what each key takes: what is accepted has the
//! properties of a pattern.

use super::inputs::{FIRST, Fates};
use engine::garment::Garment;
use engine::keys::{Kind, Row, SECTIONS, Shape};
use export::record::{Part, parts};
use fastrand::Rng;
use toml::{Table, Value};

/// Seams between finished edges and between sewing lines, mm; crossings, degrees.
const SEAM: f64 = 0.01;
const SEWN: f64 = 0.05;
const CROSSING: f64 = 0.5;

/// A sheet of numbers by chance, made and measured.
pub fn run(rng: &mut Rng, fates: &mut Fates) {
    let text = sheet(rng);
    let Ok(sheet) = quarterpin::sheet::read(&text, "fuzz.toml") else { return fates.count(false) };
    match engine::make(&sheet) {
        Ok(made) => {
            fates.count(true);
            sound(&made.garment, &text);
        }
        Err(refused) => {
            fates.count(false);
            assert!(!refused.findings.is_empty());
        }
    }
}

/// What holds of every garment.
pub fn sound(garment: &Garment, text: &str) {
    for seam in &garment.seams {
        assert!(seam.difference.abs() <= SEAM, "{:?} differs by {}\n{text}", seam.id, seam.difference);
        let sewn = (seam.sewn_a - seam.sewn_b).abs();
        assert!(sewn <= SEWN, "{:?} differs by {sewn} as sewn\n{text}", seam.id);
    }
    for crossing in &garment.crossings {
        assert!((crossing.angle - 180.0).abs() <= CROSSING, "{:?} is {}°\n{text}", crossing.id, crossing.angle);
    }
    // Every number of the record is one.
    assert!(parts(garment, &Part::ALL).is_ok(), "{text}");
}

/// A fixture in which some keys have other values, by chance.
pub fn sheet(rng: &mut Rng) -> String {
    let mut sheet: Table = FIRST.parse().unwrap();
    let wild = rng.u8(..4) == 0;
    // Where many keys are other ones there is seldom a garment.
    let one_in = rng.choice([12, 40, 120]).unwrap();
    vary(rng, &mut sheet, one_in, wild);
    toml::to_string(&sheet).unwrap()
}

/// Other values for some keys, one in so many of those that are not there, four of those that are.
pub fn vary(rng: &mut Rng, sheet: &mut Table, one_in: u8, wild: bool) {
    for section in SECTIONS.iter().filter(|s| s.shape == Shape::One && s.path != "sheet") {
        let Some(table) = opened(sheet, section.path, rng.u8(..one_in / 4) == 0) else { continue };
        for row in section.rows() {
            let is_there = table.contains_key(row.name);
            if rng.u8(..one_in) < if is_there { 4 } else { 1 }
                && let Some(value) = value(rng, row, table.get(row.name), wild)
            {
                table.insert(row.name.to_owned(), value);
            }
        }
    }
}

/// The table at the end of a dotted path, made if wanted.
fn opened<'t>(sheet: &'t mut Table, path: &str, made: bool) -> Option<&'t mut Table> {
    let mut table = sheet;
    for name in path.split('.') {
        if !table.contains_key(name) && !made {
            return None;
        }
        table = table.entry(name).or_insert_with(|| Value::Table(Table::new())).as_table_mut()?;
    }
    Some(table)
}

/// A value that the key takes: mostly near the one that stands there, else from the whole range or at
/// an end of it.
fn value(rng: &mut Rng, row: &Row, now: Option<&Value>, wild: bool) -> Option<Value> {
    let near = now.and_then(|v| v.as_float().or_else(|| v.as_integer().map(|n| n as f64)));
    let mut between = |low: f64, high: f64, scale: f64| match (near, rng.u8(..8)) {
        (Some(near), 0..6) if !wild => near * (1.0 + 0.25 * (rng.f64() - 0.5)),
        (_, 6) => low / scale,
        (_, 7) => high / scale,
        _ => (low + (high - low) * rng.f64()) / scale,
    };
    Some(match row.kind {
        // The fixture is in cm.
        Kind::Length(low, high) | Kind::Size(low, high) => Value::Float(rounded(between(low, high, 10.0))),
        Kind::Percent(low, high) | Kind::Share(low, high) => Value::Float(rounded(between(low, high, 1.0))),
        Kind::Count(low, high) => Value::Integer(rng.i64(low..=high)),
        Kind::YesNo => Value::Boolean(rng.bool()),
        Kind::Word(words) => Value::String(rng.choice(words())?.to_owned()),
        _ => return None,
    })
}

fn rounded(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// Every number at both ends of what it takes, and every pair of them: an answer, and a sound one.
#[test]
#[ignore = "tens of thousands of garments"]
fn every_two_numbers_at_their_ends() {
    let sheet: Table = FIRST.parse().unwrap();
    let mut ends: Vec<(&str, &str, f64)> = Vec::new();
    for section in SECTIONS.iter().filter(|s| s.shape == Shape::One && !["sheet", "print"].contains(&s.path)) {
        for row in section.rows() {
            match row.kind {
                Kind::Length(low, high) | Kind::Size(low, high) => {
                    ends.extend([low / 10.0, high / 10.0].map(|v| (section.path, row.name, v)));
                }
                Kind::Percent(low, high) | Kind::Share(low, high) => {
                    ends.extend([low, high].map(|v| (section.path, row.name, v)));
                }
                _ => {}
            }
        }
    }
    let (mut tried, mut taken, mut worst) = (0, 0, (0.0_f64, 0.0_f64, 0.0_f64));
    for (i, one) in ends.iter().enumerate() {
        for other in &ends[i..] {
            let mut sheet = sheet.clone();
            for (path, name, value) in [one, other] {
                opened(&mut sheet, path, true).unwrap().insert((*name).to_owned(), Value::Float(*value));
            }
            let text = toml::to_string(&sheet).unwrap();
            tried += 1;
            let Ok(sheet) = quarterpin::sheet::read(&text, "ends.toml") else { continue };
            let made = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| engine::make(&sheet)));
            let Ok(made) = made else { panic!("{one:?} and {other:?} panic\n{text}") };
            let Ok(made) = made else { continue };
            taken += 1;
            sound(&made.garment, &text);
            for seam in &made.garment.seams {
                worst.0 = worst.0.max(seam.difference.abs());
                worst.1 = worst.1.max((seam.sewn_a - seam.sewn_b).abs());
            }
            let off = made.garment.crossings.iter().map(|c| (c.angle - 180.0).abs());
            worst.2 = off.fold(worst.2, f64::max);
        }
    }
    println!(
        "{tried} sheets of two numbers at their ends, {taken} of them make a garment; at worst a seam differs by {:.6} mm, as sewn by {:.6} mm, a crossing by {:.4}°",
        worst.0, worst.1, worst.2
    );
    assert!(taken > 100);
}
