//! Everything of an R2000 file but its entities: the `dxf` crate's header, tables and blocks, mended.

use super::error::DxfError;
use super::writer::Writer;
use super::{layers, named, repair};
use crate::number::millionth;
use ::dxf::enums::{AcadVersion, DrawingUnits, Units};
use ::dxf::tables::{AppId, Layer as DxfLayer};
use ::dxf::{Block, Color, Drawing as DxfDrawing, Point as DxfPoint};
use kurbo::{Point, Rect};

/// A file of some extents (mm), with comments on top, round the entities that are drawn; answers with
/// what the drawing answers.
///
/// # Errors
/// Where the crate fails, or writes something else than was expected.
pub(super) fn around<T>(
    extents: Rect,
    comments: &[&str],
    draw: impl FnOnce(&mut Writer) -> T,
) -> Result<(Vec<u8>, T), DxfError> {
    let mut raw = Vec::with_capacity(1 << 16);
    prepared(extents).save(&mut raw)?;
    let text = std::str::from_utf8(&raw).map_err(|_| DxfError::Repair("its text is not readable"))?;
    let mended = repair::mended(text, &weights())?;
    let mut entities = Writer::r2000(&mended.model_space, mended.free);
    let answer = draw(&mut entities);
    let (entities, free) = entities.done();
    Ok((mended.around(&entities, free, comments)?, answer))
}

fn weights() -> Vec<(&'static str, u16)> {
    layers::ALL.map(layers::of).iter().map(|look| (look.name, look.weight)).collect()
}

/// Header, layers and spaces.
fn prepared(extents: Rect) -> DxfDrawing {
    let mut file = DxfDrawing::new();
    file.header.version = AcadVersion::R2000;
    file.header.default_drawing_units = Units::Millimeters;
    file.header.drawing_units = DrawingUnits::Metric;
    let corner = |p: Point| DxfPoint::new(millionth(p.x), millionth(p.y), 0.0);
    file.header.minimum_drawing_extents = corner(extents.origin());
    // Limits of 12 by 9, meant in inches, would make readers print on a stamp.
    let corner = corner(Point::new(extents.x1, extents.y1));
    file.header.maximum_drawing_limits = corner.clone();
    file.header.paperspace_maximum_drawing_limits = corner.clone();
    file.header.maximum_drawing_extents = corner;
    for look in layers::ALL.map(layers::of) {
        let color = Color::from_index(look.colour);
        file.add_layer(DxfLayer { name: look.name.to_owned(), color, ..DxfLayer::default() });
    }
    file.add_app_id(AppId { name: named::APPLICATION.to_owned(), ..AppId::default() });
    // The crate knows the records of both spaces but leaves out their blocks.
    for (name, is_in_paperspace) in [(repair::MODEL_SPACE, false), ("*PAPER_SPACE", true)] {
        file.add_block(Block { name: name.to_owned(), is_in_paperspace, ..Block::default() });
    }
    file
}
