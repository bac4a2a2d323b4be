//! Functions of floats that give the same bits on every system.
//!
//! IEEE 754 settles `+ - * /`, the square root and the fused multiply-add to the last bit; sines, powers
//! and the like it leaves to each system's C library, and those differ. These are of one library in
//! Rust, compiled in. kurbo is built on the same one (its feature `libm`); of nalgebra only what IEEE
//! settles is used; lyon's crossings are polished afterwards until they do not move.

pub use libm::{acos, asin, atan, atan2, cbrt, cos, exp, sin, sincos, tan, tanh};

/// The length of a vector: of millimetres, whose squares neither overflow nor vanish, so that a root is
/// enough, in a seventh of the time.
pub fn hypot(x: f64, y: f64) -> f64 {
    (x * x + y * y).sqrt()
}

/// A power of a number that is not negative, within a few units of the last place; in a fifth of the time
/// of the library's, which is exact to one.
pub fn pow(base: f64, exponent: f64) -> f64 {
    exp(exponent * libm::log(base))
}

/// The second power.
pub const fn square(v: f64) -> f64 {
    v * v
}

/// The third power.
pub const fn cube(v: f64) -> f64 {
    v * v * v
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn powers_and_lengths_are_those_of_the_system_to_fourteen_digits() {
        for i in 0..1000 {
            let (base, exponent) = (f64::from(i) / 300.0, f64::from(i % 70) / 20.0 + 0.05);
            let (own, other) = (pow(base, exponent), base.powf(exponent));
            assert!((own - other).abs() <= 1e-14 * other, "{base} to {exponent}: {own} for {other}");
            let (own, other) = (hypot(base, exponent), base.hypot(exponent));
            assert!((own - other).abs() <= 1e-15 * other);
        }
        assert_eq!((pow(0.0, 0.5), pow(1.0, 7.3)), (0.0, 1.0));
    }
}
