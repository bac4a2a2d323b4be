//! The next setting, on simulated wearers and on garments.

mod garments;
mod remarks;
mod wearers;
