//! The three openings as rings: which edges they run along, in order, and where the marks are.

use crate::construct::pieces::{Half, Part, Pieces, Way};
use crate::curve::Path;
use crate::draft::{Draft, washed};
use crate::garment::Finding;
use crate::plan::Plan;
use crate::terms::{Marks, Opening, PerOpening, Spread};

/// One part of an opening: an edge of one half of one piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub struct Arc {
    pub name: &'static str,
    pub part: Part,
    pub half: Half,
    pub edge: &'static str,
    pub way: Way,
    pub from: &'static str,
    pub to: &'static str,
}

/// An opening, walked round.
#[derive(Clone, Debug)]
pub struct Ring {
    /// In order.
    pub arcs: Vec<Arc>,
    /// Each arc's measured line, trimmed at the seams, on the drafted half.
    pub lines: Vec<Path>,
    /// Length of each arc's measured line after washing, mm.
    pub measured: Vec<f64>,
    /// Matching marks, in order round the ring.
    pub marks: Vec<MarkAt>,
}

/// A mark on a ring.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkAt {
    /// Which arc.
    pub arc: usize,
    /// How far along that arc's measured line, 0 to 1.
    pub share: f64,
    /// Where that is, in words.
    pub place: String,
}

/// All three.
pub type Rings = PerOpening<Ring>;

const fn arc(
    name: &'static str,
    part: Part,
    half: Half,
    edge: &'static str,
    way: Way,
    from: &'static str,
    to: &'static str,
) -> Arc {
    Arc { name, part, half, edge, way, from, to }
}

/// The arcs of an opening: the top from centre front by the wearer's left, a leg from its side
/// seam forward.
pub fn arcs(opening: Opening) -> Vec<Arc> {
    use Half::{Minus, Plus};
    use Part::{Back, Front, Gusset};
    use Way::{Along, Back as Backward};
    if opening == Opening::Top {
        return vec![
            arc("front left", Front, Plus, "top", Along, "centre front", "left side seam"),
            arc("back left", Back, Minus, "top", Backward, "left side seam", "centre back"),
            arc("back right", Back, Plus, "top", Along, "centre back", "right side seam"),
            arc("front right", Front, Minus, "top", Backward, "right side seam", "centre front"),
        ];
    }
    [(Front, Along, "front"), (Gusset, Along, "gusset"), (Back, Backward, "back")]
        .into_iter()
        .zip([
            ("side seam", "front gusset seam"),
            ("front gusset seam", "back gusset seam"),
            ("back gusset seam", "side seam"),
        ])
        .map(|((part, way, name), (from, to))| arc(name, part, part.half(opening), "leg", way, from, to))
        .collect()
}

/// The net edge of an arc, on the drafted half.
pub fn net_edge<'a>(draft: &'a Draft, arc: &Arc) -> &'a Path {
    match (arc.part, arc.edge) {
        (Part::Front, "top") => &draft.front.top,
        (Part::Front, _) => &draft.front.leg,
        (Part::Back, "top") => &draft.back.top,
        (Part::Back, _) => &draft.back.leg,
        (Part::Gusset, _) => &draft.gusset.leg,
    }
}

/// Walks all three openings.
///
/// # Errors
/// Where a finish does not fit its edge.
pub fn rings(plan: &Plan, pieces: &Pieces<'_>) -> Result<Rings, Finding> {
    PerOpening::try_from_fn(|opening| {
        let finish = plan.finish.get(opening);
        let arcs = arcs(opening);
        let lines = arcs.iter().map(|a| measured_line(pieces, a)).collect::<Result<Vec<_>, _>>()?;
        let measured: Vec<f64> = lines.iter().map(|l| washed(l, &plan.cloth).length()).collect();
        // Where nothing is sewn on, nothing is matched, and no notch is cut into the edge.
        let places =
            if finish.length.is_some() { places(opening, finish.marks, finish.spread, &measured) } else { Vec::new() };
        let marks = places
            .into_iter()
            .filter_map(|(i, share)| arcs.get(i).map(|on| MarkAt { arc: i, share, place: place(on, share) }))
            .collect();
        Ok(Ring { arcs, lines, measured, marks })
    })
}

fn measured_line(pieces: &Pieces<'_>, arc: &Arc) -> Result<Path, Finding> {
    let row = pieces.measured_row(arc.part, arc.half)?;
    Ok(row.into_iter().find(|e| e.name == arc.edge).map(|e| e.path).unwrap_or_default())
}

fn place(arc: &Arc, share: f64) -> String {
    if share == 0.0 {
        arc.from.to_owned()
    } else {
        format!("{}, {:.0} % on from the {}", arc.name, share * 100.0, arc.from)
    }
}

/// Arc and share of each mark.
fn places(opening: Opening, marks: Marks, spread: Spread, measured: &[f64]) -> Vec<(usize, f64)> {
    let starts = |shares: &[&[f64]]| -> Vec<(usize, f64)> {
        shares.iter().enumerate().flat_map(|(i, s)| s.iter().map(move |share| (i, *share))).collect()
    };
    match (opening, marks) {
        (Opening::Top, Marks::Halves) => starts(&[&[0.0], &[], &[0.0], &[]]),
        (Opening::Top, Marks::Quarters) => starts(&[&[0.0] as &[f64]; 4]),
        (Opening::Top, Marks::Eighths) => starts(&[&[0.0, 0.5] as &[f64]; 4]),
        (_, Marks::Halves) => equal_parts(2, measured),
        (_, Marks::Quarters) if spread == Spread::Equal => equal_parts(4, measured),
        (_, Marks::Eighths) if spread == Spread::Equal => equal_parts(8, measured),
        // The back is by far the longest part of a leg.
        (_, Marks::Quarters) => starts(&[&[0.0], &[0.0], &[0.0, 0.5]]),
        (_, Marks::Eighths) => starts(&[&[0.0, 0.5], &[0.0, 0.5], &[0.0, 0.25, 0.5, 0.75]]),
    }
}

/// Marks that part the ring itself equally.
fn equal_parts(parts: u32, measured: &[f64]) -> Vec<(usize, f64)> {
    let total: f64 = measured.iter().sum();
    (0..parts).map(|k| locate(total * f64::from(k) / f64::from(parts), measured)).collect()
}

fn locate(mut along: f64, lengths: &[f64]) -> (usize, f64) {
    for (i, length) in lengths.iter().enumerate() {
        if along < *length {
            return (i, along / length);
        }
        along -= length;
    }
    (0, 0.0)
}

impl Ring {
    /// Length of the measured line all round after washing, mm.
    pub fn total(&self) -> f64 {
        self.measured.iter().sum()
    }

    /// Where a mark falls on the finished edge of a half piece, mm from the edge's start on the
    /// drafted half, if it is one that needs a notch there: on the centre or between seams.
    pub fn on_edge(&self, mark: &MarkAt, part: Part, half: Half, net: &Path) -> Option<f64> {
        let (arc, line) = (self.arcs.get(mark.arc)?, self.lines.get(mark.arc)?);
        let centre = mark.share == 0.0 && arc.from.starts_with("centre");
        let at_seam = mark.share == 0.0 && !centre;
        if arc.part != part || arc.half != half || at_seam {
            return None;
        }
        let share = if arc.way == Way::Along { mark.share } else { 1.0 - mark.share };
        let (point, _) = line.at(share * line.length());
        Some(net.along(net.nearest(point)))
    }
}
