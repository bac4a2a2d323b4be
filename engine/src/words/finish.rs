//! What is done at an edge, in words.

use super::{Speech, together};
use crate::finish::task::{Act, ClothSide, Meets, TaskId, Up};
use crate::garment::Meeting;
use crate::terms::Opening;
use crate::topology::SectionId;
use crate::words::number::short;
use crate::work::doing::{Runs, Spread};

/// A task's name for a title: a finish with one row says which.
pub(super) fn task(id: TaskId, acts: &[Act]) -> &'static str {
    match id {
        TaskId::Row1 if acts.contains(&Act::StitchHem) => "stitch the hem",
        TaskId::Row1 if acts.contains(&Act::StitchFolded) => "sew the elastic on",
        TaskId::Row1 if acts.contains(&Act::LayBand) => "sew the band on",
        TaskId::Row1 if acts.iter().any(|act| matches!(act, Act::StitchTunnel(_))) => "stitch the tunnel / casing",
        TaskId::Fold => "fold",
        TaskId::Baste => "baste the elastic",
        TaskId::Row1 => "sew the first row",
        TaskId::Press => "press",
        TaskId::Row2 => "sew the second row",
        TaskId::Thread => "thread the elastic",
        TaskId::TryOn => "try on",
        TaskId::Join => "join the elastic",
        TaskId::Close => "close the gap",
    }
}

/// Everything a task does, in one sentence.
pub(super) fn task_does(
    speech: Speech,
    opening: Option<Opening>,
    acts: &[Act],
    runs: Option<Runs>,
    spread: Option<&Spread>,
) -> String {
    let said: Vec<String> = acts.iter().map(|act| does(*act, speech, opening)).collect();
    let mut text = match said.as_slice() {
        [before @ .., last] if !before.is_empty() => format!("{}, and {last}", before.join("; ")),
        _ => said.concat(),
    };
    match runs {
        Some(Runs::FromRawEdge(mm)) => text += &format!("; the row runs {} from the raw edge", speech.tool(mm)),
        Some(Runs::InsideFinishedEdge(mm)) => {
            text += &format!("; the row runs {} inside the finished edge", speech.tool(mm));
        }
        None => {}
    }
    if let Some(spread) = spread {
        text += "; ";
        text += &spread_out(spread, speech);
    }
    text
}

fn does(act: Act, speech: Speech, opening: Option<Opening>) -> String {
    match act {
        Act::LayOnRawEdge(side, up, meets) => laid(side, up, meets),
        Act::LayOver(mm, meets) => {
            let picots = if meets == Meets::PlainEdge { "; the picots stand outwards" } else { "" };
            format!(
                "lay the elastic, its right side up, on the right side of the cloth, {} over the raw edge{picots}",
                speech.tool(mm)
            )
        }
        Act::TurnUnder(mm) => format!("turn the raw edge under by {}", speech.tool(mm)),
        Act::FoldIn(mm) => format!("fold {} in along the finished edge, all layers as one", speech.tool(mm)),
        Act::ZigzagAtRawEdge(mm) => {
            format!("zigzag it on, the inner swing {} from the raw edge", speech.tool(mm))
        }
        Act::StitchTunnel(gap) => {
            let place = gap_at(opening).name();
            format!(
                "stitch the tunnel / casing, and leave {} open {place}, between the two notches, to thread it",
                speech.tool(gap)
            )
        }
        Act::SewBandOn(mm) => format!("sew it on, {} from the raw edges", speech.tool(mm)),
        _ => plainly(act).to_owned(),
    }
}

/// Where a tunnel is left open.
const fn gap_at(opening: Option<Opening>) -> Meeting {
    match opening {
        Some(Opening::Top) => Meeting::CentreBack,
        _ => Meeting::MiddleOfBack,
    }
}

/// An act without a number.
const fn plainly(act: Act) -> &'static str {
    match act {
        Act::LayBand => "lay the folded band on the right side of the cloth, all raw edges together, the band on top",
        Act::LayInCrease => {
            "fold the elastic along its crease, the side to be seen outside, and lay the raw edge into the crease"
        }
        Act::FlipOut => "flip the elastic out, so that it stands beyond the cloth with its soft side on the skin",
        Act::TurnSoftOnSkin => "turn cloth and elastic to the inside, so that the soft side lies on the skin",
        Act::FoldOverElastic => {
            "fold elastic and cloth to the inside along the inner edge of the elastic, so that the cloth covers it"
        }
        Act::TurnBandOut => "turn the band out, the allowances towards the garment",
        Act::Press => "press",
        Act::Baste => "baste it with long stitches that come out again",
        Act::ZigzagOnRawEdge => "zigzag along the raw edge, through elastic and cloth",
        Act::ZigzagInnerEdge(Meets::EitherEdge) => "zigzag along the edge of the elastic that lies towards the garment",
        Act::ZigzagInnerEdge(Meets::PlainEdge) => "zigzag beside the picots, on the solid part of the elastic",
        Act::ZigzagEdgeOnCloth => "zigzag along the edge of the elastic that lies on the cloth",
        Act::ZigzagRawEdgeBelow => "zigzag along the raw edge that lies under the elastic",
        Act::ZigzagOverEdge => "zigzag over the raw edge",
        Act::Topstitch => "topstitch from the right side through cloth and elastic, close to the edge of the cloth",
        Act::StitchNearElastic => "sew again from the right side, close to the inner edge of the elastic inside",
        Act::StitchNearRawEdge => "sew again from the right side through all layers, near the raw edge inside",
        Act::StitchFolded => "zigzag through all layers, close to the open edges of the elastic",
        Act::StitchHem => {
            "zigzag from the right side, near the raw edge inside, without pulling the edge: it has to give"
        }
        Act::Thread => "thread the elastic through with a safety pin, its other end pinned fast, without a twist",
        Act::TryOn => "try the pair on, and draw the elastic in or let it out until it sits without biting",
        Act::LapEnds => "lap the ends of the elastic, and sew to and fro across the lap",
        Act::CloseGap => "let the elastic slip in, and stitch the gap closed",
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
        Up::Soft => "the soft side for the skin up",
        Up::Shown => "the side to be seen up",
        Up::Either => "either side up",
    };
    let meets = match meets {
        Meets::EitherEdge => "one of its edges on the raw edge",
        Meets::PlainEdge => "its plain edge on the raw edge, the picots towards the garment",
    };
    format!("lay the elastic on the {side} side of the cloth, {up}, {meets}")
}

/// How what is put on is spread along the edge.
fn spread_out(spread: &Spread, speech: Speech) -> String {
    match spread {
        Spread::LaidOn(hand) => format!(
            "take the elastic without any stretch from a length of at least {} in hand, and let it run over the seam \
             allowances at both ends",
            speech.tape(*hand)
        ),
        Spread::Alike(percent) => match Pull::of(*percent) {
            Pull::None => {
                "it is as long as the edge: lay it on from mark to mark, and stretch neither it nor the cloth"
                    .to_owned()
            }
            Pull::Eased => "it is longer than the edge: ease it in from mark to mark".to_owned(),
            Pull::Stretched => format!(
                "stretch it by {} % from mark to mark, until it lies flat, and do not stretch the cloth",
                short(*percent, 1)
            ),
        },
        Spread::BySection(parts) => {
            format!("from mark to mark, without stretching the cloth: {}", by_section(parts))
        }
    }
}

/// Sections that are taken alike are said together.
fn by_section(parts: &[(SectionId, f64)]) -> String {
    together(parts.iter().map(|(section, percent)| (section.name(), taken(*percent)))).join("; ")
}

fn taken(percent: f64) -> String {
    match Pull::of(percent) {
        Pull::None => "laid on without any stretch".to_owned(),
        Pull::Eased => "eased in, as it is longer than the edge there".to_owned(),
        Pull::Stretched => format!("stretched by {} %", short(percent, 1)),
    }
}

/// What hands do with a strip on its way to the needle.
enum Pull {
    None,
    Eased,
    Stretched,
}

impl Pull {
    /// By a stretch in percent; under half of what is shown it is none.
    fn of(percent: f64) -> Self {
        match percent {
            p if p.abs() < 0.05 => Self::None,
            p if p < 0.0 => Self::Eased,
            _ => Self::Stretched,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Units;
    use crate::terms::Section;
    use crate::topology::Side::Left;

    fn said(spread: Spread) -> String {
        task_does(Speech(Units::Cm), None, &[Act::ZigzagOverEdge], None, Some(&spread))
    }

    #[test]
    fn what_is_not_shortened_is_never_stretched() {
        for spread in [Spread::LaidOn(600.0), Spread::Alike(0.0), Spread::Alike(-0.04), Spread::Alike(-3.0)] {
            let text = said(spread);
            assert!(!text.contains("stretch it by") && !text.contains("0.0 %"), "{text}");
        }
        let of = |section, percent| (SectionId { opening: Opening::LeftLeg, section, side: Left }, percent);
        let parts = vec![of(Section::Front, 0.0), of(Section::Gusset, 0.01), of(Section::Back, 11.11)];
        let text = said(Spread::BySection(parts));
        assert!(text.ends_with("front and gusset laid on without any stretch; back stretched by 11.1 %"), "{text}");
    }

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
        ];
        for act in with_numbers {
            assert!(plainly(act).is_empty() && !does(act, Speech(Units::In), Some(Opening::Top)).is_empty(), "{act:?}");
        }
    }
}
