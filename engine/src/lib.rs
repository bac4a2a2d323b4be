//! Drafts knickers to measure: from a measurement sheet to pieces whose seams fit.
//!
//! Data flows one way:
//!
//! 1. [`sheet`] holds what a person wrote, as typed quantities;
//! 2. [`plan`] fills in defaults and estimates, and lists each one;
//! 3. `draft` draws the net pieces: where the garment ends on the body;
//! 4. [`finish`] says where the lines of each edge finish run, and `allowance` draws them;
//! 5. [`measure::walk`] measures seams, crossings and openings on the result;
//! 6. `check` judges the result, with codes, limits and next steps;
//! 7. `work` puts what is done at the machine in order;
//! 8. [`drawing`] is what exporters draw; [`garment`] is the record of everything.
//!
//! [`make`] walks all of it. Lengths along curves and everything else that is measured in the
//! plane is [`curve`]'s work:
//!
//! ```
//! use engine::curve::Path;
//! use kurbo::{CubicBez, Point};
//!
//! // A leg edge, from the side seam into the gusset.
//! let leg = Path::cubic(CubicBez::new((210.0, 170.0), (120.0, 170.0), (45.0, 215.0), (36.0, 277.0)));
//! let chord = Point::new(210.0, 170.0).distance(Point::new(36.0, 277.0));
//! assert!(leg.length() > chord, "an elastic is measured along the curve, never the chord");
//! // Eight millimetres of turned elastic ask for that much cloth beyond the edge.
//! let cut = leg.offset(8.0);
//! assert!((cut.start().distance(leg.start()) - 8.0).abs() < 1e-9);
//! ```

#[cfg(test)]
extern crate self as engine;

#[cfg(test)]
#[path = "../../tests/support/mod.rs"]
mod support;

pub mod base;
pub mod body;
mod check;
mod construct;
pub mod curve;
mod draft;
pub mod drawing;
pub mod finding;
pub mod finish;
pub mod garment;
pub mod keys;
mod make;
pub mod measure;
mod on_body;
pub mod plan;
pub mod population;
pub mod quantity;
mod refused;
pub mod sheet;
pub mod stages;
pub mod stitch;
pub mod terms;
pub mod topology;
pub mod words;
pub mod work;

pub use draft::{Draft, Gusset as NetGusset, Panel};
pub use make::{Made, make, pieces as draft_pieces, record};
pub use refused::{Reached, Refused};
