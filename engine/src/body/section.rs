//! A level section of the body: a front half and a back half that meet at the sides.
//!
//! Each half is an affine image of one unit curve: the Minkowski mean of the unit circle and of
//! the superellipse |x|⁶ + |y|⁶ = 1, (1 − s)·circle + s·superellipse. Its perimeter is the same
//! mean of their perimeters (Cauchy: perimeters of convex curves add under Minkowski addition), so
//! that the squareness s follows from a girth without a search. For s in 0…1 it is convex. At the
//! centres and the sides its curvature vanishes like the superellipse's, and halves of any depth
//! meet there with one tangent and one curvature.

use crate::curve::float;
use kurbo::Vec2;
use std::sync::LazyLock;

/// Front or back of the body.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Half {
    /// Before the line between the sides.
    Front,
    /// Behind it.
    Back,
}

/// A level section, mm: x to the side, y to the front, the widest points on y = 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// From the middle to the side.
    pub half_breadth: f64,
    /// From the line between the sides to the centre front.
    pub front: f64,
    /// From the line between the sides to the centre back.
    pub back: f64,
    /// 0 an ellipse, 1 the superellipse of exponent 6.
    pub squareness: f64,
}

/// Steps along a quarter of the unit curve.
pub(super) const STEPS: usize = 12;
/// Exponent of the squarer of the two unit curves. 6 reaches girths 16 % over the ellipse's; of
/// 1,986 women 95 % are under 12.5 % (breadth, depth and girth of ANSUR II).
const EXPONENT: f64 = 6.0;
/// Under this squareness the curvature would jump at the sides for all one sees.
const LEAST_SQUARE: f64 = 0.03;

impl Section {
    /// The section with this girth that is as broad and deep as wanted, if it can be.
    ///
    /// A girth too short for the breadth and depth, or too long for them, scales both until it is
    /// not: the tape is believed before the rulers.
    pub(super) fn with_girth(girth: f64, half_breadth: f64, front: f64, back: f64) -> Self {
        let round = Quarter::Round.length(half_breadth, front) + Quarter::Round.length(half_breadth, back);
        let square = Quarter::Square.length(half_breadth, front) + Quarter::Square.length(half_breadth, back);
        let wanted = (0.5 * girth - round) / (square - round);
        let squareness = wanted.clamp(LEAST_SQUARE, 1.0);
        let scale = 0.5 * girth / (round + squareness * (square - round));
        Self { half_breadth: half_breadth * scale, front: front * scale, back: back * scale, squareness }
    }

    /// From the side line to the centre.
    pub fn depth(&self, half: Half) -> f64 {
        match half {
            Half::Front => self.front,
            Half::Back => self.back,
        }
    }

    /// Length of a quarter of the section, from the centre to one side, mm. Quadrature good to
    /// 1e-6 of it for depths of a quarter to four times the half breadth.
    pub fn length(&self, half: Half) -> f64 {
        let (a, b) = (self.half_breadth, self.depth(half));
        (1.0 - self.squareness) * Quarter::Round.length(a, b) + self.squareness * Quarter::Square.length(a, b)
    }

    /// The whole girth, mm.
    pub fn girth(&self) -> f64 {
        2.0 * (self.length(Half::Front) + self.length(Half::Back))
    }

    /// Points of a quarter from the centre to the side, at fixed places of the unit curve; y to
    /// the front.
    pub(super) fn points(&self, half: Half) -> [Vec2; STEPS + 1] {
        UNIT.places.map(|unit| self.stretched(half, unit))
    }

    /// A point of a quarter, from the centre, at a share of 0, to the side, at 1; the share is no
    /// length. x to the side, y to the front.
    pub fn at(&self, half: Half, share: f64) -> Vec2 {
        self.stretched(half, place(share))
    }

    fn stretched(&self, half: Half, (round, square): (Vec2, Vec2)) -> Vec2 {
        let unit = round * (1.0 - self.squareness) + square * self.squareness;
        let y = if half == Half::Front { self.front } else { -self.back };
        Vec2::new(unit.x * self.half_breadth, unit.y * y)
    }
}

/// The two unit curves.
#[derive(Clone, Copy)]
enum Quarter {
    Round,
    Square,
}

impl Quarter {
    /// Length of its quarter, stretched to a across and b deep.
    fn length(self, a: f64, b: f64) -> f64 {
        let steps = match self {
            Self::Round => &UNIT.round,
            Self::Square => &UNIT.square,
        };
        // Millimetres are far from overflowing, and a root is three times as fast as hypot.
        steps.iter().map(|(dx, dy)| (a * a * dx * dx + b * b * dy * dy).sqrt()).sum()
    }
}

/// What does not depend on the body.
struct Unit {
    /// Weighted derivatives at the nodes of a quadrature, so that a length is a sum of norms.
    round: Vec<(f64, f64)>,
    square: Vec<(f64, f64)>,
    /// Points of circle and superellipse with one normal, from the centre to the side.
    places: [(Vec2, Vec2); STEPS + 1],
}

static UNIT: LazyLock<Unit> = LazyLock::new(|| Unit { round: round_steps(), square: square_steps(), places: places() });

/// The trapezoidal rule on a quarter of the circle: the integrand is even and periodic there, so
/// that it converges geometrically.
fn round_steps() -> Vec<(f64, f64)> {
    const N: u32 = 16;
    (0..=N)
        .map(|i| {
            let angle = std::f64::consts::FRAC_PI_2 * f64::from(i) / f64::from(N);
            let weight = std::f64::consts::FRAC_PI_2 / f64::from(N) * if i == 0 || i == N { 0.5 } else { 1.0 };
            (weight * float::cos(angle), weight * float::sin(angle))
        })
        .collect()
}

/// Gauss–Legendre on the two halves of a quarter of the superellipse, y over x and x over y.
fn square_steps() -> Vec<(f64, f64)> {
    let end = float::pow(0.5_f64, 1.0 / EXPONENT);
    let halves = GAUSS.iter().flat_map(|(node, weight)| [(-node, *weight), (*node, *weight)]).map(|(node, weight)| {
        let x = 0.5 * end * (1.0 + node);
        let slope = float::pow(x / float::pow(1.0 - float::pow(x, EXPONENT), 1.0 / EXPONENT), EXPONENT - 1.0);
        (0.5 * end * weight, 0.5 * end * weight * slope)
    });
    let near_centre: Vec<_> = halves.collect();
    let near_side = near_centre.iter().map(|(dx, dy)| (*dy, *dx)).collect::<Vec<_>>();
    [near_centre, near_side].concat()
}

/// Positive nodes and weights of the ten-point rule (Abramowitz & Stegun, table 25.4).
const GAUSS: [(f64, f64); 5] = [
    (0.148_874_338_981_631_22, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_35),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

/// Spread so that neither the flats nor the corners of a section are without points.
const SPREAD: f64 = 2.5;

fn places() -> [(Vec2, Vec2); STEPS + 1] {
    std::array::from_fn(|i| place(i as f64 / STEPS as f64))
}

/// The points of circle and superellipse with one normal, at a share of the way from the centre,
/// at 0, to the side, at 1.
fn place(share: f64) -> (Vec2, Vec2) {
    if share <= 0.0 {
        return (Vec2::new(0.0, 1.0), Vec2::new(0.0, 1.0));
    }
    if share >= 1.0 {
        return (Vec2::new(1.0, 0.0), Vec2::new(1.0, 0.0));
    }
    let (sin, cos) = float::sincos(std::f64::consts::FRAC_PI_2 * share);
    let normal = Vec2::new(float::pow(sin, SPREAD), float::pow(cos, SPREAD)).normalize();
    // The point with this normal is the gradient of the dual norm, of exponent n/(n − 1).
    let dual = EXPONENT / (EXPONENT - 1.0);
    let norm = float::pow(float::pow(normal.x, dual) + float::pow(normal.y, dual), (dual - 1.0) / dual);
    (normal, Vec2::new(float::pow(normal.x, dual - 1.0), float::pow(normal.y, dual - 1.0)) / norm)
}
