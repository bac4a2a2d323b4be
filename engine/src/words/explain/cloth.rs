//! Of cloth and elastic, and of finishes as they were asked for.

use super::{Entry, entry};

pub(super) const CLOTH: &[Entry] = &[
    entry(
        "cloth.lockstitch_on_knit",
        "A straight stitch on a knit cracks when the seam stretches.",
        "Kind of seam and kind of cloth (common practice).",
        "Overlock the seams, or sew a narrow zigzag.",
    ),
    entry(
        "cloth.reduction_trap",
        "Cut so much smaller, the cloth cannot reach the body: reduction and stretch are not the same base.",
        "Cut r smaller it has to stretch by r/(1 − r): 20 % smaller needs 25 % (arithmetic).",
        "Cut it less small: set `ease_across` or `ease_along` nearer to 0.",
    ),
    entry(
        "elastic.latex",
        "The elastic holds rubber latex, which can cause allergy, at once or later.",
        "Said by `latex = true`.",
        "Ask the wearer, or take a latex-free one.",
    ),
    entry(
        "elastic.on_childs_skin",
        "An elastic lies against a child's skin.",
        "Side of the finish and `child = true` (common practice).",
        "Take a finish that covers the elastic.",
    ),
    entry(
        "elastic.picots_folded",
        "An elastic with picots is to be folded round the raw edge, which takes a fold-over elastic.",
        "`picot` of the elastic, under a finish that folds it (common practice).",
        "Name a fold-over elastic, or take a finish that lays it flat.",
    ),
    entry(
        "elastic.cannot_reach_edge",
        "While it is sewn on, the elastic has to stretch by more than it can.",
        "s = 1/(1 − reduction) − 1 on the tightest section, against its `stretch`.",
        "Reduce it less, or take a stretchier elastic.",
    ),
    entry(
        "elastic.longer_than_edge",
        "The elastic is longer than the edge: the edge waves.",
        "Reduction below 0 on some section.",
        "Write a shorter `length`, or a reduction of at least 0.",
    ),
    entry(
        "elastic.width_in_another_unit",
        "The elastic would be unusually wide or narrow; in another unit it would be an ordinary one.",
        "Widths as they are sold, 6 to 50 mm (common practice).",
        "Write its width in the sheet's unit.",
    ),
    entry(
        "elastic.no_sample",
        "Sewing lengthens an elastic, and nobody has measured by how much.",
        "3 to 10 % is usual (from memory, common practice).",
        "Sew a hand's length of it on scrap, measure it again, and write `growth`.",
    ),
    entry(
        "elastic.flutes",
        "On a hollow curve the free edge of an elastic is longer than its line and ripples.",
        "(distance from the outermost row)/(radius there), less what it is stretched when worn and what soft edgings take up (common practice: 5 mm, a tenth).",
        "A narrower elastic, more reduction there, or a rounder curve.",
    ),
];

pub(super) const FINISH: &[Entry] = &[
    entry(
        "finish.cloth_cannot",
        "This finish cannot be sewn on a woven.",
        "What the finish demands of the cloth: that it gives, or that it does not fray.",
        "Take one of the finishes that are named.",
    ),
    entry(
        "finish.round_only",
        "This finish cannot be put on flat.",
        "Its fold runs across the seams.",
        "Write `put_on = \"round\"`, or leave it out.",
    ),
    entry(
        "finish.elastic_missing",
        "The finish needs an elastic that the sheet does not describe.",
        "Name in `elastic` against the sections [elastic.\"NAME\"].",
        "Describe the elastic, or name one that is there.",
    ),
    entry(
        "finish.two_spreads",
        "Two ways to spread the stretch are asked for at once.",
        "`spread = \"equal\"` and `sections` on one edge.",
        "Keep one of them.",
    ),
    entry(
        "finish.two_lengths",
        "A whole length and a reduction for every section contradict each other.",
        "`length` or `from` beside `sections` for all parts.",
        "Leave a section out, or the length.",
    ),
    entry(
        "finish.rest_out_of_reach",
        "Parts with a reduction of their own leave too much or too little for the rest.",
        "What `length` gives, less what the parts take, against the rest of the edge.",
        "Change the reductions of the parts, or the length.",
    ),
    entry(
        "finish.runs_freely",
        "An elastic that is threaded has one stretch all round.",
        "`sections` or `spread` on a tunnel.",
        "Leave them out, or take another finish.",
    ),
    entry(
        "finish.fold_on_curve",
        "Cloth that is folded in on a hollow curve has to stretch to lie flat, by more than it can.",
        "(landing line)/(raw edge) − 1, where a parallel of a curve turning by θ has L ∓ dθ (geometry).",
        "A narrower fold, a finish that folds nothing in, or a stretchier cloth.",
    ),
    entry(
        "finish.too_tight",
        "An edge turns too tightly for a line beside it, or two lines do not meet.",
        "Radius of the edge against the distance of the line (geometry).",
        "A narrower finish, or a rounder edge.",
    ),
];
