//! The elastics that come with the program, to choose from.

use crate::commands::new::drawer::{elastics, usual as usual_of};
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
    let one = |e: crate::commands::new::drawer::Kept| Kept {
        width: e.width.mm(),
        picot: e.picot.mm(),
        stretch: e.stretch,
        name: e.name,
    };
    elastics().into_iter().map(one).collect()
}

/// The name of the one that is usual for a finish.
pub(super) fn usual(kind: FinishKind) -> Option<String> {
    let all = elastics();
    all.get(usual_of(&all, kind.name())).map(|elastic| elastic.name.clone())
}
