//! Numbers as a person reads them off a tape.

use engine::quantity::Units;

/// Writes lengths in the sheet's unit.
#[derive(Clone, Copy, Debug)]
pub struct Ruler(pub Units);

impl Ruler {
    /// A length given in millimetres as a tape shows it: centimetres with one decimal, whole
    /// millimetres, inches to the nearest sixteenth. Without the unit.
    pub fn read(self, mm: f64) -> String {
        match self.0 {
            Units::Cm => fixed(mm / 10.0, 1),
            Units::Mm => fixed(mm, 0),
            Units::In => sixteenths(mm / 25.4),
        }
    }

    /// The same with its unit.
    pub fn length(self, mm: f64) -> String {
        format!("{} {}", self.read(mm), self.unit())
    }

    /// A length given in millimetres to a hundredth of a millimetre, or what is nearest to that
    /// in the unit. Without the unit.
    pub fn exact(self, mm: f64) -> String {
        match self.0 {
            Units::Cm => fixed(mm / 10.0, 3),
            Units::Mm => fixed(mm, 2),
            Units::In => fixed(mm / 25.4, 3),
        }
    }

    /// What stands beside a figure in millimetres; nothing in a sheet that is in millimetres itself.
    pub fn beside_mm<T>(self, own: impl FnOnce() -> T) -> Option<T> {
        (self.0 != Units::Mm).then(own)
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
    export::number::decimal(value, decimals)
}

/// Percent, with one decimal where it has one.
pub fn percent(value: f64) -> String {
    format!("{} %", short(value, 1))
}

fn sixteenths(inches: f64) -> String {
    let total = (inches.abs() * 16.0).round() as u64;
    let sign = if inches < 0.0 && total > 0 { "-" } else { "" };
    let (whole, rest) = (total / 16, total % 16);
    if rest == 0 {
        return format!("{sign}{whole}");
    }
    let common = 1 << rest.trailing_zeros();
    let (part, of) = (rest / common, 16 / common);
    if whole == 0 { format!("{sign}{part}/{of}") } else { format!("{sign}{whole} {part}/{of}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_read_as_on_a_tape() {
        assert_eq!(Ruler(Units::Cm).length(562.51), "56.3 cm");
        assert_eq!(Ruler(Units::Mm).length(562.51), "563 mm");
        assert_eq!(Ruler(Units::In).length(29.5 * 25.4), "29 1/2 in");
        assert_eq!(Ruler(Units::In).length(25.4 * 3.0 / 16.0), "3/16 in");
        assert_eq!(Ruler(Units::In).length(25.4 * 1.999), "2 in");
        assert_eq!(Ruler(Units::In).length(-25.4 * 1.25), "-1 1/4 in");
    }

    #[test]
    fn nothing_has_no_sign() {
        assert_eq!(fixed(-0.0001, 3), "0.000");
        assert_eq!(fixed(-0.0006, 3), "-0.001");
        assert_eq!(Ruler(Units::In).read(-0.1), "0");
        assert_eq!(percent(-0.01), "0 %");
    }

    #[test]
    fn short_numbers_lose_their_last_zeros_only() {
        assert_eq!(short(100.0, 0), "100");
        assert_eq!(short(0.50, 3), "0.5");
        assert_eq!(percent(-8.0), "-8 %");
    }
}
