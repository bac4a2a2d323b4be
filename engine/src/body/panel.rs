//! A half of the torso flattened: where its level lines lie on paper.
//!
//! What is kept exactly is what a tape measures: each level's length, and the centre line, which
//! stays straight. On paper each level line starts square to the centre and turns on its way to the
//! side, by A·σ + B·σ³ at a share σ of its length; A is a quadratic of the depth, B linear. They
//! are chosen so that all other lengths on the surface (down it, and across both diagonals of a net
//! of 6 × 6 fields) are kept as well as they can be, by least squares. A cylinder comes out exactly,
//! and so does a cone.

use super::section::{Half, STEPS};
use super::torso::Torso;
use crate::curve::float;
use kurbo::{Point, Vec2};
use nalgebra::{SMatrix, SVector};

/// The front or the back of the torso on paper: x from the centre to the side, y down from the
/// waist level at the centre, mm, at no ease.
#[derive(Clone, Debug)]
pub struct Panel {
    half: Half,
    torso: Torso,
    bend: Bend,
}

/// How level lines turn: A's constant, linear and quadratic part in the share of the way from
/// waist to hip, then B's constant and linear part.
type Bend = SVector<f64, 5>;

/// Fields of the net down and across.
const DOWN: usize = 6;
const ACROSS: usize = STEPS / SKIP;
/// Every second place of a section.
const SKIP: usize = 2;

impl Panel {
    pub(super) fn of(torso: &Torso, half: Half) -> Self {
        let mut panel = Self { half, torso: torso.clone(), bend: Bend::zeros() };
        let net = Net::of(&panel);
        // Gauss–Newton, always as many steps, so that the result is smooth in every measurement;
        // from straight level lines it gains two digits a step on real bodies.
        for _ in 0..NEWTON_STEPS {
            panel.bend -= net.step(&panel.bend);
        }
        panel
    }

    /// Length of the level line at a depth along the side, from centre to side.
    pub fn length(&self, depth: f64) -> f64 {
        self.torso.section(depth).length(self.half)
    }

    /// How far the level line at this depth turns up from centre to side, radians.
    pub fn turn(&self, depth: f64) -> f64 {
        let Turn { even, late, .. } = self.turns(depth);
        even + late
    }

    /// The part of the rise that comes late, mm: a body is flat at its centres and turns towards its
    /// sides, and the level line at this depth rises nearly by (rise − late)·σ² + late·σ⁴ at a share σ of
    /// its length.
    pub fn late(&self, depth: f64) -> f64 {
        let square = BETWEEN * BETWEEN;
        self.sag(depth, BETWEEN) / (square * (1.0 - square))
    }

    fn turns(&self, depth: f64) -> Turn {
        Turn::of(&self.bend, eased(depth / self.torso.waist_to_hip()))
    }

    /// Where the place at a share of the way from centre to side lies, on the level of a depth.
    pub fn place(&self, depth: f64, share: f64) -> Point {
        let level = self.level_line(depth, share);
        Point::new(level.x, self.torso.centre(self.half, depth) - level.y)
    }

    /// By how much a level line rises from the centre to the side on paper, mm.
    pub fn rise(&self, depth: f64) -> f64 {
        self.level_line(depth, 1.0).y
    }

    /// From the centre along a level line, y up.
    fn level_line(&self, depth: f64, share: f64) -> Vec2 {
        let turn = self.turns(depth);
        let mut at = Walked::default();
        for i in 0..ACROSS {
            let part = share / ACROSS as f64;
            at = at.on(&turn, (part * i as f64, part));
        }
        at.place * self.length(depth)
    }

    /// How much lower the level line at this depth lies at a share of the way to the side than a parabola of
    /// the same rise, mm.
    pub fn sag(&self, depth: f64, share: f64) -> f64 {
        share * share * self.rise(depth) - self.level_line(depth, share).y
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

/// Where a late rise shows most, as a share of the way to the side.
const BETWEEN: f64 = 0.7;
/// Slopes are taken over this much depth to either side, mm.
const LEAN_OVER: f64 = 1.0;
const NEWTON_STEPS: usize = 5;
/// A and B never exceed these, radians; only impossible bodies come near.
const MOST_TURN: (f64, f64) = (1.2, 0.8);
/// Keeps the equations solvable where a body is so small that nothing turns.
const RIDGE: f64 = 1e-9;

/// A and B of one level, and their derivatives by the sums that they are the limits of.
struct Turn {
    even: f64,
    late: f64,
    slopes: (f64, f64),
    t: f64,
}

impl Turn {
    fn of(bend: &Bend, t: f64) -> Self {
        let limited = |value: f64, most: f64| {
            let part = float::tanh(value / most);
            (most * part, 1.0 - part * part)
        };
        let (even, a) = limited(bend[0] + t * (bend[1] + t * bend[2]), MOST_TURN.0);
        let (late, b) = limited(bend[3] + t * bend[4], MOST_TURN.1);
        Self { even, late, slopes: (a, b), t }
    }

    /// By the five coefficients of a bend, from those by A and B.
    fn by_bend(&self, a: f64, b: f64) -> Bend {
        let (a, b) = (a * self.slopes.0, b * self.slopes.1);
        Bend::from([a, a * self.t, a * self.t * self.t, b, b * self.t])
    }
}

/// So far along a level line of length 1: the place, y up, and how it moves with A and with B.
#[derive(Clone, Copy, Default)]
struct Walked {
    place: Vec2,
    by_even: Vec2,
    by_late: Vec2,
}

impl Walked {
    /// On by a part of the length, with the two-point rule of Gauss: off by under 1e-6 of it for
    /// parts of a sixth.
    fn on(mut self, turn: &Turn, (from, part): (f64, f64)) -> Self {
        for node in [0.211_324_865_405_187_1, 0.788_675_134_594_812_9] {
            let share = from + part * node;
            let cube = share * share * share;
            let (sin, cos) = float::sincos(turn.even * share + turn.late * cube);
            let (along, out) = (Vec2::new(cos, sin) * (0.5 * part), Vec2::new(-sin, cos) * (0.5 * part));
            self.place += along;
            self.by_even += out * share;
            self.by_late += out * cube;
        }
        self
    }
}

/// Beyond waist and hip the turn soon stays what it is there.
fn eased(t: f64) -> f64 {
    const WITHIN: f64 = 0.2;
    if t < 0.0 {
        WITHIN * (float::exp(t / WITHIN) - 1.0)
    } else if t > 1.0 {
        1.0 + WITHIN * (1.0 - float::exp(-(t - 1.0) / WITHIN))
    } else {
        t
    }
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
        let levels = std::array::from_fn(|i| {
            let (length, shares) = across(&points[i]);
            let centre = torso.centre(panel.half, depth(i));
            Level { t: i as f64 / DOWN as f64, length, centre, shares }
        });
        let heights: [f64; DOWN + 1] = std::array::from_fn(|i| torso.height(depth(i)));
        let line = |i: usize, j: usize, k: usize| {
            let flat = points[i + 1][SKIP * k] - points[i][SKIP * j];
            Line { from: (i, j), to: (i + 1, k), length: float::hypot(flat.hypot(), heights[i + 1] - heights[i]) }
        };
        let across = (0..DOWN).flat_map(|i| (0..=ACROSS).map(move |j| (i, j)));
        let lines = across.flat_map(|(i, j)| {
            let diagonals = (j < ACROSS).then(|| [line(i, j, j + 1), line(i, j + 1, j)]);
            std::iter::once(line(i, j, j)).chain(diagonals.into_iter().flatten())
        });
        Self { levels, lines: lines.collect() }
    }

    /// The Gauss–Newton step of the bend's coefficients. A residual is a line's strain.
    fn step(&self, bend: &Bend) -> Bend {
        let turns: [Turn; DOWN + 1] = std::array::from_fn(|i| Turn::of(bend, self.levels[i].t));
        let placed: [_; DOWN + 1] = std::array::from_fn(|i| self.levels[i].placed(&turns[i]));
        let (mut normal, mut right) = (SMatrix::<f64, 5, 5>::identity() * RIDGE, Bend::zeros());
        for line in &self.lines {
            let (a, b) = (&placed[line.from.0][line.from.1], &placed[line.to.0][line.to.1]);
            let way = b.place - a.place;
            let length = way.hypot().max(f64::MIN_POSITIVE);
            let along = way / (length * line.length);
            let row = turns[line.to.0].by_bend(along.dot(b.by_even), along.dot(b.by_late))
                - turns[line.from.0].by_bend(along.dot(a.by_even), along.dot(a.by_late));
            normal += row * row.transpose();
            right += row * (length / line.length - 1.0);
        }
        normal.cholesky().map_or_else(Bend::zeros, |c| c.solve(&right))
    }
}

impl Level {
    /// Each place on paper, y down, and how it moves with the turn.
    fn placed(&self, turn: &Turn) -> [Walked; ACROSS + 1] {
        let mut at = Walked::default();
        let mut from = 0.0;
        self.shares.map(|share| {
            at = at.on(turn, (from, share - from));
            from = share;
            let down = |v: Vec2| Vec2::new(v.x, -v.y) * self.length;
            let place = down(at.place) + Vec2::new(0.0, self.centre);
            Walked { place, by_even: down(at.by_even), by_late: down(at.by_late) }
        })
    }
}

/// The net's own length along a level, and its places across as shares of it: chords throughout,
/// as the net's other lines are, so that a cylinder's net lies flat without a strain.
fn across(points: &[Vec2; STEPS + 1]) -> (f64, [f64; ACROSS + 1]) {
    let mut along = [0.0; ACROSS + 1];
    for j in 0..ACROSS {
        along[j + 1] = along[j] + (points[SKIP * (j + 1)] - points[SKIP * j]).hypot();
    }
    let length = along[ACROSS];
    (length, along.map(|a| a / length))
}
