//! Where the draft keeps each edge of the construction.

use crate::curve::Path;
use crate::draft::Draft;
use crate::topology::{EdgeId, PairArc};

/// A drafted edge, on the drafted half of its piece.
pub const fn drafted(draft: &Draft, edge: EdgeId) -> &Path {
    match edge {
        EdgeId::FrontTop => &draft.front.top,
        EdgeId::FrontSide => &draft.front.side,
        EdgeId::FrontLeg => &draft.front.leg,
        EdgeId::FrontGusset => &draft.front.gusset,
        EdgeId::BackTop => &draft.back.top,
        EdgeId::BackSide => &draft.back.side,
        EdgeId::BackLeg => &draft.back.leg,
        EdgeId::BackGusset => &draft.back.gusset,
        EdgeId::GussetFront => &draft.gusset.front,
        EdgeId::GussetLeg => &draft.gusset.leg,
        EdgeId::GussetBack => &draft.gusset.back,
    }
}

/// The net edge of a part of an opening, on the drafted half.
pub const fn net_edge<'a>(draft: &'a Draft, arc: &PairArc) -> &'a Path {
    drafted(draft, arc.spot.edge)
}
