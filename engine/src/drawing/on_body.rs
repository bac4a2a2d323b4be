//! The garment on the body form, as lines and tones: what is drawn, not how.

use crate::curve::Path;
use kurbo::{Point, Rect};

/// Views of the form with the garment on it, each in its own plane, mm, y down.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OnBody {
    /// In the order they are shown.
    pub views: Vec<View>,
}

/// From where one looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// From the front: x to the wearer's left.
    Front,
    /// From the wearer's left: the front is on the left.
    Side,
    /// From the back: x to the wearer's right.
    Back,
    /// From under the feet: the front is up.
    Below,
}

impl Seen {
    /// What stands under the view.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Side => "side",
            Self::Back => "back",
            Self::Below => "from below",
        }
    }
}

/// One view. Later shapes lie over earlier ones.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// From where.
    pub seen: Seen,
    /// Tones and lines.
    pub shapes: Vec<Shape>,
    /// What the edges are called, for a picture that names them.
    pub labels: Vec<Label>,
}

/// The name of a part, at a place on it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Label {
    /// Which part.
    pub part: Part,
    /// On it.
    pub at: Point,
}

/// A part of the garment that a picture names. Left and right are the wearer's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The edge round the body.
    TopEdge,
    /// The edge round the left leg.
    LeftLeg,
    /// The edge round the right leg.
    RightLeg,
    /// Where front and back meet.
    SideSeam,
    /// Between the legs.
    Gusset,
}

impl Part {
    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::TopEdge => "top edge",
            Self::LeftLeg => "left leg",
            Self::RightLeg => "right leg",
            Self::SideSeam => "side seam",
            Self::Gusset => "gusset",
        }
    }
}

/// A tone, closed, or a line, open.
#[derive(Clone, Debug, PartialEq)]
pub struct Shape {
    /// What it stands for.
    pub ink: Ink,
    /// Lines and cubics, head to tail.
    pub path: Path,
}

/// What a shape stands for; tones are filled, lines are drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// Tone of the body.
    Skin,
    /// Tone of the cloth.
    Cloth,
    /// Outline of the body.
    Contour,
    /// A fold of the body.
    Crease,
    /// Top edge of the garment.
    TopEdge,
    /// A leg edge.
    LegEdge,
    /// A seam.
    Seam,
}

impl Ink {
    /// Is it filled?
    pub const fn is_tone(self) -> bool {
        matches!(self, Self::Skin | Self::Cloth)
    }
}

impl View {
    pub(crate) const fn of(seen: Seen) -> Self {
        Self { seen, shapes: Vec::new(), labels: Vec::new() }
    }

    /// The smallest box round everything.
    pub fn bounds(&self) -> Rect {
        self.shapes.iter().map(|s| s.path.bounds()).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }

    pub(crate) fn add(&mut self, ink: Ink, path: Path) {
        self.shapes.push(Shape { ink, path });
    }

    /// A shape and its mirror image in x = 0.
    pub(crate) fn add_both(&mut self, ink: Ink, path: &Path) {
        self.add(ink, path.clone());
        self.add(ink, path.mirrored());
    }

    /// Turned over left for right.
    pub(crate) fn mirrored(mut self) -> Self {
        for shape in &mut self.shapes {
            shape.path = shape.path.map(|p: Point| Point::new(-p.x, p.y));
        }
        for label in &mut self.labels {
            label.at.x = -label.at.x;
        }
        self
    }
}
