//! Every text of a garment speaks the sheet's unit and no other, and says no number that is made up.

use crate::support::numbers::Numbers;
use crate::support::random::{plain, told, turn_knobs};
use engine::finding::{Fact, Finding};
use engine::garment::{Step, Used, Value};
use engine::quantity::Units;
use engine::sheet::{Basis, FinishSpec, PerOpening, Sheet};
use engine::words::{Speech, work};
use quarterpin::terminal::{checks, marks, summary, walk};
use serde_json::Value as Json;
use std::collections::BTreeSet;
use std::path::Path;

const SHEETS: usize = 40;

/// The same random sheet in every unit. The overlap is written out: its default is round in either.
fn sheets() -> impl Iterator<Item = [Sheet; 3]> {
    let mut n = Numbers::seeded(20_261_125);
    (0..SHEETS).map(move |i| {
        let mut sheet = plain(&mut n);
        turn_knobs(&mut sheet, &mut n);
        troubled(&mut sheet, i);
        Units::ALL.map(|(_, units)| Sheet { units, ..sheet.clone() })
    })
}

/// Something for the checks to speak of.
fn troubled(sheet: &mut Sheet, i: usize) {
    sheet.finish = PerOpening::from_fn(|o| {
        let spec = sheet.finish.get(o).clone();
        let overlap = spec.elastic.is_some().then(|| crate::support::mm(20.0));
        let basis = spec.basis.map(|basis| if i % 4 == 1 { tight() } else { basis });
        FinishSpec { overlap, basis, ..spec }
    });
    match i % 8 {
        2 => sheet.body.thigh_girth = None,
        3 => sheet.body.crotch_length_front = None,
        4 => sheet.gusset.width = Some(crate::support::mm(24.0)),
        5 => sheet.style.side_seam = Some(crate::support::mm(12.0)),
        6 => sheet.style.leg_edge = Some(crate::support::mm(300.0)),
        7 => sheet.body.waist_girth = crate::support::mm(1.4 * sheet.body.hip_girth.mm()),
        _ => {}
    }
}

fn tight() -> Basis {
    Basis::Reduction(engine::quantity::Ratio::from_percent(35.0))
}

/// The words for units of length that a sheet in this unit must not use. `mmHg` is no length.
fn strangers(units: Units) -> &'static [&'static str] {
    match units {
        Units::Cm => &["mm", "in", "inch", "inches"],
        Units::Mm => &["cm", "in", "inch", "inches"],
        Units::In => &["mm", "cm"],
    }
}

/// A text in words, without the punctuation round them.
fn words(text: &str) -> Vec<&str> {
    let edge = |c: char| matches!(c, ',' | ';' | ':' | '(' | ')' | '[' | ']' | '"' | '“' | '”');
    text.split_whitespace().map(|w| w.trim_matches(edge).trim_end_matches('.')).collect()
}

fn is_number(word: &str) -> bool {
    word.starts_with(|c: char| c.is_ascii_digit() || c == '-') && word.contains(|c: char| c.is_ascii_digit())
}

/// What is wrong with a text: a number in another unit, or a fraction that no tape has.
fn misspoken(text: &str, units: Units) -> Option<String> {
    let words = words(text);
    let strange =
        words.windows(2).find(|w| is_number(w[0]) && strangers(units).contains(&w[1]) && !is_in_the(&words, w));
    let fraction = words.iter().find(|w| is_number(w) && w.contains('/') && !is_a_needle(w) && !is_of_a_tape(w, units));
    let strange = strange.map(|w| format!("`{} {}`", w[0], w[1]));
    strange.or_else(|| fraction.map(|w| format!("`{w}`"))).map(|what| format!("{what} in {units:?}: {text}"))
}

/// "in" is a preposition where a word follows it without a stop: "3 % in the back".
fn is_in_the(words: &[&str], pair: &[&str]) -> bool {
    pair[1] == "in" && words.windows(3).any(|w| w[..2] == *pair && matches!(w[2], "the" | "a" | "all" | "published"))
}

/// Needles are told as their packets show them: metric and American size, 75/11.
fn is_a_needle(word: &str) -> bool {
    word.split_once('/').is_some_and(|(metric, _)| metric.parse::<u32>().is_ok_and(|size| size >= 60))
}

/// Lowest terms, halves to thirty-seconds, on inch sheets only.
fn is_of_a_tape(word: &str, units: Units) -> bool {
    let Some((part, of)) = word.trim_start_matches('-').split_once('/') else { return false };
    let (Ok(part), Ok(of)) = (part.parse::<u32>(), of.parse::<u32>()) else { return false };
    units == Units::In && part < of && part % 2 == 1 && [2, 4, 8, 16, 32].contains(&of)
}

/// Lengths that a text tells, mm, each with the most that it is rounded by: ends of a range go inward.
fn lengths(text: &str, units: Units) -> Vec<(f64, f64)> {
    let words = words(text);
    let mm = units.nm() as f64 / 1e6;
    let ends = (1..words.len()).filter(|&i| words[i] == units.name() && is_number(words[i - 1]));
    ends.map(|i| {
        let before = if i > 1 && words[i - 1].contains('/') { words[i - 2].parse::<f64>().ok() } else { None };
        let value = before.unwrap_or(0.0) + number(words[i - 1]);
        (value * mm, if units == Units::In { 25.4 / 16.0 } else { 1.0 })
    })
    .collect()
}

fn number(word: &str) -> f64 {
    match word.split_once('/') {
        Some((part, of)) => part.parse::<f64>().unwrap() / of.parse::<f64>().unwrap(),
        None => word.parse().unwrap_or_else(|_| panic!("{word} is no number")),
    }
}

fn percents(text: &str) -> Vec<f64> {
    let words = words(text);
    words.windows(2).filter(|w| w[1] == "%" && is_number(w[0])).map(|w| number(w[0])).collect()
}

/// Every number of a record.
fn numbers(value: &Json, into: &mut Vec<f64>) {
    match value {
        Json::Number(n) => into.extend(n.as_f64()),
        Json::Array(items) => items.iter().for_each(|item| numbers(item, into)),
        Json::Object(fields) => fields.values().for_each(|field| numbers(field, into)),
        _ => {}
    }
}

/// Advice and facts of other people's bodies: known, not measured here. Millimetres, then percent.
const KNOWN_MM: [f64; 5] = [15.0, 200.0, 8.0 * 25.4, 20.0, 0.75 * 25.4];
const KNOWN_PERCENT: [f64; 4] = [45.0, 10.0, 42.0, 3.0];

/// What a text says and the record does not hold.
fn made_up(text: &str, units: Units, held: &[f64]) -> Option<String> {
    let mm = lengths(text, units)
        .into_iter()
        .find(|(mm, by)| !held.iter().chain(&KNOWN_MM).any(|h| (h.abs() - mm.abs()).abs() <= by + 1e-6));
    let percent = percents(text)
        .into_iter()
        .find(|p| !held.iter().chain(&KNOWN_PERCENT).any(|h| (h.abs() - p.abs()).abs() <= 0.05 + 1e-6));
    let what = mm.map(|(mm, _)| format!("{mm} mm")).or_else(|| percent.map(|p| format!("{p} %")));
    what.map(|what| format!("{what} is not in the record: {text}"))
}

/// Findings as the record has them, effects too, with its numbers.
fn findings(record: &Json, into: &mut Vec<(String, String)>) {
    for found in record.as_array().into_iter().flatten() {
        let text = |key: &str| found[key].as_str().unwrap_or_default().to_owned();
        into.push((text("code"), text("text")));
        into.push((text("code"), text("next")));
        findings(&found["effects"], into);
    }
}

fn used(list: &[Used]) -> Vec<f64> {
    let number = |value: &Value| match value {
        Value::Mm(v) | Value::Percent(v) | Value::Number(v) => Some(*v),
        Value::Word(_) => None,
    };
    list.iter().filter_map(|u| number(&u.value)).collect()
}

#[test]
fn findings_speak_the_sheet_s_unit_and_say_nothing_that_the_record_does_not_hold() {
    let (mut broken, mut codes) = (Vec::new(), BTreeSet::new());
    for sheet in sheets().flatten() {
        let (json, mut held) = match engine::make(&sheet) {
            Ok(made) => (export::record::json(&made.garment).unwrap(), Vec::new()),
            Err(refused) => {
                let plan = refused.reached.plan.as_ref().map(|plan| used(&plan.used)).unwrap_or_default();
                (export::record::findings("x", sheet.units, &refused.findings).unwrap(), plan)
            }
        };
        let record: Json = serde_json::from_str(&json).unwrap();
        numbers(&record, &mut held);
        let mut texts = Vec::new();
        findings(&record["checks"], &mut texts);
        for (code, text) in texts {
            let wrong = misspoken(&text, sheet.units).or_else(|| made_up(&text, sheet.units, &held));
            broken.extend(wrong.map(|why| format!("{code}: {why}\n  {}", told(&sheet))));
            codes.insert(code);
        }
    }
    assert!(codes.len() >= 12, "only {codes:?}");
    assert!(broken.is_empty(), "{} broken:\n{}", broken.len(), broken[..broken.len().min(12)].join("\n"));
}

/// Whether a number was meant in another unit depends on the unit that it was written in. All else
/// is the same.
#[test]
fn twins_differ_in_nothing_but_their_texts() {
    for [cm, mm, inch] in sheets() {
        let facts = |sheet: &Sheet| {
            let found = match engine::make(sheet) {
                Ok(made) => made.garment.checks,
                Err(refused) => refused.findings,
            };
            let all = found.iter().flat_map(Finding::all).map(|f| f.fact.clone());
            all.filter(|fact| !matches!(fact, Fact::Body(_))).collect::<Vec<_>>()
        };
        assert_eq!(facts(&cm), facts(&mm), "{}", told(&cm));
        assert_eq!(facts(&cm), facts(&inch), "{}", told(&cm));
    }
}

#[test]
fn the_terminal_speaks_the_sheet_s_unit() {
    let mut broken = Vec::new();
    for sheet in sheets().flatten() {
        let units = sheet.units;
        let text = match engine::make(&sheet) {
            Ok(made) => {
                let garment = made.garment;
                let all = walk::render(&garment, units) + &marks::render(&marks::gaps(&garment), units);
                all + &summary::render(&garment, units, Path::new("out"), &[])
            }
            Err(refused) => checks::render(&refused.findings, units),
        };
        let text = anstream::adapter::strip_str(&text).to_string();
        let heads = |line: &str| words(line).iter().any(|word| strangers(units)[..1].contains(word));
        broken.extend(text.lines().filter(|line| heads(line)).map(|line| format!("{units:?}: {line}")));
        broken.extend(text.lines().filter_map(|line| misspoken(line, units)));
    }
    assert!(broken.is_empty(), "{} broken:\n{}", broken.len(), broken[..broken.len().min(12)].join("\n"));
}

/// Every sentence of a record that is no finding, and every line of a print. What a machine is set
/// to is told as its dials show it, in every sheet.
#[test]
fn the_order_of_work_and_the_print_speak_the_sheet_s_unit() {
    let mut broken = Vec::new();
    for sheet in sheets().flatten() {
        let Ok(made) = engine::make(&sheet) else { continue };
        let record: Json = serde_json::from_str(&export::record::json(&made.garment).unwrap()).unwrap();
        let mut texts = sentences(&record);
        texts.extend(made.drawing.trials.lines.clone());
        texts.extend(made.drawing.pieces.iter().flat_map(|p| p.text.iter().map(|t| t.text.clone())));
        let settings = settings(&made.garment.order_of_work);
        let without = |text: &String| settings.iter().fold(text.clone(), |text, set| text.replace(set, ""));
        broken.extend(texts.iter().map(without).filter_map(|text| misspoken(&text, sheet.units)));
    }
    broken.sort_unstable();
    broken.dedup();
    assert!(broken.is_empty(), "{} broken:\n{}", broken.len(), broken[..broken.len().min(12)].join("\n"));
}

/// Words of the work card, measurements too.
#[test]
fn the_work_card_speaks_the_sheet_s_unit_and_says_nothing_that_the_record_does_not_hold() {
    let mut broken = Vec::new();
    for sheet in sheets().flatten() {
        let Ok(made) = engine::make(&sheet) else { continue };
        let record: Json = serde_json::from_str(&export::record::json(&made.garment).unwrap()).unwrap();
        let mut held = Vec::new();
        numbers(&record, &mut held);
        // Settings of a finish stand in the steps alone.
        let told = sentences(&record);
        held.extend(told.iter().flat_map(|text| lengths(text, sheet.units)).map(|(mm, _)| mm));
        held.extend([engine::words::card::STRIP_ROW.0, 25.4 * engine::words::card::STRIP_ROW.1]);
        let card = export::card::markdown(&made.drawing, export::choice::Measures::Told).replace('\\', "");
        let wrong = |line: &str| misspoken(line, sheet.units).or_else(|| made_up(line, sheet.units, &held));
        broken.extend(card.lines().filter_map(wrong).map(|why| format!("{why}\n  {}", self::told(&sheet))));
    }
    broken.sort_unstable();
    broken.dedup();
    assert!(broken.is_empty(), "{} broken:\n{}", broken.len(), broken[..broken.len().min(12)].join("\n"));
}

/// All that the steps say of the machine.
fn settings(steps: &[Step]) -> BTreeSet<String> {
    let needles = steps.iter().filter_map(|s| s.needle).flat_map(|of| [work::setting_up(of), work::needle(of)]);
    steps.iter().filter_map(|s| s.sewing).map(|s| work::sewing(&s)).chain(needles).collect()
}

fn sentences(value: &Json) -> Vec<String> {
    match value {
        Json::String(text) if text.contains(' ') => vec![text.clone()],
        Json::Array(items) => items.iter().flat_map(sentences).collect(),
        Json::Object(fields) => fields.iter().filter(|(key, _)| *key != "d").flat_map(|(_, v)| sentences(v)).collect(),
        _ => Vec::new(),
    }
}

#[test]
fn the_test_itself_hears_what_is_wrong() {
    assert!(misspoken("a seam of 3 cm", Units::In).is_some() && misspoken("a seam of 3 cm", Units::Mm).is_some());
    assert!(misspoken("7.0 mm (0.28 in)", Units::Mm).is_some() && misspoken("7.0 mm (0.28 in)", Units::In).is_some());
    assert!(misspoken("1 4/8 in", Units::In).is_some() && misspoken("1 1/3 in", Units::In).is_some());
    assert!(misspoken("1/2", Units::Cm).is_some());
    assert_eq!(misspoken("29 1/2 in, and 3 % in the back", Units::In), None);
    assert!(made_up("12 cm", Units::Cm, &[118.0]).is_some() && made_up("12.0 cm", Units::Cm, &[120.4]).is_none());
    assert!(made_up("4 1/2 in", Units::In, &[4.5 * 25.4]).is_none() && made_up("7 %", Units::Cm, &[6.8]).is_some());
    assert_eq!(Speech(Units::In).tape(749.3), "29 1/2 in");
}
