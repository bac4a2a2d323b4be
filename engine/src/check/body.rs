//! Is this a body like those that were measured?

use super::{Subject, finding, refusal};
use crate::garment::{Finding, Level};

/// One measure of published bodies, mm.
struct Published {
    key: &'static str,
    words: &'static str,
    value: fn(&Subject<'_>) -> f64,
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
        value: |s| s.plan.body.waist,
        least: 500.0,
        most: 1400.0,
    },
    Published { key: "body.hip_girth", words: "hip girth", value: |s| s.plan.body.hip, least: 700.0, most: 1500.0 },
    Published {
        key: "body.waist_to_hip",
        words: "waist to hip",
        value: |s| s.plan.body.waist_to_hip,
        least: 50.0,
        most: 330.0,
    },
    Published {
        key: "body.crotch_length",
        words: "crotch length",
        value: |s| s.plan.body.crotch,
        least: 450.0,
        most: 1000.0,
    },
];

const INCH: f64 = 2.54;

/// Are the numbers in another unit than the sheet says?
pub(super) fn units(s: &Subject<'_>) -> Vec<Finding> {
    PUBLISHED.iter().filter_map(|p| mixed(p, (p.value)(s))).collect()
}

fn mixed(p: &Published, value: f64) -> Option<Finding> {
    let ordinary = |v: f64| (p.least..=p.most).contains(&v);
    let (other, written, meant) =
        if value > p.most { (value / INCH, "inches", "centimetres") } else { (value * INCH, "centimetres", "inches") };
    (!ordinary(value) && ordinary(other)).then(|| {
        let text = format!(
            "a {} of {:.1} cm ({:.1} in) is unlike published bodies, but {:.1} cm ({:.1} in) would be ordinary: were \
             {meant} written in a sheet that says {written}?",
            p.words,
            value / 10.0,
            value / 25.4,
            other / 10.0,
            other / 25.4
        );
        finding("body.units_mixed", Level::Warning, p.key, text, "look at sheet.units and at the tape measure's scale")
            .measured(value, if value > p.most { p.most } else { p.least }, "mm")
    })
}

/// Is a measure unlike published bodies, whatever the unit?
pub(super) fn proportions(s: &Subject<'_>) -> Vec<Finding> {
    PUBLISHED
        .iter()
        .filter(|p| {
            let v = (p.value)(s);
            !(p.least..=p.most).contains(&v) && mixed(p, v).is_none()
        })
        .map(|p| {
            let v = (p.value)(s);
            let text = format!("a {} of {:.1} cm lies outside the range of published bodies", p.words, v / 10.0);
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

/// Beyond this ratio of waist to hip no published body is near (ANSUR II women: up to about 1.1).
const MOST_WAIST_OVER_HIP: f64 = 1.3;

/// A waist far larger than the hip: most likely one of them is misread.
pub(super) fn waist_over_hip(s: &Subject<'_>) -> Vec<Finding> {
    let ratio = s.plan.body.waist / s.plan.body.hip;
    if ratio <= MOST_WAIST_OVER_HIP {
        return Vec::new();
    }
    let text = format!(
        "the hip girth of {:.1} cm is far below the waist girth of {:.1} cm",
        s.plan.body.hip / 10.0,
        s.plan.body.waist / 10.0
    );
    let next = "measure the hip girth level over the fullest part of the seat, and look whether the two were swapped";
    vec![refusal("body.hip_below_waist", "body.hip_girth", text, next).measured(ratio, MOST_WAIST_OVER_HIP, "ratio")]
}

/// What the plan had to estimate and wants to be known.
pub(super) fn estimates(s: &Subject<'_>) -> Vec<Finding> {
    s.plan.findings.clone()
}
