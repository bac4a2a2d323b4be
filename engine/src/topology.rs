//! What a garment is made of: pieces, edges, seams, openings and where they cross, by identity.
//!
//! One table ([`pair`]) says which edges a piece has, what each of them lies on, and which edges are
//! sewn to each other. Rings, corners, crossings, notches and what they meet all follow from it
//! ([`Topology`]). Identities are types; their names are looked up at the border only.

mod construction;
mod ids;
mod notch;
mod outline;
mod pair;
mod resolved;
#[cfg(test)]
mod tests;

pub use construction::{Construction, Copied, Cutting, Fault, HalfPiece, Id, Lies, Matching, Run, Seam, Starts};
pub use ids::{CrossingId, EdgeId, PieceId, SeamId, SeamLine, SectionId, Side};
pub use notch::{MarkPlace, NotchId, SeamMark};
pub use outline::{BandEdge, End, Half, LongEdge, OutlineEdge, Way};
pub use pair::{PAIR, Pair, PairArc, PairCorner, PairJunction, PairPiece, PairSeam, pair};
pub use resolved::{Arc, Corner, Junction, SeamRuns, SeamSide, Spot, Topology};
