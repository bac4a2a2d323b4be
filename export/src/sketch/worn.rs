//! A body and what lies round it, seen from above.

use super::{Pen, Sketch};
use kurbo::{Ellipse, Shape};

/// An opening at rest, and the body that stretches it.
pub fn worn_stretch() -> Sketch {
    Sketch::new(
        "worn stretch",
        "(girth there)/(opening at rest) − 1: an opening of 60 cm on 69 cm is worn stretched by 15 %. Below 0 it \
         stands off.",
    )
    .line(&Ellipse::new((65.0, 44.0), (42.0, 27.0), 0.0).to_path(0.1), Pen::Body)
    .line(&Ellipse::new((65.0, 44.0), (36.5, 23.5), 0.0).to_path(0.1), Pen::Dashed)
    .words("the body there: 69 cm", (65.0, 43.0), "middle")
    .words("dashed: the opening at rest, 60 cm", (65.0, 48.0), "middle")
}

/// Cloth that is cut larger or smaller than the body.
pub fn ease() -> Sketch {
    let round = |x: f64, part: f64| Ellipse::new((x, 42.0), (23.0 * part, 19.0 * part), 0.0).to_path(0.1);
    Sketch::new(
        "ease",
        "How much larger (+) or smaller (−) than the body the cloth is cut. A knit is cut smaller and stretches; a \
         woven has to be larger.",
    )
    .line(&round(35.0, 1.0), Pen::Body)
    .line(&round(35.0, 0.9), Pen::Solid)
    .words("−10 %: knit", (35.0, 43.0), "middle")
    .line(&round(95.0, 1.0), Pen::Body)
    .line(&round(95.0, 1.08), Pen::Solid)
    .words("+4 %: woven", (95.0, 43.0), "middle")
    .words("black: the cloth at rest; brown: the body", (65.0, 71.0), "middle")
}
