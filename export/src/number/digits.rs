//! Numbers pushed onto the bytes of a file without the detour of formatting: one to exchange has
//! ten thousand.

/// Room for the longest of the numbers below: sign, 19 digits, point, 6 digits, and some to spare.
const ROOM: usize = 32;

struct Buffer {
    /// As much again lies behind the number, so that a copy has the same length whatever the number's is.
    digits: [u8; 2 * ROOM],
    /// Filled from the end of the room: here the number begins.
    from: usize,
}

impl Buffer {
    const fn new() -> Self {
        Self { digits: [b'0'; 2 * ROOM], from: ROOM }
    }

    fn put(&mut self, byte: u8) {
        self.from -= 1;
        self.digits[self.from] = byte;
    }

    /// The last two digits of a number; answers with what is left of it.
    fn two(&mut self, rest: u64) -> u64 {
        let pair = 2 * (rest % 100) as usize;
        self.from -= 2;
        self.digits[self.from..self.from + 2].copy_from_slice(&PAIRS[pair..pair + 2]);
        rest / 100
    }

    /// So many digits, zeros before them; answers with what is left of the number.
    fn places(&mut self, mut rest: u64, places: u32) -> u64 {
        for _ in 0..places / 2 {
            rest = self.two(rest);
        }
        if places % 2 == 1 {
            self.put(b'0' + (rest % 10) as u8);
            rest /= 10;
        }
        rest
    }

    fn whole(&mut self, mut rest: u64) {
        while rest >= 100 {
            rest = self.two(rest);
        }
        if rest >= 10 {
            self.two(rest);
        } else {
            self.put(b'0' + rest as u8);
        }
    }

    fn push(&self, out: &mut Vec<u8>) {
        let end = out.len() + ROOM - self.from;
        out.extend_from_slice(&self.digits[self.from..][..ROOM]);
        out.truncate(end);
    }
}

/// All pairs of digits, one after the other.
const PAIRS: [u8; 200] = {
    let mut pairs = [b'0'; 200];
    let mut i = 0;
    while i < 100 {
        pairs[2 * i] += (i / 10) as u8;
        pairs[2 * i + 1] += (i % 10) as u8;
        i += 1;
    }
    pairs
};

/// The powers of ten that numbers are multiplied by, by their decimals.
const POWERS: [f64; 13] = [1.0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12];

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
    let mut rest = nearest(value.abs() * POWERS[places as usize]);
    let is_negative = value < 0.0 && rest > 0;
    let mut buffer = Buffer::new();
    // By ten each time: a division by what is not known when the program is built takes many times as long.
    while places > 1 && rest.is_multiple_of(10) {
        rest /= 10;
        places -= 1;
    }
    let rest = buffer.places(rest, places);
    buffer.put(b'.');
    buffer.whole(rest);
    if is_negative {
        buffer.put(b'-');
    }
    buffer.push(out);
}

/// The nearest whole number, from a half on the larger one, as `round` does without its call; nought where it
/// is too large to be exact.
fn nearest(parts: f64) -> u64 {
    if parts.is_nan() || parts >= 9e15 {
        return 0;
    }
    let below = parts as u64;
    below + u64::from(parts - below as f64 >= 0.5)
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
        for value in [0, 7, 10, -40, 99, 100, 1016, i64::MAX, i64::MIN] {
            assert_eq!(pushed(|out| push_whole(out, value)), value.to_string());
        }
    }

    /// The standard library rounds and formats by itself.
    #[test]
    fn numbers_are_those_of_the_standard_library() {
        let mut state = 17_u64;
        for i in 0..200_000 {
            // Lehmer's generator, multiplier 48271; halves and whole numbers among them.
            state = state * 48_271 % 0x7fff_ffff;
            let value = [state as f64 / 1e5, state as f64 / 2e6, -(state as f64) / 3e7, (state % 9_000) as f64 / 64.0];
            let value = value[i % 4];
            let rounded = (value * 1e4).round() / 1e4;
            let want = if rounded == 0.0 { "0".to_owned() } else { format!("{rounded}") };
            assert_eq!(pushed(|out| push_short(out, value, 4)), want, "{value:?}");
        }
        assert_eq!(nearest(0.499_999_999_999_999_94), 0);
        assert_eq!((nearest(0.5), nearest(1.5), nearest(8_999_999_999_999_998.5)), (1, 2, 8_999_999_999_999_998));
    }
}
