//! What hands and machine do at an edge: in full, for the order of work, and in brief, for the card.

use super::Speech;
use crate::elastic::Meeting;
use crate::finish::task::{Act, ClothSide, Meets, Up};
use crate::terms::Opening;
use std::borrow::Cow;

/// The same act, said twice; without a full stop.
pub(super) struct Told {
    /// As a sentence says it that stands alone.
    pub(super) full: Cow<'static, str>,
    /// In as few words as a card has room for.
    pub(super) brief: Cow<'static, str>,
}

/// What an act is in words, at an opening where that is known.
pub(super) fn told(act: Act, opening: Option<Opening>, speech: Speech) -> Told {
    match act {
        Act::LayOnRawEdge(side, up, meets) => laid(side, up, meets),
        Act::LayOver(mm, meets) => laid_over(&speech.tool(mm), meets),
        Act::TurnUnder(mm) => measured(
            format!("turn the raw edge under by {}", speech.tool(mm)),
            format!("turn the raw edge under {}", speech.tool(mm)),
        ),
        Act::FoldIn(mm) => {
            // A top edge has one layer; a leg runs over the gusset.
            let layers = if opening == Some(Opening::Top) { "" } else { ", all layers as one" };
            measured(
                format!("fold in {} along the finished edge{layers}", speech.tool(mm)),
                format!("fold in {}{layers}", speech.tool(mm)),
            )
        }
        Act::ZigzagAtRawEdge(mm) => measured(
            format!("zigzag it on, the zigzag reaching {} inwards from the raw edge", speech.tool(mm)),
            format!("sew, zigzag reaching {} inwards from raw edge", speech.tool(mm)),
        ),
        Act::StitchTunnel(gap) => stitched_tunnel(&speech.tool(gap), opening),
        Act::LapEnds(mm) => measured(
            format!("lap the ends of the elastic {}, and sew to and fro across the lap", speech.tool(mm)),
            format!("lap the ends {}, sew across", speech.tool(mm)),
        ),
        Act::SewBandOn(mm) => measured(
            format!("sew it on, {} from the raw edges", speech.tool(mm)),
            format!("sew {} from the raw edges", speech.tool(mm)),
        ),
        _ => {
            let [full, brief] = plainly(act);
            Told { full: full.into(), brief: brief.into() }
        }
    }
}

fn measured(full: String, brief: String) -> Told {
    Told { full: full.into(), brief: brief.into() }
}

fn laid(side: ClothSide, up: Up, meets: Meets) -> Told {
    let side = match side {
        ClothSide::Right => "right",
        ClothSide::Wrong => "wrong",
    };
    let [up, up_briefly] = match up {
        Up::Soft => ["the soft side for the skin up", ", soft side up"],
        Up::Shown => ["the side to be seen up", ", the side to be seen up"],
        Up::Either => ["either side up", ""],
    };
    let [meets, meets_briefly] = match meets {
        Meets::EitherEdge => {
            ["lying towards the garment, one of its edges on the raw edge", "lying inwards, edge on raw edge"]
        }
        Meets::PlainEdge => {
            ["its plain edge on the raw edge, the picots towards the garment", "edge on raw edge, picots inwards"]
        }
    };
    measured(
        format!("lay the elastic on the {side} side of the cloth, {up}, {meets}"),
        format!("elastic on {side} side{up_briefly}, {meets_briefly}"),
    )
}

fn laid_over(by: &str, meets: Meets) -> Told {
    let [picots, briefly] = match meets {
        Meets::PlainEdge => ["; the picots stand outwards", ", picots outwards"],
        Meets::EitherEdge => ["", ""],
    };
    measured(
        format!(
            "lay the elastic, its right side up, on the right side of the cloth, {by} of it on the cloth and the rest \
             beyond the raw edge{picots}"
        ),
        format!("elastic, right side up, {by} of it on the right side{briefly}"),
    )
}

fn stitched_tunnel(gap: &str, opening: Option<Opening>) -> Told {
    let place = match opening {
        Some(Opening::Top) => Meeting::CentreBack,
        _ => Meeting::MiddleOfBack,
    };
    let place = place.name();
    measured(
        format!("stitch the tunnel / casing, and leave {gap} open {place}, between the two notches, to thread it"),
        format!("stitch the tunnel / casing, {gap} open between its notches"),
    )
}

/// An act without a number, in full and in brief.
const fn plainly(act: Act) -> [&'static str; 2] {
    match act {
        Act::LayBand => [
            "lay the folded band on the right side of the cloth, all raw edges together, the band on top",
            "lay the band on the right side, raw edges together",
        ],
        Act::LayInCrease => [
            "fold the elastic along its crease, the side to be seen outside, and lay the raw edge into the crease",
            "fold the elastic round the raw edge",
        ],
        Act::FlipOut => [
            "flip the elastic out, so that it stands beyond the cloth with its soft side on the skin, and the narrow \
             edge of the cloth lies folded inside",
            "flip it out, soft side on skin, cloth edge inside",
        ],
        Act::TurnSoftOnSkin => [
            "turn cloth and elastic to the inside, so that the soft side lies on the skin",
            "turn it inside, soft side on skin",
        ],
        Act::FoldOverElastic => [
            "fold elastic and cloth to the inside along the inner edge of the elastic, so that the cloth covers it",
            "fold it inside, covered by the cloth",
        ],
        Act::TurnBandOut => {
            ["turn the band out, the allowances towards the garment", "turn the band out, allowances inwards"]
        }
        Act::Press => ["press", "press"],
        Act::Baste => ["baste it with long stitches that come out again", "baste with long stitches"],
        Act::ZigzagOnRawEdge => {
            ["zigzag along the raw edge, through elastic and cloth", "sew through elastic and cloth"]
        }
        Act::ZigzagInnerEdge(Meets::EitherEdge) => {
            ["zigzag along the edge of the elastic that lies towards the garment", "sew along its inner edge"]
        }
        Act::ZigzagInnerEdge(Meets::PlainEdge) => {
            ["zigzag beside the picots, on the solid part of the elastic", "sew beside picots"]
        }
        Act::ZigzagEdgeOnCloth => {
            ["zigzag along the edge of the elastic that lies on the cloth", "sew along its edge on the cloth"]
        }
        Act::ZigzagRawEdgeBelow => {
            ["zigzag along the raw edge that lies under the elastic", "sew along the raw edge under it"]
        }
        Act::ZigzagOverEdge => ["zigzag over the raw edge", "sew over the raw edge"],
        Act::Topstitch => [
            "topstitch from the right side through cloth and elastic, close to the edge of the cloth",
            "topstitch from the right side",
        ],
        Act::StitchNearElastic => [
            "sew again from the right side, close to the inner edge of the elastic inside",
            "sew its inner edge from the right side",
        ],
        Act::StitchNearRawEdge => [
            "sew again from the right side through all layers, near the raw edge inside",
            "sew the raw edge down from the right side",
        ],
        Act::StitchFolded => [
            "zigzag through all layers, close to the open edges of the elastic",
            "sew through all layers near its open edges",
        ],
        Act::StitchHem => [
            "zigzag from the right side, near the raw edge inside, without pulling the edge: it has to give",
            "sew the raw edge down from the right side, without pulling",
        ],
        Act::Thread => [
            "thread the elastic through with a safety pin, its other end pinned fast at the gap, without a twist",
            "thread it by safety pin, other end pinned at the gap",
        ],
        Act::TryOn => [
            "try the pair on, and draw the elastic in or let it out until it sits without biting",
            "try on; adjust until nothing bites",
        ],
        Act::CloseGap => ["let the elastic slip in, and stitch the gap closed", "let it slip in; close the gap"],
        // Said with their numbers.
        Act::LayOnRawEdge(..)
        | Act::LayOver(..)
        | Act::TurnUnder(_)
        | Act::FoldIn(_)
        | Act::ZigzagAtRawEdge(_)
        | Act::StitchTunnel(_)
        | Act::SewBandOn(_)
        | Act::LapEnds(_) => ["", ""],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Units;

    /// An act that has its number said beside it has no words without.
    #[test]
    fn every_act_has_words() {
        let (side, up, meets) = (ClothSide::Wrong, Up::Either, Meets::EitherEdge);
        let with_numbers = [
            Act::LayOnRawEdge(side, up, meets),
            Act::LayOver(6.0, meets),
            Act::TurnUnder(6.0),
            Act::FoldIn(10.0),
            Act::ZigzagAtRawEdge(3.0),
            Act::StitchTunnel(30.0),
            Act::SewBandOn(7.0),
            Act::LapEnds(20.0),
        ];
        for act in with_numbers {
            let Told { full, brief } = told(act, Some(Opening::Top), Speech(Units::In));
            assert!(plainly(act) == ["", ""] && !full.is_empty() && !brief.is_empty(), "{act:?}");
        }
    }
}
