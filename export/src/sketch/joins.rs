//! Where lines run beside each other and where they meet.

use super::{Pen, Sketch, level, segment, through};
use engine::drawing::profile::Stuff;
use kurbo::{Arc, Point, Shape, Vec2};

/// The three lines of an edge.
pub fn lines() -> Sketch {
    let ends = (12.0, 84.0);
    Sketch::new(
        "the lines of an edge",
        "Seen from above. The finished edge is where the garment ends on the body; the finish says how far from it \
         cut line and sewing line run.",
    )
    .strip(&level(ends, 50.0), Stuff::Cloth, 40.0)
    .line(&level(ends, 29.8), Pen::Solid)
    .line(&level(ends, 38.0), Pen::Dashed)
    .line(&level(ends, 48.0), Pen::Stitches)
    .words("cut line", (87.0, 31.0), "start")
    .words("finished edge", (87.0, 39.0), "start")
    .words("sewing line", (87.0, 49.0), "start")
}

/// An edge that runs over a seam.
pub fn crossing() -> Sketch {
    let (foot, seam) = (Point::new(65.0, 34.0), Point::new(65.0, 70.0));
    let angle =
        |from: f64, sweep: f64| Arc::new(foot, Vec2::new(11.0, 11.0), from.to_radians(), sweep.to_radians(), 0.0);
    let left = through([Point::new(12.0, 24.0), foot, seam, Point::new(12.0, 70.0)]);
    let right = through([Point::new(118.0, 44.0), foot, seam, Point::new(118.0, 70.0)]);
    Sketch::new(
        "an opening crosses a seam",
        "On either piece the edge meets the seam at some angle. Both add up to 180°: sewn together, the edge runs on \
         without a peak or a dip.",
    )
    .cloth(&left)
    .cloth(&right)
    .line(&through([Point::new(12.0, 24.0), foot, Point::new(118.0, 44.0)]), Pen::Solid)
    .line(&segment((65.0, 34.0), (65.0, 70.0)), Pen::Stitches)
    .line(&angle(90.0, 101.0).to_path(0.1), Pen::Dashed)
    .line(&angle(90.0, -79.0).to_path(0.1), Pen::Dashed)
    .words("101°", (49.0, 50.0), "end")
    .words("79°", (80.0, 52.0), "start")
    .words("the seam", (67.0, 68.0), "start")
    .words("the edge", (20.0, 21.0), "start")
}

/// A gusset with edgings that stand out beyond it.
pub fn edging_at_the_gusset() -> Sketch {
    Sketch::new(
        "the gusset as worn",
        "What stands out beyond the finished edges makes the crotch wider as worn; reach = \"keep\" ends the edging \
         at the finished edge.",
    )
    .strip(&segment((65.0, 22.0), (65.0, 60.0)), Stuff::Cloth, 40.0)
    .strip(&segment((43.0, 22.0), (43.0, 60.0)), Stuff::Elastic, 8.0)
    .strip(&segment((87.0, 22.0), (87.0, 60.0)), Stuff::Elastic, 8.0)
    .line(&segment((45.0, 22.0), (45.0, 60.0)), Pen::Stitches)
    .line(&segment((85.0, 22.0), (85.0, 60.0)), Pen::Stitches)
    .span((45.0, 85.0), 18.5, "drafted")
    .span((39.0, 91.0), 68.0, "as worn")
}
