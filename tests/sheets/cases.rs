//! For every coded check a sheet that it speaks on, and the nearest one that it has nothing to say to, as edits of a
//! plain one.

use engine::finding::Level::{self, Note, Refusal, Warning};

/// Section, key, value; an empty value takes the key out.
pub type Edit = (&'static str, &'static str, &'static str);

/// An invented body in the middle of published ones, in centimetres, on cotton jersey.
pub const PLAIN: &[Edit] = &[
    ("sheet", "version", "1"),
    ("sheet", "name", "\"checked pair\""),
    ("sheet", "units", "\"cm\""),
    ("body", "waist_girth", "74"),
    ("body", "waist_level", "\"natural\""),
    ("body", "hip_girth", "99"),
    ("body", "waist_to_hip", "20"),
    ("body", "crotch_length", "71"),
    ("body", "crotch_length_front", "32"),
    ("body", "thigh_girth", "58"),
    ("fabric", "kind", "\"knit\""),
    ("fabric", "stretch_across", "60"),
    ("fabric", "stretch_along", "40"),
    ("style", "base", "\"brief\""),
    ("gusset", "layers", "2"),
    ("seams", "kind", "\"overlock\""),
    ("finish.top", "kind", "\"turned\""),
    ("finish.top", "elastic", "\"soft\""),
    ("finish.top", "reduction", "8"),
    ("finish.legs", "kind", "\"turned\""),
    ("finish.legs", "elastic", "\"soft\""),
    ("finish.legs", "reduction", "5"),
    ("elastic.soft", "width", "0.8"),
    ("elastic.soft", "stretch", "100"),
    ("elastic.soft", "growth", "4"),
];

/// A woven that can be drafted: everything that a knit alone can do is taken out.
pub const WOVEN: &[Edit] = &[
    ("fabric", "kind", "\"woven\""),
    ("fabric", "stretch_across", "4"),
    ("fabric", "stretch_along", "1"),
    ("finish.top", "kind", "\"tunnel\""),
    ("finish.top", "reduction", "18"),
    // A deeper fold would have to stretch on the curve of the top edge by more than the 4 % it can.
    ("finish.top", "turn", "0.2"),
    ("finish.legs", "kind", "\"binding\""),
    ("finish.legs", "reduction", "10"),
];

pub struct Case {
    pub code: &'static str,
    pub level: Level,
    pub speaks: &'static [Edit],
    pub silent: &'static [Edit],
}

const fn case(code: &'static str, level: Level, speaks: &'static [Edit], silent: &'static [Edit]) -> Case {
    Case { code, level, speaks, silent }
}

pub static CASES: &[Case] = &[
    case(
        "body.unlike_published",
        Warning,
        &[("body", "hip_girth", "151"), ("body", "waist_girth", "120")],
        &[("body", "hip_girth", "120"), ("body", "waist_girth", "100")],
    ),
    // 29 in and 39 in.
    case(
        "body.units",
        Warning,
        &[
            ("body", "waist_girth", "29"),
            ("body", "hip_girth", "39"),
            ("body", "waist_to_hip", "8"),
            ("body", "crotch_length", "28"),
            ("body", "crotch_length_front", "12.5"),
            ("body", "thigh_girth", "23"),
        ],
        &[],
    ),
    // One number out of step: 23 in of thigh.
    case("body.one_in_another_unit", Warning, &[("body", "thigh_girth", "23")], &[]),
    case("body.unusual", Note, &[("body", "thigh_girth", "70")], &[("body", "thigh_girth", "63")]),
    case("body.hip_level", Refusal, &[("body", "waist_to_hip", "36")], &[("body", "waist_to_hip", "24")]),
    case("body.hip_below_waist", Refusal, &[("body", "waist_girth", "131")], &[("body", "waist_girth", "100")]),
    case("body.waist_over_hip", Warning, &[("body", "waist_girth", "110")], &[("body", "waist_girth", "105")]),
    case("body.crotch_front_estimated", Warning, &[("body", "crotch_length_front", "")], &[]),
    case("body.child", Note, &[("body", "child", "true")], &[("body", "child", "false")]),
    case("draft.centre_too_short", Refusal, &[("body", "crotch_length", "40")], &[]),
    case(
        "draft.gusset_too_wide",
        Refusal,
        &[("gusset", "front_width", "29"), ("body", "hip_girth", "70"), ("body", "waist_girth", "52")],
        &[],
    ),
    case(
        "draft.back_leg",
        Refusal,
        &[("gusset", "back_width", "39"), ("body", "hip_girth", "70"), ("body", "waist_girth", "52")],
        &[],
    ),
    case(
        "draft.side_seam",
        Refusal,
        &[("style", "top_drop_side", "30"), ("body", "crotch_length", "60"), ("body", "crotch_length_front", "27")],
        &[],
    ),
    case("draft.gusset_widths", Refusal, &[("gusset", "width", "9"), ("gusset", "front_width", "7")], &[]),
    case("draft.leg_edge_out_of_reach", Refusal, &[("style", "leg_edge", "30")], &[("style", "leg_edge", "57")]),
    case(
        "draft.leg_too_level",
        Refusal,
        &[("style", "top_drop_side", "22"), ("body", "crotch_length", "60"), ("body", "crotch_length_front", "27")],
        &[],
    ),
    case(
        "shape.side_seam_short",
        Refusal,
        &[("style", "side_seam", "1.5"), ("elastic.soft", "width", "1.6"), ("finish.top", "kind", "\"binding\"")],
        &[],
    ),
    case(
        "shape.edges_overlap",
        Warning,
        &[
            ("style", "side_seam", "2.2"),
            ("elastic.soft", "width", "1.2"),
            ("finish.top", "kind", "\"encased\""),
            ("finish.legs", "kind", "\"encased\""),
        ],
        &[
            ("style", "side_seam", "2.6"),
            ("elastic.soft", "width", "1.2"),
            ("finish.top", "kind", "\"encased\""),
            ("finish.legs", "kind", "\"encased\""),
        ],
    ),
    case("shape.level_leg", Note, &[("style", "side_seam", "17")], &[]),
    // By more than a fifth.
    case("shape.level_leg", Warning, &[("style", "side_seam", "22")], &[("style", "side_seam", "12")]),
    case(
        "shape.side_depth",
        Note,
        &[("style", "top_drop_side", "6"), ("style", "top_drop_front", "2"), ("style", "top_drop_back", "2")],
        &[("style", "top_drop_side", "5"), ("style", "top_drop_front", "5"), ("style", "top_drop_back", "5")],
    ),
    case(
        "shape.foot_angle",
        Note,
        &[("style", "base", "\"full brief\""), ("style", "front_scoop", "1")],
        &[("style", "base", "\"full brief\"")],
    ),
    case(
        "shape.back_undercut",
        Warning,
        &[
            ("body", "waist_girth", "64"),
            ("body", "hip_girth", "86"),
            ("body", "waist_to_hip", "24"),
            ("body", "crotch_length", "80"),
            ("body", "crotch_length_front", "38"),
            ("body", "thigh_girth", "49"),
            ("style", "base", "\"high leg\""),
            ("style", "side_seam", "3.5"),
            ("style", "back_cover", "1"),
        ],
        &[
            ("body", "waist_girth", "64"),
            ("body", "hip_girth", "86"),
            ("body", "waist_to_hip", "24"),
            ("body", "crotch_length", "80"),
            ("body", "crotch_length_front", "38"),
            ("body", "thigh_girth", "49"),
            ("style", "base", "\"high leg\""),
            ("style", "side_seam", "3.5"),
        ],
    ),
    // Both ends hardly wider, the back one least: of seven bodies in six bases, three are refused so.
    case(
        "shape.gusset_width_not_kept",
        Refusal,
        &[
            ("body", "waist_girth", "102"),
            ("body", "waist_level", "\"navel\""),
            ("body", "hip_girth", "104"),
            ("body", "waist_to_hip", "14"),
            ("body", "crotch_length", "64"),
            ("body", "crotch_length_front", "30"),
            ("body", "thigh_girth", ""),
            ("style", "base", "\"tanga\""),
            ("gusset", "width", "6.4"),
            ("gusset", "front_width", "7"),
            ("gusset", "back_width", "6.6"),
        ],
        &[("gusset", "width", "6"), ("gusset", "front_width", "6"), ("gusset", "back_width", "6")],
    ),
    case(
        "shape.gusset_narrow",
        Refusal,
        &[("finish.legs", "kind", "\"tunnel\""), ("elastic.soft", "width", "2.6"), ("gusset", "width", "6")],
        &[("finish.legs", "kind", "\"tunnel\""), ("gusset", "width", "6")],
    ),
    case(
        "cloth.lockstitch_on_knit",
        Warning,
        &[("seams", "kind", "\"lockstitch\"")],
        &[("seams", "kind", "\"zigzag\"")],
    ),
    // Reduced by all of its stretch, cloth does not reach the body: 20 % less needs 25 % more.
    case(
        "cloth.reduction_trap",
        Refusal,
        &[("fabric", "stretch_across", "20"), ("fabric", "ease_across", "-20")],
        &[("fabric", "stretch_across", "26"), ("fabric", "ease_across", "-20"), ("body", "thigh_girth", "50")],
    ),
    // 0.2 typed for 0.2 in; and 6 typed for 6 mm, which then causes all that is refused.
    case("elastic.width_in_another_unit", Warning, &[("elastic.soft", "width", "0.2")], &[]),
    case("elastic.width_in_another_unit", Refusal, &[("elastic.soft", "width", "6")], &[]),
    case("elastic.latex", Warning, &[("elastic.soft", "latex", "true")], &[("elastic.soft", "latex", "false")]),
    case(
        "elastic.on_childs_skin",
        Warning,
        &[("body", "child", "true")],
        &[("body", "child", "true"), ("finish.top", "kind", "\"encased\""), ("finish.legs", "kind", "\"encased\"")],
    ),
    case(
        "elastic.picots_folded",
        Warning,
        &[("finish.top", "kind", "\"binding\""), ("elastic.soft", "picot", "0.2")],
        &[("finish.top", "kind", "\"turned\""), ("elastic.soft", "picot", "0.2")],
    ),
    case(
        "elastic.cannot_reach_edge",
        Refusal,
        &[("finish.top", "reduction", "52")],
        &[("finish.top", "reduction", "48")],
    ),
    case("elastic.longer_than_edge", Warning, &[("finish.top", "reduction", ""), ("finish.top", "length", "95")], &[]),
    case("elastic.no_sample", Note, &[("elastic.soft", "growth", "")], &[]),
    case(
        "elastic.flutes",
        Warning,
        &[("finish.legs", "kind", "\"trim\""), ("elastic.soft", "width", "1.6")],
        &[("finish.legs", "kind", "\"trim\""), ("elastic.soft", "width", "0.7")],
    ),
    // The same edging lies flat where cloth and reduction stretch it out as far.
    case(
        "elastic.flutes",
        Warning,
        &[("finish.legs", "kind", "\"trim\""), ("elastic.soft", "width", "1.1"), ("finish.legs", "reduction", "0")],
        &[("finish.legs", "kind", "\"trim\""), ("elastic.soft", "width", "1.1"), ("finish.legs", "reduction", "10")],
    ),
    // A wanted leg line that is larger on the body stretches it out too.
    case(
        "elastic.flutes",
        Warning,
        &[("finish.legs", "kind", "\"trim\""), ("elastic.soft", "width", "1.1"), ("finish.legs", "reduction", "0")],
        &[
            ("finish.legs", "kind", "\"trim\""),
            ("elastic.soft", "width", "1.1"),
            ("finish.legs", "reduction", "0"),
            ("body", "leg_line_girth", "68"),
        ],
    ),
    case(
        "finish.fold_on_curve",
        Refusal,
        &[("finish.legs", "kind", "\"encased\""), ("fabric", "stretch_across", "9"), ("fabric", "stretch_along", "5")],
        &[
            ("finish.legs", "kind", "\"encased\""),
            ("fabric", "stretch_across", "20"),
            ("fabric", "stretch_along", "15"),
        ],
    ),
    case(
        "finish.cloth_cannot",
        Refusal,
        &[("finish.legs", "kind", "\"raw\""), ("fabric", "kind", "\"woven\"")],
        &[("finish.legs", "kind", "\"raw\"")],
    ),
    case(
        "finish.round_only",
        Refusal,
        &[("finish.top", "kind", "\"tunnel\""), ("finish.top", "put_on", "\"flat\"")],
        &[("finish.top", "kind", "\"tunnel\""), ("finish.top", "put_on", "\"round\"")],
    ),
    case(
        "finish.two_spreads",
        Refusal,
        &[("finish.legs", "spread", "\"equal\""), ("finish.legs", "sections", "{ back = 9 }")],
        &[("finish.legs", "spread", "\"even\""), ("finish.legs", "sections", "{ back = 9 }")],
    ),
    case(
        "finish.two_lengths",
        Refusal,
        &[
            ("finish.legs", "reduction", ""),
            ("finish.legs", "length", "55"),
            ("finish.legs", "sections", "{ front = 0, gusset = 2, back = 9 }"),
        ],
        &[
            ("finish.legs", "reduction", ""),
            ("finish.legs", "length", "55"),
            ("finish.legs", "sections", "{ front = 0, gusset = 2 }"),
        ],
    ),
    // The back, longer than its line, takes more than the whole.
    case(
        "finish.rest_out_of_reach",
        Refusal,
        &[
            ("finish.legs", "reduction", ""),
            ("finish.legs", "length", "36"),
            ("finish.legs", "sections", "{ back = -10 }"),
        ],
        &[
            ("finish.legs", "reduction", ""),
            ("finish.legs", "length", "52"),
            ("finish.legs", "sections", "{ back = 9 }"),
        ],
    ),
    // A top edge far down over a short front, deeply cut away: the leg rises over it.
    case(
        "outline.edges_cross",
        Refusal,
        &[
            ("body", "waist_girth", "93"),
            ("body", "waist_level", "\"navel\""),
            ("body", "hip_girth", "98"),
            ("body", "waist_to_hip", "15"),
            ("body", "crotch_length", "66"),
            ("body", "crotch_length_front", "25.7"),
            ("style", "base", "\"tanga\""),
            ("style", "top_drop_front", "14.5"),
            ("style", "top_drop_side", "6.8"),
            ("style", "front_scoop", "0.64"),
            ("finish.top", "kind", "\"raw\""),
            ("finish.legs", "kind", "\"raw\""),
        ],
        &[("style", "base", "\"tanga\"")],
    ),
    // The stitches of a deep band rise over those of the legs.
    case(
        "outline.out_of_order",
        Refusal,
        &[
            ("body", "waist_girth", "74.9"),
            ("body", "waist_level", "\"midway\""),
            ("body", "hip_girth", "98.54"),
            ("body", "waist_to_hip", "16.26"),
            ("body", "crotch_length", "61.89"),
            ("body", "crotch_length_front", "30.02"),
            ("fabric", "stretch_across", "93.4"),
            ("fabric", "stretch_along", "91.8"),
            ("style", "base", "\"tanga\""),
            ("finish.top", "kind", "\"band\""),
            ("finish.top", "width", "3"),
            ("finish.legs", "kind", "\"encased\""),
            ("finish.legs", "reduction", "20.7"),
            ("elastic.soft", "width", "2.5"),
            ("elastic.soft", "picot", "1.09"),
            ("seams", "side", "0.7"),
            ("seams", "gusset", "0.91"),
        ],
        &[("style", "base", "\"tanga\"")],
    ),
    // The stitches of a deep trim lie on those of a hem in front, by less than their lines are drawn with.
    case(
        "outline.strip_narrow",
        Refusal,
        &[
            ("body", "waist_girth", "98.06"),
            ("body", "waist_level", "\"midway\""),
            ("body", "hip_girth", "115.34"),
            ("body", "waist_to_hip", "12.15"),
            ("body", "crotch_length", "71.8"),
            ("body", "crotch_length_front", "33.44"),
            ("body", "thigh_girth", ""),
            ("fabric", "stretch_across", "111.9"),
            ("style", "base", "\"small brief\""),
            ("finish.top", "kind", "\"trim\""),
            ("finish.top", "elastic", "\"soft\""),
            ("finish.legs", "kind", "\"hem\""),
            ("elastic.soft", "width", "2.67"),
        ],
        &[("style", "base", "\"small brief\"")],
    ),
    // The stitches of a wide binding run beyond the finished top edge of the back, between two points of it.
    case(
        "outline.strip_narrow",
        Refusal,
        &[
            ("body", "waist_level", "\"midway\""),
            ("body", "crotch_length", "63.42"),
            ("body", "crotch_length_front", "26.72"),
            ("body", "thigh_girth", ""),
            ("fabric", "kind", "\"woven\""),
            ("style", "base", "\"tanga\""),
            ("finish.top", "kind", "\"encased\""),
            ("finish.legs", "kind", "\"binding\""),
            ("finish.legs", "elastic", "\"wide\""),
            ("elastic.wide", "width", "2.13"),
        ],
        &[("style", "base", "\"tanga\"")],
    ),
    // A gusset as wide as a hand is long: the leg of the back hooks round its corner.
    case(
        "outline.turns_tight",
        Refusal,
        &[
            ("fabric", "kind", "\"woven\""),
            ("fabric", "ease_across", "-22"),
            ("finish.legs", "kind", "\"trim\""),
            ("gusset", "width", "20"),
        ],
        &[("gusset", "width", "6")],
    ),
    case("finish.too_tight", Refusal, &[("elastic.soft", "width", "9"), ("finish.legs", "kind", "\"encased\"")], &[]),
    case(
        "work.overlap_too_long",
        Refusal,
        &[
            ("finish.top", "put_on", "\"round\""),
            ("finish.top", "overlap", "9"),
            ("finish.top", "reduction", ""),
            ("finish.top", "length", "16"),
            ("elastic.soft", "stretch", "450"),
        ],
        &[("finish.top", "put_on", "\"round\""), ("finish.top", "overlap", "3")],
    ),
    case("gusset.as_worn", Warning, &[("gusset", "width", "5")], &[("gusset", "width", "5.6")]),
    case(
        "opening.cloth_cannot_pass",
        Warning,
        &[("style", "base", "\"full brief\""), ("body", "waist_girth", "60")],
        &[],
    ),
    case(
        "opening.elastic_cannot_pass",
        Warning,
        &[("elastic.soft", "stretch", "20")],
        &[("elastic.soft", "stretch", "40")],
    ),
    case(
        "worn.loose",
        Warning,
        &[("fabric", "ease_across", "6"), ("finish.top", "reduction", "0")],
        &[("fabric", "ease_across", "6"), ("finish.top", "reduction", "8")],
    ),
    case("worn.tight", Warning, &[("finish.top", "reduction", "40")], &[("finish.top", "reduction", "20")]),
    case("worn.pressure", Warning, &[("elastic.soft", "pull", "[[20, 300], [50, 900]]")], &[]),
    case(
        "worn.pull_test_ends",
        Note,
        &[("elastic.soft", "pull", "[[2, 5], [4, 9]]")],
        &[("elastic.soft", "pull", "[[25, 60], [50, 110]]")],
    ),
];
