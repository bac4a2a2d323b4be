//! An opening as a ring of edges, with its marks.

use crate::curve::Path;
use crate::terms::PerOpening;
use crate::topology::{EdgeId, Half, MarkPlace, PairArc, PairJunction, Way};

/// An opening, walked round.
#[derive(Clone, Debug)]
pub struct Ring {
    /// In order.
    pub arcs: &'static [PairArc],
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
