//! An edge cut across, small: cloth, elastic and stitches over the body.

use crate::pdf::canvas::Canvas;
use crate::pdf::style::LineStyle;
use engine::drawing::profile::{Ply, Profile, Stitches, Stuff};
use kurbo::{BezPath, Point, Vec2};

/// mm of the picture for one of the edge, at most.
const SCALE: f64 = 1.7;
/// From layer to layer, mm of the picture.
pub(super) const LAYER: f64 = 3.0;
/// Under the lowest layer and over the highest.
const GROUND: f64 = 2.4;
const ABOVE: f64 = 2.4;
/// After the picture.
const AFTER: f64 = 1.5;

const SKIN: LineStyle = LineStyle { width: 0.9, dash: &[], grey: 0.75 };
const FINISHED: LineStyle = LineStyle { width: 0.2, dash: &[1.2, 0.8], grey: 0.0 };
const STITCH: LineStyle = LineStyle { width: 0.45, dash: &[], grey: 0.0 };
/// A dark line that shows on both sides of a ply.
const RIM: f64 = 0.2;

fn layers(profile: &Profile) -> f64 {
    profile.plies.iter().flat_map(|p| &p.course).map(|(_, layer)| *layer).fold(0.0, f64::max)
}

/// How high the picture is, mm.
pub(super) fn height(profile: &Profile) -> f64 {
    ABOVE + LAYER * layers(profile) + GROUND + AFTER
}

/// Where a place of the edge lies in the picture.
struct View {
    edge: Point,
    scale: f64,
}

impl View {
    fn place(&self, at: f64, layer: f64) -> Point {
        self.edge + Vec2::new(self.scale * at, -LAYER * layer)
    }
}

/// Draws it from a corner on, no wider than this.
pub(super) fn draw(canvas: &mut Canvas, profile: &Profile, at: Point, width: f64) {
    let across = || profile.plies.iter().flat_map(|p| &p.course).map(|(x, _)| *x);
    let (inner, outer) = (across().fold(0.0, f64::min), across().fold(0.0, f64::max));
    // Folds bulge beyond their edge.
    let bulge = 0.5 * LAYER * layers(profile);
    let scale = SCALE.min((width - 2.0 * bulge) / (outer - inner));
    let ground = at.y + ABOVE + LAYER * layers(profile);
    let view = View { edge: Point::new(at.x + bulge - scale * inner, ground), scale };
    let skin = ground + GROUND - 0.5;
    let right = view.edge.x + scale * outer + bulge + 2.0;
    canvas.draw_as(SKIN);
    canvas.line(Point::new(at.x, skin), Point::new(right, skin));
    canvas.draw_as(FINISHED);
    canvas.line(Point::new(view.edge.x, at.y), Point::new(view.edge.x, skin));
    profile.plies.iter().for_each(|ply| draw_ply(canvas, ply.stuff, &course(ply, &view)));
    profile.rows.iter().for_each(|row| stitches(canvas, row, &view));
}

/// A ply along its middle.
pub(super) fn draw_ply(canvas: &mut Canvas, stuff: Stuff, course: &BezPath) {
    for style in look(stuff) {
        canvas.draw_as(style);
        canvas.trace(course.iter());
        canvas.stroke();
    }
}

/// The rim, the ground and the texture of a ply: told apart without colour.
const fn look(stuff: Stuff) -> [LineStyle; 3] {
    const fn line(width: f64, dash: &'static [f64], grey: f64) -> LineStyle {
        LineStyle { width, dash, grey }
    }
    let (width, grey, dash, texture): (f64, f64, &[f64], f64) = match stuff {
        Stuff::Cloth => (1.4, 0.72, &[], 0.72),
        Stuff::Elastic => (1.7, 1.0, &[0.5, 0.5], 0.35),
        Stuff::Band => (1.4, 0.9, &[1.6, 0.6], 0.75),
    };
    [line(width + 2.0 * RIM, &[], 0.0), line(width, &[], grey), line(width, dash, texture)]
}

/// Straight along a layer, round in a half circle where it is folded to another.
fn course(ply: &Ply, view: &View) -> BezPath {
    let mut path = BezPath::new();
    let (mut before, mut heading): (Option<(f64, f64)>, f64) = (None, 1.0);
    for &(at, layer) in &ply.course {
        let to = view.place(at, layer);
        match before {
            None => path.move_to(to),
            // Bulges the way the cloth was running.
            Some((from, lower)) if from == at => half_circle(&mut path, view.place(from, lower), to, heading.signum()),
            Some((from, _)) => {
                heading = at - from;
                path.line_to(to);
            }
        }
        before = Some((at, layer));
    }
    path
}

/// Two quarters by cubics (a circle within 3 in 10,000 of its radius).
fn half_circle(path: &mut BezPath, from: Point, to: Point, side: f64) {
    const HANDLE: f64 = 0.552_284_75;
    let radius = 0.5 * (to.y - from.y);
    let out = Vec2::new(side * radius.abs(), 0.0);
    let middle = from.midpoint(to) + out;
    let along = Vec2::new(0.0, HANDLE * radius);
    path.curve_to(from + HANDLE * out, middle - along, middle);
    path.curve_to(middle + along, to + HANDLE * out, to);
}

fn stitches(canvas: &mut Canvas, row: &Stitches, view: &View) {
    let (low, high) = (view.place(row.at, row.through.0), view.place(row.at, row.through.1));
    stitches_between(canvas, low, high);
}

/// A row through everything from the middle of the lowest ply to that of the highest.
pub(super) fn stitches_between(canvas: &mut Canvas, low: Point, high: Point) {
    let (low, high) = (low + Vec2::new(0.0, 1.1), high - Vec2::new(0.0, 1.1));
    let foot = Vec2::new(0.7, 0.0);
    canvas.draw_as(STITCH);
    canvas.line(low, high);
    canvas.line(low - foot, low + foot);
    canvas.line(high - foot, high + foot);
}
