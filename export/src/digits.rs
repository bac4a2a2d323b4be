//! Numbers pushed onto text without the detour of formatting: a cutter file has ten thousand.

/// A whole number.
pub(crate) fn push_whole(out: &mut String, value: i64) {
    if value < 0 {
        out.push('-');
    }
    let mut digits = [b'0'; 20];
    let (mut rest, mut at) = (value.unsigned_abs(), digits.len());
    loop {
        at -= 1;
        digits[at] = b'0' + (rest % 10) as u8;
        rest /= 10;
        if rest == 0 {
            break;
        }
    }
    out.extend(digits[at..].iter().map(|d| char::from(*d)));
}

/// A real number rounded to six decimals, without zeros at its end but always with a point.
///
/// Lengths here are below 10⁹; what is larger or no number becomes 0, and is refused before.
pub(crate) fn push_real(out: &mut String, value: f64) {
    let millionths = (value * 1e6).round();
    let millionths = if millionths.abs() < 9e15 { millionths as i64 } else { 0 };
    if millionths < 0 {
        out.push('-');
    }
    let (whole, mut part) = (millionths.unsigned_abs() / 1_000_000, millionths.unsigned_abs() % 1_000_000);
    push_whole(out, whole as i64);
    out.push('.');
    let mut place = 100_000;
    loop {
        out.push(char::from(b'0' + (part / place) as u8));
        part %= place;
        if part == 0 {
            break;
        }
        place /= 10;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_exact() {
        for (value, want) in [
            (0.0, "0.0"),
            (-0.000_000_1, "0.0"),
            (12.0, "12.0"),
            (-12.5, "-12.5"),
            (0.000_001, "0.000001"),
            (1_234.567_890_4, "1234.56789"),
            (-0.070_6, "-0.0706"),
            (f64::NAN, "0.0"),
        ] {
            let mut out = String::new();
            push_real(&mut out, value);
            assert_eq!(out, want);
        }
        for value in [0, 7, -40, 1016, i64::MAX, i64::MIN] {
            let mut out = String::new();
            push_whole(&mut out, value);
            assert_eq!(out, value.to_string());
        }
    }
}
