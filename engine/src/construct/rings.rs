//! Walks the three openings: the lines that lengths are taken along, and where the marks are.

use crate::construct::lengths::lengths;
use crate::construct::pieces::Pieces;
use crate::construct::ring::{MarkAt, Ring, Rings};
use crate::curve::Path;
use crate::draft::washed;
use crate::finding::Finding;
use crate::plan::{FinishPlan, Plan};
use crate::terms::{Marks, Opening, PerOpening, Section, Spread};
use crate::topology::{MarkPlace, PairArc, PairJunction};

/// Walks all three openings.
///
/// # Errors
/// Where a finish does not fit its edge.
pub fn rings(plan: &Plan, pieces: &Pieces<'_>) -> Result<Rings, Finding> {
    PerOpening::try_from_fn(|opening| {
        let finish = plan.finish.get(opening);
        let arcs = pieces.topology().arcs(opening);
        let lines = arcs.iter().map(|a| pieces.measured_line(a)).collect::<Result<Vec<_>, _>>()?;
        let measured: Vec<f64> = lines.iter().map(|l| washed(l, &plan.cloth).length()).collect();
        let lengths = lengths(plan, finish, arcs, &measured)?;
        // Where nothing is sewn on, nothing is matched, and no notch is cut into the edge.
        let marks = match &lengths {
            Some(lengths) => {
                let asked = places(opening, arcs, (finish.marks, finish.spread), &measured);
                marks(opening, arcs, &with_changes(asked, &measured, lengths))
            }
            None => Vec::new(),
        };
        Ok(Ring { arcs, gap: gap(finish, arcs, &lines), lines, measured, lengths, marks })
    })
}

/// How much of a row is left open to thread an elastic through, mm: never more than half of what
/// the back has of it.
fn gap(finish: &FinishPlan, arcs: &[PairArc], lines: &[Path]) -> Option<f64> {
    let backs = arcs.iter().zip(lines).filter(|(arc, _)| arc.section.section == Section::Back);
    let back: f64 = backs.map(|(_, line)| line.length()).sum();
    finish.gap.map(|gap| gap.min(0.5 * back))
}

/// Marks as asked for, and one wherever the stretch changes: without it the elastic could be spread
/// across that place.
fn with_changes(asked: Vec<(usize, f64)>, measured: &[f64], lengths: &[f64]) -> Vec<(usize, f64)> {
    let stretch = |i: usize| measured[i] / lengths[i];
    let last = measured.len() - 1;
    let changes = |i: &usize| {
        let before = stretch(if *i == 0 { last } else { i - 1 });
        (stretch(*i) - before).abs() > UNCHANGED
    };
    let changing: Vec<usize> = (0..measured.len()).filter(changes).collect();
    let is_near = |(arc, share): &(usize, f64)| {
        let (from, to) = (share * measured[*arc], (1.0 - share) * measured[*arc]);
        let next = if *arc == last { 0 } else { arc + 1 };
        (changing.contains(arc) && from < APART) || (changing.contains(&next) && to < APART)
    };
    let mut all: Vec<(usize, f64)> = asked.into_iter().filter(|place| !is_near(place)).collect();
    all.extend(changing.iter().map(|arc| (*arc, 0.0)));
    all.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    all
}

/// A ratio of lengths; what rounding leaves of one stretch.
const UNCHANGED: f64 = 1e-9;

/// Two marks nearer to each other than this are one on an elastic, mm.
const APART: f64 = 3.0;

fn marks(opening: Opening, arcs: &[PairArc], places: &[(usize, f64)]) -> Vec<MarkAt> {
    let at =
        |(arc, share): &(usize, f64)| MarkAt { arc: *arc, share: *share, place: place(opening, &arcs[*arc], *share) };
    places.iter().map(at).collect()
}

fn place(opening: Opening, arc: &PairArc, share: f64) -> MarkPlace {
    if share == 0.0 {
        return MarkPlace::Junction(opening, arc.from);
    }
    MarkPlace::Within { section: arc.section, from: arc.from, share }
}

/// Arc and share of each mark.
fn places(opening: Opening, arcs: &[PairArc], (marks, spread): (Marks, Spread), measured: &[f64]) -> Vec<(usize, f64)> {
    match (opening, marks, spread) {
        (Opening::LeftLeg | Opening::RightLeg, Marks::Halves, _) => equal_parts(2, measured),
        (Opening::LeftLeg | Opening::RightLeg, Marks::Quarters, Spread::Equal) => equal_parts(4, measured),
        (Opening::LeftLeg | Opening::RightLeg, Marks::Eighths, Spread::Equal) => equal_parts(8, measured),
        _ => {
            let of = |(i, arc): (usize, &PairArc)| shares(arc, marks).iter().map(move |share| (i, *share));
            arcs.iter().enumerate().flat_map(of).collect()
        }
    }
}

/// Where the marks of one arc are, as shares of it: on seams and centres, and between them.
fn shares(arc: &PairArc, marks: Marks) -> &'static [f64] {
    let begins_at_centre = matches!(arc.from, PairJunction::Centre(_));
    // The back is by far the longest part of a leg.
    let is_long = arc.section.opening != Opening::Top && arc.section.section == Section::Back;
    match marks {
        Marks::Halves if begins_at_centre => &[0.0],
        Marks::Halves => &[],
        Marks::Quarters if is_long => &[0.0, 0.5],
        Marks::Quarters => &[0.0],
        Marks::Eighths if is_long => &[0.0, 0.25, 0.5, 0.75],
        Marks::Eighths => &[0.0, 0.5],
    }
}

/// Marks that part the ring itself equally.
fn equal_parts(parts: u32, measured: &[f64]) -> Vec<(usize, f64)> {
    let total: f64 = measured.iter().sum();
    (0..parts).map(|k| locate(total * f64::from(k) / f64::from(parts), measured)).collect()
}

/// The arc at a distance round the ring; its end is its start.
fn locate(mut along: f64, lengths: &[f64]) -> (usize, f64) {
    for (i, length) in lengths.iter().enumerate() {
        if along < *length {
            return (i, along / length);
        }
        along -= length;
    }
    (0, 0.0)
}

#[cfg(test)]
mod tests;
