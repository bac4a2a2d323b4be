//! Numbers as text, one way for every file that is not a number format of its own.

/// A plain decimal: at most so many decimals, no trailing zeros, no exponent, no `-0`.
///
/// Digits are those of the exact binary value rounded to nearest, so that every machine writes the
/// same. A value that is not finite becomes `0`; exporters refuse those before they come here.
pub fn decimal(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    let fixed = format!("{value:.decimals$}");
    let short = if fixed.contains('.') { fixed.trim_end_matches('0').trim_end_matches('.') } else { &fixed };
    if short == "-0" { "0".to_owned() } else { short.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::decimal;

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
