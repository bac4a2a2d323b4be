//! Marks that bring two lengths together.

use super::{Pen, Sketch, level, round, segment};
use engine::drawing::profile::Stuff;
use kurbo::{Circle, Point, Shape};

/// An elastic quartered to its edge.
pub fn quarters() -> Sketch {
    let (edge, elastic) = (Point::new(36.0, 42.0), Point::new(95.0, 42.0));
    let mut sketch = Sketch::new(
        "quarter marks",
        "Pin the elastic to the edge mark by mark, and stretch it evenly between two. On the edge the marks lie at \
         centres and seams; numbers on both tell which is which.",
    )
    .strip(&Circle::new(edge, 24.0).to_path(0.1), Stuff::Cloth, 3.0)
    .strip(&Circle::new(elastic, 20.0).to_path(0.1), Stuff::Elastic, 3.0)
    .words("the edge", (edge.x, 43.0), "middle")
    .words("the elastic", (elastic.x, 43.0), "middle");
    for (i, turn) in [-90.0, 0.0, 90.0, 180.0].into_iter().enumerate() {
        for (centre, radius) in [(edge, 24.0), (elastic, 20.0)] {
            let [from, to, at] = [radius - 2.5, radius + 2.5, radius - 6.5].map(|r| round(centre, r, turn));
            let tick = segment((from.x, from.y), (to.x, to.y));
            sketch = sketch.line(&tick, Pen::Solid).words(&(i + 1).to_string(), (at.x, at.y + 1.2), "middle");
        }
    }
    sketch
}

/// Notches of two edges that are sewn together.
pub fn notches() -> Sketch {
    let notch = |x: f64, y: f64, down: f64| segment((x, y), (x, y + down));
    Sketch::new(
        "notches",
        "A notch on one edge lies on the notch of the other when both are sewn together. Measured along the seam \
         line, both are equally far from its ends.",
    )
    .strip(&level((15.0, 115.0), 30.0), Stuff::Cloth, 12.0)
    .strip(&level((15.0, 115.0), 54.0), Stuff::Cloth, 12.0)
    .line(&level((15.0, 115.0), 33.0), Pen::Stitches)
    .line(&level((15.0, 115.0), 51.0), Pen::Stitches)
    .line(&notch(58.0, 36.2, -3.6), Pen::Solid)
    .line(&notch(58.0, 47.8, 3.6), Pen::Solid)
    .line(&segment((58.0, 37.5), (58.0, 46.5)), Pen::Dashed)
    .words("notch", (60.0, 43.2), "start")
    .words("seam line", (15.0, 43.2), "start")
}
