//! Writes a drawing as PDF, DXF and SVG, and the record as JSON: [`table::EXPORTERS`] has them all.

mod biarc;
pub mod card;
pub mod choice;
pub mod cloth;
pub mod cutter;
pub mod dxf;
mod fit;
pub mod font;
pub mod form;
pub mod hpgl;
mod kerf;
mod layout;
pub mod list;
pub mod mark;
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
pub mod sketch;
pub mod svg;
pub mod table;
pub mod validate;
