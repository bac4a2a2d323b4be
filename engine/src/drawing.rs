//! The neutral drawing between engine and exporters.
//!
//! Pieces with closed loops of named edges, each with a role and its cubics; typed notches and
//! typed text. It knows no layer, pen, page or file: exporters draw a role from a table of theirs.
//! Millimetres, y down the body, nothing mirrored.

pub use crate::finish::profile;

pub mod card;
mod label;
mod numbers;
pub mod on_body;
pub(crate) mod plot;
mod room;
mod shared;
mod sizes;
mod texts;
mod turned;

use crate::curve::Path;
pub use crate::terms::Extent;
use crate::words::piece;
use kurbo::{Line, Point, Rect, Vec2};
pub use turned::QuarterTurns;

/// All that is drawn of one garment.
#[derive(Clone, Debug)]
pub struct Drawing {
    /// The sheet's name.
    pub name: String,
    /// ISO 8601, only where the sheet has one.
    pub date: Option<String>,
    /// In the order they are cut.
    pub pieces: Vec<Piece>,
    /// What the latest trials taught.
    pub trials: Trials,
    /// What the variants of the sheet make. Pieces of one name share their coordinates with
    /// those of the drawing itself.
    pub variants: Vec<Variant>,
    /// The sizes that lie over each other, from the first on; of a single garment there are none. Then the
    /// pieces above say what all sizes have in common.
    pub sizes: Vec<Size>,
    /// The garment on the body form, of the sheet itself.
    pub on_body: on_body::OnBody,
    /// What lies beside the machine while the sheet's own is sewn.
    pub card: card::Card,
}

/// The pieces of a variant of the sheet.
#[derive(Clone, Debug)]
pub struct Variant {
    /// What the person calls it.
    pub name: String,
    /// All of them, also those that are alike.
    pub pieces: Vec<Piece>,
}

/// The pieces of one of the sizes of a table.
#[derive(Clone, Debug)]
pub struct Size {
    /// What the table calls it.
    pub name: String,
    /// All of them.
    pub pieces: Vec<Piece>,
}

/// What test garments taught, to be shown or hidden line by line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Trials {
    /// Over the lines.
    pub heading: String,
    /// One each.
    pub lines: Vec<String>,
}

/// One piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// `front`, `back`, `gusset`, …
    pub name: String,
    /// The cloth.
    pub material: String,
    /// How many to cut.
    pub quantity: u32,
    /// Half or full.
    pub extent: Extent,
    /// Where a half piece is mirrored: its fold. Present exactly with [`Extent::HalfOnFold`].
    pub mirror: Option<Line>,
    /// Along the wales of a knit, with an arrow at both ends.
    pub grain: Line,
    /// The direction of greatest stretch, with an arrow at both ends.
    pub stretch: Line,
    /// Closed outlines; exactly one of them is [`Role::Cut`].
    pub loops: Vec<Loop>,
    /// Open lines: second rows of stitches.
    pub lines: Vec<Open>,
    /// Matching marks on the cut line.
    pub notches: Vec<Notch>,
    /// What the marks of its openings are called, each beside its place.
    pub numbers: Vec<Number>,
    /// What is written on the piece, first line first.
    pub text: Vec<TextLine>,
    /// A part of the piece that is free of lines, for that text.
    pub text_box: Rect,
}

/// What a line is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Role {
    /// Where the scissors go.
    Cut,
    /// The first row of stitches.
    Sewing,
    /// The second row of stitches.
    SecondRow,
    /// Where the garment ends on the body; where a folded finish is folded.
    Finished,
}

/// Is the place where an edge starts a corner of the outline?
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Vertex {
    /// The direction changes here.
    Turn,
    /// The outline runs through smoothly.
    Curve,
}

/// A closed outline, clockwise as seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Loop {
    /// What it is for.
    pub role: Role,
    /// Head to tail.
    pub edges: Vec<Edge>,
}

/// A named part of an outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Edge {
    /// Unique in its piece.
    pub name: String,
    /// Lines and cubics, head to tail.
    pub path: Path,
    /// What its start is.
    pub start: Vertex,
}

/// An open line.
#[derive(Clone, Debug, PartialEq)]
pub struct Open {
    /// What it is for.
    pub role: Role,
    /// The edge it follows.
    pub edge: String,
    /// Lines and cubics, head to tail.
    pub path: Path,
}

/// What a notch looks like.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotchKind {
    /// One short cut or mark.
    Slit,
}

/// A matching mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Notch {
    /// Unique in the garment.
    pub id: String,
    /// On the cut line.
    pub at: Point,
    /// Unit vector into the piece.
    pub inward: Vec2,
    /// Millimetres.
    pub depth: f64,
    /// Its look.
    pub kind: NotchKind,
}

/// What a mark is called on the elastic or band that is pinned there.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    /// Where it is pinned: on the sewing line, of a band on its edge.
    pub at: Point,
    /// Unit vector into the piece.
    pub inward: Vec2,
    /// The number; on a half piece both, with their sides, where the other half has another.
    pub text: String,
    /// The number on this half and on the other, where those are two places.
    pub halves: Option<[String; 2]>,
}

/// How a line of text is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TextStyle {
    /// The piece's name.
    Title,
    /// The pattern that it belongs to.
    Pattern,
    /// How many to cut of what, half or whole.
    Cutting,
    /// Everything else.
    Body,
}

/// One line of text on a piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TextLine {
    /// How it is set.
    pub style: TextStyle,
    /// Any script.
    pub text: String,
}

impl Piece {
    /// The cut outline.
    pub fn cut(&self) -> Option<&Loop> {
        self.loops.iter().find(|l| l.role == Role::Cut)
    }

    /// The smallest box round the cut line, as drawn.
    pub fn bounds(&self) -> Rect {
        self.cut()
            .into_iter()
            .flat_map(|l| &l.edges)
            .map(|e| e.path.bounds())
            .reduce(|a, b| a.union(b))
            .unwrap_or(Rect::ZERO)
    }
}

impl Drawing {
    /// Pieces under a name, and nothing else.
    pub fn of_pieces(name: &str, pieces: Vec<Piece>) -> Self {
        Self {
            name: name.to_owned(),
            date: None,
            pieces,
            trials: Trials::default(),
            variants: Vec::new(),
            sizes: Vec::new(),
            on_body: on_body::OnBody::default(),
            card: card::Card::default(),
        }
    }

    /// The same with other pieces.
    pub fn with(&self, pieces: Vec<Piece>, variants: Vec<Variant>) -> Self {
        let Self { name, date, pieces: _, trials, variants: _, sizes, on_body, card } = self;
        Self {
            name: name.clone(),
            date: date.clone(),
            pieces,
            trials: trials.clone(),
            variants,
            sizes: sizes.clone(),
            on_body: on_body.clone(),
            card: card.clone(),
        }
    }

    /// The same drawing with every half piece unfolded.
    pub fn unfolded(&self) -> Self {
        let Self { name, date, pieces, trials, variants, sizes, on_body, card } = self;
        let unfolded = |pieces: &[Piece]| pieces.iter().map(Piece::unfolded).collect();
        let variant = |a: &Variant| Variant { name: a.name.clone(), pieces: unfolded(&a.pieces) };
        let size = |s: &Size| Size { name: s.name.clone(), pieces: unfolded(&s.pieces) };
        Self {
            name: name.clone(),
            date: date.clone(),
            pieces: unfolded(pieces),
            trials: trials.clone(),
            variants: variants.iter().map(variant).collect(),
            sizes: sizes.iter().map(size).collect(),
            on_body: on_body.clone(),
            card: card.clone(),
        }
    }
}

impl Piece {
    /// The same piece, whole: a half is mirrored in its fold and the fold edge goes.
    pub fn unfolded(&self) -> Self {
        if self.extent == Extent::Full {
            return self.clone();
        }
        let loops = self.loops.iter().map(unfold_loop).collect();
        let lines = self
            .lines
            .iter()
            .flat_map(|o| {
                let Open { role, edge, path } = o;
                let other = Open { role: *role, edge: mirrored_name(edge), path: path.mirrored().reversed() };
                [o.clone(), other]
            })
            .collect();
        let notches = self
            .notches
            .iter()
            .flat_map(|n| {
                let Notch { id, at, inward, depth, kind } = n;
                let other = (at.x > 1e-6).then(|| Notch {
                    id: mirrored_name(id),
                    at: Point::new(-at.x, at.y),
                    inward: Vec2::new(-inward.x, inward.y),
                    depth: *depth,
                    kind: *kind,
                });
                std::iter::once(n.clone()).chain(other)
            })
            .collect();
        Self {
            name: self.name.clone(),
            material: self.material.clone(),
            quantity: self.quantity,
            extent: Extent::Full,
            mirror: None,
            grain: self.grain,
            stretch: self.stretch,
            loops,
            lines,
            notches,
            numbers: self.numbers.iter().flat_map(Number::unfolded).collect(),
            text: self.text.iter().map(|line| self.unfolded_text(line)).collect(),
            text_box: self.text_box,
        }
    }
}

impl Piece {
    /// Unfolded, it is cut whole.
    fn unfolded_text(&self, line: &TextLine) -> TextLine {
        match line.style {
            TextStyle::Cutting => {
                TextLine { style: line.style, text: piece::cutting(self.quantity, &self.material, Extent::Full) }
            }
            TextStyle::Title | TextStyle::Pattern | TextStyle::Body => line.clone(),
        }
    }
}

impl Number {
    /// The numbers of both halves, each at its place.
    fn unfolded(&self) -> Vec<Self> {
        let Some([here, there]) = &self.halves else { return vec![self.clone()] };
        let (at, inward) = (Point::new(-self.at.x, self.at.y), Vec2::new(-self.inward.x, self.inward.y));
        vec![
            Self { text: here.clone(), halves: None, ..self.clone() },
            Self { at, inward, text: there.clone(), halves: None },
        ]
    }
}

/// The name of an edge or notch on the unfolded half of a half piece.
pub fn mirrored_name(name: &str) -> String {
    format!("{name}, other half")
}

/// The fold edge is the last of a half loop; the rest is walked back mirrored.
fn unfold_loop(half: &Loop) -> Loop {
    let kept = half.edges.len().saturating_sub(1);
    let near = half.edges.iter().take(kept).cloned();
    let mut far: Vec<Edge> = Vec::with_capacity(kept);
    for (i, edge) in half.edges.iter().enumerate().take(kept).rev() {
        // Walked backwards, an edge starts where its successor started.
        let start = if i + 1 < kept { half.edges[i + 1].start } else { Vertex::Curve };
        far.push(Edge { name: mirrored_name(&edge.name), path: edge.path.mirrored().reversed(), start });
    }
    let mut edges: Vec<Edge> = near.chain(far).collect();
    // The outline crosses the fold square, so nothing turns there.
    if let Some(first) = edges.first_mut() {
        first.start = Vertex::Curve;
    }
    Loop { role: half.role, edges }
}
