//! Lengths: an elastic against its line, and the fold test.

use super::{Pen, Sketch, level, segment};
use engine::drawing::profile::Stuff;

/// An elastic that is shorter than the line that it is sewn to.
pub fn reduction() -> Sketch {
    let (left, line, elastic) = (15.0, 115.0, 105.0);
    let stretched = level((left, line), 62.0);
    Sketch::new(
        "reduction",
        "10 % of the line: where the sewing line is 50 cm, the elastic is 45 cm. While it is sewn on, it is \
         stretched to the line.",
    )
    .span((left, line), 20.0, "the sewing line: 50 cm")
    .strip(&level((left, line), 26.0), Stuff::Cloth, 6.0)
    .strip(&level((left, elastic), 42.0), Stuff::Elastic, 5.0)
    .span((left, elastic), 37.0, "the elastic: 45 cm")
    .line(&segment((elastic, 40.0), (line, 60.0)), Pen::Dashed)
    .strip(&level((left, line), 58.0), Stuff::Cloth, 6.0)
    .strip(&stretched, Stuff::Elastic, 5.0)
    .line(&stretched, Pen::Stitches)
    .words("sewn on, stretched to the line", (65.0, 71.0), "middle")
}

/// How far a cloth stretches.
pub fn fold_test() -> Sketch {
    let (left, ten, sixteen) = (20.0, 70.0, 100.0);
    Sketch::new(
        "stretch",
        "Fold the cloth, mark ten of any unit on the fold, pull until it resists, read. Ten that reach sixteen are \
         60 %.",
    )
    .span((left, ten), 22.0, "ten")
    .strip(&level((8.0, 100.0), 30.0), Stuff::Cloth, 8.0)
    .line(&segment((left, 26.0), (left, 34.0)), Pen::Stitches)
    .line(&segment((ten, 26.0), (ten, 34.0)), Pen::Stitches)
    .words("at rest, on the fold", (8.0, 40.0), "start")
    .span((left, sixteen), 52.0, "sixteen")
    .strip(&level((8.0, 124.0), 60.0), Stuff::Cloth, 6.0)
    .line(&segment((left, 57.0), (left, 63.0)), Pen::Stitches)
    .line(&segment((sixteen, 57.0), (sixteen, 63.0)), Pen::Stitches)
    .words("pulled until it resists", (8.0, 70.0), "start")
}
