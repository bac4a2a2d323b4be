//! Lines and words at their places on the plane.

use crate::fit;
use engine::drawing::Edge;
use kurbo::{Point, Rect};

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Layer {
    Text,
    Stretch,
    Grain,
    Finished,
    Fold,
    SecondRow,
    Sewing,
    Notch,
    Slit,
    Cut,
}

/// Is a line closed?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Closing {
    Open,
    Closed,
}

impl Layer {
    /// What its lines are called where they are read back; only those that are measured have a word.
    pub(crate) const fn line(self) -> Option<&'static str> {
        match self {
            Self::Cut => Some("cut"),
            Self::Sewing => Some("sewing"),
            Self::Finished => Some("finished"),
            Self::SecondRow => Some("second row"),
            _ => None,
        }
    }

    /// Does the tool go through along it?
    pub(crate) const fn is_cut(self) -> bool {
        matches!(self, Self::Slit | Self::Cut)
    }
}

/// One line to draw or cut, head to tail, y up.
#[derive(Clone, Debug)]
pub(crate) struct Stroke {
    pub(crate) layer: Layer,
    /// The piece it belongs to.
    pub(crate) piece: String,
    /// Its named parts, head to tail; marks have one without a name.
    pub(crate) edges: Vec<Edge>,
    pub(crate) closing: Closing,
}

/// One line of text, its baseline starting at a place, y up.
#[derive(Clone, Debug)]
pub(crate) struct Words {
    pub(crate) at: Point,
    /// The em, mm.
    pub(crate) size: f64,
    pub(crate) text: String,
}

/// Everything on the plane; all of it at positive coordinates.
#[derive(Clone, Debug)]
pub(crate) struct Plane {
    /// In drawing order: piece by piece, what is inside before the outline.
    pub(crate) strokes: Vec<Stroke>,
    pub(crate) words: Vec<Words>,
    /// From the origin to the far corner, mm.
    pub(crate) size: (f64, f64),
    /// The part of it that the pieces lie on, with the margin round them; the notes lie over it.
    pub(crate) pieces: Rect,
    /// The beds that pieces are set apart on where there is more than one, the first on top.
    pub(crate) beds: Vec<Rect>,
    /// Which pieces lie on each bed, also on those that are not drawn.
    pub(crate) on_beds: Vec<Vec<String>>,
    /// How many outlines there are.
    pub(crate) outlines: usize,
}

impl Plane {
    /// Round every line and every word, mm.
    pub(crate) fn extents(&self) -> Rect {
        let lines = self.strokes.iter().flat_map(|s| &s.edges).map(|e| e.path.bounds());
        let words = self.words.iter().map(|w| fit::covered(w.at, w.size, &w.text));
        lines.chain(words).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }
}
