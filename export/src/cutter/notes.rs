//! What is written beside the pieces, and said by the program: what the lines are, and cautions.

use super::options::{Copies, CutExtent, Cutting, Lines, Notches, Start};
use crate::number::decimal;
use engine::drawing::Drawing;
use engine::lay::Lay;

/// What has to be said where a laser may be at work (facts: any maker's manual; common practice).
pub const LASER: [&str; 3] = [
    "Laser: never PVC, vinyl or anything chlorinated: chlorine and hydrogen chloride come off.",
    "Polyamide, polyester, elastane and foam melt and flame: extraction on, a test piece first, never unattended.",
    "The machine maker's and the local rules come first.",
];

/// What is written beside the pieces in a file with layers.
pub(crate) fn layered(drawing: &Drawing, cutting: &Cutting) -> Vec<String> {
    told(drawing, cutting, layers(cutting))
}

/// Headline, quantities, lines, kerf, then the cautions; `lines` says which of them are cut.
pub(crate) fn told(drawing: &Drawing, cutting: &Cutting, lines: &str) -> Vec<String> {
    let date = drawing.date.iter().map(|d| format!(", {d}")).collect::<String>();
    let extent = match cutting.extent {
        CutExtent::Half if has_halves(drawing) => "symmetric pieces as halves, templates to lay on the fold",
        CutExtent::Full | CutExtent::Half => "every piece whole",
    };
    let title = format!("{}{date}: {extent}, at true size, in millimetres", drawing.name);
    let mut out = vec![title, quantities(drawing, cutting)];
    out.extend(cutting.lays.iter().map(laid));
    out.extend(beds(cutting));
    out.extend([lines.to_owned(), course(cutting)]);
    out.push(kerf(cutting));
    out.extend(LASER.iter().map(|l| (*l).to_owned()));
    out
}

/// Is any piece a half?
pub fn has_halves(drawing: &Drawing) -> bool {
    drawing.pieces.iter().any(|piece| piece.mirror.is_some())
}

fn quantities(drawing: &Drawing, cutting: &Cutting) -> String {
    let each = |words: &dyn Fn(u32) -> String| {
        let all: Vec<String> = drawing.pieces.iter().map(|p| format!("{}: {}", p.name, words(p.quantity))).collect();
        all.join("; ")
    };
    match cutting.copies {
        Copies::OnceEach => each(&|n| format!("cut {n}")),
        Copies::Pairs(pairs) => {
            let word = if pairs.get() == 1 { "pair" } else { "pairs" };
            format!("For {pairs} {word}, all there: {}", each(&|n| cutting.times(n).to_string()))
        }
    }
}

fn laid(lay: &Lay) -> String {
    let Lay { cloth, length, use_percent, gap, .. } = lay;
    let [width, length, gap] = [cloth.width, *length, *gap].map(|mm| decimal(mm, 1));
    let used = decimal(*use_percent, 0);
    format!("Laid on {}, {width} mm wide: {length} mm long, {used} % of it used, {gap} mm apart at least.", cloth.name)
}

/// Where pieces may go on more than one bed.
fn beds(cutting: &Cutting) -> Option<String> {
    let (width, length) = cutting.sheet_width.zip(cutting.sheet_length)?;
    let [width, length] = [width, length].map(|mm| decimal(mm, 1));
    let further = match cutting.bed {
        None => "what has no room there lies on a further bed of that size below, cut on its own".to_owned(),
        Some(bed) => format!("this is bed {bed} alone"),
    };
    cutting.lays.is_empty().then(|| format!("Set apart on {width} x {length} mm: {further}."))
}

const fn layers(cutting: &Cutting) -> &'static str {
    match cutting.notches {
        _ if matches!(cutting.lines, Lines::CutAlone) => {
            "Every line is to be cut; notches that are marks are left out."
        }
        Notches::Marks | Notches::Vees => {
            "Only the layer CUT is to be cut; other lines and text are for a pen or the lowest marking power."
        }
        Notches::Slits => {
            "The layers SLIT and then CUT are to be cut; other lines and text are for a pen or the lowest marking power."
        }
    }
}

fn course(cutting: &Cutting) -> String {
    let start = match cutting.start {
        Start::AsDrawn => "their first corner",
        Start::AwayFromCorners => "the middle of their longest edge",
    };
    format!("Outlines run clockwise from {start}; marks inside a piece come before its outline.")
}

fn kerf(cutting: &Cutting) -> String {
    if cutting.kerf == 0.0 {
        return "The outlines have no kerf in them.".to_owned();
    }
    let (whole, half) = (decimal(cutting.kerf, 3), decimal(0.5 * cutting.kerf, 4));
    format!("For a kerf of {whole} mm the outlines are grown by {half} mm all round: do not add it again.")
}
