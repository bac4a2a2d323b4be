//! What a hollow edge does to a fold and to an elastic.

use super::{Pen, Sketch, level, round, through};
use engine::drawing::profile::Stuff;
use kurbo::{BezPath, Point, Vec2};

/// A part of a circle about a centre above the drawing, as a hollow leg edge is; degrees.
fn arc(radius: f64) -> BezPath {
    through((0..=60).map(|i| round(CENTRE, radius, 45.0 + 1.5 * f64::from(i))))
}

const CENTRE: Point = Point::new(65.0, -8.0);

/// Cloth below an arc.
fn cloth_below(radius: f64) -> BezPath {
    let mut shape = arc(radius);
    shape.line_to((20.0, 74.0));
    shape.line_to((110.0, 74.0));
    shape.close_path();
    shape
}

/// The free edge of an elastic on a hollow curve.
pub fn flutes() -> Sketch {
    let wave = |i: i32| {
        let turn = 45.0 + 0.5 * f64::from(i);
        round(CENTRE, 41.0 + 1.6 * Vec2::from_angle(f64::from(i) * 0.35).y, turn)
    };
    Sketch::new(
        "an elastic on a hollow edge flutes",
        "The free edge lies on a smaller circle than the stitches: it has length to spare and ripples, unless the \
         body stretches it enough.",
    )
    .cloth(&cloth_below(54.0))
    .strip(&arc(48.0), Stuff::Elastic, 12.0)
    .line(&arc(52.0), Pen::Stitches)
    .line(&through((0..=180).map(wave)), Pen::Solid)
    .words("free edge", (65.0, 27.0), "middle")
    .words("stitches", (65.0, 61.0), "middle")
}

/// A fold on a hollow edge.
pub fn fold_on_a_hollow() -> Sketch {
    Sketch::new(
        "a fold on a hollow edge",
        "What is folded in has to lie on a larger circle than the one it was cut on: the raw edge must stretch by \
         (landing line)/(raw edge) − 1.",
    )
    .cloth(&cloth_below(46.0))
    .line(&arc(46.0), Pen::Solid)
    .line(&arc(36.0), Pen::Dashed)
    .line(&arc(56.0), Pen::Stitches)
    .words("the raw edge, cut", (65.0, 23.0), "middle")
    .words("the fold", (65.0, 43.0), "middle")
    .words("where the raw edge lands: longer", (65.0, 54.5), "middle")
}

/// An elastic that is longer than its edge.
pub fn waves() -> Sketch {
    let wave = |i: i32| Point::new(15.0 + 0.5 * f64::from(i), 50.0 + 3.2 * Vec2::from_angle(f64::from(i) * 0.19).y);
    Sketch::new("an elastic longer than its edge", "Its reduction is below 0: cloth and elastic wave.")
        .strip(&level((15.0, 112.0), 24.0), Stuff::Elastic, 5.0)
        .strip(&level((15.0, 104.0), 33.0), Stuff::Cloth, 6.0)
        .words("the elastic", (15.0, 19.0), "start")
        .words("the edge", (15.0, 41.0), "start")
        .strip(&through((0..=180).map(wave)), Stuff::Elastic, 5.0)
        .words("sewn together", (15.0, 63.0), "start")
}
