//! How long an elastic or a band is cut, how it is joined, and where it is marked.

use crate::construct::rings::Ring;
use crate::finish::Takes;
use crate::garment::{BandCut, ElasticCut, ElasticTotal, Mark, OpeningWalk};
use crate::plan::{FinishPlan, LengthPlan, Plan};
use crate::sheet::Basis;
use crate::terms::{Marks, Opening, PutOn, Section, Spread};
use crate::words::both;
use std::collections::BTreeMap;

/// Finished length on each section of an opening, mm; none where nothing is sewn on.
pub(crate) fn lengths(plan: &Plan, finish: &FinishPlan, ring: &Ring) -> Option<Vec<f64>> {
    let of = finish.length.as_ref()?;
    let own: Vec<Option<f64>> = ring.arcs.iter().map(|arc| own_reduction(of, arc.name)).collect();
    let rest = rest_reduction(plan, of, ring, &own);
    let even: Vec<f64> = ring.measured.iter().zip(&own).map(|(line, own)| line * (1.0 - own.unwrap_or(rest))).collect();
    // Folded in equal parts, a top elastic meets seams and centres with its quarters. On a leg the
    // edge is parted equally as well, which is an even stretch.
    let in_equal_parts =
        finish.spread == Spread::Equal && finish.settings.opening == Opening::Top && finish.marks != Marks::Halves;
    if in_equal_parts {
        let quarter = even.iter().sum::<f64>() / even.len() as f64;
        return Some(vec![quarter; even.len()]);
    }
    Some(even)
}

/// The reduction that the sheet asks for on this section alone.
fn own_reduction(of: &LengthPlan, arc: &str) -> Option<f64> {
    // Top sections are named by piece and side: `front left`.
    let piece = arc.split(' ').next().unwrap_or(arc);
    let (_, section) = Section::ALL.iter().find(|(word, _)| *word == piece)?;
    of.sections.get(section).copied()
}

/// The reduction of every other section: as given, or what is left of a whole length.
fn rest_reduction(plan: &Plan, of: &LengthPlan, ring: &Ring, own: &[Option<f64>]) -> f64 {
    let whole = match of.basis {
        Basis::Reduction(r) => return r.fraction(),
        Basis::Length(l) => l.mm(),
        Basis::Body => plan.body.elastic_top.unwrap_or_else(|| ring.total()),
    };
    let lines = || ring.measured.iter().zip(own);
    let taken: f64 = lines().filter_map(|(line, own)| own.map(|r| line * (1.0 - r))).sum();
    let left: f64 = lines().filter(|(_, own)| own.is_none()).map(|(line, _)| line).sum();
    if left > 0.0 { 1.0 - (whole - taken) / left } else { 0.0 }
}

/// An elastic: its length before sewing, its joining and its marks.
pub(crate) fn cut(plan: &Plan, finish: &FinishPlan, ring: &Ring, lengths: &[f64]) -> Option<ElasticCut> {
    let (elastic, of) = (finish.elastic.as_ref()?, finish.length.as_ref()?);
    let finished_length: f64 = lengths.iter().sum();
    // What a sample says it grows in sewing is left off before.
    // One that is threaded is sewn along nothing.
    let sewn_on = finish.kind.takes() == Takes::Elastic;
    let growth = elastic.elastic.growth.filter(|_| sewn_on).map_or(0.0, |g| g.fraction());
    let before: Vec<f64> = lengths.iter().map(|l| l / (1.0 + growth)).collect();
    let more = match finish.put_on {
        PutOn::Round => finish.overlap,
        PutOn::Flat => 2.0 * plan.seams.side,
    };
    let cut_length = before.iter().sum::<f64>() + more;
    let marks = marks(ring, &before);
    let reduction = 100.0 * (1.0 - finished_length / ring.total());
    let mut joining = vec![joining(plan, finish, &before)];
    if growth > 0.0 {
        joining.push(format!("cut {:.1} % short, which it grows in sewing", 100.0 * growth));
    }
    if is_laid_on(finish, reduction) {
        joining.push(format!(
            "lay it on flat, without any stretch, and cut it after sewing; have at least {} in hand",
            both(in_hand(cut_length))
        ));
    }
    Some(ElasticCut {
        name: elastic.name.clone(),
        reduction,
        basis: of.basis.name().to_owned(),
        finished_length,
        cut_length,
        joining: joining.join("; "),
        marks,
    })
}

/// Is it laid on from the length in hand, and cut after sewing? Put on round or threaded, its ends
/// are joined first or last, so that its length has to be known.
pub(crate) fn is_laid_on(finish: &FinishPlan, reduction: f64) -> bool {
    let in_parts = finish.length.as_ref().is_some_and(|of| !of.sections.is_empty());
    finish.put_on == PutOn::Flat && reduction.abs() < UNREDUCED && !in_parts
}

/// Percent; what is laid on flat.
const UNREDUCED: f64 = 1e-9;

/// To hold on to while an elastic is laid on flat, mm, over its length and a twentieth more.
/// Common practice.
const HOLD: f64 = 50.0;

/// How much to have in hand of an elastic that is laid on and cut after sewing, mm.
pub(crate) fn in_hand(cut_length: f64) -> f64 {
    1.05 * cut_length + HOLD
}

/// Where the ends of an elastic or band meet: millimetres from mark 1, and in words. A ring is
/// joined in the back, where no seam is; a flat one ends in the last side seam.
pub(crate) fn meeting(finish: &FinishPlan, lengths: &[f64]) -> (f64, &'static str) {
    let first = |n: usize| lengths.iter().take(n).sum::<f64>();
    match (finish.put_on, finish.settings.opening) {
        (PutOn::Round, Opening::Top) => (first(2), "at centre back"),
        (PutOn::Round, _) => (0.5 * (first(2) + first(3)), "in the middle of the back"),
        (PutOn::Flat, Opening::Top) => (first(3), "at the right side seam"),
        (PutOn::Flat, _) => (0.0, "at the side seam"),
    }
}

fn joining(plan: &Plan, finish: &FinishPlan, lengths: &[f64]) -> String {
    let (along, place) = meeting(finish, lengths);
    let along = if along > 0.0 { format!(", {} from mark 1", both(along)) } else { ", mark 1".to_owned() };
    match finish.put_on {
        PutOn::Round => format!(
            "joined in a ring, untwisted, ends lapped {}, {place}{along}, away from the seams",
            both(finish.overlap)
        ),
        PutOn::Flat => format!(
            "begins and ends {place}{along}; run through both seam allowances there, {} each, unstretched",
            both(plan.seams.side)
        ),
    }
}

fn marks(ring: &Ring, lengths: &[f64]) -> Vec<Mark> {
    let before = |list: &[f64], i: usize, share: f64| list[..i].iter().sum::<f64>() + share * list[i];
    // An edge is marked as cut, before it is washed.
    let as_cut: Vec<f64> = ring.lines.iter().map(crate::curve::Path::length).collect();
    ring.marks
        .iter()
        .enumerate()
        .map(|(k, m)| Mark {
            label: (k + 1).to_string(),
            place: m.place.clone(),
            along_elastic: before(lengths, m.arc, m.share),
            along_edge: before(&as_cut, m.arc, m.share),
        })
        .collect()
}

/// A band of the cloth: its length between the seams at its ends, its finished width, its marks.
pub(crate) fn band(plan: &Plan, finish: &FinishPlan, ring: &Ring, lengths: &[f64]) -> Option<BandCut> {
    if finish.kind.takes() != Takes::Strip {
        return None;
    }
    let length: f64 = lengths.iter().sum();
    let settings = &finish.settings;
    let (along, place) = meeting(finish, lengths);
    let along = if along > 0.0 { format!(", {} from mark 1", both(along)) } else { ", mark 1".to_owned() };
    let joining = match finish.put_on {
        PutOn::Round => format!("ends seamed {place}{along}"),
        PutOn::Flat => format!("ends caught in the seam {place}{along}"),
    };
    Some(BandCut {
        piece: band_piece_name(plan, settings.opening).to_owned(),
        length,
        width: settings.band_width,
        cut_length: length + 2.0 * settings.seam,
        reduction: 100.0 * (1.0 - length / ring.total()),
        joining,
        marks: marks(ring, lengths),
    })
}

/// Legs that are finished alike share a piece, cut twice.
fn band_piece_name(plan: &Plan, opening: Opening) -> &'static str {
    match opening {
        Opening::Top => "top band",
        _ if plan.legs_alike() => "leg band",
        Opening::LeftLeg => "left leg band",
        Opening::RightLeg => "right leg band",
    }
}

/// Where the marks of a band lie from its first end, mm; its ends themselves carry none.
pub(crate) fn band_notches(finish: &FinishPlan, band: &BandCut, lengths: &[f64]) -> Vec<(String, f64)> {
    let (start, _) = meeting(finish, lengths);
    let mut places: Vec<(String, f64)> = band
        .marks
        .iter()
        .map(|m| (m.place.clone(), (m.along_elastic - start).rem_euclid(band.length)))
        .filter(|(_, along)| *along > NEAR_END && *along < band.length - NEAR_END)
        .collect();
    places.sort_by(|a, b| a.1.total_cmp(&b.1));
    places
}

/// mm; a mark this near to an end is the end.
const NEAR_END: f64 = 0.5;

/// How much of every elastic one pair takes, by name.
pub(crate) fn totals(openings: &[OpeningWalk]) -> Vec<ElasticTotal> {
    let mut by_name: BTreeMap<&str, f64> = BTreeMap::new();
    for e in openings.iter().filter_map(|o| o.elastic.as_ref()) {
        *by_name.entry(&e.name).or_default() += e.cut_length;
    }
    by_name.into_iter().map(|(name, cut_length)| ElasticTotal { name: name.to_owned(), cut_length }).collect()
}

impl Basis {
    /// The word in the record.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Reduction(_) => "reduction",
            Self::Length(_) => "length",
            Self::Body => "body",
        }
    }
}
