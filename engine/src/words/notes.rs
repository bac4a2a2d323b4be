//! What is told beside the pieces, a line each.

use super::number::short;
use super::work::{caution, does, sewing, sewn_length, title};
use super::{Said, Speech, joining};
use crate::finding::Finding;
use crate::garment::{ElasticTotal, Mark, OpeningWalk, Step};
use crate::plan::ClothPlan;
use crate::sheet::Trial;
use crate::terms::{ClothKind, PutOn};

/// A heading over what a variant has of its own.
pub(crate) fn differing(heading: &str, variant: &str) -> String {
    format!("{heading}, variant “{variant}”: what differs")
}

/// Over the trials, where there are more than are told.
pub(crate) fn latest_trials(told: usize) -> String {
    format!("The last {told} trials")
}

/// A trial.
pub(crate) fn trial(t: &Trial) -> String {
    let date = t.date.as_ref().map(|d| format!("{d}, ")).unwrap_or_default();
    let shorter = t.reduction.map(|r| format!(" with {} % reduction", short(r.percent(), 1))).unwrap_or_default();
    let note = t.note.as_ref().map(|n| format!(" ({n})")).unwrap_or_default();
    format!("{date}{}{shorter}: {}{note}", t.edge.name(), t.verdict.name())
}

/// How much of an elastic one pair takes.
pub(crate) fn total(of: &ElasticTotal, speech: Speech) -> String {
    format!("{}, {} wide, in all: {} for one pair", of.name, speech.tool(of.width), speech.tape(of.cut_length))
}

/// What is sewn to an opening, with its marks.
pub(crate) fn sewn_on(o: &OpeningWalk, speech: Speech) -> String {
    let head = format!("{}: {}", o.opening.name(), o.finish.name());
    let put_on = if o.put_on == PutOn::Flat { "flat" } else { "round" };
    let line = speech.tape(o.sewing);
    match (&o.elastic, &o.band) {
        (Some(e), _) => format!(
            "{head}, {}, {} wide; sewn to a line of {line}; cut {} (finished {}, {}); put on {put_on}, {}; marks at {}",
            e.name,
            speech.tool(e.width),
            speech.tape(e.cut_length),
            speech.tape(e.finished_length),
            shorter(e.reduction),
            joining(e, speech),
            marks(&e.marks, speech)
        ),
        (None, Some(b)) => format!(
            "{head}; sewn to a line of {line}; cut {} long (finished {}, {}), {} wide; put on {put_on}, {}; marks at {}",
            speech.tape(b.cut_length),
            speech.tape(b.length),
            shorter(b.reduction),
            speech.tool(b.width),
            joining(b, speech),
            marks(&b.marks, speech)
        ),
        (None, None) => format!("{head}, no elastic; edge {}", speech.tape(o.finished)),
    }
}

/// By how much something is shorter than its line, from percent.
fn shorter(reduction: f64) -> String {
    match short(reduction, 1).as_str() {
        "0" => "as long as its line".to_owned(),
        percent => match percent.strip_prefix('-') {
            Some(longer) => format!("{longer} % longer"),
            None => format!("{percent} % shorter"),
        },
    }
}

/// Each mark with its distance from the first, along the elastic.
fn marks(marks: &[Mark], speech: Speech) -> String {
    marks.iter().map(|m| format!("{} {}", m.place.name(), speech.tape(m.along_elastic))).collect::<Vec<_>>().join(", ")
}

/// What the cloth is, and how it is laid.
pub(crate) fn cloth(c: &ClothPlan) -> Vec<String> {
    let kind = if c.kind == ClothKind::Knit { "knit" } else { "woven" };
    let percent = |fraction: f64| short(100.0 * fraction, 0);
    vec![
        format!(
            "{}, {kind}; stretches {} % across, {} % along",
            c.name,
            percent(c.stretch_across),
            percent(c.stretch_along)
        ),
        format!("drafted {} across and {} along", eased(c.ease_across), eased(c.ease_along)),
        "greatest stretch goes round the body; the grain line runs down it".to_owned(),
    ]
}

fn eased(ease: f64) -> String {
    let percent = short(100.0 * ease.abs(), 1);
    match ease.total_cmp(&0.0) {
        std::cmp::Ordering::Less => format!("{percent} % smaller than the body"),
        std::cmp::Ordering::Equal => "as large as the body".to_owned(),
        std::cmp::Ordering::Greater => format!("{percent} % larger than the body"),
    }
}

/// A finding.
pub(crate) fn finding(f: &Finding, speech: Speech) -> String {
    let Said { text, next, .. } = speech.finding(f);
    format!("{}: {text}. Next: {next}.", f.level.name())
}

/// What to take care of, whatever is sewn.
pub(crate) const CAUTIONS: [&str; 3] = [
    "Drafted for bodies without a front pouch. Sew a trial / muslin in the same cloth before you cut good cloth.",
    "Deep marks, numbness, tingling or swelling mean that an edge is too tight: loosen it. With pregnancy, diabetes, \
     lymphoedema, nerve or circulation trouble, or after surgery, ask a clinician.",
    "Needle, blade and hot iron: the usual care.",
];

/// A step with its number.
pub(crate) fn step(number: usize, step: &Step, speech: Speech) -> String {
    let length = sewn_length(step).map(|mm| format!(" Length {}.", speech.tape(mm))).unwrap_or_default();
    let machine = step.sewing.as_ref().map(|s| format!(" Machine: {}.", sewing(s))).unwrap_or_default();
    let care = step.caution.map(|care| format!(" Care: {}.", caution(care))).unwrap_or_default();
    format!("{number}. {}: {}.{length}{machine}{care}", title(step), does(step, speech))
}
