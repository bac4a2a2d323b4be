//! A drawing as SVG, in millimetres: the pattern to look at, the outlines for home cutters, and
//! the garment on the body.

mod cut;
mod document;
mod figure;
mod group;
mod ids;
mod lay;
mod legend;
mod on_body;
mod overlay;
mod pattern;
mod pen;
mod shape;
#[cfg(test)]
mod tests;

pub use cut::{PenLines, cut};
pub use figure::figure;
pub use lay::lay;
pub use on_body::on_body;
pub use overlay::overlay;
pub use pattern::svg;
pub use shape::data as path_data;
