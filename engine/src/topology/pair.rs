//! The construction in use: front and back with a gusset between them, each symmetric.

use super::construction::{Construction, Copied, Cutting, Fault, HalfPiece, Lies, Matching, Run, Seam, Starts};
use super::resolved::{Arc, Corner, Junction, SeamSide, Topology};
use super::{EdgeId, PieceId, SeamLine, Side, Way};
use crate::terms::{Opening, Section};
use std::sync::LazyLock;

/// One of its pieces.
pub type PairPiece = HalfPiece<PieceId, EdgeId, SeamLine>;
/// A part of one of its openings.
pub type PairArc = Arc<PieceId, EdgeId, SeamLine>;
/// One of its corners.
pub type PairCorner = Corner<PieceId, EdgeId, SeamLine>;
/// One of its seams, as seen from one of its edges.
pub type PairSeam = SeamSide<PieceId, EdgeId, SeamLine>;
/// Where two parts of one of its openings meet.
pub type PairJunction = Junction<PieceId, SeamLine>;
/// All that follows from it.
pub type Pair = Topology<PieceId, EdgeId, SeamLine>;

/// The table. Panels run top, side, leg, gusset seam; the gusset front seam, leg, back seam.
pub static PAIR: Construction<PieceId, EdgeId, SeamLine> = Construction {
    pieces: &[
        HalfPiece {
            id: PieceId::Front,
            drafted: Side::Left,
            section: Section::Front,
            cutting: Cutting::OnFoldWhereAlike,
            edges: &[
                (EdgeId::FrontTop, Lies::Top),
                (EdgeId::FrontSide, Lies::Seam(SeamLine::Side)),
                (EdgeId::FrontLeg, Lies::Leg),
                (EdgeId::FrontGusset, Lies::Seam(SeamLine::FrontGusset)),
            ],
        },
        HalfPiece {
            id: PieceId::Back,
            drafted: Side::Right,
            section: Section::Back,
            cutting: Cutting::OnFoldWhereAlike,
            edges: &[
                (EdgeId::BackTop, Lies::Top),
                (EdgeId::BackSide, Lies::Seam(SeamLine::Side)),
                (EdgeId::BackLeg, Lies::Leg),
                (EdgeId::BackGusset, Lies::Seam(SeamLine::BackGusset)),
            ],
        },
        HalfPiece {
            id: PieceId::Gusset,
            drafted: Side::Left,
            section: Section::Gusset,
            cutting: Cutting::Whole,
            edges: &[
                (EdgeId::GussetFront, Lies::Seam(SeamLine::FrontGusset)),
                (EdgeId::GussetLeg, Lies::Leg),
                (EdgeId::GussetBack, Lies::Seam(SeamLine::BackGusset)),
            ],
        },
    ],
    // The side seam runs down, gusset seams run from the leg to the centre.
    seams: &[
        Seam {
            id: SeamLine::Side,
            runs: [run(EdgeId::FrontSide, Way::Along), run(EdgeId::BackSide, Way::Along)],
            matching: Matching::Middle,
        },
        Seam {
            id: SeamLine::FrontGusset,
            runs: [run(EdgeId::FrontGusset, Way::Along), run(EdgeId::GussetFront, Way::Back)],
            matching: Matching::Centre,
        },
        Seam {
            id: SeamLine::BackGusset,
            runs: [run(EdgeId::BackGusset, Way::Along), run(EdgeId::GussetBack, Way::Along)],
            matching: Matching::Pair,
        },
    ],
    starts: Starts { top: EdgeId::FrontTop, leg: EdgeId::FrontLeg },
    copies: &[Copied { piece: PieceId::GussetLining, of: PieceId::Gusset }],
};

const fn run(edge: EdgeId, way: Way) -> Run<EdgeId> {
    Run { edge, way }
}

static RESOLVED: LazyLock<Result<Pair, Fault>> = LazyLock::new(|| Topology::of(&PAIR));

/// What follows from [`PAIR`].
///
/// # Errors
/// Where the table is not sound.
pub fn pair() -> Result<&'static Pair, Fault> {
    RESOLVED.as_ref().map_err(Fault::clone)
}

impl PairJunction {
    /// Its name on an opening: `centre front`, `left side seam`; on a leg, which has one, `side seam`.
    pub fn name(self, opening: Opening) -> String {
        match (self, opening) {
            (Self::Centre(piece), _) => format!("centre {}", piece.name()),
            (Self::Seam(line, side), Opening::Top) => line.on(side).name().to_owned(),
            (Self::Seam(line, _), _) => line.name().to_owned(),
        }
    }
}
