//! The next setting, on simulated wearers and on garments.

mod contradictions;
mod garments;
mod remarks;
mod wearers;
