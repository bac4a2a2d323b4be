//! Boxes set apart: in a row, or on a sheet of given width.
//!
//! Nothing is turned: the grain of every piece stays as drawn.

use kurbo::Point;

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

/// Where boxes lie: lower left corners, y up, in the order of the boxes.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Laid {
    pub(crate) corners: Vec<Point>,
    /// Round all of them, mm.
    pub(crate) width: f64,
    pub(crate) height: f64,
}

/// A piece that does not go on the sheet.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error(
    "piece `{piece}` is {needs:.0} mm wide and the width to cut on {width:.0} mm: give a larger --cut-width{or_halves}"
)]
pub struct TooWide {
    /// Which.
    pub piece: String,
    /// Its own width, mm.
    pub needs: f64,
    /// The sheet's, mm.
    pub width: f64,
    /// ` or --halves` where that would help.
    pub(crate) or_halves: &'static str,
}

/// Side by side, tops level.
pub(crate) fn in_a_row(boxes: &[Box<'_>], gap: f64) -> Laid {
    let height = boxes.iter().map(|b| b.height).fold(0.0, f64::max);
    let mut left = 0.0;
    let mut corners = Vec::with_capacity(boxes.len());
    for b in boxes {
        corners.push(Point::new(left, height - b.height));
        left += b.width + gap;
    }
    Laid { corners, width: (left - gap).max(0.0), height }
}

/// Tall boxes first, each as low as it goes and then as far left; the sheet is as long as need be.
///
/// # Errors
/// [`TooWide`] for the first box that is wider than the sheet.
pub(crate) fn on_sheet(boxes: &[Box<'_>], width: f64, gap: f64) -> Result<Laid, TooWide> {
    if let Some(b) = boxes.iter().find(|b| b.width > width) {
        return Err(TooWide { piece: b.name.to_owned(), needs: b.width.ceil(), width, or_halves: "" });
    }
    let mut order: Vec<usize> = (0..boxes.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (&boxes[*a], &boxes[*b]);
        b.height.total_cmp(&a.height).then(b.width.total_cmp(&a.width))
    });
    // A gap to the right of and above every box; the last in a row may lose its gap at the edge.
    let mut skyline = Skyline::new(width + gap);
    let mut corners = vec![Point::ZERO; boxes.len()];
    for i in order {
        corners[i] = skyline.put(boxes[i].width + gap, boxes[i].height + gap);
    }
    let tops = corners.iter().zip(boxes).map(|(c, b)| c.y + b.height);
    Ok(Laid { height: tops.fold(0.0, f64::max), corners, width })
}

/// The upper edge of what is there: steps from left to right, each (left, height).
struct Skyline {
    width: f64,
    steps: Vec<(f64, f64)>,
}

impl Skyline {
    fn new(width: f64) -> Self {
        Self { width, steps: vec![(0.0, 0.0)] }
    }

    /// Puts a box where it lies lowest, then leftmost. It has to be narrower than the sheet.
    fn put(&mut self, width: f64, height: f64) -> Point {
        let lefts = self.steps.iter().map(|(left, _)| *left).filter(|left| left + width <= self.width + 1e-9);
        let spots = lefts.map(|left| Point::new(left, self.top_over(left, left + width)));
        let best = spots.min_by(|a, b| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)));
        // The left end is always among the steps, so there is one.
        let at = best.unwrap_or(Point::ZERO);
        self.raise(at.x, at.x + width, at.y + height);
        at
    }

    fn end(&self, step: usize) -> f64 {
        self.steps.get(step + 1).map_or(self.width, |(left, _)| *left)
    }

    fn top_over(&self, from: f64, to: f64) -> f64 {
        let under = (0..self.steps.len()).filter(|i| self.steps[*i].0 < to - 1e-9 && self.end(*i) > from + 1e-9);
        under.map(|i| self.steps[i].1).fold(0.0, f64::max)
    }

    fn raise(&mut self, from: f64, to: f64, top: f64) {
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

    #[test]
    fn boxes_on_a_sheet_stay_on_it_and_apart() {
        for width in [420.0, 600.0, 1500.0] {
            let boxes = boxes(60);
            let laid = on_sheet(&boxes, width, 10.0).unwrap();
            for (i, (a, p)) in boxes.iter().zip(&laid.corners).enumerate() {
                assert!(p.x >= 0.0 && p.y >= 0.0 && p.x + a.width <= width + 1e-9, "{i} at {p:?}");
                for (b, q) in boxes.iter().zip(&laid.corners).take(i) {
                    let apart_x = p.x + a.width + 10.0 <= q.x + 1e-9 || q.x + b.width + 10.0 <= p.x + 1e-9;
                    let apart_y = p.y + a.height + 10.0 <= q.y + 1e-9 || q.y + b.height + 10.0 <= p.y + 1e-9;
                    assert!(apart_x || apart_y, "{a:?} at {p:?} and {b:?} at {q:?}");
                }
            }
            let used: f64 = boxes.iter().map(|b| b.width * b.height).sum();
            assert!(used / (width * laid.height) > 0.6, "{} of the sheet", used / (width * laid.height));
            assert_eq!(laid, on_sheet(&boxes, width, 10.0).unwrap());
        }
    }

    #[test]
    fn a_box_as_wide_as_the_sheet_goes_on_it_and_a_wider_one_does_not() {
        let b = Box { name: "back", width: 500.0, height: 100.0 };
        assert!(on_sheet(&[b], 500.0, 10.0).is_ok());
        let refused = on_sheet(&[b], 499.0, 10.0).unwrap_err();
        assert!(refused.to_string().contains("`back`") && refused.to_string().contains("larger --cut-width"));
    }

    #[test]
    fn a_row_is_level_on_top() {
        let laid = in_a_row(&boxes(3), 20.0);
        let tops: Vec<f64> = laid.corners.iter().zip(boxes(3)).map(|(c, b)| c.y + b.height).collect();
        assert!(tops.iter().all(|t| (t - laid.height).abs() < 1e-9));
    }
}
