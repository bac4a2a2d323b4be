//! The body form: a smooth torso made from tape measurements, and what it is flattened on paper.
//!
//! Level sections are [`Section`]s: two superellipse-like halves, the girth of each exactly the
//! tape's. [`Torso`] stacks them from the waist level to the hip level; [`Panel`]s are its front
//! and back halves flattened. It is a form made from a few numbers, not a likeness: what it says
//! of a body between the tapes is an estimate.
//!
//! Levels are named by their depth along the side, mm under the waist level, worn.

mod girth;
mod lower;
mod panel;
mod section;
#[cfg(test)]
mod tests;
mod torso;

pub(crate) use girth::Girths;
pub use lower::Lower;
pub(crate) use lower::ROUND;
pub use panel::Panel;
pub use section::{Half, Section};
pub use torso::Torso;

use crate::plan::BodyPlan;

/// The form of one body, with its front and back flattened.
#[derive(Clone, Debug)]
pub struct Form {
    /// Its level sections.
    pub torso: Torso,
    /// The front half, flattened.
    pub front: Panel,
    /// The back half, flattened.
    pub back: Panel,
}

impl Form {
    /// The form of a body. Every body that a sheet can describe has one; where measurements
    /// contradict each other the girths are kept and breadths and depths give.
    pub fn of(body: &BodyPlan) -> Self {
        let torso = Torso::of(body);
        let front = Panel::of(&torso, Half::Front);
        let back = Panel::of(&torso, Half::Back);
        Self { torso, front, back }
    }

    /// The front or the back, flattened.
    pub fn panel(&self, half: Half) -> &Panel {
        match half {
            Half::Front => &self.front,
            Half::Back => &self.back,
        }
    }

    /// The share of the girth at a depth that lies behind the widest points of the sides.
    pub fn back_share(&self, depth: f64) -> f64 {
        let section = self.torso.section(depth);
        section.length(Half::Back) / (0.5 * self.torso.girth(depth))
    }
}

/// How much of a rigid shell's rise is drawn for a cloth that stretches by this fraction across:
/// 1 / (1 + stretch), all of it for a cloth that does not stretch, two thirds at 50 %, half at 100 %.
///
/// Level lines rise on paper because the centres of a body are longer than its sides. A length cut as
/// 1 / (1 + stretch) of the body's is the shortest that still reaches over it, so that this share is the
/// least that cloth can be cut with, and more would hang in folds where it is not drawn out. The trade
/// raises a skirt's waist at the side by 10 to 15 mm (common practice); the choice is ours.
pub fn rigid_share(stretch: f64) -> f64 {
    1.0 / (1.0 + stretch.max(0.0))
}
