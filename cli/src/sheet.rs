//! Reads a measurement sheet: from the text a person wrote to the engine's typed sheet, or to
//! everything that is wrong with it at once, each with its place and what to do.

mod base;
mod build;
mod cell;
mod drawer;
mod edit;
mod fields;
mod file;
mod finish;
mod locate;
pub(crate) mod number;
mod problem;
mod sections;
mod syntax;
#[cfg(test)]
mod tests;
mod text;
mod value;
mod variant;
mod walk;
pub(crate) mod words;

pub use base::{Base, Entry, Fault};
pub(crate) use cell::with_unit;
pub use drawer::Drawer;
pub(crate) use drawer::cells_of_cloth;
pub use edit::{Edit, Place, Typed, edited, typed, without_person};
pub use fields::fields;
pub use file::{MAX_BYTES, ReadError};
pub use locate::{locate, locate_place};
pub use problem::{Problem, Problems};
pub use text::{read, read_file, read_from, read_in};
pub(crate) use value::flaw_of_name;
pub(crate) use value::length::{typed_length, unit_named};
