//! Numbers as people write them, turned into exact quantities.
//!
//! Lengths never pass through floating point: 29 1/2 in and 74.93 cm are the same whole number of
//! nanometres. Digits finer than a nanometre (or a fraction such as 1/3 in) are rounded to the
//! nearest nanometre, an exact half to the even one.

use engine::quantity::{Length, Units};

/// Why a text is no length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Bad {
    /// Not a number at all.
    NotANumber,
    /// `inf` or `nan`.
    NotFinite,
    /// More digits than can be kept exactly.
    TooManyDigits,
    /// Beyond any length (a thousand kilometres).
    TooLarge,
    /// A fraction with nothing to divide by, or larger than one beside a whole number.
    Fraction,
}

/// Significant digits that are kept: with a unit of 8 digits the product still fits an `i128`.
const MAX_DIGITS: usize = 28;

/// The largest length that is told apart from "too large", nm.
const MAX_NM: i128 = 1_000_000_000_000_000;

/// A decimal number, with or without a sign and an exponent, in the given unit.
pub(super) fn decimal(text: &str, unit: Units) -> Result<Length, Bad> {
    let (negative, body) = signed(text.trim());
    if matches!(body, "inf" | "nan") {
        return Err(Bad::NotFinite);
    }
    let (mantissa, exponent) = split_exponent(body)?;
    let (digits, places) = digits_of(mantissa)?;
    let nm = scaled(digits, places - exponent, unit)?;
    length(if negative { -nm } else { nm })
}

/// Inches as people write them: `29 1/2`, `1/64`, `29-1/2`, `29½`, `29.5`.
pub(super) fn inches(text: &str) -> Result<Length, Bad> {
    let plain = spelled_out(text);
    if !plain.contains('/') {
        return decimal(&plain, Units::In);
    }
    let (negative, body) = signed(plain.trim());
    let body = body.replacen('-', " ", 1);
    let parts: Vec<&str> = body.split_whitespace().collect();
    let (whole, fraction) = match parts.as_slice() {
        [fraction] => (0, *fraction),
        [whole, fraction] => (count(whole)?, *fraction),
        _ => return Err(Bad::NotANumber),
    };
    let (above, below) = fraction.split_once('/').ok_or(Bad::NotANumber)?;
    let (above, below) = (count(above)?, count(below)?);
    if below == 0 || (parts.len() == 2 && above >= below) {
        return Err(Bad::Fraction);
    }
    let nm = divide_half_even((whole * below + above) * i128::from(Units::In.nm()), below);
    length(if negative { -nm } else { nm })
}

/// A plain number, for percents and shares.
pub(super) fn plain(text: &str) -> Result<f64, Bad> {
    let number: f64 = text.parse().map_err(|_| Bad::NotANumber)?;
    if number.is_finite() { Ok(number) } else { Err(Bad::NotFinite) }
}

/// Typographic fractions and primes, written out.
fn spelled_out(text: &str) -> String {
    const FRACTIONS: [(char, &str); 8] = [
        ('½', " 1/2"),
        ('¼', " 1/4"),
        ('¾', " 3/4"),
        ('⅛', " 1/8"),
        ('⅜', " 3/8"),
        ('⅝', " 5/8"),
        ('⅞', " 7/8"),
        ('⁄', "/"),
    ];
    let mut out = String::new();
    for c in text.chars() {
        match FRACTIONS.iter().find(|(sign, _)| *sign == c) {
            Some((_, words)) => out.push_str(words),
            None => out.push(c),
        }
    }
    out
}

fn signed(text: &str) -> (bool, &str) {
    match text.strip_prefix('-') {
        Some(rest) => (true, rest),
        None => (false, text.strip_prefix('+').unwrap_or(text)),
    }
}

/// A whole number of at most seven digits, as fractions have.
fn count(text: &str) -> Result<i128, Bad> {
    if text.is_empty() || !text.bytes().all(|b| b.is_ascii_digit()) {
        return Err(Bad::NotANumber);
    }
    if text.len() > 7 {
        return Err(Bad::TooLarge);
    }
    text.parse().map_err(|_| Bad::NotANumber)
}

/// Mantissa and power of ten. A power beyond ±99 is as good as ±99.
fn split_exponent(body: &str) -> Result<(&str, i32), Bad> {
    let Some((mantissa, exponent)) = body.split_once(['e', 'E']) else {
        return Ok((body, 0));
    };
    let (negative, digits) = signed(exponent);
    if digits.is_empty() || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return Err(Bad::NotANumber);
    }
    let power: i32 = digits.parse().unwrap_or(99);
    let power = power.min(99);
    Ok((mantissa, if negative { -power } else { power }))
}

/// The digits as one whole number, and how many of them stand behind the point.
fn digits_of(mantissa: &str) -> Result<(i128, i32), Bad> {
    let (whole, behind) = mantissa.split_once('.').unwrap_or((mantissa, ""));
    let behind = behind.trim_end_matches('0');
    let all = format!("{whole}{behind}");
    if mantissa.is_empty() || mantissa == "." || !all.bytes().all(|b| b.is_ascii_digit()) {
        return Err(Bad::NotANumber);
    }
    let significant = all.trim_start_matches('0');
    if significant.len() > MAX_DIGITS {
        return Err(Bad::TooManyDigits);
    }
    let number = if significant.is_empty() { 0 } else { significant.parse().map_err(|_| Bad::NotANumber)? };
    Ok((number, i32::try_from(behind.len()).map_err(|_| Bad::TooManyDigits)?))
}

/// `digits` · 10^−`places` units, in nanometres.
fn scaled(digits: i128, places: i32, unit: Units) -> Result<i128, Bad> {
    let whole = digits * i128::from(unit.nm());
    let power = 10_i128.checked_pow(places.unsigned_abs());
    match (places >= 0, power) {
        (true, Some(power)) => Ok(divide_half_even(whole, power)),
        // 28 digits and a unit are below 10^36: nothing is left of them.
        (true, None) => Ok(0),
        (false, Some(power)) => whole.checked_mul(power).ok_or(Bad::TooLarge),
        (false, None) if whole == 0 => Ok(0),
        (false, None) => Err(Bad::TooLarge),
    }
}

/// Division of numbers that are not negative, an exact half going to the even neighbour.
fn divide_half_even(above: i128, below: i128) -> i128 {
    let (quotient, rest) = (above / below, above % below);
    let up = match (below - rest).cmp(&rest) {
        std::cmp::Ordering::Less => true,
        std::cmp::Ordering::Equal => quotient % 2 == 1,
        std::cmp::Ordering::Greater => false,
    };
    quotient + i128::from(up)
}

fn length(nm: i128) -> Result<Length, Bad> {
    if nm.abs() > MAX_NM {
        return Err(Bad::TooLarge);
    }
    i64::try_from(nm).map(Length::from_nm).map_err(|_| Bad::TooLarge)
}

/// A length as a person reads it: up to four decimals, none that are not needed.
pub(super) fn written(length: Length, unit: Units) -> String {
    short(length.to(unit))
}

/// A number with up to four decimals, none that are not needed.
pub(crate) fn short(number: f64) -> String {
    export::number::decimal(number, 4)
}

#[cfg(test)]
mod tests {
    use super::*;
    use Units::{Cm, In, Mm};

    fn nm(result: Result<Length, Bad>) -> i64 {
        result.unwrap().nm()
    }

    #[test]
    fn inches_and_centimetres_of_one_length_are_the_same_number() {
        // 1 in is 25.4 mm exactly (international yard and pound agreement, 1959).
        assert_eq!(nm(inches("29 1/2")), 749_300_000);
        assert_eq!(nm(decimal("74.93", Cm)), 749_300_000);
        assert_eq!(nm(decimal("749.3", Mm)), 749_300_000);
        assert_eq!(nm(decimal("29.5", In)), 749_300_000);
        assert_eq!(nm(inches("1/64")), 396_875);
        assert_eq!(nm(decimal("0.015625", In)), 396_875);
    }

    #[test]
    fn fractions_are_read_as_people_write_them() {
        for text in ["29 1/2", "29-1/2", "29½", "29 ½", " 29  1/2 ", "29 32/64", "29.5", "59/2"] {
            assert_eq!(nm(inches(text)), 749_300_000, "{text}");
        }
        assert_eq!(nm(inches("-1/2")), -12_700_000);
        assert_eq!(nm(inches("⅞")), 22_225_000);
    }

    #[test]
    fn every_sixty_fourth_up_to_a_hip_is_exact() {
        for n in 0..=64 * 60 {
            let text = format!("{n}/64");
            assert_eq!(nm(inches(&text)), n * 396_875);
        }
    }

    #[test]
    fn digits_below_a_nanometre_round_half_to_even() {
        assert_eq!(nm(decimal("0.0000005", Mm)), 0);
        assert_eq!(nm(decimal("0.0000015", Mm)), 2);
        assert_eq!(nm(decimal("0.0000025", Mm)), 2);
        assert_eq!(nm(decimal("0.00000251", Mm)), 3);
        assert_eq!(nm(inches("1/3")), 8_466_667);
    }

    #[test]
    fn exponents_shift_the_point_exactly() {
        assert_eq!(decimal("7.45e1", Cm), decimal("74.5", Cm));
        assert_eq!(decimal("7450E-2", Cm), decimal("74.5", Cm));
        assert_eq!(nm(decimal("1e-99", Cm)), 0);
        assert_eq!(nm(decimal("0e99", Cm)), 0);
        assert_eq!(nm(decimal("74.50000000000000000000000000000000000000000", Cm)), 745_000_000);
    }

    #[test]
    fn what_is_no_length_is_refused() {
        assert_eq!(decimal("inf", Cm), Err(Bad::NotFinite));
        assert_eq!(decimal("-nan", Cm), Err(Bad::NotFinite));
        assert_eq!(decimal("1e300", Cm), Err(Bad::TooLarge));
        assert_eq!(decimal("99999999999999999999", Cm), Err(Bad::TooLarge));
        assert_eq!(decimal("0.12345678901234567890123456789", Cm), Err(Bad::TooManyDigits));
        for text in ["", ".", "-", "7,4", "1e", "1e+", "74 cm", "0x4A", "--1", "1.2.3"] {
            assert_eq!(decimal(text, Cm), Err(Bad::NotANumber), "{text}");
        }
        assert_eq!(inches("29 1/0"), Err(Bad::Fraction));
        assert_eq!(inches("29 3/2"), Err(Bad::Fraction));
        assert_eq!(inches("1 2 3/4"), Err(Bad::NotANumber));
        assert_eq!(inches("1/2/3"), Err(Bad::NotANumber));
    }
}
