//! What is said of the drawn shape, the gusset, and lines that cannot be cut or sewn.

use crate::finding::fact::{Fault, GussetFact, OutlineFact, ShapeFact};
use crate::words::{Fineness, Speech};

pub(super) fn text(say: Speech, fact: &ShapeFact) -> String {
    match fact {
        ShapeFact::SideSeamShort { seam, length, least } => format!(
            "{} is left of the {} between the openings, and at least {} can be sewn",
            left(say, *length),
            seam.name(),
            say.tool(*least)
        ),
        ShapeFact::EdgesOverlap { side, taken, side_seam } => format!(
            "the finishes of the top edge and the {} take {} of a side seam of {}: they lie on each other there, thick and stiff",
            side.leg().name(),
            say.tool(*taken),
            say.tool(*side_seam)
        ),
        ShapeFact::LevelLeg { asked, drawn } => format!(
            "the side seam was shortened from {} to {}: on this body the front leg edge would otherwise run almost \
             level",
            say.tool(*asked),
            say.tool(*drawn)
        ),
        ShapeFact::SideDepth { raised, .. } => format!(
            "the top edge lies {} {} at the sides than asked: as asked, it would have a corner at the side seam",
            say.tool(raised.abs()),
            if *raised > 0.0 { "higher" } else { "lower" }
        ),
        ShapeFact::FootAngle { degrees, .. } => {
            let (front, back) = if *degrees > 0.0 { ("flatter", "steeper") } else { ("steeper", "flatter") };
            let by = degrees.abs();
            format!(
                "the front leg edge leaves the side seam {by:.0}° {front} than square and the back {by:.0}° {back}, so \
                 that the front keeps one hollow; sewn together they are one line"
            )
        }
        ShapeFact::BackUndercut { out, .. } => format!(
            "the back leg edge runs in under the side and {} out again: so much cover under so short a side hangs like \
             a pocket, and its elastic pulls it in",
            say.tape(*out)
        ),
    }
}

/// What is left: a length below half a millimetre is none.
fn left(say: Speech, mm: f64) -> String {
    if mm < 0.5 { "nothing".to_owned() } else { format!("only {}", say.tool(mm)) }
}

pub(super) fn gusset(say: Speech, fact: &GussetFact) -> String {
    match fact {
        GussetFact::Narrow { width, least } => format!(
            "{} is left across the gusset between the leg finishes, and at least {} can be sewn",
            left(say, *width),
            say.tool(*least)
        ),
        GussetFact::WidthNotKept { drawn, asked } => format!(
            "its ends are hardly wider than its middle, so that a smooth leg edge would narrow the gusset to {}, and {} \
             are asked for",
            say.tool(*drawn),
            say.tool(*asked)
        ),
        GussetFact::PartCover { width, full } => {
            let (width, full) = (say.tape(*width), say.tape(*full));
            format!(
                "the gusset is {width} wide as worn, less than the {full} of full cover: its edges can shift inwards"
            )
        }
        GussetFact::WiderAsWorn { width, .. } => format!(
            "the leg elastics stand out beyond the finished edge, so that the gusset is {} wide as worn",
            say.tape(*width)
        ),
    }
}

pub(super) fn outline(say: Speech, fact: &OutlineFact) -> String {
    match fact {
        OutlineFact::Unsound(fault) => format!("the pieces do not hold together: {fault}"),
        OutlineFact::NotSimple { piece, fault } => format!(
            "the {} cannot be cut: {}",
            piece.name(),
            match fault {
                Fault::Nowhere => "a point of it is nowhere",
                Fault::CutCrossesItself => "its cut line crosses itself",
                Fault::SewingCrossesItself => "its sewing line crosses itself",
                Fault::SewingLeavesCut => "its sewing line leaves the cut line",
            }
        ),
        OutlineFact::EdgesCross { piece } => {
            format!("the {} cannot be worn: its finished edges cross each other", piece.name())
        }
        OutlineFact::OutOfOrder { piece, opening } => format!(
            "on the {}, the finished edge of the {} lies on the wrong side of its cut line or its stitches: they run \
             into those of another edge",
            piece.name(),
            opening.name()
        ),
        OutlineFact::StripNarrow { piece, openings: [one, other], between, least } => format!(
            "on the {}, the {} and the {} with their stitches {}, and {} of cloth are needed between them",
            piece.name(),
            one.name(),
            other.name(),
            match *between {
                0.0 => "cross".to_owned(),
                apart => format!("come within {} of each other", say.with_unit(apart, Fineness::Exact)),
            },
            say.tool(*least)
        ),
        OutlineFact::SeamUnequal { seam, difference, .. } => {
            format!("the two sides of the {} differ by {}", seam.name(), say.with_unit(*difference, Fineness::Exact))
        }
        OutlineFact::TooTight { piece, opening, radius, distance } => format!(
            "on the {}, the {} turns with a radius of {}, too tight for a line {} beside it",
            piece.name(),
            opening.name(),
            say.tool(*radius),
            say.tool(distance.abs())
        ),
        OutlineFact::TurnsTight { piece, opening, radius, least } => format!(
            "on the {}, the {} turns with a radius of {}, and nothing can be sewn round less than {}",
            piece.name(),
            opening.name(),
            say.with_unit(*radius, Fineness::Exact),
            say.tool(*least)
        ),
        OutlineFact::NoCorner { piece, opening } => {
            format!("on the {}, the lines beside the {} and its neighbour do not meet", piece.name(), opening.name())
        }
    }
}
