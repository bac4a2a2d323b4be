//! The keyed lines of text.

use super::found::Found;
use crate::read::dxf::{Block, File, Record};
use engine::finding::Level;

/// The value of a keyed line: `Quantity: 2`.
fn keyed<'r>(records: &'r [Record], key: &str) -> Option<&'r str> {
    let texts = records.iter().filter(|r| r.kind() == "TEXT").filter_map(|r| r.text(1));
    texts.into_iter().find_map(|t| Some(t.strip_prefix(key)?.strip_prefix(':')?.trim()))
}

/// Said once for the whole file.
pub(super) fn style(file: &File, found: &mut Found) {
    for key in ["Style Name", "Sample Size", "Units"] {
        if keyed(&file.entities, key).is_none_or(str::is_empty) {
            found.add(
                "dxf-style-text",
                Level::Warning,
                "the drawing",
                format!("there is no text `{key}: …`"),
                "write it once as TEXT, outside the blocks",
            );
        }
    }
    if let Some(units) = keyed(&file.entities, "Units")
        && !["METRIC", "ENGLISH"].contains(&units.to_ascii_uppercase().as_str())
    {
        found.add(
            "dxf-units",
            Level::Refusal,
            "the drawing",
            format!("the units are `{units}`, and nobody can tell how large it is"),
            "write `Units: METRIC` for millimetres or `Units: ENGLISH` for inches",
        );
    }
}

/// Said in every block.
pub(super) fn piece(block: &Block, file: &File, found: &mut Found) {
    for key in ["Piece Name", "Size", "Quantity"] {
        if keyed(&block.records, key).is_none_or(str::is_empty) {
            let text = format!("there is no text `{key}: …`");
            found.add("dxf-piece-text", Level::Warning, &block.name, text, "write it as TEXT in the block, on layer 1");
        }
    }
    if let Some(quantity) = keyed(&block.records, "Quantity")
        && !quantity.split(',').all(|n| n.trim().parse::<u32>().is_ok())
    {
        let text = format!("the quantity `{quantity}` is no number");
        found.add("dxf-quantity", Level::Warning, &block.name, text, "write how many to cut, as `Quantity: 2`");
    }
    if let (Some(size), Some(sample)) = (keyed(&block.records, "Size"), keyed(&file.entities, "Sample Size"))
        && size != sample
    {
        let text = format!("its size is `{size}`, the sample size `{sample}`");
        found.add("dxf-size", Level::Warning, &block.name, text, "give every piece in its sample size");
    }
}
