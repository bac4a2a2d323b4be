//! The keyed lines of text.

use super::fact::Fact;
use super::{Doubt, Place};
use crate::read::records::{Block, File, Record};

/// The value of a keyed line: `Quantity: 2`.
fn keyed<'t>(records: &[Record<'t>], key: &str) -> Option<&'t str> {
    let mut texts = records.iter().filter(|r| r.kind() == "TEXT").filter_map(|r| r.text(1));
    texts.find_map(|t| Some(t.strip_prefix(key)?.strip_prefix(':')?.trim()))
}

fn is_missing(records: &[Record<'_>], key: &str) -> bool {
    keyed(records, key).is_none_or(str::is_empty)
}

/// Said once for the whole file.
pub(super) fn style(file: &File<'_>) -> Vec<Doubt> {
    let keys = ["Style Name", "Sample Size", "Units"];
    let missing = keys.into_iter().filter(|key| is_missing(&file.entities, key)).map(Fact::StyleText);
    let known = |units: &&str| ["METRIC", "ENGLISH"].contains(&units.to_ascii_uppercase().as_str());
    let units = keyed(&file.entities, "Units").filter(|units| !known(units));
    missing
        .chain(units.map(|units| Fact::Units(units.to_owned())))
        .map(|fact| Doubt::new(Place::Drawing, fact))
        .collect()
}

/// Said in every block.
pub(super) fn piece(block: &Block<'_>, file: &File<'_>) -> Vec<Doubt> {
    let said = |key: &str| keyed(&block.records, key);
    let keys = ["Piece Name", "Size", "Quantity"];
    let missing = keys.into_iter().filter(|key| is_missing(&block.records, key)).map(Fact::PieceText);
    let is_number = |quantity: &&str| quantity.split(',').all(|n| n.trim().parse::<u32>().is_ok());
    let quantity = said("Quantity").filter(|quantity| !is_number(quantity));
    let sizes = said("Size").zip(keyed(&file.entities, "Sample Size")).filter(|(size, sample)| size != sample);
    let size = sizes.map(|(size, sample)| Fact::Size { size: size.to_owned(), sample: sample.to_owned() });
    let facts = missing.chain(quantity.map(|quantity| Fact::Quantity(quantity.to_owned()))).chain(size);
    facts.map(|fact| Doubt::new(Place::named(block.name), fact)).collect()
}
