//! Numbers as a person reads them off her tape, in the unit of her sheet and in no other.

use crate::quantity::Units;

/// How finely a length is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fineness {
    /// By eye: to 5 mm, or a quarter of an inch.
    About,
    /// As a tape shows it: to 1 mm, or 1/16 in.
    Tape,
    /// As a tool is set, for allowances and rows of stitches: to 0.5 mm, or 1/32 in.
    Tool,
    /// As it was computed: to 0.01 mm, or 0.0001 in.
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

    /// A length in millimetres by eye, with its unit: `3 cm`, `30 mm`, `1 1/4 in`.
    pub fn about(self, mm: f64) -> String {
        self.with_unit(mm, Fineness::About)
    }

    /// A length in millimetres that was chosen, not found: as a tape shows it, with no zero at its end:
    /// `150 cm`, `142.5 cm`, `59 in`.
    pub fn chosen(self, mm: f64) -> String {
        let shown = self.bare(mm, Fineness::Tape);
        format!("{} {}", shown.strip_suffix(".0").unwrap_or(&shown), self.unit())
    }

    /// The same with the fineness as an argument.
    pub fn with_unit(self, mm: f64, fineness: Fineness) -> String {
        format!("{} {}", self.bare(mm, fineness), self.unit())
    }

    /// A length in millimetres without its unit.
    pub fn bare(self, mm: f64, fineness: Fineness) -> String {
        match (self.0, fineness) {
            (Units::Cm, Fineness::About) => short((mm / 5.0).round() / 2.0, 1),
            (Units::Mm, Fineness::About) => fixed((mm / 5.0).round() * 5.0, 0),
            (Units::In, Fineness::About) => inches(mm / 25.4, 4),
            (Units::Cm, Fineness::Tape) => fixed(mm / 10.0, 1),
            (Units::Cm, Fineness::Tool) => short((mm * 2.0).round() / 20.0, 2),
            (Units::Cm, Fineness::Exact) => fixed(mm / 10.0, 3),
            (Units::Mm, Fineness::Tape) => fixed(mm, 0),
            (Units::Mm, Fineness::Tool) => short((mm * 2.0).round() / 2.0, 1),
            (Units::Mm, Fineness::Exact) => fixed(mm, 2),
            (Units::In, Fineness::Tape) => inches(mm / 25.4, 16),
            (Units::In, Fineness::Tool) => inches(mm / 25.4, 32),
            (Units::In, Fineness::Exact) => fixed(mm / 25.4, 4),
        }
    }

    /// A length in millimetres as a person would write it in her sheet.
    pub fn as_written(self, mm: f64) -> String {
        short(mm * 1e6 / self.0.nm() as f64, 2)
    }

    /// A range of lengths in millimetres, each end told so that it lies inside: `51.3 to 60 cm`.
    pub fn within(self, least: f64, most: f64) -> String {
        let half = match self.0 {
            Units::Cm | Units::Mm => 0.5,
            Units::In => 25.4 / 32.0,
        };
        // What is a whole step already is told as it is.
        let inward = half * (1.0 - 1e-6);
        format!("{} to {}", self.bare(least + inward, Fineness::Tape), self.tape(most - inward))
    }

    /// A length that is round in either system: so many millimetres, or so many inches.
    pub fn round(self, mm: f64, inch: f64) -> String {
        match self.0 {
            Units::In => self.tape(inch * 25.4),
            Units::Cm => format!("{} cm", short(mm / 10.0, 1)),
            Units::Mm => format!("{} mm", short(mm, 1)),
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
        let chosen = |mm| [Units::Cm, Units::Mm, Units::In].map(|units| Speech(units).chosen(mm));
        assert_eq!(chosen(1500.0), ["150 cm", "1500 mm", "59 1/16 in"]);
        assert_eq!(chosen(1425.0), ["142.5 cm", "1425 mm", "56 1/8 in"]);
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
    fn a_range_is_told_inside_itself() {
        assert_eq!(Speech(Units::Mm).within(512.1, 600.9), "513 to 600 mm");
        assert_eq!(Speech(Units::Cm).within(512.0, 600.0), "51.2 to 60.0 cm");
        assert_eq!(Speech(Units::In).within(25.4 * 20.01, 25.4 * 23.99), "20 1/16 to 23 15/16 in");
    }

    #[test]
    fn by_eye_lengths_are_round() {
        let about = |mm| [Units::Cm, Units::Mm, Units::In].map(|units| Speech(units).about(mm));
        assert_eq!(about(30.0), ["3 cm", "30 mm", "1 1/4 in"]);
        assert_eq!(about(617.3), ["61.5 cm", "615 mm", "24 1/4 in"]);
    }

    #[test]
    fn nothing_has_no_sign() {
        assert_eq!(fixed(-0.0001, 3), "0.000");
        assert_eq!(Speech(Units::In).tape(-0.1), "0 in");
        assert_eq!(percent(-0.01), "0 %");
        assert_eq!(percent(-8.0), "-8 %");
    }
}
