//! Seams measured against each other and openings added up, by the names of edges.

use super::edges::EdgeLength;
use super::outlines::{Outlines, ReadLine};

/// Both sides of a seam on one line of the pieces.
#[derive(Clone, Debug, PartialEq)]
pub struct SeamLengths {
    /// The seam, with its side.
    pub name: String,
    /// `sewing` or `cut`.
    pub line: String,
    /// Piece and edge of one side.
    pub a: String,
    /// Piece and edge of the other.
    pub b: String,
    /// Of one side, mm.
    pub length_a: f64,
    /// Of the other, mm.
    pub length_b: f64,
}

/// An opening, whole ring.
#[derive(Clone, Debug, PartialEq)]
pub struct Ring {
    /// The opening.
    pub name: String,
    /// `sewing` or `cut`.
    pub line: String,
    /// All round, mm.
    pub length: f64,
}

/// A band against the opening that it finishes, both on their sewing lines.
#[derive(Clone, Debug, PartialEq)]
pub struct BandLengths {
    /// The piece.
    pub band: String,
    /// What it finishes.
    pub opening: String,
    /// One of its two long edges, which lie on each other once it is doubled, between its end seams, mm.
    pub upper: f64,
    /// The other, mm.
    pub lower: f64,
    /// The whole ring of the opening, mm.
    pub ring: f64,
}

impl BandLengths {
    /// How much shorter the band is, % of the opening.
    pub fn reduction(&self) -> f64 {
        100.0 * (1.0 - 0.5 * (self.upper + self.lower) / self.ring)
    }
}

/// What can be told of a file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Walked {
    /// Seams whose two sides are there.
    pub seams: Vec<SeamLengths>,
    /// Openings whose parts are all there.
    pub openings: Vec<Ring>,
    /// Bands whose opening is there.
    pub bands: Vec<BandLengths>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum LeftRight {
    Left,
    Right,
}

impl LeftRight {
    const BOTH: [Self; 2] = [Self::Left, Self::Right];

    const fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// The lines that are measured: the one that is sewn first.
pub(crate) const LINES: [&str; 2] = ["sewing", "cut"];

/// Seam, then piece and edge on either side; each on the left and on the right.
type Named = (&'static str, &'static str);

const SEAMS: [(&str, Named, Named); 3] = [
    ("side seam", ("front", "side"), ("back", "side")),
    ("front gusset seam", ("front", "front gusset"), ("gusset", "front gusset")),
    ("back gusset seam", ("back", "back gusset"), ("gusset", "back gusset")),
];

/// Pieces of bands, and the openings that they go on; legs that are finished alike share one.
const BANDS: [(&str, &str); 5] = [
    ("top band", "top edge"),
    ("leg band", "left leg"),
    ("leg band", "right leg"),
    ("left leg band", "left leg"),
    ("right leg band", "right leg"),
];

/// Measures what the file's names allow; a file without names has nothing to measure here.
pub fn walk(found: &Outlines) -> Walked {
    let mut out = Walked::default();
    for line in LINES {
        let on = On { found, line };
        // Cut lines differ by their allowances; they stand in only where nothing else is drawn.
        if out.seams.is_empty() {
            out.seams.extend(LeftRight::BOTH.iter().flat_map(|side| SEAMS.iter().filter_map(|s| on.seam(s, *side))));
        }
        let top = [("front", "top"), ("back", "top")];
        let top: Option<Vec<f64>> =
            LeftRight::BOTH.iter().flat_map(|side| top.map(|(piece, edge)| on.length(piece, edge, *side))).collect();
        out.openings.extend(top.map(|t| on.ring("top edge", t.iter().sum())));
        for side in LeftRight::BOTH {
            let leg: Option<Vec<f64>> = LEG.iter().map(|p| on.length(p, "leg", side)).collect();
            out.openings.extend(leg.map(|l| on.ring(&format!("{} leg", side.word()), l.iter().sum())));
        }
    }
    out.bands = BANDS.iter().filter_map(|(band, opening)| banded(found, &out.openings, band, opening)).collect();
    out
}

/// A seam or an opening, and the pieces that it lies on.
pub(crate) type Lies = (String, Vec<&'static str>);

/// Every seam of a whole pattern, on either side.
pub(crate) fn all_seams() -> Vec<Lies> {
    let on = |side: &LeftRight| SEAMS.map(|(name, a, b)| (seam_name(name, *side), vec![a.0, b.0]));
    LeftRight::BOTH.iter().flat_map(on).collect()
}

/// Every opening of a whole pattern.
pub(crate) fn all_openings() -> Vec<Lies> {
    let legs = LeftRight::BOTH.map(|side| (format!("{} leg", side.word()), LEG.to_vec()));
    std::iter::once(("top edge".to_owned(), vec!["front", "back"])).chain(legs).collect()
}

/// The pieces round a leg.
const LEG: [&str; 3] = ["front", "gusset", "back"];

/// A side seam is named by its side first, as the record does.
fn seam_name(name: &str, side: LeftRight) -> String {
    if name == "side seam" { format!("{} {name}", side.word()) } else { format!("{name}, {}", side.word()) }
}

/// A band is cut with a seam at either end, so that only its sewing line tells how long it is.
fn banded(found: &Outlines, rings: &[Ring], band: &str, opening: &str) -> Option<BandLengths> {
    let ring = rings.iter().find(|r| r.name == opening && r.line == "sewing" && r.length > 0.0)?;
    let line = found.lines.iter().find(|l| l.piece == band && l.line == "sewing")?;
    let length = |name: &str| line.edges.iter().find(|e| e.name == name).map(|e| e.length);
    let long_edge = |edge: &str| Some(length(&format!("{edge} a"))? + length(&format!("{edge} b"))?);
    let (upper, lower) = (long_edge("upper")?, long_edge("lower")?);
    Some(BandLengths { band: band.to_owned(), opening: opening.to_owned(), upper, lower, ring: ring.length })
}

struct On<'a> {
    found: &'a Outlines,
    line: &'a str,
}

impl On<'_> {
    fn seam(&self, (name, a, b): &(&str, Named, Named), side: LeftRight) -> Option<SeamLengths> {
        let length = |(piece, edge): &Named| self.length(piece, edge, side);
        let place = |(piece, edge): &Named| format!("{piece}, {edge}");
        Some(SeamLengths {
            name: seam_name(name, side),
            line: self.line.to_owned(),
            a: place(a),
            b: place(b),
            length_a: length(a)?,
            length_b: length(b)?,
        })
    }

    fn ring(&self, name: &str, length: f64) -> Ring {
        Ring { name: name.to_owned(), line: self.line.to_owned(), length }
    }

    /// Of the wearer's left or right edge of a piece. A half piece has the same on both sides.
    fn length(&self, piece: &str, edge: &str, side: LeftRight) -> Option<f64> {
        let line = self.found.lines.iter().find(|l| l.piece == piece && l.line == self.line)?;
        let named = |name: &str| line.edges.iter().find(|e| e.name == name).map(|e: &EdgeLength| e.length);
        named(&format!("{} {edge}", side.word())).or_else(|| match (own_side(piece) == side, is_half(line)) {
            (true, _) | (_, true) => named(edge),
            (false, false) => named(&engine::drawing::mirrored_name(edge)),
        })
    }
}

/// A half front is the wearer's left half, a half back the right one.
fn own_side(piece: &str) -> LeftRight {
    if piece == "front" { LeftRight::Left } else { LeftRight::Right }
}

fn is_half(line: &ReadLine) -> bool {
    let mirrored = engine::drawing::mirrored_name("");
    !line.edges.iter().any(|e| e.name.ends_with(&mirrored))
}
