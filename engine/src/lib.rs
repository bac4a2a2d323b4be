//! Drafts knickers to measure: from a measurement sheet to pieces whose seams fit.
//!
//! Data flows one way; each stage is a pure function of [`stages`] and can be called alone:
//!
//! 1. [`sheet`] holds what a person wrote, as typed quantities, each key from the table in [`keys`];
//! 2. [`plan`] fills in defaults and estimates, and lists each one;
//! 3. [`Draft`] is where the garment ends on the [`body`]: the net pieces;
//! 4. [`finish`] says where the lines of each edge run; pieces are cut after [`topology`];
//! 5. [`measure`] walks seams, crossings and openings on the result;
//! 6. [`finding`] is what the checks say: facts, with codes, limits and what would help;
//! 7. [`work`] puts what is done at the machine in order;
//! 8. [`drawing`] is what exporters draw, [`garment`] the record of everything, [`elastic`] what is cut and
//!    marked of elastics and bands;
//! 9. [`lay`] puts whole pieces on the width of the cloth;
//! 10. [`trial`] learns from test garments what to sew next;
//! 11. [`words`] makes sentences of facts, in the unit of the sheet.
//!
//! [`make`] calls them in turn:
//!
//! ```
//! use engine::base::Base;
//! use engine::finding::Level;
//! use engine::finish::FinishKind;
//! use engine::quantity::{Length, Units};
//! use engine::sheet::{Body, Fabric, FinishSpec, Sheet, Style};
//! use engine::words::Speech;
//!
//! // Waist girth, hip girth, waist to hip, crotch length; a jersey; a brief with hems.
//! let mm = Length::from_whole_mm;
//! let body = Body::new(mm(740), mm(980), mm(200), mm(710));
//! let hem = FinishSpec::new(FinishKind::named("hem").expect("in the table of finishes"));
//! let brief = Style::new(Base::named("brief").expect("in the table of bases"));
//! let sheet = Sheet::new("a tour", body, Fabric::new(60.0, 40.0), brief, hem.everywhere());
//!
//! let made = engine::make(&sheet)?;
//! // Seams fit, and everything that was not measured is said.
//! assert!(made.garment.seams.iter().all(|seam| seam.difference.abs() < 0.01));
//! assert!(made.garment.used.iter().any(|used| used.key.to_string() == "body.crotch_length_front"));
//! // Findings are data; their words speak one unit.
//! for finding in made.garment.checks.iter().filter(|f| f.level == Level::Warning) {
//!     let said = Speech(Units::In).finding(finding);
//!     assert!(!said.text.contains(" cm"), "{}", said.text);
//! }
//! // The drawing is what files are made of.
//! assert_eq!(made.drawing.pieces[0].name, "front");
//! # Ok::<(), engine::Refused>(())
//! ```
//!
//! Lengths along curves and everything else that is measured in the plane is [`curve`]'s work.

#[cfg(test)]
extern crate self as engine;

#[cfg(test)]
#[path = "../tests/support/mod.rs"]
mod support;

pub mod base;
pub mod body;
mod check;
pub mod compare;
mod construct;
pub mod curve;
mod draft;
pub mod drawing;
pub mod elastic;
pub mod finding;
pub mod finish;
pub mod garment;
pub mod growth;
pub mod handle;
pub mod keys;
pub mod lay;
mod make;
pub mod measure;
mod on_body;
pub mod plan;
pub mod population;
pub mod quantity;
pub mod reach;
mod refused;
pub mod sheet;
pub mod shopping;
pub mod sketch;
pub mod stages;
pub mod stitch;
pub mod terms;
pub mod topology;
pub mod trial;
pub mod words;
pub mod work;

pub use draft::{Draft, Gusset as NetGusset, Panel};
pub use make::{Made, make, pieces as draft_pieces, record};
pub use on_body::figure;
pub use refused::{Reached, Refused};
