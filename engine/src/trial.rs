//! From the verdicts on test garments to the next setting, and from fit remarks to what to change.
//!
//! Pure, and after everything else: it makes garments of changed sheets to see what comes of them.

pub mod belief;
pub mod change;
mod contradiction;
pub mod evidence;
mod knob;
mod lesson;
mod limits;
mod next;
pub mod pair;
pub mod remark;
pub mod remedy;
mod row;
pub mod setting;
#[cfg(test)]
mod tests;

pub use contradiction::{Contradiction, Refuted};
pub use knob::Knob;
pub use lesson::{Lesson, Take, learn};
pub use next::{LEG_START, Next, SURE, TOP_STRETCH, next};
pub use row::row;
