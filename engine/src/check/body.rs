//! Is this a body like those that were measured?

use super::Subject;
use crate::finding::{finding, refusal};
use crate::garment::{Finding, Level};
use crate::plan::Plan;
use crate::quantity::Units;
use crate::terms::WaistLevel;
use crate::words::both;

/// One measure of published bodies, mm.
struct Published {
    key: &'static str,
    words: &'static str,
    value: fn(&Plan) -> f64,
    least: f64,
    most: f64,
}

/// Ranges found in 1,986 women (ANSUR II, Gordon et al. 2014, NATICK/TR-15/007, public release:
/// hip 80–134 cm, thigh 45–87 cm, crotch length navel to navel 49–78 cm, navel to hip 5–23 cm,
/// waist at the navel 61–133 cm), widened by what a waist level above the navel adds.
const PUBLISHED: [Published; 4] = [
    Published {
        key: "body.waist_girth",
        words: "waist girth",
        value: |plan| plan.body.waist,
        least: 500.0,
        most: 1400.0,
    },
    Published { key: "body.hip_girth", words: "hip girth", value: |plan| plan.body.hip, least: 700.0, most: 1500.0 },
    Published {
        key: "body.waist_to_hip",
        words: "waist to hip",
        value: |plan| plan.body.waist_to_hip,
        least: 50.0,
        most: 330.0,
    },
    Published {
        key: "body.crotch_length",
        words: "crotch length",
        value: |plan| plan.body.crotch,
        least: 450.0,
        most: 1000.0,
    },
];

/// Is the number an ordinary one for this measure?
fn is_ordinary(p: &Published, mm: f64) -> bool {
    (p.least..=p.most).contains(&mm)
}

/// Is this a body like those that were measured?
pub(super) fn published(s: &Subject<'_>) -> Vec<Finding> {
    unlike_published(s.plan, s.units)
}

/// What is unlike published bodies. Asked for a refused sheet too: a mistaken number or unit is
/// the usual cause.
pub(crate) fn unlike_published(plan: &Plan, units: Units) -> Vec<Finding> {
    suspected_units(plan, units).map_or_else(|| out_of_range(plan), |found| vec![found])
}

/// The unit that makes the most of the unlikely numbers ordinary, if there is one. A single number
/// is no sign of a whole sheet in another unit.
fn suspected_units(plan: &Plan, units: Units) -> Option<Finding> {
    let odd: Vec<&Published> = PUBLISHED.iter().filter(|p| !is_ordinary(p, (p.value)(plan))).collect();
    let mended = |other: Units| {
        let factor = other.nm() as f64 / units.nm() as f64;
        odd.iter().filter(|p| is_ordinary(p, (p.value)(plan) * factor)).count()
    };
    let others = Units::ALL.iter().map(|(_, unit)| *unit).filter(|unit| *unit != units);
    let (count, likely) = others.map(|unit| (mended(unit), unit)).max_by_key(|(count, _)| *count)?;
    (count > 1).then(|| mixed(plan, units, likely, &odd))
}

fn mixed(plan: &Plan, units: Units, likely: Units, odd: &[&Published]) -> Finding {
    let written = |p: &&Published| format!("{} {}", p.words, trimmed((p.value)(plan) * 1e6 / units.nm() as f64));
    let list = odd.iter().map(written).collect::<Vec<_>>().join(", ");
    let text = format!(
        "no published body has these measures in {}: {list}; in {} they would be ordinary",
        in_words(units),
        in_words(likely)
    );
    let next = "set sheet.units to the unit you measured in, or write the numbers in the sheet's unit";
    finding("body.units", Level::Warning, "sheet.units", text, next)
}

const fn in_words(units: Units) -> &'static str {
    match units {
        Units::Cm => "centimetres",
        Units::Mm => "millimetres",
        Units::In => "inches",
    }
}

/// A number as a person would have written it.
fn trimmed(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Is a measure unlike published bodies, whatever the unit?
fn out_of_range(plan: &Plan) -> Vec<Finding> {
    PUBLISHED
        .iter()
        .filter(|p| !is_ordinary(p, (p.value)(plan)))
        .map(|p| {
            let v = (p.value)(plan);
            let text = format!("a {} of {} lies outside the range of published bodies", p.words, both(v));
            finding(
                "body.unlike_published",
                Level::Warning,
                p.key,
                text,
                "measure again; a child's sheet may ignore this",
            )
            .measured(v, if v > p.most { p.most } else { p.least }, "mm")
        })
        .collect()
}

/// One measure held against what others of the same body let expect: mean and standard deviation.
struct Expected {
    key: &'static str,
    words: &'static str,
    value: f64,
    mean: f64,
    deviation: f64,
    source: &'static str,
}

const ANSUR: &str = "1,986 women, ANSUR II (Gordon et al. 2014)";
const BDIMS: &str = "260 women (Heinz et al. 2003)";

/// Means and standard deviations computed from the two open data sets named beside them, mm.
fn expectations(plan: &Plan) -> Vec<Expected> {
    let b = &plan.body;
    let new = |key, words, value, mean, deviation, source| Expected { key, words, value, mean, deviation, source };
    let waist = |mean, deviation, source| new("body.waist_girth", "waist girth", b.waist, mean, deviation, source);
    let mut all = match b.level {
        WaistLevel::Natural => vec![waist(698.0, 76.0, BDIMS)],
        WaistLevel::Navel => vec![waist(861.0, 100.0, ANSUR)],
        // No data for this level.
        WaistLevel::Midway => Vec::new(),
    };
    // The crotch length was taken at the navel: what a higher waist level adds is added twice.
    let above = (b.waist_to_hip - 146.0).max(0.0) * if b.level == WaistLevel::Navel { 0.0 } else { 2.0 };
    all.extend([
        new("body.hip_girth", "hip girth", b.hip, 1021.0, 76.0, ANSUR),
        new("body.crotch_length", "crotch length", b.crotch, 621.0 + above, 42.0, ANSUR),
        // By least squares on the hip girth; the deviation is that of the residuals.
        new("body.thigh_girth", "thigh girth", b.thigh, 0.691 * b.hip - 89.0, 19.0, ANSUR),
        new(
            "body.crotch_length_front",
            "front part of the crotch length",
            b.crotch_front,
            0.449 * b.crotch,
            0.033 * b.crotch,
            ANSUR,
        ),
    ]);
    all
}

/// From this many standard deviations on, a measure is worth a second look.
const RARE: f64 = 3.5;
/// Within this many it is an ordinary one.
const ORDINARY: f64 = 2.5;

impl Expected {
    fn deviations(&self, value: f64) -> f64 {
        (value - self.mean) / self.deviation
    }

    /// Was it measured in inches and written in centimetres, or the other way round?
    fn mended(&self) -> Option<&'static str> {
        let ordinary = |value: f64| self.deviations(value).abs() < ORDINARY;
        if ordinary(self.value * 2.54) {
            Some("inches")
        } else if ordinary(self.value / 2.54) {
            Some("centimetres")
        } else {
            None
        }
    }
}

/// Is one measure out of proportion to the others, or to published bodies?
pub(super) fn proportions(s: &Subject<'_>) -> Vec<Finding> {
    // The data are of adults.
    if s.plan.body.child || !unlike_published(s.plan, s.units).is_empty() {
        return Vec::new();
    }
    let rare = |e: &Expected| e.deviations(e.value).abs() > RARE;
    expectations(s.plan).into_iter().filter(rare).map(|e| unusual(&e)).collect()
}

fn unusual(e: &Expected) -> Finding {
    let z = e.deviations(e.value);
    let way = if z < 0.0 { "below" } else { "above" };
    let text = format!(
        "a {} of {} is {:.1} standard deviations {way} what is found in {}",
        e.words,
        both(e.value),
        z.abs(),
        e.source
    );
    if let Some(unit) = e.mended() {
        let text = format!("{text}; read as {unit} it would be an ordinary one");
        let next = "look whether this one number was measured in another unit than the sheet's";
        return finding("body.one_in_another_unit", Level::Warning, e.key, text, next).measured(z, RARE, "sd");
    }
    let next = "measure once more; if it is right, nothing is wrong";
    finding("body.unusual", Level::Note, e.key, text, next).measured(z, RARE, "sd")
}

/// The crotch length runs down from the waist level and up again, so that the legs divide at most
/// half of it down; no hip level lies below that.
pub(super) fn hip_level(s: &Subject<'_>) -> Vec<Finding> {
    let (depth, limit) = (s.plan.body.waist_to_hip, s.plan.body.crotch / 2.0);
    let refused = || {
        let text = format!(
            "the hip level would lie {} below the waist level, but the legs divide before {}: that is half of the \
             crotch length",
            both(depth),
            both(limit)
        );
        let next = "measure waist_to_hip again, from the waist level down the side to the fullest part of the seat, \
                    and crotch_length with it";
        refusal("body.hip_level", "body.waist_to_hip", text, next).measured(depth, limit, "mm")
    };
    (depth > limit).then(refused).into_iter().collect()
}

/// Beyond this ratio of waist to hip no published body is near (ANSUR II women: up to about 1.1).
const MOST_WAIST_OVER_HIP: f64 = 1.3;

/// A waist far larger than the hip: most likely one of them is misread.
pub(super) fn waist_over_hip(s: &Subject<'_>) -> Vec<Finding> {
    let ratio = s.plan.body.waist / s.plan.body.hip;
    if ratio <= MOST_WAIST_OVER_HIP {
        return Vec::new();
    }
    let text = format!(
        "the hip girth of {} is far below the waist girth of {}",
        both(s.plan.body.hip),
        both(s.plan.body.waist)
    );
    let next = "measure the hip girth level over the fullest part of the seat, and look whether the two were swapped";
    vec![refusal("body.hip_below_waist", "body.hip_girth", text, next).measured(ratio, MOST_WAIST_OVER_HIP, "ratio")]
}

/// What the plan had to estimate and wants to be known.
pub(super) fn estimates(s: &Subject<'_>) -> Vec<Finding> {
    s.plan.findings.clone()
}
