//! Terms of the trade, as this program uses them.

use super::{Entry, entry};

pub(super) const ENTRIES: &[Entry] = &[
    entry(
        "piece",
        "One flat part: front, back, gusset, gusset lining, band.",
        "Cut from the finished outline by the allowances of its finishes and seams.",
        "Listed by `draft`.",
    ),
    entry(
        "finished edge",
        "Where the garment ends on the body.",
        "Drafted first; all other lines are laid beside it.",
        "Its lengths are told by `walk`.",
    ),
    entry(
        "sewing line",
        "Where the first row of stitches runs.",
        "At a distance from the finished edge that the finish says.",
        "An elastic's reduction is taken along it.",
    ),
    entry(
        "cut line",
        "Where the scissors or the laser go.",
        "At a distance from the finished edge that the finish or the allowance says.",
        "Printed, and in the cutter files.",
    ),
    entry(
        "opening",
        "The top edge, the left leg or the right leg.",
        "A ring over several pieces, walked part by part.",
        "Each has a section [finish.…].",
    ),
    entry(
        "seam",
        "Where two pieces are sewn together.",
        "Both sides are walked and differ by at most 0.01 mm.",
        "`walk` measures them.",
    ),
    entry(
        "crossing",
        "The place where an opening crosses a seam.",
        "The two interior angles add up to 180°.",
        "`walk` measures them.",
    ),
    entry(
        "finish",
        "How an opening is completed.",
        "Nine of them, each with its lines and keys.",
        "`finishes` lists them.",
    ),
    entry(
        "reduction",
        "How much shorter than its line an elastic or band is, % of the line.",
        "1 − (finished length)/(line): 10 % is 9 of elastic on 10 of edge. Worn, it is stretched by (1 + cloth)/(1 − r) − \
         1: on cloth that is stretched by 8 % on the body, 1.08/0.9, which is 20 %.",
        "Set by `reduction`, `length`, `from` or `sections`; `trial` proposes the next one.",
    ),
    entry(
        "ease",
        "How much larger (+) or smaller (−) than the body the cloth is, % of the body.",
        "By stretch where it is not written: under 25 % 0, 25–50 −4, 50–75 −8, more −10; woven +4 (common practice).",
        "Set by `ease_across` and `ease_along`.",
    ),
    entry(
        "stretch",
        "How far cloth or elastic can be stretched.",
        "(stretched − relaxed)/relaxed by the fold test: ten that reach sixteen are 60 % (common practice).",
        "Set by `stretch_across`, `stretch_along`, and `stretch` of an elastic.",
    ),
    entry(
        "worn stretch",
        "How far an edge is stretched on the body.",
        "(girth there)/(opening at rest) − 1.",
        "Told by `draft` under “Worn”.",
    ),
    entry(
        "growth",
        "How much longer an elastic comes out after sewing.",
        "From a sample; the elastic is cut shorter by as much.",
        "Set by `growth` of an elastic.",
    ),
    entry(
        "quarter marks",
        "Matching marks on elastic and edge.",
        "At centres and seams with one stretch all round, or on an elastic folded in equal parts.",
        "Set by `marks` and `spread`.",
    ),
    entry(
        "to walk a seam",
        "To measure both sides of it against each other.",
        "Along the curves, on the result.",
        "`walk` does it.",
    ),
    entry(
        "waist level",
        "Where the waist was measured; all depths start there, along the body.",
        "Natural, midway (ISO 8559-1, 5.3.10) or navel.",
        "Set by `waist_level`.",
    ),
    entry(
        "trial",
        "One test garment (US muslin) and what it taught.",
        "Each verdict cuts what is believed of the comfortable reduction: a band 3 to 9 points wide, 15 % of verdicts wrong (assumptions).",
        "`trial` records it and says what to sew next.",
    ),
    entry(
        "variant",
        "The same sheet with something changed.",
        "What it does not name stays as the sheet says.",
        "Written as [[variant]]; `compare` sets two side by side.",
    ),
    entry(
        "body form",
        "Closed sections and two thighs made from the tape measurements.",
        "Sections between ellipse and superellipse through breadth, depth and girth (ANSUR II), developed onto the plane.",
        "Seen in NAME-on-body.svg.",
    ),
    entry(
        "scoop",
        "How far the front leg edge is cut away between side and gusset.",
        "A share: 0 runs straight, 1 as hollow as the front allows (geometry).",
        "Set by `front_scoop` in [style].",
    ),
    entry(
        "cover",
        "How much of the seat the back covers.",
        "A share of the depth that the back leg edge can have over the seat (geometry).",
        "Set by `back_cover` in [style].",
    ),
    entry(
        "drop",
        "How far below the waist level the top edge lies, along the body.",
        "At the centre front, at the sides and at the centre back, each by itself.",
        "Set by `top_drop_front`, `top_drop_side` and `top_drop_back` in [style].",
    ),
    entry(
        "side seam",
        "Where front and back are joined at the side; its length decides how high the leg is cut.",
        "Along the finished edges, alike on both pieces within 0.01 mm.",
        "Set by `side_seam` in [style].",
    ),
    entry(
        "gusset",
        "The piece between the legs.",
        "Sizes by base, hip and crotch length; its length is final.",
        "Set in [gusset].",
    ),
    entry(
        "base",
        "The shape to start from.",
        "Shares of a vertical scale of the body, from drawing 1,986 bodies.",
        "Set by `base` in [style].",
    ),
    entry(
        "tunnel",
        "An elastic threaded through a fold of cloth (US casing).",
        "Width of the elastic, room, catch and turn.",
        "`kind = \"tunnel\"`.",
    ),
    entry(
        "kerf",
        "The width that a laser or a knife takes away.",
        "Outlines are grown by half of it, so that the piece keeps its size.",
        "Set by `--kerf`, in mm; let the machine add none.",
    ),
    entry(
        "lay",
        "How whole pieces lie on the width of the cloth, and how long a piece of it they take.",
        "By their outlines, along the grain; some turned by half a turn where the cloth allows it.",
        "Told by `draft`; `--lay` draws it and lays the cutter files like it.",
    ),
    entry(
        "slit",
        "A short cut inwards from the edge, in place of a notch that is only marked.",
        "On the edge at the place of the notch, within the allowance.",
        "Set by `--notches slits`; cut before the outlines.",
    ),
    entry(
        "template",
        "A piece in card to draw round.",
        "Half of it where it lies on the fold of the cloth.",
        "Set by `--halves`; `--quarter-turns` turns it where it lies better.",
    ),
    entry(
        "bed",
        "The surface that a laser or a cutter works on.",
        "Pieces are set apart on it; what has no room there lies on a further one.",
        "Set by `--cut-width` and `--cut-length`, in mm.",
    ),
    entry(
        "notch",
        "A mark on the cut line.",
        "On the edge at the place it is matched with.",
        "Printed, and in the cutter files.",
    ),
];
