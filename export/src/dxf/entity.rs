//! Lines and text as entities of the format.

use ::dxf::Point as DxfPoint;
use ::dxf::entities::{Entity, EntityType, Line as DxfLine, Text};
use kurbo::Point;

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

/// A straight line between two points of the plane.
pub(super) fn plain_line(a: Point, b: Point) -> EntityType {
    let at = |p: Point| DxfPoint::new(round(p.x), round(p.y), 0.0);
    EntityType::Line(DxfLine { p1: at(a), p2: at(b), ..DxfLine::default() })
}

/// One line of text, its baseline starting at a place.
pub(super) fn text(location: DxfPoint, text_height: f64, value: String) -> EntityType {
    EntityType::Text(Text { location, text_height: round(text_height), value, ..Text::default() })
}
