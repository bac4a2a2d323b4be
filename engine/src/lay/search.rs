//! The search for a short lay: pieces overlap at first, and are moved until none does.
//!
//! The strip is made shorter, which pushes pieces into each other. Then every piece that comes too
//! near another goes to the best place found for it, over and over; each pair that stays too near
//! weighs more from sweep to sweep, so that the pieces do not settle where they are stuck (guided
//! local search, Voudouris and Tsang 1999; for laying out: Egeblad, Nielsen and Odgaard 2007). Once
//! all are clear, the strip is made shorter again.
//!
//! Only sums, products, quotients and roots are taken, and chance has a seed: the same everywhere.

use super::pairs::Pairs;
use super::shape::Place;
use super::task::Task;
use fastrand::Rng;
use kurbo::{Point, Vec2};

/// Chance has this seed.
const SEED: u64 = 14;
/// The first strip is so long that the boxes of the pieces would fill this share of it.
const FIRST_USE: f64 = 1.1;
/// The strip is made longer by this share where its pieces cannot be got clear at first.
const LONGER: f64 = 0.1;
/// By which share of itself the strip is made shorter: at first, and at least.
const SHORTER: (f64, f64) = (0.04, 0.0008);
/// What becomes of that share where the pieces cannot be got clear.
const CALMER: f64 = 0.6;
/// So many sweeps without getting better are as good as stuck.
const PATIENCE: usize = 60;
/// Less overlap than this share of the least so far counts as better.
const BETTER: f64 = 0.98;
/// How much more a pair weighs where it stays too near: the deepest pair, and any.
const HEAVIER: (f64, f64) = (1.0, 0.2);
/// What remains of the weight of a pair that is clear.
const LIGHTER: f64 = 0.95;
/// Places that are tried for a piece: anywhere, touching another, near where it lies.
const TRIED: [usize; 3] = [6, 14, 4];
/// How far from where it lies, mm.
const NEAR: f64 = 30.0;
/// So many of the places tried are made better.
const BETTERED: usize = 2;
/// A place is made better by steps from so large to so small, mm.
const STEP: (f64, f64) = (16.0, 0.02);

/// Boxes that lie further apart than this, times the distance at which they keep the gap and mm more,
/// keep it for certain: polygons and what stands for a circle reach a little beyond theirs.
const FAR: (f64, f64) = (1.02, 1.0);

/// A step that was worth it is made larger, any other smaller.
const FURTHER: f64 = 1.2;
const NEARER: f64 = 0.7;
/// The ways that steps go.
const WAYS: [(f64, f64); 8] =
    [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0), (0.7, 0.7), (-0.7, 0.7), (0.7, -0.7), (-0.7, -0.7)];
/// So many steps, and before them so many ways out of others, at most.
const STEPS: usize = 24;
const PUSHES: usize = 8;

/// How far the search has come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Progress {
    /// Steps taken.
    pub step: u64,
    /// All steps.
    pub of: u64,
    /// The shortest lay so far, mm.
    pub length: f64,
}

/// A lay as long as its tallest piece but for roundings is as short as can be, mm.
const NO_LONGER: f64 = 1e-3;

/// The shortest lay found in so many steps; a step is one piece looked after. Only a lay that is
/// `sound` is taken: what the no-fit polygons let through is measured on the outlines.
pub(super) fn shortest(
    task: &Task<'_>,
    steps: u64,
    sound: &dyn Fn(&[Place]) -> bool,
    told: &mut dyn FnMut(Progress),
) -> Vec<Place> {
    let mut search = Search::new(task, steps);
    let mut best = search.first(sound);
    let mut by = SHORTER.0;
    while search.left > 0 && task.length(&best) > task.tallest() + NO_LONGER {
        told(Progress { step: steps - search.left, of: steps, length: task.length(&best) });
        search.shorten((task.length(&best) * (1.0 - by)).max(task.tallest()));
        if search.finds(sound) {
            best.clone_from(&search.places);
        } else {
            by = (by * CALMER).max(SHORTER.1);
            search.put_all(&best);
            search.swap_two();
        }
    }
    best
}

/// One above the other: long, but clear.
fn stacked(task: &Task<'_>) -> Vec<Place> {
    let mut top = 0.0;
    let one = |i: usize| {
        let room = task.room(i, false, 0.0);
        let at = Point::new(room.x0, room.y0 + top);
        top += task.shapes[task.pieces[i]].bounds.height() + task.table.apart();
        Place { at, is_turned: false }
    };
    (0..task.pieces.len()).map(one).collect()
}

struct Search<'a> {
    task: &'a Task<'a>,
    rng: Rng,
    length: f64,
    places: Vec<Place>,
    /// From where to where each reaches along the cloth, mm.
    spans: Vec<(f64, f64)>,
    /// How far each pair is from keeping the gap.
    depths: Pairs,
    weights: Pairs,
    left: u64,
}

impl<'a> Search<'a> {
    fn new(task: &'a Task<'a>, steps: u64) -> Self {
        let n = task.pieces.len();
        let mut search = Self {
            task,
            rng: Rng::with_seed(SEED),
            length: 0.0,
            places: vec![Place { at: Point::ZERO, is_turned: false }; n],
            spans: vec![(0.0, 0.0); n],
            depths: Pairs::new(n, 0.0),
            weights: Pairs::new(n, 1.0),
            left: steps,
        };
        search.length = search.first_target();
        for i in 0..n {
            let place = search.anywhere(i);
            search.put(i, place);
        }
        search
    }

    fn first_target(&self) -> f64 {
        let area: f64 = self.task.pieces.iter().map(|s| self.task.shapes[*s].bounds.area()).sum();
        (area / (FIRST_USE * self.task.width)).max(self.task.tallest())
    }

    /// On the shortest of ever longer strips on which all pieces can be got clear.
    fn first(&mut self, sound: &dyn Fn(&[Place]) -> bool) -> Vec<Place> {
        let mut best = stacked(self.task);
        let mut length = self.length;
        while self.left > 0 && length < self.task.length(&best) {
            self.shorten(length);
            if self.finds(sound) {
                best.clone_from(&self.places);
            }
            length *= 1.0 + LONGER;
        }
        best
    }

    /// On a strip of another length; what lies beyond its end is pushed in.
    fn shorten(&mut self, length: f64) {
        self.length = length;
        for i in 0..self.places.len() {
            self.put(i, self.pushed_in(i, self.places[i]));
        }
        self.weights.fill(1.0);
        self.measure();
    }

    /// Two pieces of unlike shape change places.
    fn swap_two(&mut self) {
        let n = self.places.len();
        let (i, j) = (below(&mut self.rng, n), below(&mut self.rng, n));
        if self.task.pieces[i] != self.task.pieces[j] {
            let centre = |k: usize, p: Place| p.at + self.task.bounds(k, p.is_turned).center().to_vec2();
            let (p, q) = (self.places[i], self.places[j]);
            let (from, to) = (centre(i, p), centre(j, q));
            self.put(i, Place { at: p.at + (to - from), ..p });
            self.put(j, Place { at: q.at + (from - to), ..q });
        }
    }

    fn measure(&mut self) {
        for i in 0..self.places.len() {
            self.measure_piece(i);
        }
    }

    fn measure_piece(&mut self, i: usize) {
        for j in (0..self.places.len()).filter(|j| *j != i) {
            let depth = self.task.table.depth(self.placed(i), self.placed(j));
            self.depths.set(i, j, depth);
        }
    }

    /// The others, without those so far up or down the cloth that nothing has to be measured: of many
    /// pieces that is nearly all.
    fn near_to(&self, i: usize, place: Place) -> impl Iterator<Item = usize> + '_ {
        let apart = FAR.0 * self.task.table.apart() + FAR.1;
        let (low, high) = self.span(i, place);
        let (low, high) = (low - apart, high + apart);
        let near = move |(j, span): (usize, &(f64, f64))| (span.0 < high && low < span.1 && j != i).then_some(j);
        self.spans.iter().enumerate().filter_map(near)
    }

    fn span(&self, i: usize, place: Place) -> (f64, f64) {
        let b = self.task.bounds(i, place.is_turned);
        (place.at.y + b.y0, place.at.y + b.y1)
    }

    fn put(&mut self, i: usize, place: Place) {
        self.places[i] = place;
        self.spans[i] = self.span(i, place);
    }

    fn put_all(&mut self, places: &[Place]) {
        for (i, place) in places.iter().enumerate() {
            self.put(i, *place);
        }
    }

    fn placed(&self, i: usize) -> (usize, Place) {
        (self.task.pieces[i], self.places[i])
    }

    /// Gets all pieces clear of each other, and that is sound.
    fn finds(&mut self, sound: &dyn Fn(&[Place]) -> bool) -> bool {
        let before = self.left;
        let is_clear = self.separate();
        let is_found = is_clear && sound(&self.places);
        if is_clear && (!is_found || self.left == before) {
            // So that it ends, even where no piece has to be looked after.
            self.left = self.left.saturating_sub(1);
        }
        is_found
    }

    /// Moves pieces until all are clear of each other; says whether they are.
    fn separate(&mut self) -> bool {
        let mut least = f64::INFINITY;
        let mut since = 0;
        let mut order: Vec<usize> = (0..self.places.len()).collect();
        while since < PATIENCE && self.left > 0 {
            (1..order.len()).for_each(|i| order.swap(i, below(&mut self.rng, i + 1)));
            for i in &order {
                if self.left > 0 && self.depths.row(*i).any(|d| d > 0.0) {
                    self.left -= 1;
                    self.look_after(*i);
                }
            }
            let (total, deepest) = self.depths.sum_and_most();
            if total == 0.0 {
                return true;
            }
            since += 1;
            if total < BETTER * least {
                (least, since) = (total, 0);
            }
            self.weigh(deepest);
        }
        false
    }

    fn weigh(&mut self, deepest: f64) {
        let (depths, weights) = (&self.depths, &mut self.weights);
        weights.change(|i, j, weight| match depths.get(i, j) {
            depth if depth > 0.0 => weight * (1.0 + HEAVIER.1 + (HEAVIER.0 - HEAVIER.1) * depth / deepest),
            _ => (weight * LIGHTER).max(1.0),
        });
    }

    /// Puts a piece at the best of the places that are tried, if that is better.
    fn look_after(&mut self, i: usize) {
        let here = self.cost(i, self.places[i], f64::INFINITY);
        let mut best: [(f64, Place); BETTERED] = [(f64::INFINITY, self.places[i]); BETTERED];
        for place in self.tried(i) {
            let cost = self.cost(i, place, best[BETTERED - 1].0);
            if let Some(at) = best.iter().position(|(worse, _)| cost < *worse) {
                best[at..].rotate_right(1);
                best[at] = (cost, place);
            }
        }
        let found = best.map(|one| self.bettered(i, one)).into_iter().min_by(|a, b| a.0.total_cmp(&b.0));
        if let Some((_, place)) = found.filter(|(cost, _)| *cost < here) {
            self.put(i, place);
            self.measure_piece(i);
        }
    }

    fn tried(&mut self, i: usize) -> Vec<Place> {
        let [anywhere, touching, near] = TRIED;
        let mut tried = vec![self.places[i]];
        tried.extend((0..anywhere).map(|_| self.anywhere(i)));
        tried.extend((0..touching).map(|_| self.touching(i)));
        tried.extend((0..near).map(|_| self.near(i)));
        tried
    }

    fn anywhere(&mut self, i: usize) -> Place {
        let is_turned = self.any_turn();
        let room = self.task.room(i, is_turned, self.length);
        let at = Point::new(room.x0 + self.rng.f64() * room.width(), room.y0 + self.rng.f64() * room.height());
        Place { at, is_turned }
    }

    fn touching(&mut self, i: usize) -> Place {
        let n = self.places.len();
        let is_turned = self.any_turn();
        let other = (i + 1 + below(&mut self.rng, (n - 1).max(1))) % n;
        if other == i {
            return self.anywhere(i);
        }
        let share = self.rng.f64();
        let at = self.task.table.touching(self.placed(other), (self.task.pieces[i], is_turned), share);
        self.pushed_in(i, Place { at, is_turned })
    }

    fn near(&mut self, i: usize) -> Place {
        let mut off = || NEAR * (2.0 * self.rng.f64() - 1.0);
        let off = Vec2::new(off(), off());
        let is_turned = self.any_turn();
        self.pushed_in(i, Place { at: self.places[i].at + off, is_turned })
    }

    fn any_turn(&mut self) -> bool {
        self.task.may_turn && self.rng.bool()
    }

    fn pushed_in(&self, i: usize, place: Place) -> Place {
        let room = self.task.room(i, place.is_turned, self.length);
        let at = Point::new(place.at.x.clamp(room.x0, room.x1), place.at.y.clamp(room.y0, room.y1));
        Place { at, ..place }
    }

    /// How deep a piece would lie in all others, by their weights; nothing more exact where it is
    /// more than the limit.
    fn cost(&self, i: usize, place: Place, limit: f64) -> f64 {
        let piece = (self.task.pieces[i], place);
        let mut cost = 0.0;
        for j in self.near_to(i, place) {
            cost += self.weights.get(i, j) * self.task.table.depth(self.placed(j), piece);
            if cost >= limit {
                return f64::INFINITY;
            }
        }
        cost
    }

    /// A place made better: out of the others by the shortest ways, then by ever smaller steps.
    fn bettered(&mut self, i: usize, found: (f64, Place)) -> (f64, Place) {
        let mut best = self.pushed_out(i, found);
        let mut step = STEP.0;
        for _ in 0..STEPS {
            if step < STEP.1 || best.0 == 0.0 {
                break;
            }
            let way = WAYS[below(&mut self.rng, WAYS.len())];
            let place = self.pushed_in(i, Place { at: best.1.at + step * Vec2::from(way), ..best.1 });
            let cost = self.cost(i, place, best.0);
            if cost < best.0 {
                best = (cost, place);
                step *= FURTHER;
            } else {
                step *= NEARER;
            }
        }
        best
    }

    fn pushed_out(&self, i: usize, found: (f64, Place)) -> (f64, Place) {
        let mut best = found;
        for _ in 0..PUSHES {
            let piece = (self.task.pieces[i], best.1);
            let ways = self
                .near_to(i, best.1)
                .filter_map(|j| self.task.table.way_out(self.placed(j), piece).map(|way| (j, way)));
            let heaviest = ways.max_by(|(j, a), (k, b)| {
                (self.weights.get(i, *j) * a.hypot()).total_cmp(&(self.weights.get(i, *k) * b.hypot()))
            });
            let Some((_, way)) = heaviest else { break };
            let place = self.pushed_in(i, Place { at: best.1.at + way, ..best.1 });
            let cost = self.cost(i, place, best.0);
            if cost >= best.0 {
                break;
            }
            best = (cost, place);
        }
        best
    }
}

/// A number below this one. [`Rng::usize`] draws otherwise where a word has 32 bits, and the lay would be another.
fn below(rng: &mut Rng, n: usize) -> usize {
    rng.u64(..n as u64) as usize
}
