//! The elastics that come with the program, to choose from.

use crate::commands::new::drawer::{Kept as Stocked, Stock};
use engine::finish::FinishKind;

/// One elastic; lengths are mm.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Kept {
    pub(super) name: String,
    pub(super) width: f64,
    pub(super) picot: f64,
    /// %.
    pub(super) stretch: f64,
}

/// Every one, narrow before wide.
pub(super) fn all() -> Vec<Kept> {
    let one = |Stocked { name, elastic, .. }: Stocked| Kept {
        width: elastic.width.mm(),
        picot: elastic.picot.mm(),
        stretch: elastic.stretch.map_or(USUAL_STRETCH, |stretch| stretch.percent()),
        name,
    };
    Stock::of_the_program().elastics.into_iter().map(one).collect()
}

/// Where an elastic does not say how far it can be stretched, %.
const USUAL_STRETCH: f64 = 100.0;

/// The name of the one that is usual for a finish.
pub(super) fn usual(kind: FinishKind) -> Option<String> {
    let usual = Stock::usual(kind.name());
    Stock::of_the_program().elastics.into_iter().map(|kept| kept.name).find(|name| name == usual)
}
