//! Writes a drawing as PDF, DXF and SVG, and the record as JSON.

mod biarc;
pub mod cutter;
mod digits;
pub mod dxf;
mod fit;
pub mod font;
pub mod hpgl;
mod kerf;
mod layout;
pub mod number;
pub mod outline;
pub mod pdf;
mod plain;
pub mod profile;
pub mod read;
pub mod record;
mod runs;
#[cfg(test)]
mod sample;
pub mod svg;
pub mod validate;
