//! Numbers pushed onto the bytes of a file without the detour of formatting: one to exchange has
//! ten thousand.

/// Room for the longest of the numbers below: sign, 19 digits, point, 6 digits, and some to spare.
struct Buffer {
    digits: [u8; 32],
    /// Filled from the end: here the number begins.
    from: usize,
}

impl Buffer {
    const fn new() -> Self {
        Self { digits: [b'0'; 32], from: 32 }
    }

    fn put(&mut self, byte: u8) {
        self.from -= 1;
        self.digits[self.from] = byte;
    }

    fn whole(&mut self, mut rest: u64) {
        loop {
            self.put(b'0' + (rest % 10) as u8);
            rest /= 10;
            if rest == 0 {
                break;
            }
        }
    }

    fn push(&self, out: &mut Vec<u8>) {
        out.extend_from_slice(&self.digits[self.from..]);
    }
}

/// A whole number.
pub(crate) fn push_whole(out: &mut Vec<u8>, value: i64) {
    let mut buffer = Buffer::new();
    buffer.whole(value.unsigned_abs());
    if value < 0 {
        buffer.put(b'-');
    }
    buffer.push(out);
}

/// A length, mm: a real number rounded to six decimals, without zeros at its end but always with a
/// point.
///
/// Lengths here are below 10⁹; what is larger or no number becomes 0, and is refused before.
pub(crate) fn push_real(out: &mut Vec<u8>, value: f64) {
    push_decimals(out, value, 6);
}

/// The same with twelve decimals, for what multiplies a length; below 1000.
pub(crate) fn push_fine(out: &mut Vec<u8>, value: f64) {
    push_decimals(out, value, 12);
}

/// At most so many decimals, no zeros at its end and no bare point; below 10⁹, as above.
pub(crate) fn push_short(out: &mut Vec<u8>, value: f64, places: u32) {
    push_decimals(out, value, places);
    if out.ends_with(b".0") {
        out.truncate(out.len() - 2);
    }
}

fn push_decimals(out: &mut Vec<u8>, value: f64, mut places: u32) {
    let parts = (value * 10_u64.pow(places) as f64).round();
    let parts = if parts.abs() < 9e15 { parts as i64 } else { 0 };
    let mut buffer = Buffer::new();
    // By ten each time: a division by what is not known when the program is built takes many times as long.
    let mut rest = parts.unsigned_abs();
    while places > 1 && rest % 10 == 0 {
        rest /= 10;
        places -= 1;
    }
    for _ in 0..places {
        buffer.put(b'0' + (rest % 10) as u8);
        rest /= 10;
    }
    buffer.put(b'.');
    buffer.whole(rest);
    if parts < 0 {
        buffer.put(b'-');
    }
    buffer.push(out);
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pushed(push: impl Fn(&mut Vec<u8>)) -> String {
        let mut out = Vec::new();
        push(&mut out);
        String::from_utf8(out).unwrap()
    }

    #[test]
    fn numbers_are_short_and_exact() {
        for (value, want) in [
            (0.0, "0.0"),
            (-0.000_000_1, "0.0"),
            (12.0, "12.0"),
            (8_999_999_999.5, "8999999999.5"),
            (0.1, "0.1"),
            (-12.5, "-12.5"),
            (0.000_001, "0.000001"),
            (1_234.567_890_4, "1234.56789"),
            (-0.070_6, "-0.0706"),
            (f64::NAN, "0.0"),
        ] {
            assert_eq!(pushed(|out| push_real(out, value)), want);
        }
        for (value, want) in [(-0.070_6, "-0.0706"), (0.123_456_789_012_4, "0.123456789012"), (1.0, "1.0")] {
            assert_eq!(pushed(|out| push_fine(out, value)), want);
        }
        for (value, want) in [(0.0, "0"), (-0.000_04, "0"), (1.5, "1.5"), (-12.345_678, "-12.3457"), (100.0, "100")] {
            assert_eq!(pushed(|out| push_short(out, value, 4)), want);
        }
        for value in [0, 7, -40, 1016, i64::MAX, i64::MIN] {
            assert_eq!(pushed(|out| push_whole(out, value)), value.to_string());
        }
    }
}
