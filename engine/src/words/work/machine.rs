//! What the machine is set to, in words. Widths and lengths are mm in every sheet, as the dials
//! show them.

use crate::stitch::{Needle, Sewing, Span, Stitch};
use crate::words::number::short;

/// A stitch in words, with its number.
pub fn stitch(stitch: Stitch) -> String {
    let words = match stitch {
        Stitch::Lockstitch => "straight stitch",
        Stitch::Zigzag => "zigzag",
        Stitch::ThreeStep => "three-step zigzag",
        Stitch::Overlock => "four-thread overlock / serger",
    };
    format!("{words} (ISO 4915: {})", stitch.code())
}

/// A stitch with what the machine is set to.
pub fn sewing(sewing: &Sewing) -> String {
    let of = if sewing.stitch == Stitch::ThreeStep { "each step" } else { "length" };
    let width = sewing.width.map(|span| format!("width {} mm", said(span)));
    let length = Some(format!("{of} {} mm", said(sewing.length)));
    let feed = sewing.differential.map(|span| format!("differential feed {}", said(span)));
    let settings: Vec<String> = [width, length, feed].into_iter().flatten().collect();
    format!("{}, {}", stitch(sewing.stitch), settings.join(", "))
}

/// What holds for the whole order of work: the needle, and how to take the settings.
pub fn setting_up(of: Needle) -> String {
    let misses = match of {
        Needle::Stretch => "",
        Needle::BallPoint | Needle::Sharp => " Where it misses stitches on an elastic, take a stretch needle, 75/11.",
    };
    format!(
        "Needle for every seam and row: {}.{misses} What is said of the machine is to start from: sew on a scrap with the \
         elastic first, and set it by what you see. Thin knits want light pressure of the foot.",
        needle(of)
    )
}

/// A needle with its sizes.
pub fn needle(needle: Needle) -> String {
    let point = match needle {
        Needle::BallPoint => "ball point (jersey)",
        Needle::Stretch => "stretch",
        Needle::Sharp => "sharp (microtex)",
    };
    let (fine, coarse) = needle.sizes();
    format!("{point}, {fine} for thin cloth to {coarse} for thick")
}

fn said(span: Span) -> String {
    let Span { from, to } = span;
    if from < to { format!("{} to {}", short(from, 1), short(to, 1)) } else { short(from, 1) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::terms::ClothKind;

    #[test]
    fn settings_read_as_on_the_dials() {
        assert_eq!(sewing(&Sewing::zigzag()), "zigzag (ISO 4915: 304), width 2.5 to 4 mm, length 2 to 3 mm");
        let woven = sewing(&Sewing::overlock(ClothKind::Woven));
        assert!(woven.ends_with("length 2.5 to 3 mm, differential feed 1"), "{woven}");
        assert_eq!(needle(Needle::Sharp), "sharp (microtex), 60/8 for thin cloth to 70/10 for thick");
    }
}
