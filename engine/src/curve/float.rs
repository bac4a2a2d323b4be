//! Functions of floats that give the same bits on every system.
//!
//! IEEE 754 settles `+ - * /`, the square root and the fused multiply-add to the last bit; sines, powers
//! and the like it leaves to each system's C library, and those differ. These are of one library in
//! Rust, compiled in. kurbo is built on the same one (its feature `libm`); of nalgebra only what IEEE
//! settles is used; lyon's crossings are polished afterwards until they do not move.

pub use libm::{acos, asin, atan, atan2, cbrt, cos, exp, hypot, pow, sin, sincos, tan, tanh};

/// The second power.
pub const fn square(v: f64) -> f64 {
    v * v
}

/// The third power.
pub const fn cube(v: f64) -> f64 {
    v * v * v
}
