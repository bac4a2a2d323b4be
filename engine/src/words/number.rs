//! Numbers as a person reads them off her tape, in the unit of her sheet and in no other.

use crate::quantity::Units;

/// How finely a length is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fineness {
    /// As a tape shows it: to 1 mm, or 1/16 in.
    Tape,
    /// As a tool is set, for allowances and rows of stitches: to 0.5 mm, or 1/32 in.
    Tool,
    /// As it was measured on a screen: to 0.01 mm, or a thousandth of the unit.
    Exact,
}

/// Says lengths in one unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Speech(pub Units);

impl Speech {
    /// A length in millimetres as a tape shows it, with its unit: `56.3 cm`, `563 mm`, `22 1/8 in`.
    pub fn tape(self, mm: f64) -> String {
        self.with_unit(mm, Fineness::Tape)
    }

    /// A length in millimetres as a tool is set, with its unit: `0.75 cm`, `7.5 mm`, `9/32 in`.
    pub fn tool(self, mm: f64) -> String {
        self.with_unit(mm, Fineness::Tool)
    }

    /// The same with the fineness as an argument.
    pub fn with_unit(self, mm: f64, fineness: Fineness) -> String {
        format!("{} {}", self.bare(mm, fineness), self.unit())
    }

    /// A length in millimetres without its unit.
    pub fn bare(self, mm: f64, fineness: Fineness) -> String {
        match (self.0, fineness) {
            (Units::Cm, Fineness::Tape) => fixed(mm / 10.0, 1),
            (Units::Cm, Fineness::Tool) => short((mm * 2.0).round() / 20.0, 2),
            (Units::Cm, Fineness::Exact) => fixed(mm / 10.0, 3),
            (Units::Mm, Fineness::Tape) => fixed(mm, 0),
            (Units::Mm, Fineness::Tool) => short((mm * 2.0).round() / 2.0, 1),
            (Units::Mm, Fineness::Exact) => fixed(mm, 2),
            (Units::In, Fineness::Tape) => inches(mm / 25.4, 16),
            (Units::In, Fineness::Tool) => inches(mm / 25.4, 32),
            (Units::In, Fineness::Exact) => fixed(mm / 25.4, 3),
        }
    }

    /// The unit's word.
    pub const fn unit(self) -> &'static str {
        self.0.name()
    }
}

/// So many decimals, and never a minus before nothing.
pub fn fixed(value: f64, decimals: usize) -> String {
    let shown = format!("{value:.decimals$}");
    match shown.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| matches!(c, '0' | '.')) => rest.to_owned(),
        _ => shown,
    }
}

/// A number with at most so many decimals and no zeros at its end.
pub fn short(value: f64, decimals: usize) -> String {
    let shown = fixed(value, decimals);
    if shown.contains('.') { shown.trim_end_matches('0').trim_end_matches('.').to_owned() } else { shown }
}

/// Percent, with one decimal where it has one.
pub fn percent(value: f64) -> String {
    format!("{} %", short(value, 1))
}

/// Inches as a whole number and a fraction in lowest terms, to the nearest part.
fn inches(inches: f64, parts: u64) -> String {
    let total = (inches.abs() * parts as f64).round() as u64;
    let sign = if inches < 0.0 && total > 0 { "-" } else { "" };
    let (whole, rest) = (total / parts, total % parts);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let common = 1 << rest.trailing_zeros();
    let (part, of) = (rest / common, parts / common);
    if whole == 0 { format!("{sign}{part}/{of}") } else { format!("{sign}{whole} {part}/{of}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_read_as_on_a_tape() {
        assert_eq!(Speech(Units::Cm).tape(562.51), "56.3 cm");
        assert_eq!(Speech(Units::Mm).tape(562.51), "563 mm");
        assert_eq!(Speech(Units::In).tape(29.5 * 25.4), "29 1/2 in");
        assert_eq!(Speech(Units::In).tape(25.4 * 1.999), "2 in");
        assert_eq!(Speech(Units::In).tape(-25.4 * 1.25), "-1 1/4 in");
    }

    #[test]
    fn tools_are_set_more_finely() {
        assert_eq!(Speech(Units::Cm).tool(7.5), "0.75 cm");
        assert_eq!(Speech(Units::Cm).tool(7.0), "0.7 cm");
        assert_eq!(Speech(Units::Mm).tool(7.3), "7.5 mm");
        assert_eq!(Speech(Units::In).tool(25.4 * 9.0 / 32.0), "9/32 in");
        assert_eq!(Speech(Units::In).tool(25.4 / 4.0), "1/4 in");
    }

    #[test]
    fn nothing_has_no_sign() {
        assert_eq!(fixed(-0.0001, 3), "0.000");
        assert_eq!(Speech(Units::In).tape(-0.1), "0 in");
        assert_eq!(percent(-0.01), "0 %");
        assert_eq!(percent(-8.0), "-8 %");
    }
}
