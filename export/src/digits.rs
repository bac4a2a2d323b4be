//! Numbers pushed onto text without the detour of formatting: a cutter file has ten thousand.

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

    fn push(&self, out: &mut String) {
        // Only ASCII was put in.
        out.push_str(std::str::from_utf8(&self.digits[self.from..]).unwrap_or(""));
    }
}

/// A whole number.
pub(crate) fn push_whole(out: &mut String, value: i64) {
    let mut buffer = Buffer::new();
    buffer.whole(value.unsigned_abs());
    if value < 0 {
        buffer.put(b'-');
    }
    buffer.push(out);
}

/// A real number rounded to six decimals, without zeros at its end but always with a point.
///
/// Lengths here are below 10⁹; what is larger or no number becomes 0, and is refused before.
pub(crate) fn push_real(out: &mut String, value: f64) {
    let millionths = (value * 1e6).round();
    let millionths = if millionths.abs() < 9e15 { millionths as i64 } else { 0 };
    let mut buffer = Buffer::new();
    let (whole, mut part) = (millionths.unsigned_abs() / 1_000_000, millionths.unsigned_abs() % 1_000_000);
    let mut places = 6;
    while places > 1 && part % 10 == 0 {
        part /= 10;
        places -= 1;
    }
    for _ in 0..places {
        buffer.put(b'0' + (part % 10) as u8);
        part /= 10;
    }
    buffer.put(b'.');
    buffer.whole(whole);
    if millionths < 0 {
        buffer.put(b'-');
    }
    buffer.push(out);
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
            (8_999_999_999.5, "8999999999.5"),
            (0.1, "0.1"),
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
