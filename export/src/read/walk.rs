//! Seams measured against each other and openings added up, by the names of edges.

use super::edges::EdgeLength;
use super::outlines::{Outlines, ReadLine};
use engine::terms::Opening;
use engine::topology::{BandEdge, EdgeId, Lies, LongEdge, PAIR, PairPiece, PieceId, SeamId, SeamLine, Side};

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

impl SeamLengths {
    /// Is it measured on the lines that are sewn on each other? Cut lines differ by their allowances.
    pub fn is_sewn(&self) -> bool {
        self.line == LINES[0]
    }
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

/// The lines that are measured: the one that is sewn first.
pub(crate) const LINES: [&str; 2] = ["sewing", "cut"];

/// Measures what the file's names allow; a file without names has nothing to measure here.
pub fn walk(found: &Outlines) -> Walked {
    let mut out = Walked::default();
    for line in LINES {
        let on = On { found, line };
        // Cut lines differ by their allowances; they stand in only where nothing else is drawn.
        if out.seams.is_empty() {
            out.seams.extend(seams().filter_map(|seam| on.seam(seam)));
        }
        out.openings.extend(Opening::ALL.into_iter().filter_map(|opening| on.opening(opening)));
    }
    out.bands =
        PieceId::BANDS.iter().filter_map(|(band, opening)| banded(found, &out.openings, *band, *opening)).collect();
    out
}

/// A drafted edge and its piece.
type Edge = (&'static PairPiece, EdgeId);

/// Every edge of the construction that lies on something, piece by piece.
fn lying(is_on: impl Fn(Lies<SeamLine>) -> bool) -> Vec<Edge> {
    let of = |piece: &'static PairPiece| piece.edges.iter().map(move |(edge, lies)| (piece, *edge, *lies));
    PAIR.pieces.iter().flat_map(of).filter(|(.., lies)| is_on(*lies)).map(|(piece, edge, _)| (piece, edge)).collect()
}

/// Every seam, one side of the wearer after the other.
fn seams() -> impl Iterator<Item = SeamId> {
    Side::ALL.into_iter().flat_map(|side| PAIR.seams.iter().map(move |seam| seam.id.on(side)))
}

/// The edges round an opening, each with its side of the wearer.
fn round(opening: Opening) -> Vec<(Edge, Side)> {
    let on = |side: Side| lying(|lies| lies.opening(side) == Some(opening)).into_iter().map(move |edge| (edge, side));
    Side::ALL.into_iter().flat_map(on).collect()
}

/// A seam or an opening, and the pieces that it lies on.
pub(crate) type Lying = (&'static str, Vec<&'static str>);

/// Every seam of a whole pattern, on either side.
pub(crate) fn all_seams() -> Vec<Lying> {
    let pieces =
        |seam: SeamId| lying(|lies| lies == Lies::Seam(seam.line())).iter().map(|(p, _)| p.id.name()).collect();
    seams().map(|seam| (seam.name(), pieces(seam))).collect()
}

/// Every opening of a whole pattern.
pub(crate) fn all_openings() -> Vec<Lying> {
    let pieces = |opening: Opening| {
        let mut names: Vec<&str> = Vec::new();
        for ((piece, _), _) in round(opening) {
            if !names.contains(&piece.id.name()) {
                names.push(piece.id.name());
            }
        }
        names
    };
    Opening::ALL.into_iter().map(|opening| (opening.name(), pieces(opening))).collect()
}

/// A band is cut with a seam at either end, so that only its sewing line tells how long it is.
fn banded(found: &Outlines, rings: &[Ring], band: PieceId, opening: Opening) -> Option<BandLengths> {
    let ring = rings.iter().find(|r| r.name == opening.name() && r.line == "sewing" && r.length > 0.0)?;
    let line = found.lines.iter().find(|l| l.piece == band.name() && l.line == "sewing")?;
    let length = |edge: BandEdge| line.edges.iter().find(|e| e.name == edge.name()).map(|e| e.length);
    let long_edge = |edge: LongEdge| edge.halves().into_iter().map(length).sum::<Option<f64>>();
    let (upper, lower) = (long_edge(LongEdge::Upper)?, long_edge(LongEdge::Lower)?);
    Some(BandLengths {
        band: band.name().to_owned(),
        opening: opening.name().to_owned(),
        upper,
        lower,
        ring: ring.length,
    })
}

struct On<'a> {
    found: &'a Outlines,
    line: &'a str,
}

impl On<'_> {
    fn seam(&self, seam: SeamId) -> Option<SeamLengths> {
        let place = |(piece, edge): Edge| format!("{}, {}", piece.id.name(), edge.name());
        let [a, b] = lying(|lies| lies == Lies::Seam(seam.line())).try_into().ok()?;
        Some(SeamLengths {
            name: seam.name().to_owned(),
            line: self.line.to_owned(),
            a: place(a),
            b: place(b),
            length_a: self.length(a, seam.side())?,
            length_b: self.length(b, seam.side())?,
        })
    }

    fn opening(&self, opening: Opening) -> Option<Ring> {
        let length = round(opening).into_iter().map(|(edge, side)| self.length(edge, side)).sum::<Option<f64>>()?;
        Some(Ring { name: opening.name().to_owned(), line: self.line.to_owned(), length })
    }

    /// Of an edge on the wearer's left or right. A half piece has the same on both sides.
    fn length(&self, (piece, edge): Edge, side: Side) -> Option<f64> {
        let line = self.found.lines.iter().find(|l| l.piece == piece.id.name() && l.line == self.line)?;
        let named = |name: &str| line.edges.iter().find(|e| e.name == name).map(|e: &EdgeLength| e.length);
        named(edge.name_on(side)).or_else(|| match (piece.drafted == side, is_half(line)) {
            (true, _) | (_, true) => named(edge.name()),
            (false, false) => named(&engine::drawing::mirrored_name(edge.name())),
        })
    }
}

fn is_half(line: &ReadLine) -> bool {
    let mirrored = engine::drawing::mirrored_name("");
    !line.edges.iter().any(|e| e.name.ends_with(&mirrored))
}
