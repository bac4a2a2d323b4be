//! A half of the torso flattened: where its level lines lie on paper.
//!
//! What is kept exactly is what a tape measures: each level's length, and the centre line, which
//! stays straight. On paper each level line is then an arc that starts square to the centre and
//! turns by Ψ on its way to the side. The turn, a quadratic of the depth, is chosen so that all
//! other lengths on the surface (down it, and across both diagonals of a net of 6 × 6 fields) are
//! kept as well as they can be, by least squares. A cylinder and a cone come out exactly.

use super::section::{Half, STEPS};
use super::torso::Torso;
use kurbo::{Point, Vec2};
use nalgebra::{Matrix3, Vector3};

/// The front or the back of the torso on paper: x from the centre to the side, y down from the
/// waist level at the centre, mm, at no ease.
#[derive(Clone, Debug)]
pub struct Panel {
    half: Half,
    torso: Torso,
    /// Of the turn: constant, linear, quadratic in the share of the way from waist to hip.
    turn: Vector3<f64>,
}

/// Fields of the net down and across.
const DOWN: usize = 6;
const ACROSS: usize = STEPS / SKIP;
/// Every second place of a section.
const SKIP: usize = 2;

impl Panel {
    pub(super) fn of(torso: &Torso, half: Half) -> Self {
        let mut panel = Self { half, torso: torso.clone(), turn: Vector3::zeros() };
        let net = Net::of(&panel);
        // Gauss–Newton, always as many steps, so that the result is smooth in every measurement;
        // from straight level lines it gains two digits a step on real bodies.
        for _ in 0..NEWTON_STEPS {
            panel.turn -= net.step(&panel.turn);
        }
        panel
    }

    /// Length of the level line at a depth along the side, from centre to side.
    pub fn length(&self, depth: f64) -> f64 {
        self.torso.section(depth).length(self.half)
    }

    /// How far the level line at this depth turns up from centre to side, radians.
    pub fn turn(&self, depth: f64) -> f64 {
        let t = eased(depth / self.torso.waist_to_hip());
        limited(self.turn.dot(&powers(t))).0
    }

    /// Where the place at a share of the way from centre to side lies, on the level of a depth.
    pub fn place(&self, depth: f64, share: f64) -> Point {
        let arc = arc(self.length(depth), self.turn(depth), share);
        Point::new(arc.x, self.torso.centre(self.half, depth) - arc.y)
    }

    /// By how much a level line rises from the centre to the side on paper, mm.
    pub fn rise(&self, depth: f64) -> f64 {
        arc(self.length(depth), self.turn(depth), 1.0).y
    }

    /// Where the side lies at this depth along it.
    pub fn side(&self, depth: f64) -> Point {
        self.place(depth, 1.0)
    }

    /// How much higher than its depth the side lies on paper, mm: the rise of the level line, less
    /// what the centre is longer than the side down to this level.
    pub fn lift(&self, depth: f64) -> f64 {
        depth - self.side(depth).y
    }

    /// How much the side leans out on its way down, dx/dy.
    pub fn lean(&self, depth: f64) -> f64 {
        let way = self.side(depth + LEAN_OVER) - self.side(depth - LEAN_OVER);
        way.x / way.y
    }
}

/// Slopes are taken over this much depth to either side, mm.
const LEAN_OVER: f64 = 1.0;
const NEWTON_STEPS: usize = 5;
/// A level line never turns by more, radians; impossible bodies come near it.
const MOST_TURN: f64 = 1.3;
/// Keeps the equations solvable where a body is so small that nothing turns.
const RIDGE: f64 = 1e-9;

fn powers(t: f64) -> Vector3<f64> {
    Vector3::new(1.0, t, t * t)
}

/// The turn never exceeds [`MOST_TURN`]; with the derivative.
fn limited(turn: f64) -> (f64, f64) {
    let limited = (turn / MOST_TURN).tanh();
    (MOST_TURN * limited, 1.0 - limited * limited)
}

/// Beyond waist and hip the turn soon stays what it is there.
fn eased(t: f64) -> f64 {
    const WITHIN: f64 = 0.2;
    if t < 0.0 {
        WITHIN * ((t / WITHIN).exp() - 1.0)
    } else if t > 1.0 {
        1.0 + WITHIN * (1.0 - (-(t - 1.0) / WITHIN).exp())
    } else {
        t
    }
}

/// The end of an arc of this length, a share of the way along it, that starts along x and turns
/// towards y by `turn` over its whole length.
fn arc(length: f64, turn: f64, share: f64) -> Vec2 {
    let angle = turn * share;
    Vec2::new(sinc(angle), angle * versinc(angle)) * (length * share)
}

/// sin(a)/a.
fn sinc(a: f64) -> f64 {
    if a.abs() < 1e-4 { 1.0 - a * a / 6.0 } else { a.sin() / a }
}

/// (1 − cos a)/a².
fn versinc(a: f64) -> f64 {
    let half = sinc(0.5 * a);
    0.5 * half * half
}

/// How the end of an arc moves with its turn.
fn arc_slope(length: f64, turn: f64, share: f64) -> Vec2 {
    let a = turn * share;
    // d/da of sin(a)/a and (1 − cos a)/a.
    let (x, y) =
        if a.abs() < 1e-3 { (-a / 3.0, 0.5 - a * a / 8.0) } else { ((a.cos() - sinc(a)) / a, sinc(a) - versinc(a)) };
    Vec2::new(x, y) * (length * share * share)
}

/// A net over the surface: its levels, and the lengths of its lines.
struct Net {
    levels: [Level; DOWN + 1],
    /// Down, and along both diagonals, from each level to the next.
    lines: Vec<Line>,
}

struct Level {
    t: f64,
    length: f64,
    centre: f64,
    /// Shares of the length at the places across.
    shares: [f64; ACROSS + 1],
}

/// From a place of one level to a place of the next.
struct Line {
    from: (usize, usize),
    to: (usize, usize),
    length: f64,
}

impl Net {
    fn of(panel: &Panel) -> Self {
        let torso = &panel.torso;
        let depth = |i: usize| torso.waist_to_hip() * i as f64 / DOWN as f64;
        let points: [_; DOWN + 1] = std::array::from_fn(|i| torso.section(depth(i)).points(panel.half));
        let levels = std::array::from_fn(|i| Level {
            t: i as f64 / DOWN as f64,
            length: panel.length(depth(i)),
            centre: torso.centre(panel.half, depth(i)),
            shares: shares(&points[i]),
        });
        let heights: [f64; DOWN + 1] = std::array::from_fn(|i| torso.height(depth(i)));
        let line = |i: usize, j: usize, k: usize| {
            let flat = points[i + 1][SKIP * k] - points[i][SKIP * j];
            Line { from: (i, j), to: (i + 1, k), length: flat.hypot().hypot(heights[i + 1] - heights[i]) }
        };
        let across = (0..DOWN).flat_map(|i| (0..=ACROSS).map(move |j| (i, j)));
        let lines = across.flat_map(|(i, j)| {
            let diagonals = (j < ACROSS).then(|| [line(i, j, j + 1), line(i, j + 1, j)]);
            std::iter::once(line(i, j, j)).chain(diagonals.into_iter().flatten())
        });
        Self { levels, lines: lines.collect() }
    }

    /// The Gauss–Newton step of the turn's coefficients. A residual is a line's strain.
    fn step(&self, turn: &Vector3<f64>) -> Vector3<f64> {
        let placed: [_; DOWN + 1] = std::array::from_fn(|i| self.levels[i].placed(turn));
        let (mut normal, mut right) = (Matrix3::identity() * RIDGE, Vector3::zeros());
        for line in &self.lines {
            let (a, slope_a) = placed[line.from.0][line.from.1];
            let (b, slope_b) = placed[line.to.0][line.to.1];
            let way = b - a;
            let length = way.hypot().max(f64::MIN_POSITIVE);
            let along = |slope: Vec2| way.dot(slope) / (length * line.length);
            let row =
                powers(self.levels[line.to.0].t) * along(slope_b) - powers(self.levels[line.from.0].t) * along(slope_a);
            normal += row * row.transpose();
            right += row * (length / line.length - 1.0);
        }
        normal.cholesky().map_or_else(Vector3::zeros, |c| c.solve(&right))
    }
}

impl Level {
    /// Each place on paper, and how it moves with the turn before it is limited.
    fn placed(&self, turn: &Vector3<f64>) -> [(Vec2, Vec2); ACROSS + 1] {
        let (turn, slope) = limited(turn.dot(&powers(self.t)));
        self.shares.map(|share| {
            let at = arc(self.length, turn, share);
            let moves = arc_slope(self.length, turn, share) * slope;
            (Vec2::new(at.x, self.centre - at.y), Vec2::new(moves.x, -moves.y))
        })
    }
}

/// Shares of a quarter's length at every second of its points, by chords.
fn shares(points: &[Vec2; STEPS + 1]) -> [f64; ACROSS + 1] {
    let mut along = [0.0; STEPS + 1];
    for i in 0..STEPS {
        along[i + 1] = along[i] + (points[i + 1] - points[i]).hypot();
    }
    std::array::from_fn(|j| along[SKIP * j] / along[STEPS])
}
