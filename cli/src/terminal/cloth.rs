//! How much cloth it takes.

use super::{heading, wrapped};
use engine::garment::Garment;
use engine::lay::LayError;
use engine::quantity::Units;
use engine::words::Speech;

/// A line for each cloth, or why there is none; nothing where the cloth's width is not known. `apart` are
/// width and length, mm, that files for cutters take where they are not laid like it; `wider` the width they
/// are laid on and that of the sheet's cloth, where that is less.
pub fn render(
    garment: &Garment,
    untold: Option<&LayError>,
    apart: Option<(f64, f64)>,
    wider: Option<(f64, f64)>,
    units: Units,
) -> String {
    let say = Speech(units);
    let lays = garment.lays.iter().map(|lay| say.lay(lay));
    let not = untold.map(|error| {
        let (what, next) = say.not_laid(error);
        format!("{what}: {next}")
    });
    let apart = apart.filter(|_| !garment.lays.is_empty()).map(|(width, length)| {
        let (width, length) = (say.chosen(width), say.tape(length));
        format!("not so the files for cutters: box by box they take {length} of {width} wide; --lay lays them close")
    });
    let wider = wider.map(|(width, cloth)| {
        let (width, cloth) = (say.chosen(width), say.chosen(cloth));
        format!("the cloth in the sheet is {cloth} wide, and --cut-width lays on {width}: pieces may lie off it")
    });
    let lines: String =
        lays.chain(not).chain(apart).chain(wider).map(|line| format!("  {}\n", wrapped(&line, 2))).collect();
    if lines.is_empty() { lines } else { heading("Cloth to buy") + &lines }
}
