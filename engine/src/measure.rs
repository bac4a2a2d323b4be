//! What is measured on the pieces: seams and openings walked, elastics, and how an opening is worn.

pub(crate) mod elastic;
pub mod pressure;
pub mod walk;
pub(crate) mod worn;
