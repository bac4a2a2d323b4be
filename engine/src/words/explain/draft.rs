//! Of the body's measures, and of what cannot be drawn.

use super::{Entry, entry};

pub(super) const BODY: &[Entry] = &[
    entry(
        "body.units",
        "Several measures together lie outside all published bodies, and in another unit they would be ordinary.",
        "Each girth and length is held against the range found in ANSUR II women (Gordon et al. 2014) and in Heinz et al. 2003.",
        "Convert the numbers, or change `units` in [sheet].",
    ),
    entry(
        "body.one_in_another_unit",
        "One measure does not fit the others; read in another unit it would.",
        "Distance in standard deviations from the regression on the other measures (ANSUR II, Heinz et al. 2003).",
        "Write the number in the sheet's unit; the message says which number that is.",
    ),
    entry(
        "body.unlike_published",
        "A measure lies outside the range of published bodies.",
        "Range of ANSUR II women (Gordon et al. 2014, 1,986 women), widened.",
        "Measure again. If it is right, go on: the draft is made for it.",
    ),
    entry(
        "body.unusual",
        "A measure is far from what bodies with the other measures have.",
        "More than 3.5 standard deviations from the regression on the others (ANSUR II, Heinz et al. 2003).",
        "Measure it once more, then go on.",
    ),
    entry(
        "body.hip_level",
        "The hip level would lie lower than the place where the legs divide.",
        "waist_to_hip against half of crotch_length (geometry).",
        "Measure `waist_to_hip` down the side, from the waist ribbon to the level of the hip girth.",
    ),
    entry(
        "body.hip_below_waist",
        "The hip girth is far smaller than the waist girth.",
        "Ratio of both, against the smallest one among ANSUR II women.",
        "See whether the two were swapped, or one was typed in another unit.",
    ),
    entry(
        "body.waist_over_hip",
        "The waist girth is larger than the hip girth, by more than on almost any body.",
        "Ratio of both, against the largest one among ANSUR II women (about 1.1).",
        "See whether the two were swapped. If they are right, go on.",
    ),
    entry(
        "body.crotch_front_estimated",
        "The front part of the crotch length was not measured.",
        "Taken as 45 % of the whole; half of 1,986 women (ANSUR II) are more than 15 mm off that.",
        "Measure `crotch_length_front`: from the waist level in front to the lowest point between the legs.",
    ),
    entry(
        "body.child",
        "The sheet is for a child, so other cautions apply.",
        "Said by `child = true`.",
        "Softer and looser, no elastic against the skin; local rules for children's wear decide.",
    ),
];

pub(super) const DRAFT: &[Entry] = &[
    entry(
        "draft.centre_too_short",
        "Between top edge and gusset too little is left at a centre to be sewn.",
        "(crotch part − drop) × (1 + ease along) − the gusset's part, against what two allowances need (geometry).",
        "Raise the top edge, shorten the gusset, or measure the crotch length again.",
    ),
    entry(
        "draft.gusset_too_wide",
        "The front gusset seam leaves no room for a hollow leg edge.",
        "Half the seam against the width of the front at that height (geometry).",
        "Make `gusset.front_width` smaller.",
    ),
    entry(
        "draft.back_leg",
        "The back leg edge has no room beside the gusset.",
        "Half the back gusset seam against the width of the back (geometry).",
        "Make `gusset.back_width` smaller.",
    ),
    entry(
        "draft.side_seam",
        "The side seam does not reach from the top edge to the hip on this body.",
        "Development of the body form onto the plane (geometry).",
        "Raise the top edge at the side, or set another `side_seam`.",
    ),
    entry(
        "draft.gusset_widths",
        "An end of the gusset is narrower than its middle.",
        "front_width and back_width against width.",
        "Make the ends at least as wide as `width`.",
    ),
    entry(
        "draft.leg_edge_out_of_reach",
        "No shape has the wanted length of the leg edge.",
        "Shortest and longest edge over the knobs the sheet leaves free; solved, then measured again.",
        "Write a `leg_edge` inside the range that is told, or leave more knobs free.",
    ),
    entry(
        "draft.leg_too_level",
        "However short the side seam, the front leg edge would not fall towards the gusset.",
        "Fall of the front leg line in mm per mm; it has to be at least 0.25 (from drawing 1,986 bodies).",
        "Raise the top edge at the side.",
    ),
];
