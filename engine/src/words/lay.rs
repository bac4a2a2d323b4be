//! How pieces lie on the cloth, in words.

use super::Speech;
use super::number::percent;
use crate::lay::{Lay, LayError, Ways};
use crate::quantity::Units;

/// Cloth is bought to so much, mm; in a shop that measures in inches, to so much.
const BOUGHT: f64 = 10.0;
const BOUGHT_INCHES: f64 = 6.35;

impl Speech {
    /// What to buy: the length of the lay, up to what a shop measures.
    pub fn cloth_to_buy(self, lay: &Lay) -> String {
        let step = if self.0 == Units::In { BOUGHT_INCHES } else { BOUGHT };
        // A thousandth over a full step is not cut off again.
        self.about(((lay.length - 1e-3) / step).ceil() * step)
    }

    /// A lay in one sentence, without a full stop.
    pub fn lay(self, lay: &Lay) -> String {
        let pairs = if lay.pairs == 1 { "1 pair".to_owned() } else { format!("{} pairs", lay.pairs) };
        let ways = match (lay.cloth.ways, lay.is_any_turned()) {
            (Ways::One, _) => "all the same way up",
            (Ways::Both, true) => "some turned upside down",
            (Ways::Both, false) => "none turned",
        };
        format!(
            "{} of {}, {} wide, for {pairs}: {} of it used, pieces at least {} apart, {ways}",
            self.cloth_to_buy(lay),
            lay.cloth.name,
            self.chosen(lay.cloth.width),
            percent(lay.use_percent.round()),
            self.tool(lay.gap),
        )
    }

    /// What pieces take of their cloths, for the card; nothing where none was laid.
    pub fn cloth_taken(self, lays: &[Lay]) -> String {
        let one = |lay: &Lay| {
            format!("{} of {}, {} wide", self.cloth_to_buy(lay), lay.cloth.name, self.chosen(lay.cloth.width))
        };
        let Some(first) = lays.first() else { return String::new() };
        let of = if first.pairs == 1 { String::new() } else { format!(" for {} pairs", first.pairs) };
        format!("Cloth{of}: {}.", lays.iter().map(one).collect::<Vec<_>>().join("; "))
    }

    /// Why pieces cannot be laid, and what to do.
    pub fn not_laid(self, error: &LayError) -> (String, &'static str) {
        match error {
            LayError::TooWide { piece, needs, width } => (
                format!(
                    "the {piece} is {} wide and the cloth {}: it does not go on it along the grain",
                    self.tape(*needs),
                    self.chosen(*width)
                ),
                "take a wider cloth, and its width for fabric.width in the sheet",
            ),
            LayError::Unsound { piece } => (
                format!("the lay that was found does not keep the gap or the width of the cloth at the {piece}"),
                "report it with the sheet: it is a fault of the program",
            ),
        }
    }
}
