//! Breadth and depth of a body from its girths, where nobody measured them.
//!
//! Least squares over 1,986 women, ANSUR II (Gordon et al. 2014, public release), mm; residual
//! standard deviation 9.7 and 11.5 mm at the waist, 8.9 and 11.2 mm at the hip. Bodies much
//! smaller or larger than those are taken as scaled ones, since the constants hold for adults.

/// Breadth at the waist level, mm.
pub fn waist_breadth(waist: f64, hip: f64) -> f64 {
    scaled(waist, hip, |w, h| 10.5 + 0.292 * w + 0.0372 * h)
}

/// Depth at the waist level, mm.
pub fn waist_depth(waist: f64, hip: f64) -> f64 {
    scaled(waist, hip, |w, h| -34.8 + 0.2965 * w - 0.0073 * h)
}

/// Breadth at the hip level, mm.
pub fn hip_breadth(waist: f64, hip: f64) -> f64 {
    scaled(hip, waist, |h, w| 12.0 + 0.3485 * h - 0.0164 * w)
}

/// Depth at the hip level, mm.
pub fn hip_depth(waist: f64, hip: f64) -> f64 {
    scaled(hip, waist, |h, w| -37.9 + 0.2085 * h + 0.0673 * w)
}

/// Girths that were among the 1,986, mm, rounded outward.
const KNOWN: (f64, f64) = (600.0, 1350.0);
/// The ratio of the other girth to this one.
const RATIO: (f64, f64) = (0.6, 1.7);

fn scaled(girth: f64, other: f64, line: impl Fn(f64, f64) -> f64) -> f64 {
    let near = girth.clamp(KNOWN.0, KNOWN.1);
    let ratio = (other / girth).clamp(RATIO.0, RATIO.1);
    line(near, near * ratio) * girth / near
}
