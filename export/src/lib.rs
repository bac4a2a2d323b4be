//! Writes a drawing as files.

pub mod font;
pub mod pdf;
