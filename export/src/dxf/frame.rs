//! Everything of an R2000 file but its entities: the `dxf` crate's header, tables and blocks, mended.

use super::error::DxfError;
use super::repair::{self, Bare};
use super::writer::Writer;
use super::{layers, named};
use ::dxf::enums::{AcadVersion, DrawingUnits, Units};
use ::dxf::tables::{AppId, Layer as DxfLayer};
use ::dxf::{Block, Color, Drawing as DxfDrawing};
use kurbo::Rect;
use std::sync::OnceLock;

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
    let bare = bare()?;
    let mut entities = Writer::r2000(&bare.model_space, bare.free);
    let answer = draw(&mut entities);
    let (entities, free) = entities.done();
    Ok((bare.around(&entities, free, extents, comments)?, answer))
}

/// The file without entities and of no extents: made once, since no drawing changes more of it.
fn bare() -> Result<&'static Bare, DxfError> {
    static BARE: OnceLock<Bare> = OnceLock::new();
    if let Some(bare) = BARE.get() {
        return Ok(bare);
    }
    let mut raw = Vec::with_capacity(1 << 16);
    prepared().save(&mut raw)?;
    let text = std::str::from_utf8(&raw).map_err(|_| DxfError::Repair("its text is not readable"))?;
    let bare = repair::mended(text, &weights())?;
    Ok(BARE.get_or_init(|| bare))
}

fn weights() -> Vec<(&'static str, u16)> {
    layers::ALL.map(layers::of).iter().map(|look| (look.name, look.weight)).collect()
}

/// Header, layers and spaces.
fn prepared() -> DxfDrawing {
    let mut file = DxfDrawing::new();
    file.header.version = AcadVersion::R2000;
    file.header.default_drawing_units = Units::Millimeters;
    file.header.drawing_units = DrawingUnits::Metric;
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
