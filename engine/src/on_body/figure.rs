//! The body form without a garment, and the place of every measure on it: what a form to measure by
//! shows. The body is invented.

use super::spline::through;
use crate::body::{Form, Half, Lower};
use crate::curve::Path;
pub use crate::drawing::on_body::Seen;
use crate::garment::Source;
use crate::keys::{Field, Single, body};
use crate::plan::BodyPlan;
use crate::terms::WaistLevel;
use kurbo::{Point, Rect, Vec2};

/// What is measured, with the letter that stands for it in the figure.
pub static MEASURES: [(char, Field<Single>); 13] = [
    ('A', body::WAIST_GIRTH),
    ('B', body::HIP_GIRTH),
    ('C', body::WAIST_TO_HIP),
    ('D', body::CROTCH_LENGTH),
    ('E', body::CROTCH_LENGTH_FRONT),
    ('F', body::THIGH_GIRTH),
    ('G', body::WAIST_BREADTH),
    ('H', body::WAIST_DEPTH),
    ('J', body::HIP_BREADTH),
    ('K', body::HIP_DEPTH),
    ('L', body::TOP_EDGE_GIRTH),
    ('M', body::LEG_LINE_GIRTH),
    ('N', body::ELASTIC_TOP),
];

/// One view, in its own plane, mm, y down.
#[derive(Clone, Debug)]
pub struct View {
    /// From where.
    pub seen: Seen,
    /// Outlines of the body.
    pub contours: Vec<Path>,
    /// Where it is measured.
    pub tapes: Vec<Tape>,
}

/// The place of one measure.
#[derive(Clone, Debug)]
pub struct Tape {
    /// It stands for one of [`MEASURES`].
    pub letter: char,
    /// How it is taken.
    pub held: Held,
    /// Where the tape lies; of a ruler, from one to the other.
    pub path: Path,
    /// Beside this point the letter stands.
    pub letter_at: Point,
    /// How far aside, in sizes of the letter.
    pub aside: Vec2,
}

/// What a measure is taken with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Held {
    /// A tape on the body.
    Tape,
    /// Two rulers held upright.
    Ruler,
}

impl View {
    /// The smallest box round everything.
    pub fn bounds(&self) -> Rect {
        let paths = self.contours.iter().chain(self.tapes.iter().map(|t| &t.path));
        paths.map(Path::bounds).reduce(|a, b| a.union(b)).unwrap_or(Rect::ZERO)
    }
}

/// An invented body, mm.
fn invented() -> BodyPlan {
    BodyPlan {
        waist: 740.0,
        level: WaistLevel::Natural,
        hip: 1000.0,
        waist_to_hip: 205.0,
        crotch: 710.0,
        crotch_front: 320.0,
        front_source: Source::Given,
        thigh: 585.0,
        waist_breadth: 262.0,
        waist_depth: 186.0,
        hip_breadth: 352.0,
        hip_depth: 232.0,
        top_edge: None,
        leg_line: None,
        elastic_top: None,
        child: false,
    }
}

/// How much of the body is drawn above the waist level and below the crotch, mm.
const ABOVE: f64 = 50.0;
const BELOW: f64 = 120.0;
/// Under the crotch, where a thigh is measured, mm.
const THIGH: f64 = 25.0;
/// Where a low top edge lies, as a share of the way from waist to hip.
const TOP_EDGE: f64 = 0.4;
/// Where a leg edge meets the side, as a share of the same way.
const LEG_EDGE: f64 = 0.75;

/// The tape down the front is drawn so far inside the one that runs on to the back, mm: two lines, not one.
const APART: Vec2 = Vec2::new(26.0, -14.0);

/// Beside and under a tape, in sizes of a letter.
const RIGHT: Vec2 = Vec2::new(1.0, 0.0);
const LEFT: Vec2 = Vec2::new(-1.0, 0.0);
const UNDER: Vec2 = Vec2::new(0.0, 1.0);

/// Front, side and back.
pub fn views() -> [View; 3] {
    let plan = invented();
    let form = Form::of(&plan);
    let lower = Lower::of(&form, &plan);
    let figure = Figure { form: &form, lower: &lower, hip: plan.waist_to_hip };
    [figure.front(), figure.side(), figure.back()]
}

struct Figure<'a> {
    form: &'a Form,
    lower: &'a Lower,
    hip: f64,
}

impl Figure<'_> {
    fn height(&self, level: f64) -> f64 {
        self.form.torso.height(level)
    }

    /// The extremes of a half section: least and most of x, least and most of y.
    fn extremes(&self, level: f64) -> (f64, f64, f64, f64) {
        let points = self.lower.section(self.form, level);
        let over =
            |of: fn(f64, f64) -> f64, start: f64, axis: fn(&Vec2) -> f64| points.iter().map(axis).fold(start, of);
        // Above its narrowest place the body widens again, as bodies do.
        let up = (-level).max(0.0) / ABOVE;
        let wider = 1.0 + 0.04 * up * up;
        let (low, high) = (f64::INFINITY, f64::NEG_INFINITY);
        let x = (over(f64::min, low, |p| p.x), over(f64::max, high, |p| p.x));
        let y = (over(f64::min, low, |p| p.y), over(f64::max, high, |p| p.y));
        (x.0 * wider, x.1 * wider, y.0 * wider, y.1 * wider)
    }

    fn outer(&self, level: f64) -> Point {
        Point::new(self.extremes(level).1, self.height(level))
    }

    fn inner(&self, level: f64) -> Point {
        Point::new(self.extremes(level).0, self.height(level))
    }

    /// Levels of an outline that runs past the corner where torso and thigh meet.
    fn levels(&self) -> Vec<f64> {
        let crotch = self.lower.crotch;
        let torso = [-1.0, -0.6, -0.2].map(|share| share * ABOVE);
        let down = (1..12).map(|i| crotch * f64::from(i) / 12.0).filter(|level| *level < crotch - 24.0);
        let legs = [30.0, 60.0, 90.0, BELOW].map(|d| crotch + d);
        torso.into_iter().chain(down).chain(legs).collect()
    }

    /// Both outer and both inner outlines.
    fn upright(&self) -> Vec<Path> {
        let outer = through(&self.levels().into_iter().map(|level| self.outer(level)).collect::<Vec<_>>());
        let crotch = Point::new(0.0, self.height(self.lower.crotch));
        let legs = [4.0, 12.0, 30.0, 60.0, 90.0, BELOW].map(|d| self.inner(self.lower.crotch + d));
        let inner = through(&std::iter::once(crotch).chain(legs).collect::<Vec<_>>());
        vec![outer.mirrored(), outer, inner.mirrored(), inner]
    }

    /// From side to side at a level.
    fn across(&self, letter: char, level: f64, held: Held) -> Tape {
        let end = self.outer(level);
        let path = Path::line(Point::new(-end.x, end.y), end);
        Tape { letter, held, path, letter_at: end, aside: RIGHT }
    }

    fn front(&self) -> View {
        let thigh = self.lower.crotch + THIGH;
        let (inner, outer) = (self.inner(thigh), self.outer(thigh));
        let round = Path::line(inner, outer);
        let side = self.outer(LEG_EDGE * self.hip);
        let low = self.inner(self.lower.crotch + 3.0);
        let middle = side.lerp(low, 0.5) + (12.0, 12.0);
        let leg = through(&[side, middle, low].map(|p| Point::new(-p.x, p.y)));
        let top_edge = TOP_EDGE * self.hip;
        let mut both = self.across('N', top_edge, Held::Tape);
        (both.letter_at.x, both.aside) = (-both.letter_at.x, LEFT);
        let tapes = vec![
            self.across('A', 0.0, Held::Tape),
            self.across('L', top_edge, Held::Tape),
            both,
            self.across('B', self.hip, Held::Tape),
            Tape { letter: 'F', held: Held::Tape, path: round, letter_at: outer, aside: RIGHT },
            Tape { letter: 'M', held: Held::Tape, letter_at: leg.start(), path: leg, aside: LEFT },
        ];
        View { seen: Seen::Front, contours: self.upright(), tapes }
    }

    fn back(&self) -> View {
        let tapes = vec![self.across('G', 0.0, Held::Ruler), self.across('J', self.hip, Held::Ruler)];
        View { seen: Seen::Back, contours: self.upright(), tapes }
    }

    /// From the wearer's left, the front on the left.
    fn side(&self) -> View {
        let outline = |of: fn((f64, f64, f64, f64)) -> f64| {
            let point = |level: f64| Point::new(-of(self.extremes(level)), self.height(level));
            through(&self.levels().into_iter().map(point).collect::<Vec<_>>())
        };
        let contours = vec![outline(|(.., most)| most), outline(|(_, _, least, _)| least)];
        let front = self.centre(Half::Front);
        let back = self.centre(Half::Back);
        let whole: Vec<Point> = front.iter().chain(back.iter().rev().skip(1)).copied().collect();
        let inside = through(&front.iter().map(|p| *p + APART).collect::<Vec<_>>());
        let side = |level: f64| {
            let points = self.lower.section(self.form, level);
            let widest = points.iter().max_by(|a, b| a.x.total_cmp(&b.x)).copied().unwrap_or_default();
            Point::new(-widest.y, self.height(level))
        };
        let down = through(&(0..=4).map(|i| side(self.hip * f64::from(i) / 4.0)).collect::<Vec<_>>());
        let lowest = front.last().copied().unwrap_or_default();
        let e = front[front.len() / 2] + APART;
        let tapes = vec![
            self.through('H', 0.0),
            self.through('K', self.hip),
            Tape { letter: 'C', held: Held::Tape, letter_at: side(0.5 * self.hip), path: down, aside: RIGHT },
            Tape { letter: 'D', held: Held::Tape, path: through(&whole), letter_at: lowest, aside: UNDER },
            Tape { letter: 'E', held: Held::Tape, path: inside, letter_at: e, aside: RIGHT },
        ];
        View { seen: Seen::Side, contours, tapes }
    }

    /// From front to back at a level.
    fn through(&self, letter: char, level: f64) -> Tape {
        let (_, _, least, most) = self.extremes(level);
        let at = |y: f64| Point::new(-y, self.height(level));
        let path = Path::line(at(most), at(least));
        Tape { letter, held: Held::Ruler, path, letter_at: at(least), aside: RIGHT }
    }

    /// Down a centre, from the waist level to the lowest point between the legs.
    fn centre(&self, half: Half) -> Vec<Point> {
        let at = |i: i32| {
            let level = self.lower.crotch * f64::from(i) / 16.0;
            Point::new(-self.lower.centre_y(self.form, half, level), self.height(level))
        };
        (0..=16).map(at).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every measure has its place in one view at least, and none has another letter's.
    #[test]
    fn every_measure_is_shown() {
        let views = views();
        let shown: Vec<char> = views.iter().flat_map(|v| &v.tapes).map(|t| t.letter).collect();
        assert!(MEASURES.iter().all(|(letter, _)| shown.contains(letter)), "{shown:?}");
        assert_eq!(shown.len(), MEASURES.len());
    }

    /// The crotch length and its front part are told apart down all of the front.
    #[test]
    fn the_front_part_lies_well_inside_the_whole() {
        let views = views();
        let tape = |letter| &views.iter().flat_map(|v| &v.tapes).find(|t| t.letter == letter).unwrap().path;
        let (whole, part) = (tape('D'), tape('E'));
        let apart = (0..=10).map(|i| part.at(0.1 * f64::from(i) * part.length()).0);
        let least = apart.map(|p| whole.point(whole.nearest(p)).distance(p)).fold(f64::INFINITY, f64::min);
        assert!(least > 10.0, "{least}");
    }

    /// A level tape is as wide as the body there, and rulers stand as far apart as they measure.
    #[test]
    fn tapes_lie_on_the_body() {
        let views = views();
        let tape = |letter| views.iter().flat_map(|v| &v.tapes).find(|t| t.letter == letter).unwrap();
        let body = invented();
        for (letter, wanted) in
            [('G', body.waist_breadth), ('J', body.hip_breadth), ('H', body.waist_depth), ('K', body.hip_depth)]
        {
            let path = &tape(letter).path;
            assert!((path.length() - wanted).abs() < 4.0, "{letter}: {} for {wanted}", path.length());
        }
        for view in &views {
            let bounds = view.contours.iter().map(Path::bounds).reduce(|a, b| a.union(b)).unwrap();
            for tape in &view.tapes {
                assert!(bounds.inset(1.0).contains_rect(tape.path.bounds()), "{}", tape.letter);
            }
        }
    }
}
