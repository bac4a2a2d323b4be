//! Lines, outlines, points and text as entities of the format, at a place on the plane.

use super::CHORD_TOLERANCE;
use ::dxf::Point as DxfPoint;
use ::dxf::entities::{Entity, EntityType, Line as DxfLine, ModelPoint, Text};
use engine::curve::Path;
use kurbo::{Line, Point, Rect, Vec2};

/// Where a piece lies: its own coordinates, y down, to the plane's, y up.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    shift: Vec2,
}

impl Place {
    /// As drawn, with the piece's own origin.
    pub(super) const ORIGIN: Self = Self { shift: Vec2::ZERO };

    /// So that the top left corner of a box comes to this place of the plane.
    pub(super) fn of_box(area: Rect, left: f64, top: f64) -> Self {
        Self { shift: Vec2::new(left - area.x0, top + area.y0) }
    }

    /// A point of the piece on the plane, to the nanometre.
    pub(super) fn point(self, p: Point) -> DxfPoint {
        DxfPoint::new(round(self.shift.x + p.x), round(self.shift.y - p.y), 0.0)
    }

    /// How far the piece was moved.
    pub(super) fn origin(self) -> DxfPoint {
        DxfPoint::new(round(self.shift.x), round(self.shift.y), 0.0)
    }
}

/// Six decimals of a millimetre; adding zero turns −0 into 0.
pub(super) fn round(v: f64) -> f64 {
    (v * 1e6).round() / 1e6 + 0.0
}

/// Puts something on a layer.
pub(super) fn on(layer: &str, specific: EntityType) -> Entity {
    let mut entity = Entity::new(specific);
    layer.clone_into(&mut entity.common.layer);
    entity
}

/// A straight line.
pub(super) fn line(place: Place, l: Line) -> EntityType {
    EntityType::Line(DxfLine { p1: place.point(l.p0), p2: place.point(l.p1), ..DxfLine::default() })
}

/// A straight line between two points of the plane.
pub(super) fn plain_line(a: Point, b: Point) -> EntityType {
    let at = |p: Point| DxfPoint::new(round(p.x), round(p.y), 0.0);
    EntityType::Line(DxfLine { p1: at(a), p2: at(b), ..DxfLine::default() })
}

/// A point.
pub(super) fn point(location: DxfPoint) -> ModelPoint {
    ModelPoint { location, ..ModelPoint::default() }
}

/// One line of text, its baseline starting at a place.
pub(super) fn text(location: DxfPoint, text_height: f64, value: String) -> EntityType {
    EntityType::Text(Text { location, text_height: round(text_height), value, ..Text::default() })
}

/// The points of a path within [`CHORD_TOLERANCE`], no two the same in a row.
pub(super) fn chords(place: Place, path: &Path) -> Vec<DxfPoint> {
    let mut points: Vec<DxfPoint> = path.flatten(CHORD_TOLERANCE).into_iter().map(|p| place.point(p)).collect();
    points.dedup_by(|a, b| is_same(a, b));
    points
}

/// The same for a loop; the last point is not the first once more.
pub(super) fn closed_chords(place: Place, path: &Path) -> Vec<DxfPoint> {
    let mut points = chords(place, path);
    while points.len() > 1 && points.first().zip(points.last()).is_some_and(|(a, b)| is_same(a, b)) {
        points.pop();
    }
    points
}

/// Nearer than edges of a loop are required to meet.
fn is_same(a: &DxfPoint, b: &DxfPoint) -> bool {
    (a.x - b.x).hypot(a.y - b.y) <= 1e-3
}
