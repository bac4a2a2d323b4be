//! Drafts knickers to measure.

pub mod base;
pub mod curve;
pub mod drawing;
pub mod finish;
pub mod garment;
mod make;
pub mod quantity;
pub mod sheet;

pub use make::{Made, Refused, make};
