//! A drawing as SVG, in millimetres: the pattern to look at, and the outlines for home cutters.

mod cut;
mod document;
mod group;
mod ids;
mod legend;
mod pattern;
mod pen;
mod shape;
#[cfg(test)]
mod tests;

pub use cut::cut;
pub use pattern::svg;
