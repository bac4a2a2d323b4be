//! What is said of trials: why a setting is proposed, and what does not go together.

mod remark;

pub use remark::{changed, conflict, key, remedy, unchanged};

use super::listed;
use super::number::{percent, short};
use crate::garment::Garment;
use crate::keys::Edges;
use crate::sheet::{Sheet, Trial};
use crate::terms::{Opening, Section, Verdict};
use crate::trial::evidence::{Carried, Judged};
use crate::trial::setting::{self, Spot};
use crate::trial::{Contradiction, Next, Refuted, TOP_STRETCH};

/// The name of a spot: `legs`, or `legs, back`.
pub fn spot(spot: Spot) -> String {
    let part = spot.section.and_then(|section| Section::ALL.iter().find(|(_, s)| *s == section));
    part.map_or_else(|| spot.edge.name().to_owned(), |(part, _)| format!("{}, {part}", spot.edge.name()))
}

/// What is sewn on to an opening: `left leg (trim, soft 8, 0 %)`.
pub fn sewn(sheet: &Sheet, garment: &Garment, opening: Opening) -> String {
    let spec = sheet.finish.get(opening);
    let setting = setting::walk(garment, opening).and_then(|walk| setting::of(walk, None)).map(percent);
    let parts: Vec<String> =
        [Some(spec.kind.name().to_owned()), spec.elastic.clone(), setting].into_iter().flatten().collect();
    format!("{} ({})", opening.name(), parts.join(", "))
}

/// A block of the sheet: `left leg, trim, soft 8, 0 % shorter, stretched by 9 % on the body: right`.
pub fn tried(trial: &Trial) -> String {
    let part = Spot { edge: trial.edge, section: trial.section };
    let shorter = trial.reduction.map(|r| format!("{} shorter", percent(r.percent())));
    let stretch = trial.worn_stretch.map(|s| format!("stretched by {} on the body", percent(s.percent().round())));
    let finish = trial.finish.map(|kind| kind.name().to_owned());
    let said: Vec<String> =
        [Some(spot(part)), finish, trial.elastic.clone(), shorter, stretch].into_iter().flatten().collect();
    let nothing = trial.finish.is_some_and(|kind| !kind.takes().length());
    let more = if nothing { "; nothing is sewn on that could be set: say what it does as a fit remark" } else { "" };
    format!("{}: {}{more}", said.join(", "), trial.verdict.name())
}

/// Why a setting is proposed.
pub fn why(next: &Next) -> String {
    let mut said = vec![if next.judged.is_empty() { start(next) } else { learned(next) }];
    said.extend(carried(next));
    if let (true, Some((least, most))) = (next.held_back, next.allowed) {
        said.push(format!("The checks allow {} to {}", short(least, 1), percent(most)));
    }
    if next.allowed.is_none() {
        said.push("The checks have something against every setting: look at them first".to_owned());
    }
    said.join(". ")
}

fn start(next: &Next) -> String {
    if next.spot.edge != Edges::Top {
        return "No trial yet: legs are started at 0 % where elastic is laid on, at 10 % where it has to hold (common \
                practice)"
            .to_owned();
    }
    let (least, most) = TOP_STRETCH;
    format!(
        "No trial yet: in all, a top edge is usually worn stretched by {} to {} (common practice)",
        short(least, 0),
        percent(most)
    )
}

fn learned(next: &Next) -> String {
    let heard: Vec<String> =
        [Verdict::Loose, Verdict::Right, Verdict::Tight].iter().filter_map(|v| at(next, *v)).collect();
    let range = if short(next.low, 0) == short(next.high, 0) {
        format!("near {}", percent(next.low.round()))
    } else {
        format!("between {} and {}", short(next.low, 0), percent(next.high.round()))
    };
    let comfort = if next.contradictions.iter().any(Contradiction::is_open) {
        format!("they contradict each other, so comfort may lie anywhere {range}")
    } else {
        format!("if that holds, comfort lies {range}")
    };
    let sure = if next.converged { ", which is sure enough" } else { "" };
    format!(
        "{}: {comfort}. {} is right in {} of 100 such cases{sure}",
        super::capital(&heard.join(", ")),
        percent(next.proposal),
        short(100.0 * next.chance, 0)
    )
}

/// `right at 0 and 4 %`.
fn at(next: &Next, verdict: Verdict) -> Option<String> {
    let mut settings: Vec<f64> = next.judged.iter().filter(|j| j.verdict == verdict).map(|j| j.setting).collect();
    settings.sort_by(f64::total_cmp);
    let mut settings: Vec<String> = settings.into_iter().map(|s| short(setting::rounded(s), 1)).collect();
    settings.dedup();
    let settings: Vec<&str> = settings.iter().map(String::as_str).collect();
    (!settings.is_empty()).then(|| format!("{} at {} %", verdict.name(), listed(&settings)))
}

/// What of it was sewn with something else.
fn carried(next: &Next) -> Option<String> {
    let furthest = next.judged.iter().map(|j| j.carried).max().filter(|c| *c != Carried::AsSewn)?;
    let how = match furthest {
        Carried::AsSewn => return None,
        Carried::OtherCloth => "another cloth: compared by how far they were stretched on the body",
        Carried::ByTension => "another elastic: compared by its pull on the body",
        Carried::ByStretch => "another elastic, without a pull test of both: compared by its stretch on the body",
        Carried::AsWritten => "another elastic or cloth, with nothing to compare by",
    };
    let off = short(furthest.doubt(), 1);
    Some(format!("Some were sewn with {how}, which may be off by {off} points"))
}

/// Two verdicts of a spot that cannot both be right, and what is done about it.
pub fn contradiction(next: &Next, found: &Contradiction) -> String {
    let one = |j: &Judged| {
        format!("{} {} at {} ({})", j.edge.name(), j.verdict.name(), percent(setting::rounded(j.setting)), when(j))
    };
    let legs = |j: &Judged| matches!(j.edge, Edges::LeftLeg | Edges::RightLeg);
    let (a, b) = (&found.one, &found.other);
    let perhaps = if legs(a) && legs(b) && a.edge != b.edge {
        "one of them is mistaken, or the legs differ"
    } else {
        "one of them is mistaken, or something else had changed"
    };
    let then = match (&found.refuted, retest(next, found)) {
        (Some(Refuted { trial, by }), _) => {
            let by: Vec<String> = by.iter().map(usize::to_string).collect();
            let by: Vec<&str> = by.iter().map(String::as_str).collect();
            format!("trials {} all go against trial {trial}, which no longer counts for the range", listed(&by))
        }
        (None, Some(again)) => format!("{perhaps}. Sew exactly that again: {again}"),
        (None, None) => perhaps.to_owned(),
    };
    format!("{} and {} do not go together: {then}", one(a), one(b))
}

/// `trial 2, 2026-03-02`.
fn when(judged: &Judged) -> String {
    let date = judged.date.as_ref().map(|date| format!(", {date}")).unwrap_or_default();
    format!("trial {}{date}", judged.trial)
}

/// What is sewn again to settle a contradiction; one is settled at a time.
fn retest(next: &Next, found: &Contradiction) -> Option<String> {
    if next.to_settle() != Some(found) {
        return None;
    }
    let legs = |(left, right)| format!("left leg {}, right leg {}", percent(left), percent(right));
    next.pair.map(legs).or_else(|| Some(format!("{} {}", spot(next.spot), percent(next.again?))))
}
