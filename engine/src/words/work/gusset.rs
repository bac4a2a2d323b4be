//! What is done at the gusset, in words. Allowances come in as they are said.

use super::panel;
use crate::topology::PieceId;
use crate::work::doing::{GussetLies, Layers};

pub(super) const ROLL_IN: &str = "lay gusset and back right sides together, pairs of notches on each other; roll up \
    the front, and the back from its top edge, between the two layers; bring the lining round the roll until its right \
    side lies on the wrong side of the back, and pin all three";

pub(super) const TURN_OUT: &str = "draw front and back out through one open leg edge, between the layers";

pub(super) const TACK_LINING: &str = "lay the lining over the front gusset seam, so that its end covers the \
    allowances, and tack the end to the allowances with a few stitches at both sides and in the middle; they do not \
    show outside";

/// A gusset seam.
pub(super) fn seam(piece: PieceId, how: Layers, allowance: &str) -> String {
    let (panel, marks) = (panel(piece), marks(piece));
    match how {
        Layers::Single => {
            format!("lay gusset and {panel} right sides together, {marks}, and sew {allowance} from the raw edges")
        }
        Layers::PanelBetween => format!(
            "lay the {panel} between the layers: the gusset on its right side, the lining on its wrong side, right \
             sides towards the {panel}, {marks}; sew all three {allowance} from the raw edges, then fold both layers \
             away from the {panel}: the seam lies between them"
        ),
        Layers::AroundRoll => {
            format!("sew all three layers {allowance} from the raw edges; the roll lies loose inside")
        }
        Layers::LiningAside => format!(
            "fold the lining out of the way; lay gusset and {panel} right sides together, {marks}, and sew {allowance} \
             from the raw edges"
        ),
    }
}

/// A gusset's front has one notch, its back a pair, so that they are not mistaken.
const fn marks(piece: PieceId) -> &'static str {
    match piece {
        PieceId::Back => "pairs of notches on each other",
        _ => "notches at the centre on each other",
    }
}

/// Both seams, pressed.
pub(super) fn press(allowance: &str, towards: GussetLies) -> String {
    let how = match towards {
        GussetLies::AwayFromGusset => "away from the gusset",
        GussetLies::BetweenLayers => "between the layers, towards the gusset",
        GussetLies::TowardsGusset => "towards the gusset",
    };
    format!("press both gusset seams, the allowances of {allowance} {how}")
}

/// Both layers, held together.
pub(super) fn hold(inside: &str) -> String {
    format!(
        "lay the layers flat on each other and hold them together along both leg edges with a narrow zigzag {inside} \
         inside the raw edges; from here on they are one layer, and fold as one"
    )
}
