//! How long an elastic or a band is cut, how it is joined, and where it is marked.

use crate::construct::ring::{MarkAt, Ring};
use crate::elastic::{BandCut, ElasticCut, ElasticTotal, Ends, Joining, Mark, Meeting};
use crate::finish::Takes;
use crate::garment::OpeningWalk;
use crate::plan::{FinishPlan, Plan};
use crate::sheet::Basis;
use crate::terms::{Opening, PutOn};
use crate::topology::{MarkPlace, PieceId};
use std::collections::BTreeMap;

/// An elastic: its length before sewing, its joining and its marks.
pub(crate) fn cut(plan: &Plan, finish: &FinishPlan, ring: &Ring, lengths: &[f64]) -> Option<ElasticCut> {
    let (elastic, of) = (finish.elastic.as_ref()?, finish.length.as_ref()?);
    let finished_length: f64 = lengths.iter().sum();
    // What a sample says it grows in sewing is left off before.
    let growth = growth(finish);
    let before: Vec<f64> = lengths.iter().map(|l| l / (1.0 + growth)).collect();
    let more = match finish.put_on {
        PutOn::Round => finish.settings.overlap,
        PutOn::Flat => 2.0 * plan.seams.side,
    };
    let cut_length = before.iter().sum::<f64>() + more;
    let marks = marks(ring, finish, &before);
    let reduction = 100.0 * (1.0 - finished_length / ring.total());
    Some(ElasticCut {
        name: elastic.name.clone(),
        width: elastic.elastic.width.mm(),
        reduction,
        basis: of.basis,
        finished_length,
        cut_length,
        joining: joining(plan, finish, &marks),
        growth: Some(100.0 * growth).filter(|percent| *percent > 0.0),
        in_hand: is_laid_on(finish, reduction).then(|| in_hand(cut_length)),
        price: elastic.elastic.price,
        marks,
    })
}

/// How much longer the elastic of a finish comes out of the sewing, as a share; one that is threaded is sewn along
/// nothing.
pub(crate) fn growth(finish: &FinishPlan) -> f64 {
    let sewn_on = finish.elastic.as_ref().filter(|_| finish.kind.takes() == Takes::Elastic);
    sewn_on.and_then(|e| e.elastic.growth).map_or(0.0, |g| g.fraction())
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

/// Where the ends of an elastic or band meet, and how far that is from where its opening begins, mm. A
/// ring is joined in the back, where no seam is; a flat one ends in the last side seam.
pub(crate) fn meeting(finish: &FinishPlan, lengths: &[f64]) -> (f64, Meeting) {
    let first = |n: usize| lengths.iter().take(n).sum::<f64>();
    let at = meets(finish);
    let along = match at {
        Meeting::CentreBack => first(2),
        Meeting::MiddleOfBack => 0.5 * (first(2) + first(3)),
        Meeting::RightSideSeam => first(3),
        Meeting::SideSeam => 0.0,
    };
    (along, at)
}

/// The place alone.
pub(crate) const fn meets(finish: &FinishPlan) -> Meeting {
    match (finish.put_on, finish.settings.opening) {
        (PutOn::Round, Opening::Top) => Meeting::CentreBack,
        (PutOn::Round, _) => Meeting::MiddleOfBack,
        (PutOn::Flat, Opening::Top) => Meeting::RightSideSeam,
        (PutOn::Flat, _) => Meeting::SideSeam,
    }
}

fn joining(plan: &Plan, finish: &FinishPlan, marks: &[Mark]) -> Joining {
    let ends = match (finish.kind.takes(), finish.put_on) {
        (Takes::Strip, PutOn::Round) => Ends::Seamed,
        (Takes::Strip, PutOn::Flat) => Ends::CaughtInSeam,
        (_, PutOn::Round) => Ends::Lapped(finish.settings.overlap),
        (_, PutOn::Flat) => Ends::ThroughAllowances(plan.seams.side),
    };
    let to_first_mark = marks.first().map_or(0.0, |m| m.along_elastic);
    Joining { ends, at: meets(finish), to_first_mark }
}

/// Numbered and measured from where the ends meet: what a person counts from.
fn marks(ring: &Ring, finish: &FinishPlan, lengths: &[f64]) -> Vec<Mark> {
    // An edge is marked as cut, before it is washed.
    let as_cut: Vec<f64> = ring.lines.iter().map(crate::curve::Path::length).collect();
    let along = |list: &[f64], m: &MarkAt| {
        let from_start = list[..m.arc].iter().sum::<f64>() + m.share * list[m.arc];
        let (start, _) = meeting(finish, list);
        let whole: f64 = list.iter().sum();
        let along = (from_start - start).rem_euclid(whole);
        // A whole turn is no way at all.
        if whole - along < NOTHING { 0.0 } else { along }
    };
    let mut places: Vec<(MarkPlace, f64, f64)> =
        ring.marks.iter().map(|m| (m.place, along(lengths, m), along(&as_cut, m))).collect();
    places.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mark = |(k, (place, along_elastic, along_edge)): (usize, (MarkPlace, f64, f64))| Mark {
        number: k + 1,
        place,
        along_elastic,
        along_edge,
    };
    places.into_iter().enumerate().map(mark).collect()
}

/// mm.
const NOTHING: f64 = 1e-6;

/// A band of the cloth: its length between the seams at its ends, its finished width, its marks.
pub(crate) fn band(plan: &Plan, finish: &FinishPlan, ring: &Ring, lengths: &[f64]) -> Option<BandCut> {
    if finish.kind.takes() != Takes::Strip {
        return None;
    }
    let length: f64 = lengths.iter().sum();
    let settings = &finish.settings;
    let marks = marks(ring, finish, lengths);
    Some(BandCut {
        piece: band_piece(plan, settings.opening),
        length,
        width: settings.band_width,
        cut_length: length + 2.0 * settings.seam,
        reduction: 100.0 * (1.0 - length / ring.total()),
        joining: joining(plan, finish, &marks),
        marks,
    })
}

/// Legs that are finished alike share a piece, cut twice.
fn band_piece(plan: &Plan, opening: Opening) -> PieceId {
    match opening {
        Opening::Top => PieceId::TopBand,
        _ if plan.legs_alike() => PieceId::LegBand,
        Opening::LeftLeg => PieceId::LeftLegBand,
        Opening::RightLeg => PieceId::RightLegBand,
    }
}

/// Where the marks of a band lie from its first end, mm; its ends themselves carry none.
pub(crate) fn band_notches(band: &BandCut) -> Vec<(MarkPlace, f64)> {
    let places = band.marks.iter().map(|m| (m.place, m.along_elastic));
    places.filter(|(_, along)| *along > NEAR_END && *along < band.length - NEAR_END).collect()
}

/// mm; a mark this near to an end is the end.
const NEAR_END: f64 = 0.5;

/// How much of every elastic one pair takes, by name.
pub(crate) fn totals(openings: &[OpeningWalk]) -> Vec<ElasticTotal> {
    let mut by_name: BTreeMap<&str, ElasticTotal> = BTreeMap::new();
    for e in openings.iter().filter_map(|o| o.elastic.as_ref()) {
        let none = || ElasticTotal { name: e.name.clone(), width: e.width, cut_length: 0.0, in_hand: 0.0 };
        let total = by_name.entry(&e.name).or_insert_with(none);
        total.cut_length += e.cut_length;
        total.in_hand += e.in_hand.unwrap_or(e.cut_length);
    }
    by_name.into_values().collect()
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

#[cfg(test)]
mod tests;
