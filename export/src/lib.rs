//! Writes a drawing as PDF, DXF and SVG, and the record as JSON.

pub mod dxf;
mod fit;
pub mod font;
pub mod number;
pub mod outline;
pub mod pdf;
pub mod profile;
pub mod record;
#[cfg(test)]
mod sample;
pub mod svg;
