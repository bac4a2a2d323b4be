//! The names of pieces and edges, as extended data of the entities that draw them.
//!
//! Programs that do not know them leave them alone, and carry the places along when an outline is
//! moved or turned, so that a file that was edited can be read back.

use super::entity::round;
use crate::cutter::{Layer, Stroke};
use crate::plain::one_line;
use ::dxf::{Point as DxfPoint, XData, XDataItem};
use kurbo::Point;

/// The application's name in the file.
pub(crate) const APPLICATION: &str = "QUARTERPIN";

/// Strings of extended data hold so many bytes; names of ours are far shorter.
const LONGEST: usize = 200;

/// Piece, line, then each edge: its name, where it starts, and at which vertex.
pub(super) fn names(stroke: &Stroke, starts: &[usize]) -> Option<XData> {
    let line = match stroke.layer {
        Layer::Cut => "cut",
        Layer::Sewing => "sewing",
        Layer::Finished => "finished",
        Layer::SecondRow => "second row",
        _ => return None,
    };
    let text = |key: &str, value: &str| XDataItem::Str(shortened(format!("{key}={}", one_line(value))));
    let mut items = vec![text("piece", &stroke.piece), text("line", line)];
    for (edge, start) in stroke.edges.iter().zip(starts) {
        items.push(text("edge", &edge.name));
        items.push(XDataItem::WorldSpacePosition(place(edge.path.start())));
        items.push(XDataItem::Long(i32::try_from(*start).unwrap_or(i32::MAX)));
    }
    Some(XData { application_name: APPLICATION.to_owned(), items })
}

fn place(p: Point) -> DxfPoint {
    DxfPoint::new(round(p.x), round(p.y), 0.0)
}

/// At most as many bytes as go into the file, where a letter beyond ASCII takes seven.
fn shortened(text: String) -> String {
    let mut bytes = 0;
    let fits = |c: &char| {
        bytes += if c.is_ascii() { 1 } else { 7 };
        bytes <= LONGEST
    };
    text.chars().take_while(fits).collect()
}
