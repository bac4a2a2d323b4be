//! Lengths: a plain number in the sheet's unit, or a fraction in quotes on a sheet in inches.

use super::super::number;
use super::super::problem::quoted;
use super::{Context, Nothing, Wrong, wrong};
use engine::keys::Kind;
use engine::population::PUBLISHED;
use engine::quantity::{Length, Units};
use toml::Spanned;
use toml::de::DeValue;

impl Context<'_> {
    /// A range of mm, in the sheet's unit.
    pub(super) fn range(&self, low: f64, high: f64) -> String {
        let unit = self.units.unwrap_or(Units::Mm);
        let to = |mm: f64| {
            let n = Length::from_mm(mm).to(unit);
            number::short(if n.abs() < 10.0 { (n * 100.0).round() / 100.0 } else { n.round() })
        };
        format!("from {} to {} {}", to(low), to(high), unit.name())
    }

    pub(super) fn length(
        &self,
        value: &Spanned<DeValue<'_>>,
        low: f64,
        high: f64,
        nothing: Nothing,
    ) -> Result<Length, Wrong> {
        let it = value.get_ref();
        let unit = self.units.unwrap_or(Units::Mm);
        let length = match (Self::digits(it), it) {
            (Some(text), _) => number::decimal(text, unit).map_err(|bad| self.bad_number(bad, text))?,
            (None, DeValue::String(text)) => self.written_length(text)?,
            _ => return Err(self.mistyped(it, "a length", &self.example())),
        };
        let Some(unit) = self.units else { return Ok(length) };
        if nothing == Nothing::Refused && length <= Length::ZERO {
            return Err(wrong(
                format!("`{}` has to be more than 0", self.name()),
                if length == Length::ZERO { "this is nothing" } else { "this is less than nothing" },
                format!("write a length {}: {}", self.range(low, high), self.key.how),
            ));
        }
        if (low..=high).contains(&length.mm()) {
            return Ok(length);
        }
        Err(wrong(
            format!("`{}` is out of range", self.name()),
            format!("allowed: {}", self.range(low, high)),
            self.unit_hint(value, low, high, unit),
        ))
    }

    /// If the same digits would do in another unit, the unit is probably what is wrong; if they would be an
    /// ordinary measure with the point in another place, the point is.
    fn unit_hint(&self, value: &Spanned<DeValue<'_>>, low: f64, high: f64, unit: Units) -> String {
        let text = Self::digits(value.get_ref()).unwrap_or("");
        let fits =
            |u: Units| number::decimal(text, u).is_ok_and(|l| l != Length::ZERO && (low..=high).contains(&l.mm()));
        let published = PUBLISHED.iter().find(|range| range.measure.key().row().name == self.key.name);
        let is_ordinary = |mm: f64| published.is_none_or(|range| range.holds(mm));
        let read = number::decimal(text, unit).ok();
        let slipped = read.into_iter().flat_map(|l| [l.mm() * 10.0, l.mm() / 10.0]).find(|mm| is_ordinary(*mm));
        if let (Some(_), Some(mm)) = (published, slipped)
            && !Units::ALL.iter().any(|(_, u)| number::decimal(text, *u).is_ok_and(|l| is_ordinary(l.mm())))
        {
            let meant = suggestion(Length::from_mm(mm), unit);
            return format!("is it {meant}, the point in another place? If not, measure again: {}", self.key.how);
        }
        let others: Vec<&str> =
            Units::ALL.iter().filter(|(_, u)| *u != unit && fits(*u)).map(|(_, u)| u.plural()).collect();
        match others.as_slice() {
            [] => format!("measure again: {}", self.key.how),
            _ => format!(
                "this sheet is in {}; was it typed in {}? Convert it, or change `units`",
                unit.plural(),
                others.join(" or ")
            ),
        }
    }

    pub(super) fn example(&self) -> String {
        let (Kind::Length(low, high) | Kind::Size(low, high)) = self.key.kind else { return "1".to_owned() };
        let middle = Length::from_mm((low.max(1.0) * high).sqrt().round());
        number::short((middle.to(self.units.unwrap_or(Units::Mm)) * 10.0).round() / 10.0)
    }

    /// A length in quotes: a fraction on a sheet in inches; anything else is explained.
    fn written_length(&self, text: &str) -> Result<Length, Wrong> {
        let (digits, suffix) = split_unit(text);
        let named = suffix.and_then(unit_named);
        let quotes = format!("`{}` has a unit of its own", self.name());
        if !text.contains(|c: char| c.is_numeric()) {
            return Err(self.quoted_number(text));
        }
        match (self.units, suffix, named) {
            (Some(Units::In), None, _) => number::inches(digits).map_err(|bad| self.bad_number(bad, text)),
            (_, None, _) => Err(self.quoted_number(digits)),
            (Some(unit), Some(_), Some(other)) if unit != other => Err(wrong(
                quotes,
                format!("in {}, but this sheet is in {}", other.plural(), unit.plural()),
                match parse_in(digits, other) {
                    Some(length) => format!("write {}", suggestion(length, unit)),
                    None => format!("write it in {}, without a unit", unit.plural()),
                },
            )),
            (_, Some(_), Some(Units::In)) if digits.contains('/') => {
                Err(wrong(quotes, "the unit is said once, in [sheet]", format!("write \"{digits}\"")))
            }
            (_, Some(_), Some(_)) => Err(wrong(
                quotes,
                "the unit is said once, in [sheet]",
                format!("write {digits}, without quotes and unit"),
            )),
            (_, Some(suffix), None) => Err(wrong(
                format!("`{}` is not a length", self.name()),
                format!("unknown unit {}", quoted(suffix)),
                format!("write a plain number such as {}", self.example()),
            )),
        }
    }

    /// A number in quotes on a sheet that is not known to be in inches.
    fn quoted_number(&self, digits: &str) -> Wrong {
        let title = format!("`{}` has to be a number", self.name());
        let with_point = digits.replacen(',', ".", 1);
        if digits.contains(['/', '½']) && digits.contains(char::is_numeric) {
            let help = match (parse_in(digits, Units::In), self.units) {
                (Some(length), Some(unit)) => {
                    let (own, as_inches) = (number::written(length, Units::In), suggestion(length, unit));
                    format!("write {as_inches} if it was measured in inches, {own} if in {}", unit.plural())
                }
                (Some(length), None) => format!("write it as a decimal: {}", number::written(length, Units::In)),
                (None, _) => "write it as a decimal".to_owned(),
            };
            return wrong(title, "fractions are read on sheets in inches only", help);
        }
        match number::plain(&with_point) {
            Ok(_) => wrong(title, "this is text", format!("write {with_point}, without quotes")),
            Err(_) => wrong(title, "this is text", format!("write a plain number such as {}", self.example())),
        }
    }
}

/// A length as it is typed at a question: with a decimal point or comma, in inches also as a fraction, with its own
/// unit behind it where that is said.
pub(crate) fn typed_length(text: &str, unit: Units) -> Option<Length> {
    let (digits, said) = split_unit(text);
    parse_in(digits, said.map_or(Some(unit), unit_named)?)
}

/// Digits and unit of a length as text.
pub(in crate::sheet) fn split_unit(text: &str) -> (&str, Option<&str>) {
    let text = text.trim();
    let is_unit = |c: char| c.is_alphabetic() || matches!(c, '"' | '″' | '\'' | '”' | '.');
    let digits = text.trim_end_matches(is_unit);
    let suffix = text.get(digits.len()..).unwrap_or("").trim_matches('.');
    if suffix.is_empty() { (text, None) } else { (digits.trim(), Some(suffix)) }
}

/// The unit of this word or sign.
pub(crate) fn unit_named(suffix: &str) -> Option<Units> {
    match suffix.to_lowercase().as_str() {
        "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Some(Units::Cm),
        "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Some(Units::Mm),
        "in" | "inch" | "inches" | "\"" | "″" | "”" | "''" => Some(Units::In),
        _ => None,
    }
}

pub(in crate::sheet) fn parse_in(digits: &str, unit: Units) -> Option<Length> {
    let digits = digits.replacen(',', ".", 1);
    if unit == Units::In { number::inches(&digits).ok() } else { number::decimal(&digits, unit).ok() }
}

/// A length as one would type it in a unit: to a hundredth, a thousandth of an inch.
fn suggestion(length: Length, unit: Units) -> String {
    let places = if unit == Units::In { 1000.0 } else { 100.0 };
    number::short((length.to(unit) * places).round() / places)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_unit_may_stand_behind_what_is_typed() {
        let half = Some(Length::from_nm(12_700_000));
        for text in ["1/2", "1/2\"", "½″", "0.5 in", "0,5 inches", "1.27 cm", " 12.7mm "] {
            assert_eq!(typed_length(text, Units::In), half, "{text}");
        }
        assert_eq!(
            (typed_length("1/2 in", Units::Cm), typed_length("1/2", Units::Cm), typed_length("5 yd", Units::In)),
            (half, None, None)
        );
    }
}
