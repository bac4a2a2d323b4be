//! Numbers as text: one way for files and terminal, and a quick one for the formats that have
//! thousands of them.

pub(crate) mod digits;

/// A plain decimal: at most so many decimals, no trailing zeros, no exponent, no `-0`.
///
/// Digits are those of the exact binary value rounded to nearest, so that every machine writes the
/// same. Exporters refuse what is not finite before it comes here; elsewhere it stays to be seen.
pub fn decimal(value: f64, decimals: usize) -> String {
    engine::words::number::short(value, decimals)
}

/// The nearest millionth, never −0: what the record keeps of every number.
pub fn millionth(value: f64) -> f64 {
    (value * 1e6).round() / 1e6 + 0.0
}

#[cfg(test)]
mod tests {
    use super::{decimal, millionth};

    #[test]
    fn a_millionth_is_the_nearest_and_has_no_sign_at_nothing() {
        assert_eq!(millionth(12.345_678_4), 12.345_678);
        assert!(millionth(-1e-9).is_sign_positive());
    }

    #[test]
    fn writes_short_plain_decimals() {
        for (value, want) in [
            (0.0, "0"),
            (-0.0, "0"),
            (-0.000_049, "0"),
            (1.5, "1.5"),
            (-12.345_678, "-12.3457"),
            (100.0, "100"),
            (1e-9, "0"),
            (123_456_789.0, "123456789"),
        ] {
            assert_eq!(decimal(value, 4), want);
        }
        assert_eq!(decimal(110.0, 0), "110");
    }
}
