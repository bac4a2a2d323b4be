//! What is done at an edge, in as few words as a card has room for.

use crate::finish::task::{Act, ClothSide, Meets, Up};
use crate::words::Speech;

/// One act, without a full stop.
pub(super) fn act(act: Act, speech: Speech) -> String {
    match act {
        Act::LayOnRawEdge(side, up, meets) => laid(side, up, meets),
        Act::LayOver(mm, meets) => {
            let picots = if meets == Meets::PlainEdge { ", picots outwards" } else { "" };
            format!("lay it, right side up, {} over the raw edge{picots}", speech.tool(mm))
        }
        Act::TurnUnder(mm) => format!("turn the raw edge under {}", speech.tool(mm)),
        Act::FoldIn(mm) => format!("fold in {}, all layers as one", speech.tool(mm)),
        Act::ZigzagAtRawEdge(mm) => format!("sew, inner swing {} from the raw edge", speech.tool(mm)),
        Act::StitchTunnel(gap) => {
            format!("stitch the tunnel / casing, {} open between its notches", speech.tool(gap))
        }
        Act::SewBandOn(mm) => format!("sew {} from the raw edges", speech.tool(mm)),
        _ => plainly(act).to_owned(),
    }
}

/// Does it say how something lies on the edge? That has to be known before it is pinned.
pub(super) const fn lays(act: Act) -> bool {
    matches!(act, Act::LayOnRawEdge(..) | Act::LayOver(..) | Act::LayBand | Act::LayInCrease)
}

/// An act without a number.
const fn plainly(act: Act) -> &'static str {
    match act {
        Act::LayBand => "lay the band on the right side, raw edges together",
        Act::LayInCrease => "fold it round the raw edge",
        Act::FlipOut => "flip it out, soft side on the skin",
        Act::TurnSoftOnSkin => "turn it inside, soft side on the skin",
        Act::FoldOverElastic => "fold it inside, covered by the cloth",
        Act::TurnBandOut => "turn the band out, allowances inwards",
        Act::Press => "press",
        Act::Baste => "baste with long stitches",
        Act::ZigzagOnRawEdge => "sew along the raw edge",
        Act::ZigzagInnerEdge(Meets::EitherEdge) => "sew along its inner edge",
        Act::ZigzagInnerEdge(Meets::PlainEdge) => "sew beside the picots",
        Act::ZigzagEdgeOnCloth => "sew along its edge on the cloth",
        Act::ZigzagRawEdgeBelow => "sew along the raw edge under it",
        Act::ZigzagOverEdge => "sew over the raw edge",
        Act::Topstitch => "topstitch from the right side",
        Act::StitchNearElastic => "sew its inner edge from the right side",
        Act::StitchNearRawEdge => "sew the raw edge down from the right side",
        Act::StitchFolded => "sew through all layers near its open edges",
        Act::StitchHem => "sew the raw edge down from the right side, without pulling",
        Act::Thread => "thread the elastic, one end pinned fast",
        Act::TryOn => "try on; adjust until nothing bites",
        Act::LapEnds => "lap the ends, sew across",
        Act::CloseGap => "let it slip in; close the gap",
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
        Meets::EitherEdge => "edge on raw edge",
        Meets::PlainEdge => "edge on raw edge, picots inwards",
    };
    format!("lay it on the {side} side{up}, {meets}")
}
