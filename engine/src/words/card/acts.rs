//! What is done at an edge, in as few words as a card has room for.

use crate::finish::task::{Act, ClothSide, Meets, Up};
use crate::terms::Opening;
use crate::words::{Speech, finish};

/// One act, without a full stop.
pub(super) fn act(act: Act, speech: Speech, opening: Option<Opening>) -> String {
    match act {
        Act::LayOnRawEdge(side, up, meets) => laid(side, up, meets),
        Act::LayOver(mm, meets) => {
            let picots = if meets == Meets::PlainEdge { ", picots outwards" } else { "" };
            format!("lay it, right side up, on the right side, {} over the raw edge{picots}", speech.tool(mm))
        }
        Act::TurnUnder(mm) => format!("turn the raw edge under {}", speech.tool(mm)),
        Act::FoldIn(mm) => format!("fold in {} along the finished edge, all layers as one", speech.tool(mm)),
        Act::ZigzagAtRawEdge(mm) => format!("sew, inner swing {} from the raw edge", speech.tool(mm)),
        Act::StitchTunnel(gap) => {
            let (gap, place) = (speech.tool(gap), finish::gap_at(opening).name());
            format!("stitch the tunnel / casing; leave {gap} open {place}, between its notches")
        }
        Act::SewBandOn(mm) => format!("sew {} from the raw edges", speech.tool(mm)),
        _ => plainly(act).to_owned(),
    }
}

/// An act without a number.
const fn plainly(act: Act) -> &'static str {
    match act {
        Act::LayBand => "lay the folded band on the right side, raw edges together",
        Act::LayInCrease => "fold it along its crease round the raw edge",
        Act::FlipOut => "flip it out, soft side on the skin",
        Act::TurnSoftOnSkin => "turn it inside, soft side on the skin",
        Act::FoldOverElastic => "fold elastic and cloth inside, so that cloth covers it",
        Act::TurnBandOut => "turn the band out, allowances towards the garment",
        Act::Press => "press",
        Act::Baste => "baste it with long stitches",
        Act::ZigzagOnRawEdge => "sew along the raw edge through both",
        Act::ZigzagInnerEdge(Meets::EitherEdge) => "sew along its inner edge",
        Act::ZigzagInnerEdge(Meets::PlainEdge) => "sew beside the picots, on its solid part",
        Act::ZigzagEdgeOnCloth => "sew along its edge on the cloth",
        Act::ZigzagRawEdgeBelow => "sew along the raw edge under it",
        Act::ZigzagOverEdge => "sew over the raw edge",
        Act::Topstitch => "topstitch from the right side, close to the edge of the cloth",
        Act::StitchNearElastic => "from the right side, sew close to its inner edge",
        Act::StitchNearRawEdge => "from the right side, sew near the raw edge inside",
        Act::StitchFolded => "sew through all layers, close to its open edges",
        Act::StitchHem => "from the right side, sew near the raw edge inside; do not pull",
        Act::Thread => "thread the elastic through, untwisted, its other end pinned fast",
        Act::TryOn => "try on; draw in or let out until it sits without biting",
        Act::LapEnds => "lap the ends and sew to and fro across them",
        Act::CloseGap => "let it slip in; stitch the gap closed",
        // Said with their numbers.
        Act::LayOnRawEdge(..)
        | Act::LayOver(..)
        | Act::TurnUnder(_)
        | Act::FoldIn(_)
        | Act::ZigzagAtRawEdge(_)
        | Act::StitchTunnel(_)
        | Act::SewBandOn(_) => "",
    }
}

fn laid(side: ClothSide, up: Up, meets: Meets) -> String {
    let side = match side {
        ClothSide::Right => "right",
        ClothSide::Wrong => "wrong",
    };
    let up = match up {
        Up::Soft => ", soft side up",
        Up::Shown => ", the side to be seen up",
        Up::Either => "",
    };
    let meets = match meets {
        Meets::EitherEdge => "its edge on the raw edge",
        Meets::PlainEdge => "plain edge on the raw edge, picots inwards",
    };
    format!("lay it on the {side} side{up}, {meets}")
}
