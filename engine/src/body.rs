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

    /// The share of the girth at a depth that lies behind the widest points of the sides.
    pub fn back_share(&self, depth: f64) -> f64 {
        let section = self.torso.section(depth);
        section.length(Half::Back) / (0.5 * self.torso.girth(depth))
    }
}

/// How much of a rigid shell's rise is drawn for a cloth that stretches by this fraction across:
/// 1 / (1 + 2·stretch), all of it for a cloth that does not stretch, half of it at 50 %.
///
/// What is left out the cloth takes up by shear: half of a rise of 25 mm over a quarter of a hip
/// asks for about 3°, which a jersey gives without a wrinkle. A little of it is left in because
/// level lines on paper pull the side of the garment down. The trade raises even a woven skirt's
/// waist at the side by no more than 10 to 15 mm (common practice); the choice is ours.
pub fn rigid_share(stretch: f64) -> f64 {
    1.0 / (1.0 + 2.0 * stretch.max(0.0))
}
