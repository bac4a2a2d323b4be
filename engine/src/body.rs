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
pub use panel::Panel;
pub use section::{Half, Section};
pub use torso::Torso;

use crate::plan::parts::BodyPlan;

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

/// The share of a rigid shell's rise that is drawn, whatever the cloth stretches.
///
/// A garment is cut to the body's girths at its top and at the foot of its side seams, and a ring between
/// two girths lies on paper as an arc whose side seams lean as those girths have it: by 31° in all, the
/// median over six bases on 560 women (ANSUR II, Gordon et al. 2014; Heinz et al. 2003). Level lines meet
/// them square, without a corner at the side, at about this share of the turn that the shell has: 29°.
/// What is left out is what darts take up in a skirt and shear in a knit: the trade raises even a woven
/// skirt's waist at the side by no more than 10 to 15 mm (common practice), about this share of the rise
/// of an ordinary body. So no reason holds for another share by stretch.
pub const RIGID_SHARE: f64 = 0.62;

/// How far a place is from one end of a stretch to the other, 0 to 1; at its beginning where both ends are one.
pub(crate) fn part(at: f64, from: f64, to: f64) -> f64 {
    if to > from { ((at - from) / (to - from)).clamp(0.0, 1.0) } else { 0.0 }
}
