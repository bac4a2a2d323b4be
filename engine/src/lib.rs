//! Drafts knickers to measure.

pub mod base;
pub mod curve;
pub mod drawing;
pub mod finish;
pub mod garment;
mod make;
pub mod quantity;
pub mod sheet;

mod allowance;
mod check;
mod draft;
mod pieces;
mod plan;
mod plot;
mod rings;
pub mod walk;

pub use make::{Made, Refused, make, pieces as draft_pieces};
