//! What a doubt says: nothing else in this module makes a sentence.

use super::Doubt;
use super::fact::{Fact, Layers, Strange};
use engine::words::Said;

impl Doubt {
    /// In words.
    pub fn said(&self) -> Said {
        Said { place: self.place.to_string(), text: text(&self.fact), next: next(&self.fact) }
    }
}

fn text(fact: &Fact) -> String {
    match fact {
        Fact::Version(version) => {
            let said = version.as_deref().unwrap_or("not said");
            format!("the version is {said}, not R12 or R13 (AC1009, AC1012)")
        }
        Fact::BeyondAscii => "there are letters beyond 7 bits, which readers take for different ones".to_owned(),
        Fact::NoPieces => "there is no block, and every piece is to be one".to_owned(),
        Fact::InsertUnknown => "a block is inserted that is not in the file".to_owned(),
        Fact::InsertScaled => "the insert scales its piece".to_owned(),
        Fact::Inserts(count) => format!("the piece is inserted {count} times, and once is agreed"),
        Fact::Strange(Strange::Kind(kind), count) => {
            format!("{count} {kind} entities are no part of the layout and may be lost")
        }
        Fact::Strange(Strange::Layer(layer), count) => {
            format!("{count} entities on layer {layer} are no part of the layout and may be lost")
        }
        Fact::StyleText(key) | Fact::PieceText(key) => format!("there is no text `{key}: …`"),
        Fact::Units(units) => format!("the units are `{units}`, and nobody can tell how large it is"),
        Fact::Quantity(quantity) => format!("the quantity `{quantity}` is no number"),
        Fact::Size { size, sample } => format!("its size is `{size}`, the sample size `{sample}`"),
        Fact::Boundaries(count) => format!("there are {count} boundaries on layer 1, and one is agreed"),
        Fact::BoundaryOpen => "the boundary is open".to_owned(),
        Fact::BoundaryRound => "the boundary has arcs in it".to_owned(),
        Fact::TurnPoints(bare) => format!("{bare} corners of the boundary have no turn point"),
        Fact::CurvePoints(bare) => {
            format!("{bare} vertices of the boundary have neither a turn point nor a curve point")
        }
        Fact::NotchWidth { at, layer } => {
            format!("the notch at {:.1}, {:.1} on layer {layer} has no width", at.x, at.y)
        }
        Fact::NotchOff { at, off } => {
            format!("the notch at {:.1}, {:.1} lies {off:.2} mm off the boundary", at.x, at.y)
        }
        Fact::NotchDepth { at } => format!("the notch at {:.1}, {:.1} has no depth", at.x, at.y),
        Fact::Grain(count) => format!("there are {count} grain lines, and one is agreed"),
        Fact::Mirror => "the mirror line is not a straight side of the boundary with all of it on one side".to_owned(),
        Fact::ValidationLong(Layers { line, curves }) => {
            format!("the lines on layers {line} and {curves} have too many vertices to be compared")
        }
        Fact::Validation { layers: Layers { line, curves }, off } => {
            format!("layer {line} and its validation curves on layer {curves} are up to {off:.2} mm apart")
        }
        Fact::Scaled(scale) => {
            format!("it is drawn at {:.1} % of the size at which it was written", 100.0 * scale)
        }
        Fact::NobodysSize { line, length } => {
            format!("it is {length:.0} mm all round on the {line} lines, which is nobody's size")
        }
        Fact::SeamDiffers { a: (a, length_a), b: (b, length_b) } => format!(
            "{a} is {length_a:.3} mm long and {b} {length_b:.3} mm, which is {:.3} mm apart",
            (length_a - length_b).abs()
        ),
        Fact::CutLinesOnly => "it has cut lines only: the two sides of a seam differ on them by their allowances, and \
                               an edit of a cut line shows in no seam"
            .to_owned(),
        Fact::AllowanceNarrow { edge, least, usual } => format!(
            "along {edge} the cut line comes as near as {least:.1} mm to the sewing line, which lies {usual:.1} mm inside \
             it elsewhere"
        ),
        Fact::PiecesMissing(pieces) => format!(
            "{} not in it: seams and openings that {} a part in are not measured",
            match pieces.as_slice() {
                [one] => format!("{one} is"),
                several => format!("{} are", several.join(" and ")),
            },
            if pieces.len() == 1 { "it has" } else { "they have" }
        ),
        Fact::NotMeasured { line, pieces } => format!(
            "it cannot be measured: on the {line} lines of {}, its edges are not there under their names, or were moved \
             too far",
            pieces.join(" and ")
        ),
    }
}

fn next(fact: &Fact) -> String {
    let next = match fact {
        Fact::Version(_) => "save it as R12 where a program refuses it",
        Fact::BeyondAscii => "write names and notes in plain ASCII",
        Fact::NoPieces => "draw each piece as a block with its boundary on layer 1, and insert it once",
        Fact::InsertUnknown => "draw the block, or take the insert out",
        Fact::InsertScaled => "insert every piece at its own size, factor 1",
        Fact::Inserts(_) => "insert each block once; how many to cut is said by Quantity",
        Fact::Strange(..) => "use POLYLINE, LINE, POINT and TEXT on the numbered layers",
        Fact::StyleText(_) => "write it once as TEXT, outside the blocks",
        Fact::Units(_) => "write `Units: METRIC` for millimetres or `Units: ENGLISH` for inches",
        Fact::PieceText(_) => "write it as TEXT in the block, on layer 1",
        Fact::Quantity(_) => "write how many to cut, as `Quantity: 2`",
        Fact::Size { .. } => "give every piece in its sample size",
        Fact::Boundaries(_) => "join the outline to one closed POLYLINE on layer 1",
        Fact::BoundaryOpen => "close the POLYLINE on layer 1 (code 70, bit 1)",
        Fact::BoundaryRound => "draw curves as short straight parts",
        Fact::TurnPoints(_) => "put a POINT on layer 2 on every corner",
        Fact::CurvePoints(_) => "put a POINT on layer 3 on every vertex of a curve",
        Fact::NotchWidth { .. } => "give its width as the point's thickness (39), or draw a slit on layer 4 with 0",
        Fact::NotchOff { .. } => "put every notch on the boundary",
        Fact::NotchDepth { .. } => "give its depth as the point's Z",
        Fact::Grain(_) => "draw one LINE on layer 7 along the grain",
        Fact::Mirror => "draw the LINE on layer 6 along the fold, corner to corner",
        Fact::ValidationLong(_) => "draw them with fewer vertices",
        Fact::Validation { .. } => "draw both from the same curve, or leave layer 84 to 87 out",
        Fact::Scaled(_) => {
            "cut nothing by it: set the size of the drawing back in the program that saved it, or draft it again"
        }
        Fact::NobodysSize { .. } => {
            "cut nothing by it: the units that the file names are not those that it is drawn in"
        }
        Fact::SeamDiffers { .. } => "make both sides equally long, or ease one to the other knowingly",
        Fact::CutLinesOnly => "seams are compared on their sewing lines: walk NAME-pieces.dxf",
        Fact::AllowanceNarrow { .. } => "move the cut line back, or move the sewing line and its seam with it",
        Fact::PiecesMissing(_) => "walk a file with all pieces, such as NAME-pieces.dxf",
        Fact::NotMeasured { .. } => "measure it by hand, or draft the file again and edit less at a time",
    };
    next.to_owned()
}
