//! What is put on an edge, made ready: cut, joined or folded, marked, pinned.

use super::edge::EdgePlan;
use super::{Job, chained, cutting};
use crate::finish::Takes;
use crate::finish::task::stitch;
use crate::garment::{ElasticCut, Mark, Need};
use crate::measure::elastic::{in_hand, meeting};
use crate::terms::PutOn;
use crate::words::both;

/// The steps before it meets the edge.
pub(super) fn before(edge: EdgePlan<'_>) -> Vec<Job> {
    match edge.finish.kind.takes() {
        Takes::Elastic => elastic(edge),
        Takes::Threaded => edge.walk.elastic.iter().map(|e| cut(edge, e)).collect(),
        Takes::Strip => band(edge),
        Takes::Nothing => Vec::new(),
    }
}

fn elastic(edge: EdgePlan<'_>) -> Vec<Job> {
    let Some(elastic) = edge.walk.elastic.as_ref().filter(|_| !edge.is_laid_on()) else { return Vec::new() };
    let mut links = vec![(cut(edge, elastic), "")];
    if edge.finish.put_on == PutOn::Round {
        links.push((joined(edge), "an elastic is cut before its ends are joined"));
    }
    links.push((
        marked(edge, "elastic", &elastic.marks),
        match edge.finish.put_on {
            PutOn::Round => "the ring is parted from its joint, which takes up the overlap",
            PutOn::Flat => "the marks are measured from its cut end",
        },
    ));
    chained(links)
}

fn cut(edge: EdgePlan<'_>, elastic: &ElasticCut) -> Job {
    let is_threaded = edge.finish.kind.takes() == Takes::Threaded;
    let joining = if is_threaded {
        format!("its ends are lapped {} when it has been threaded and tried on", both(edge.finish.overlap))
    } else {
        elastic.joining.clone()
    };
    let does = format!("cut {} of {}, laid out slack: {joining}", both(elastic.cut_length), elastic.name);
    let job = edge.job("elastic cut", "cut the elastic", does).length(elastic.cut_length);
    let is_sampled = edge.finish.elastic.as_ref().is_some_and(|e| e.elastic.growth.is_some());
    if is_sampled || is_threaded {
        return job;
    }
    job.caution("sew a sample of 100 mm (4 in) first: an elastic can come out longer than it was")
}

/// Cut after it has been laid on from the length in hand.
pub(super) fn cut_off(edge: EdgePlan<'_>) -> Job {
    let does = format!(
        "cut the elastic off at the raw edge of the seam allowance, so that both ends run {} into it",
        both(edge.bench.plan.seams.side)
    );
    edge.job("elastic cut", "cut the elastic off", does).caution("mind the cloth underneath")
}

fn joined(edge: EdgePlan<'_>) -> Job {
    let does = format!(
        "lay the elastic in a ring without a twist, lap its ends {}, and sew across the lap twice",
        both(edge.finish.overlap)
    );
    edge.job("elastic joined", "join the elastic to a ring", does)
        .stitch(stitch::ZIGZAG)
        .caution("run the ring through your fingers before you sew: a twist cannot be undone later")
}

fn band(edge: EdgePlan<'_>) -> Vec<Job> {
    let Some(band) = &edge.walk.band else { return Vec::new() };
    let seam = both(edge.finish.settings.seam);
    let mut links = Vec::new();
    if edge.finish.put_on == PutOn::Round {
        let does = format!("lay the ends right sides together and sew {seam} from them; press the allowances apart");
        let ends = edge.job("band ends", "seam the ends of the band", does).stitch(edge.bench.seam_stitch());
        links.push((ends.length(2.0 * band.width), ""));
    }
    let folded = format!(
        "fold the band along its middle, wrong sides together, to {} and its allowance, and press",
        both(band.width)
    );
    links.push((edge.job("band folded", "fold the band", folded), "the seam of its ends is folded with it"));
    links.push((marked(edge, "band", &band.marks), "the notches of both layers lie on each other once it is folded"));
    let mut jobs = chained(links);
    if let Some(first) = jobs.first_mut() {
        let need = Need { before: cutting::name(&band.piece), because: "it has to be cut" };
        first.step.needs.push(need);
    }
    jobs
}

fn marked(edge: EdgePlan<'_>, what: &str, marks: &[Mark]) -> Job {
    let from = match (what, edge.finish.put_on) {
        ("band", PutOn::Round) => "at its notches, counted from the seam of its ends",
        ("band", PutOn::Flat) => "at its notches, counted from its cut end",
        (_, PutOn::Round) => "counted from the middle of the joint",
        (_, PutOn::Flat) => "counted from its cut end",
    };
    let start = allowance(edge);
    let place = |(mark, mm): &(&Mark, f64)| {
        if *mm < NEAR {
            return format!("mark {} on the joint", mark.label);
        }
        let either = if start > 0.0 && mm - start < NEAR { " from either end" } else { "" };
        format!("mark {} at {}{either}", mark.label, both(*mm))
    };
    let places: Vec<String> = distances(edge, marks).iter().map(place).collect();
    let does = format!("mark the {what}, {from}: {}", places.join("; "));
    edge.job(&format!("{what} marked"), &format!("mark the {what}"), does)
}

/// What of a flat elastic or band lies in the seam at either end, mm.
fn allowance(edge: EdgePlan<'_>) -> f64 {
    if edge.finish.put_on == PutOn::Flat { edge.bench.plan.seams.side } else { 0.0 }
}

/// The length on each section before it grows in sewing, mm.
fn before_sewing(edge: EdgePlan<'_>) -> Vec<f64> {
    let growth = edge.finish.elastic.as_ref().and_then(|e| e.elastic.growth).map_or(0.0, |g| g.fraction());
    edge.walk.sections.iter().filter_map(|s| s.elastic_length).map(|mm| mm / (1.0 + growth)).collect()
}

/// How far each mark lies from the end or joint of what is put on, mm, nearest first.
fn distances<'m>(edge: EdgePlan<'_>, marks: &'m [Mark]) -> Vec<(&'m Mark, f64)> {
    let before = before_sewing(edge);
    let whole: f64 = before.iter().sum();
    let (start, _) = meeting(edge.finish, &before);
    let mut all: Vec<(&Mark, f64)> = marks
        .iter()
        .map(|m| {
            let along = (m.along_elastic - start).rem_euclid(whole);
            // A whole turn is no way at all.
            (m, allowance(edge) + if whole - along < NEAR { 0.0 } else { along })
        })
        .collect();
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    all
}

/// mm.
const NEAR: f64 = 1e-6;

/// Pinned to the edge, mark on mark.
pub(super) fn pinned(edge: EdgePlan<'_>) -> Job {
    let (what, marks) = match (&edge.walk.elastic, &edge.walk.band) {
        (Some(e), _) => ("elastic", e.marks.as_slice()),
        (None, Some(b)) => ("band", b.marks.as_slice()),
        (None, None) => ("elastic", [].as_slice()),
    };
    let places: Vec<String> = marks.iter().map(|m| format!("mark {} at {}", m.label, m.place)).collect();
    let (_, end) = meeting(edge.finish, &before_sewing(edge));
    let ends = match edge.finish.put_on {
        PutOn::Round => format!("joint {end}"),
        PutOn::Flat => format!("both ends {end}, run through the allowances without any stretch"),
    };
    let does = format!("pin the {what} to the edge, mark on mark: {}; {ends}", places.join("; "));
    edge.job("pinned", &format!("pin the {what}"), does)
}

/// How the first row takes it: from the hand, or stretched from mark to mark.
pub(super) fn stretched(edge: EdgePlan<'_>) -> String {
    if let Some(elastic) = edge.walk.elastic.as_ref().filter(|_| edge.is_laid_on()) {
        return format!(
            "; lay the elastic on without any stretch, from a length of at least {} in hand, running over both seam \
             allowances",
            both(in_hand(elastic.cut_length))
        );
    }
    let parts: Vec<(&str, f64)> =
        edge.walk.sections.iter().filter_map(|s| s.stretch.map(|stretch| (s.name.as_str(), stretch))).collect();
    let Some((_, first)) = parts.first() else { return String::new() };
    if parts.iter().all(|(_, s)| (s - first).abs() < ALIKE) {
        return format!(
            "; stretch it by {:.1} % from mark to mark, until it lies flat, and do not stretch the cloth",
            first.max(0.0)
        );
    }
    let each: Vec<String> = parts.iter().map(|(name, s)| format!("{name} {:.1} %", s.max(0.0))).collect();
    format!("; stretch it from mark to mark, until it lies flat, and do not stretch the cloth: {}", each.join(", "))
}

/// Percent.
const ALIKE: f64 = 0.05;
