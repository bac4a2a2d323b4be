//! An opening as a ring of edges, with its marks.

use crate::curve::Path;
use crate::terms::{PerOpening, Section};
use crate::topology::{EdgeId, End, Half, MarkPlace, PairArc, PairJunction, Way};

/// An opening, walked round.
#[derive(Clone, Debug)]
pub struct Ring {
    /// In order.
    pub arcs: &'static [PairArc],
    /// Each arc's measured line, trimmed at the seams, on the drafted half.
    pub lines: Vec<Path>,
    /// Length of each arc's measured line after washing, mm.
    pub measured: Vec<f64>,
    /// Finished length of what is sewn on each arc, mm; none where nothing is.
    pub lengths: Option<Vec<f64>>,
    /// Matching marks, in order round the ring.
    pub marks: Vec<MarkAt>,
    /// Length of the gap to thread an elastic through, along the edge, mm.
    pub gap: Option<f64>,
}

/// A mark on a ring.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkAt {
    /// Which arc.
    pub arc: usize,
    /// How far along that arc's measured line, 0 to 1.
    pub share: f64,
    /// Where that is.
    pub place: MarkPlace,
}

/// All three.
pub type Rings = PerOpening<Ring>;

impl Ring {
    /// Length of the measured line all round after washing, mm.
    pub fn total(&self) -> f64 {
        self.measured.iter().sum()
    }

    /// Where the ends of the gap to thread an elastic through fall on the finished edge of a half
    /// piece, mm from the edge's start on the drafted half: it lies round the middle of the back,
    /// where the ends of what is threaded are joined.
    pub fn gap_on_edge(&self, edge: EdgeId, half: Half, net: &Path) -> Vec<(f64, End)> {
        let is_it = |arc: &&PairArc| arc.spot.edge == edge && arc.half == half && arc.section.section == Section::Back;
        let found = self.arcs.iter().zip(&self.lines).find(|(arc, _)| is_it(arc));
        let (Some((arc, line)), Some(gap)) = (found, self.gap) else { return Vec::new() };
        let reach = 0.5 * gap;
        if [arc.from, arc.to].iter().any(|end| matches!(end, PairJunction::Centre(_))) {
            // An edge at a centre is drafted from it; the other half of the gap is on the other half.
            return vec![(reach, End::Finish)];
        }
        let (point, _) = line.at(0.5 * line.length());
        let middle = net.along(net.nearest(point));
        vec![(middle - reach, End::Start), (middle + reach, End::Finish)]
    }

    /// Where a mark falls on the finished edge of a half piece, mm from the edge's start on the
    /// drafted half, if it is one that needs a notch there: on the centre or between seams.
    pub fn on_edge(&self, mark: &MarkAt, edge: EdgeId, half: Half, net: &Path) -> Option<f64> {
        let (arc, line) = (&self.arcs[mark.arc], &self.lines[mark.arc]);
        let at_seam = matches!(mark.place, MarkPlace::Junction(_, PairJunction::Seam(..)));
        if arc.spot.edge != edge || arc.half != half || at_seam {
            return None;
        }
        let share = if arc.spot.way == Way::Along { mark.share } else { 1.0 - mark.share };
        let (point, _) = line.at(share * line.length());
        Some(net.along(net.nearest(point)))
    }
}
