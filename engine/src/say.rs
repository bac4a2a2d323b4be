//! Numbers in words. Lengths are given in mm and inches, so that the same pattern serves whoever
//! holds it, and a sheet in inches says the same as its twin in centimetres.

/// A length in both units.
pub(crate) fn both(mm: f64) -> String {
    format!("{mm:.1} mm ({:.2} in)", mm / 25.4)
}
