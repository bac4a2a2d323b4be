//! The table of every section and key of a sheet: what it takes, what holds where it is not
//! written, and how a person gets the value.
//!
//! A [`Key`] is the identity of a value where it stands (`finish.left_leg.bite`); a [`Field`] is
//! its row of the table. Reading, the sheet that `new` writes, the list of values in use, places
//! of findings, help and the JSON Schema all go by this table: a new key is one row here and one
//! field of the sheet.
//!
//! ```
//! use engine::terms::Opening;
//! use engine::keys::{Key, body, elastic, finish};
//!
//! assert_eq!(Key::from(body::WAIST_GIRTH).to_string(), "body.waist_girth");
//! assert_eq!(finish::BITE.on(Opening::LeftLeg).to_string(), "finish.left_leg.bite");
//! assert_eq!(elastic::WIDTH.of("soft 8").to_string(), "elastic.\"soft 8\".width");
//! ```
//!
//! Ranges say what a key could mean for any body or cloth at all, broad enough that a sheet in the
//! wrong unit still reads as a whole (the mix-up is then suspected aloud). Whether a garment comes
//! of it is judged later, by the checks.

#[macro_use]
mod rows;

pub mod alternative;
pub mod body;
pub mod elastic;
pub mod fabric;
pub mod finish;
pub mod gusset;
pub mod head;
mod key;
mod named;
pub mod print;
mod row;
pub mod seams;
mod section;
pub mod style;
pub mod trial;
pub mod variant;

pub use key::{Edges, Field, Home, Key, PerAlternative, PerEdge, PerElastic, PerTrial, PerVariant, Single};
pub use row::{Absent, Kind, Row, Sample};
pub use section::{CLOTH, SECTIONS, Section, Shape};

#[cfg(test)]
mod tests;
