//! The sides of a polygon, laid out so that the distance to all of them is quickly found.

use kurbo::{Point, Vec2};

/// So many sides are measured at once.
const LANES: usize = 4;

/// Sides of a polygon, each number of theirs in a list of its own.
#[derive(Clone, Debug)]
pub(super) struct Sides {
    count: usize,
    /// As many as fill the last lanes; what is more repeats the last side.
    lanes: Vec<Lanes>,
}

/// Where sides start, how they run on, and one over the squares of their lengths.
#[derive(Clone, Copy, Debug, Default)]
struct Lanes {
    x: [f64; LANES],
    y: [f64; LANES],
    along_x: [f64; LANES],
    along_y: [f64; LANES],
    scale: [f64; LANES],
}

impl Lanes {
    /// The squares of the distances of a point from these sides.
    fn distances(&self, p: Point) -> [f64; LANES] {
        std::array::from_fn(|k| {
            let (x, y) = (p.x - self.x[k], p.y - self.y[k]);
            let share = (x * self.along_x[k] + y * self.along_y[k]) * self.scale[k];
            let share = if share < 0.0 { 0.0 } else { share };
            let share = if share > 1.0 { 1.0 } else { share };
            let (dx, dy) = (x - share * self.along_x[k], y - share * self.along_y[k]);
            dx * dx + dy * dy
        })
    }
}

impl Sides {
    pub(super) fn of(points: &[Point]) -> Self {
        let count = points.len();
        let mut lanes = vec![Lanes::default(); count.div_ceil(LANES)];
        for i in 0..lanes.len() * LANES {
            let (a, b) = (points[i.min(count - 1)], points[(i.min(count - 1) + 1) % count]);
            let (lane, k) = (&mut lanes[i / LANES], i % LANES);
            let along = b - a;
            (lane.x[k], lane.y[k], lane.along_x[k], lane.along_y[k]) = (a.x, a.y, along.x, along.y);
            lane.scale[k] = 1.0 / along.hypot2();
        }
        Self { count, lanes }
    }

    fn side(&self, i: usize) -> (Point, Vec2, f64) {
        let (lane, k) = (&self.lanes[i / LANES], i % LANES);
        (Point::new(lane.x[k], lane.y[k]), Vec2::new(lane.along_x[k], lane.along_y[k]), lane.scale[k])
    }

    /// Does a side cross the level of a point to the right of it?
    pub(super) fn is_right_of(&self, p: Point, i: usize) -> bool {
        let (from, along, _) = self.side(i);
        let (a, b) = (from.y, from.y + along.y);
        (a > p.y) != (b > p.y) && p.x < from.x + (p.y - a) / along.y * along.x
    }

    /// The distance of a point from the nearest side.
    pub(super) fn distance(&self, p: Point) -> f64 {
        let mut least = [f64::INFINITY; LANES];
        for lane in &self.lanes {
            let distances = lane.distances(p);
            for (least, d) in least.iter_mut().zip(distances) {
                *least = if d < *least { d } else { *least };
            }
        }
        least.into_iter().fold(f64::INFINITY, f64::min).sqrt()
    }

    /// The nearest point on any side.
    pub(super) fn nearest(&self, p: Point) -> Point {
        let mut best = (f64::INFINITY, 0);
        for (i, lane) in self.lanes.iter().enumerate() {
            for (k, d) in lane.distances(p).into_iter().enumerate() {
                if d < best.0 {
                    best = (d, i * LANES + k);
                }
            }
        }
        let (from, along, scale) = self.side(best.1);
        from + along * ((p - from).dot(along) * scale).clamp(0.0, 1.0)
    }

    /// A point on the polygon, by a share of its number of sides.
    pub(super) fn at(&self, share: f64) -> Point {
        let at = share * self.count as f64;
        let (from, along, _) = self.side((at as usize).min(self.count - 1));
        from + along * at.fract()
    }
}
