//! Boxes set apart: in a row, or on beds of given width and perhaps length.
//!
//! Nothing is turned, so that the grain of every piece stays as drawn, but where quarter turns are allowed.

use crate::number::decimal;
use kurbo::{Point, Size};

/// A piece's box.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Box<'a> {
    /// For messages.
    pub(crate) name: &'a str,
    /// mm.
    pub(crate) width: f64,
    /// mm.
    pub(crate) height: f64,
}

/// What boxes are set apart on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Bed {
    /// mm.
    pub(crate) width: f64,
    /// mm; what does not go on it comes on a further bed. Without it there is one, as long as need be.
    pub(crate) length: Option<f64>,
    /// Between two boxes, mm.
    pub(crate) gap: f64,
    /// May a box be turned by a quarter?
    pub(crate) may_turn: bool,
}

/// Where a box lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    /// Its lower left corner on its bed, y up.
    pub(crate) corner: Point,
    /// Which bed, from nought.
    pub(crate) bed: usize,
    /// Is it turned by a quarter?
    pub(crate) is_turned: bool,
}

/// Where boxes lie, in their order.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Laid {
    pub(crate) spots: Vec<Spot>,
    /// How many beds there are.
    pub(crate) beds: usize,
    /// Round all of them on a bed, mm.
    pub(crate) width: f64,
    pub(crate) height: f64,
}

/// Pieces that do not go on the bed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{}: give {}", self.what(), self.remedies())]
pub struct TooLarge {
    /// Each that does not, with its own size, mm.
    pub pieces: Vec<(String, Size)>,
    /// The bed's, mm; without an end it has no length.
    pub bed: Size,
    /// What else helps than a larger bed.
    pub(crate) others: Vec<&'static str>,
}

impl TooLarge {
    fn what(&self) -> String {
        let has_end = self.bed.height.is_finite();
        let size = |it: Size| {
            let [width, height] = [it.width, it.height].map(|mm| decimal(mm, 3));
            if has_end { format!("{width} by {height} mm") } else { format!("{width} mm wide") }
        };
        // Rounded up, so that none is told to be as large as a bed that it does not go on.
        let up = |it: Size| (it * 10.0).ceil() / 10.0;
        let pieces: Vec<String> =
            self.pieces.iter().map(|(name, own)| format!("piece `{name}` ({})", size(up(*own)))).collect();
        let (does, bed) = (if pieces.len() == 1 { "does" } else { "do" }, size(self.bed));
        format!("{} {does} not go on {bed}", pieces.join(" and "))
    }

    /// A larger bed first, as large as they need it.
    fn remedies(&self) -> String {
        let most = |side: fn(Size) -> f64| self.pieces.iter().map(|(_, own)| side(*own)).fold(0.0, f64::max);
        let sides =
            [("--cut-width", most(|s| s.width), self.bed.width), ("--cut-length", most(|s| s.height), self.bed.height)];
        let larger = sides.iter().filter(|(_, needs, has)| needs > has);
        let larger = larger.map(|(flag, needs, _)| format!("a larger {flag} ({} at least)", needs.ceil()));
        let larger = larger.collect::<Vec<_>>().join(" and ");
        std::iter::once(larger.as_str()).chain(self.others.iter().copied()).collect::<Vec<_>>().join(", or ")
    }
}

/// Side by side, tops level.
pub(crate) fn in_a_row(boxes: &[Box<'_>], gap: f64) -> Laid {
    let height = boxes.iter().map(|b| b.height).fold(0.0, f64::max);
    let mut left = 0.0;
    let mut spots = Vec::with_capacity(boxes.len());
    for b in boxes {
        spots.push(Spot { corner: Point::new(left, height - b.height), bed: 0, is_turned: false });
        left += b.width + gap;
    }
    Laid { spots, beds: 1, width: (left - gap).max(0.0), height }
}

impl Bed {
    fn size(&self) -> Size {
        Size::new(self.width, self.length.unwrap_or(f64::INFINITY))
    }

    /// The ways round in which a box goes on it.
    fn ways(&self, b: &Box<'_>) -> Vec<Way> {
        let drawn = Way { size: Size::new(b.width, b.height), is_turned: false };
        let turned = Way { size: Size::new(b.height, b.width), is_turned: true };
        let all = std::iter::once(drawn).chain(self.may_turn.then_some(turned));
        all.filter(|way| goes_on(way.size, self.size())).collect()
    }
}

fn goes_on(what: Size, bed: Size) -> bool {
    what.width <= bed.width && what.height <= bed.height
}

/// A box, one way round.
#[derive(Clone, Copy)]
struct Way {
    size: Size,
    is_turned: bool,
}

/// What boxes are taken by, the largest first.
const ORDERS: [fn(&Box<'_>) -> f64; 4] = [|b| b.height, |b| b.height.max(b.width), |b| b.height * b.width, |b| b.width];

/// On the fewest beds, and of those as low as one of some orders gives; of equals the first.
///
/// # Errors
/// [`TooLarge`] with every box that goes on no bed of this size.
pub(crate) fn on_beds(boxes: &[Box<'_>], on: Bed) -> Result<Laid, TooLarge> {
    let ways: Vec<Vec<Way>> = boxes.iter().map(|b| on.ways(b)).collect();
    let mut pieces: Vec<(String, Size)> = Vec::new();
    for (b, _) in boxes.iter().zip(&ways).filter(|(_, ways)| ways.is_empty()) {
        if !pieces.iter().any(|(name, _)| name == b.name) {
            pieces.push((b.name.to_owned(), Size::new(b.width, b.height)));
        }
    }
    if !pieces.is_empty() {
        return Err(TooLarge { pieces, bed: on.size(), others: Vec::new() });
    }
    let by = |key: fn(&Box<'_>) -> f64| {
        let mut order: Vec<usize> = (0..boxes.len()).collect();
        let largest = |a: &Box<'_>, b: &Box<'_>| key(b).total_cmp(&key(a)).then(b.width.total_cmp(&a.width));
        order.sort_by(|a, b| largest(&boxes[*a], &boxes[*b]));
        in_order(&order, &ways, on)
    };
    let (first, others) = (by(ORDERS[0]), ORDERS[1..].iter().map(|key| by(*key)));
    let is_better = |a: &Laid, b: &Laid| (a.beds, a.height) < (b.beds, b.height);
    Ok(others.fold(first, |best, laid| if is_better(&laid, &best) { laid } else { best }))
}

/// Each as low as it goes and then as far left, on the first bed that has room for it.
fn in_order(order: &[usize], ways: &[Vec<Way>], on: Bed) -> Laid {
    let gap = on.gap;
    // A gap to the right of and above every box; the last in a row may lose its gap at the edge.
    let new = || Skyline::new(on.width + gap, on.size().height + gap);
    let mut beds: Vec<Skyline> = vec![new()];
    let mut spots = vec![Spot { corner: Point::ZERO, bed: 0, is_turned: false }; ways.len()];
    let mut height: f64 = 0.0;
    for i in order.iter().copied() {
        let on_one = |bed: &Skyline| {
            let found = ways[i].iter().filter_map(|way| Some((*way, bed.lowest(way.size + Size::new(gap, gap))?)));
            found.min_by(|(a, p), (b, q)| {
                (p.y + a.size.height).total_cmp(&(q.y + b.size.height)).then(p.x.total_cmp(&q.x))
            })
        };
        let found = beds.iter().enumerate().find_map(|(n, bed)| Some((n, on_one(bed)?)));
        // It goes on an empty one: that was looked at first.
        let (bed, (way, corner)) = found.unwrap_or_else(|| {
            beds.push(new());
            (beds.len() - 1, (ways[i][0], Point::ZERO))
        });
        beds[bed].raise(corner, way.size + Size::new(gap, gap));
        spots[i] = Spot { corner, bed, is_turned: way.is_turned };
        height = height.max(corner.y + way.size.height);
    }
    Laid { spots, beds: beds.len(), width: on.width, height }
}

/// The upper edge of what is there: steps from left to right, each (left, height).
struct Skyline {
    width: f64,
    /// Nothing goes higher.
    most: f64,
    steps: Vec<(f64, f64)>,
}

impl Skyline {
    fn new(width: f64, most: f64) -> Self {
        Self { width, most, steps: vec![(0.0, 0.0)] }
    }

    /// Where a box lies lowest, then leftmost.
    fn lowest(&self, size: Size) -> Option<Point> {
        let lefts = self.steps.iter().map(|(left, _)| *left).filter(|left| left + size.width <= self.width + 1e-9);
        let spots = lefts.map(|left| Point::new(left, self.top_over(left, left + size.width)));
        let below = spots.filter(|at| at.y + size.height <= self.most + 1e-9);
        below.min_by(|a, b| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)))
    }

    fn end(&self, step: usize) -> f64 {
        self.steps.get(step + 1).map_or(self.width, |(left, _)| *left)
    }

    fn top_over(&self, from: f64, to: f64) -> f64 {
        let under = (0..self.steps.len()).filter(|i| self.steps[*i].0 < to - 1e-9 && self.end(*i) > from + 1e-9);
        under.map(|i| self.steps[i].1).fold(0.0, f64::max)
    }

    /// Puts a box at a place that was found for it.
    fn raise(&mut self, at: Point, size: Size) {
        let (from, to, top) = (at.x, at.x + size.width, at.y + size.height);
        let after =
            (0..self.steps.len()).find(|i| self.steps[*i].0 <= to && self.end(*i) > to).map(|i| self.steps[i].1);
        self.steps.retain(|(left, _)| *left < from || *left > to);
        self.steps.push((from, top));
        if let Some(height) = after.filter(|_| to < self.width) {
            self.steps.push((to, height));
        }
        self.steps.sort_by(|a, b| a.0.total_cmp(&b.0));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Boxes of a small generator of its own (Lehmer's, multiplier 48271), mm.
    fn boxes(count: u64) -> Vec<Box<'static>> {
        let mut state = 17_u64;
        let mut next = || {
            state = state * 48_271 % 0x7fff_ffff;
            20.0 + (state % 4_000) as f64 / 10.0
        };
        (0..count).map(|_| Box { name: "any", width: next(), height: next() }).collect()
    }

    fn bed(width: f64) -> Bed {
        Bed { width, length: None, gap: 10.0, may_turn: false }
    }

    #[test]
    fn boxes_on_beds_stay_on_them_and_apart() {
        for width in [420.0, 600.0, 1500.0] {
            for length in [None, Some(420.0), Some(900.0)] {
                for may_turn in [false, true] {
                    let on = Bed { length, may_turn, ..bed(width) };
                    let boxes = boxes(60);
                    let laid = on_beds(&boxes, on).unwrap();
                    let lie: Vec<(Spot, Size)> = (laid.spots.iter().zip(&boxes))
                        .map(|(s, b)| (*s, Size::new(b.width, b.height), Size::new(b.height, b.width)))
                        .map(|(s, drawn, turned)| (s, if s.is_turned { turned } else { drawn }))
                        .collect();
                    for (i, (a, s)) in lie.iter().enumerate() {
                        assert!(may_turn || !a.is_turned);
                        let p = a.corner;
                        assert!(p.x >= 0.0 && p.y >= 0.0 && p.x + s.width <= width + 1e-9, "{i} at {a:?}");
                        assert!(length.is_none_or(|length| p.y + s.height <= length + 1e-9), "{i} at {a:?}");
                        for (b, t) in lie.iter().take(i).filter(|(b, _)| b.bed == a.bed) {
                            let q = b.corner;
                            let apart_x = p.x + s.width + 10.0 <= q.x + 1e-9 || q.x + t.width + 10.0 <= p.x + 1e-9;
                            let apart_y = p.y + s.height + 10.0 <= q.y + 1e-9 || q.y + t.height + 10.0 <= p.y + 1e-9;
                            assert!(apart_x || apart_y, "{s:?} at {a:?} and {t:?} at {b:?}");
                        }
                    }
                    let used: f64 = boxes.iter().map(|b| b.width * b.height).sum();
                    let of = width * length.map_or(laid.height, |length| length * laid.beds as f64);
                    // The last of several beds may hold little.
                    let least = if length.is_none() { 0.6 } else { 0.5 };
                    assert!(used / of > least, "{} of {on:?}", used / of);
                    assert!((0..laid.beds).all(|n| laid.spots.iter().any(|s| s.bed == n)), "none is empty");
                    assert!(length.is_some() || laid.beds == 1);
                    assert_eq!(laid, on_beds(&boxes, on).unwrap());
                }
            }
        }
    }

    #[test]
    fn a_box_as_large_as_the_sheet_goes_on_it_and_a_larger_one_does_not() {
        let b = Box { name: "back", width: 500.0, height: 100.0 };
        let told = |on: Bed| on_beds(&[b], on).map_err(|e| e.to_string());
        assert!(told(bed(500.0)).is_ok());
        assert!(told(Bed { length: Some(100.0), ..bed(500.0) }).is_ok());
        let narrow = told(bed(499.0)).unwrap_err();
        assert_eq!(
            narrow,
            "piece `back` (500 mm wide) does not go on 499 mm wide: give a larger --cut-width (500 at least)"
        );
        let short = told(Bed { length: Some(99.96), ..bed(500.0) }).unwrap_err();
        assert!(
            short.ends_with("does not go on 500 by 99.96 mm: give a larger --cut-length (100 at least)"),
            "{short}"
        );
        let c = Box { name: "front", width: 510.02, height: 90.0 };
        let both = on_beds(&[c, b, c], Bed { length: Some(95.0), ..bed(499.0) }).unwrap_err().to_string();
        let pieces = "piece `front` (510.1 by 90 mm) and piece `back` (500 by 100 mm) do not go on 499 by 95 mm";
        let larger = "a larger --cut-width (511 at least) and a larger --cut-length (100 at least)";
        assert_eq!(both, format!("{pieces}: give {larger}"));
    }

    #[test]
    fn a_box_is_turned_where_it_goes_on_no_other_way() {
        let b = Box { name: "back", width: 500.0, height: 100.0 };
        let laid = on_beds(&[b], Bed { may_turn: true, ..bed(499.0) }).unwrap();
        assert!(laid.spots[0].is_turned && laid.height == 500.0);
        let wide = on_beds(&[b], Bed { may_turn: true, ..bed(600.0) }).unwrap();
        assert!(!wide.spots[0].is_turned && wide.height == 100.0);
    }

    #[test]
    fn a_row_is_level_on_top() {
        let laid = in_a_row(&boxes(3), 20.0);
        let tops: Vec<f64> = laid.spots.iter().zip(boxes(3)).map(|(s, b)| s.corner.y + b.height).collect();
        assert!(tops.iter().all(|t| (t - laid.height).abs() < 1e-9));
    }
}
