//! How much cloth it takes.

use super::{heading, wrapped};
use engine::garment::Garment;
use engine::lay::LayError;
use engine::quantity::Units;
use engine::words::Speech;

/// A line for each cloth, or why there is none; nothing where the cloth's width is not known.
pub fn render(garment: &Garment, untold: Option<&LayError>, units: Units) -> String {
    let say = Speech(units);
    let lays = garment.lays.iter().map(|lay| say.lay(lay));
    let not = untold.map(|error| {
        let (what, next) = say.not_laid(error);
        format!("{what}: {next}")
    });
    let lines: String = lays.chain(not).map(|line| format!("  {}\n", wrapped(&line, 2))).collect();
    if lines.is_empty() { lines } else { heading("Cloth to buy") + &lines }
}
