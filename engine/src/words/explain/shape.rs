//! Of the drawn shape, the gusset, and lines that cannot be cut or sewn.

use super::{Entry, entry};

pub(super) const ENTRIES: &[Entry] = &[
    entry(
        "shape.side_seam_short",
        "Too little of the side seam is left between the finishes of the openings.",
        "Length of the seam between both sewing lines, against 10 mm (common practice).",
        "Lengthen `side_seam`, or choose narrower finishes.",
    ),
    entry(
        "shape.edges_overlap",
        "The finishes of the top edge and of a leg lie on each other at the side.",
        "Widths of both finishes along the side seam, added up (geometry).",
        "Lengthen `side_seam`, or choose narrower elastics or hems.",
    ),
    entry(
        "shape.level_leg",
        "The side seam was shortened so that the front leg edge falls towards the gusset.",
        "The longest side seam at which the leg line falls by 0.25 mm per mm (from drawing 1,986 bodies).",
        "Look at the leg; set a shorter `side_seam` to have it as you want.",
    ),
    entry(
        "shape.side_depth",
        "The top edge meets the side seam higher or lower than asked.",
        "Depth of the side seam's top on the body form, against the depth asked; told over 2 mm. The edge is one sweep of \
         front and back, and their slopes at the side have to add up with the leans of the side seam (geometry).",
        "Set `top_drop_side` nearer to the drops in front and at the back.",
    ),
    entry(
        "shape.foot_angle",
        "At the foot of the side seam, front and back leg edge are not square one by one, but run on when sewn.",
        "Angle between leg edge and side seam on either piece; both add up to 180° (geometry).",
        "Nothing to do. A longer side seam makes it less.",
    ),
    entry(
        "shape.back_undercut",
        "Below the side seam the back leg edge runs in, and comes out again over the seat: a bulge on a neck.",
        "On the finished edge of the half back, from the side seam down: how far it comes out again from its hollow; told \
         over 5 mm. No base does so by itself on the women of a published survey.",
        "Give less `back_cover`, or a longer side seam.",
    ),
    entry(
        "shape.gusset_narrow",
        "Between the leg finishes hardly any gusset is left to be sewn.",
        "Width between the sewing lines of both legs, against 10 mm (common practice).",
        "Widen the gusset, or choose narrower elastics or hems at the legs.",
    ),
    entry(
        "shape.gusset_width_not_kept",
        "A smooth leg edge would make the gusset narrower than asked for.",
        "Narrowest width of the drawn gusset against `width` (geometry).",
        "Make its ends wider than its middle.",
    ),
    entry(
        "gusset.as_worn",
        "How wide the gusset is with what stands out beyond its edges.",
        "Drafted width, and what the finish of each leg adds; full cover from 55 mm at a hip of 1,000 mm (from memory, common practice).",
        "Set `gusset.width`, or `reach = \"keep\"` on an edging.",
    ),
    entry(
        "outline.not_simple",
        "A cut line or sewing line crosses itself.",
        "Every segment of the outline against every other one (geometry).",
        "Report it with the sheet; another finish or a wider gusset avoids it.",
    ),
    entry(
        "outline.edges_cross",
        "Finished edges of one piece cross each other.",
        "Intersections of the finished edges (geometry).",
        "Lengthen the side seam, or move an edge.",
    ),
    entry(
        "outline.out_of_order",
        "A finished edge lies on the wrong side of its cut line or stitches.",
        "Order of cut, sewing and finished line on every edge (geometry).",
        "Narrower finishes, or more room between the edges.",
    ),
    entry(
        "outline.strip_narrow",
        "Two edges of a piece, with their stitches, leave no cloth between them.",
        "Least distance between the finished edges and sewing lines of two openings; 3 mm, a usual width of zigzag (common practice).",
        "Narrower finishes, a longer side seam, or more room between the edges.",
    ),
    entry(
        "outline.turns_tight",
        "A finished edge has a hook in it round which nothing can be sewn.",
        "Least radius of curvature of the finished edges; 5 mm, half the width of a usual presser foot (common practice).",
        "Look at the measures first; then milder curves.",
    ),
    entry(
        "seam.unequal",
        "The two sides of a seam are not equally long.",
        "Both sides walked along the curve; 0.01 mm may differ between finished edges.",
        "Report it with the sheet: the draft should not let it happen.",
    ),
    entry(
        "construction.unsound",
        "The pieces do not hold together.",
        "A part that another one needs is missing.",
        "Report it with the sheet: it is a fault of the program.",
    ),
    entry(
        "work.missing_step",
        "A step of the order of work waits for one that nobody does.",
        "Needs of every step against the list of steps.",
        "Report it with the sheet: it is a fault of the program.",
    ),
    entry(
        "work.no_order",
        "Some steps wait for each other.",
        "Topological order of the steps by their needs.",
        "Put an edge on round in place of flat, or the other way.",
    ),
    entry(
        "work.overlap_too_long",
        "The ends of a ring of elastic would lie over more than half of it.",
        "`overlap` against half of the ring.",
        "Write a shorter `overlap`.",
    ),
];
