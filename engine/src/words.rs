//! Every sentence that a person reads is made here, from facts, in the unit of her sheet.

pub mod number;

pub use number::{Fineness, Speech};

/// A length in both units. Going: texts speak the sheet's unit, through [`Speech`].
pub(crate) fn both(mm: f64) -> String {
    format!("{mm:.1} mm ({:.2} in)", mm / 25.4)
}
