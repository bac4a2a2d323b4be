//! The leg opening as one curve on the body: front leg, gusset side and back leg, joined in the plane
//! at the gusset seams and drafted together.
//!
//! In the joined plane the front lies above the gusset and the back below it, turned over in the back
//! gusset seam; y = 0 is the front gusset seam. Turning a piece over changes no curvature but its sign.

use super::Target;
use super::fair::{CONDITIONS, Condition, Kept, SPANS, Spline, solve};
use super::gusset::Sizes;
use super::panel::Upper;
use super::smooth::{soft_max, soft_min};
use crate::curve::Path;
use crate::curve::float;
use crate::finding::Finding;
use crate::finding::fact::DraftFact;
use crate::plan::{GussetPlan, Knobs};
use kurbo::{Point, Vec2};

/// Breaks of the curve: foot in front, middle of the front leg, front gusset seam, narrowest place,
/// back gusset seam, seat, foot behind.
const MIDDLE: usize = 2;
const FRONT_SEAM: usize = 4;
const NARROWEST: usize = 5;
const BACK_SEAM: usize = 7;
const SEAT: usize = 9;
const STATIONS: [usize; 5] = [0, FRONT_SEAM, NARROWEST, BACK_SEAM, SPANS];

/// The three edges of a leg opening, each as it lies on its own half piece, clockwise as seen.
pub(super) struct Opening {
    pub(super) front: Path,
    pub(super) gusset: Path,
    pub(super) back: Path,
    /// How much flatter than square the front leg leaves the side seam, rad.
    pub(super) flatter: f64,
}

/// Everything the curve is held by.
struct Frame {
    /// At [`STATIONS`].
    stations: [Point; 5],
    /// Directions at both feet.
    leaving: Vec2,
    arriving: Vec2,
    flatter: f64,
}

/// What is set on the way, from the curve so far.
#[derive(Clone, Copy, Default)]
struct Set {
    seat: Condition,
    middle: Condition,
    /// How the gusset's sides run at its seams.
    front_flare: Condition,
    back_flare: Condition,
}

/// The curve of the least relative variation of curvature.
///
/// Minimised is Σ w·∫|x‴|² of [`solve`], with w = κ₀²/(κ² + κ₀²) where the line is hollow, so that a
/// change counts by its share of the curvature there: without it the flat part of a front leg swings
/// over to the other side before its hollow. Weights and lengths of spans are taken from the step
/// before; [`STEPS`] of them settle to under 0.1 mm, and as many for every sheet keep the curve a
/// smooth function of its knobs.
pub(super) fn opening(
    target: &Target,
    (front, back): (&Upper, &Upper),
    gusset: &GussetPlan,
    knobs: &Knobs,
) -> Result<Opening, Finding> {
    let frame = Frame::of(target, (front, back), gusset, knobs)?;
    let mut set = Set::default();
    let mut curve = frame.settled(set, knobs)?;
    while frame.limits_flares(&curve, &mut set) {
        curve = frame.settled(set, knobs)?;
    }
    Ok(frame.cut_apart(&curve, (front, back)))
}

/// Solutions of the linear system; from which of them on the cover is set, and the scoop.
const STEPS: u32 = 7;
const SEATED: u32 = 2;
const SCOOPED: u32 = 5;
/// Steps that do not settle make the curve longer every time, without end: this many times its chords, it is
/// no leg opening any more.
const RUN_AWAY: f64 = 20.0;

/// The front leg leaves square to the side seam, but flatter than the way to the gusset corner by at
/// least this, rad: a steeper one would have to swing over. 17°.
const UNDER_CHORD: f64 = 0.27;
/// And by so much more for a scoop over the fairest.
const SCOOPED_UNDER: f64 = 0.3;
/// Nor flatter than this, rad: a side seam that leans the other way would send it up. 7°.
const FLATTEST: f64 = -0.12;
/// How softly those bounds set in, rad.
const SOFT: f64 = 0.06;

/// Radii at the feet, in runs of the front leg: nearly straight in front, rounder behind, and less
/// than 3 to 1 across the side seam.
const FRONT_FOOT: f64 = 2.0;
const BACK_FOOT: f64 = 0.8;
/// κ₀ of the weights is one over this many runs of the front leg.
const REFERENCE: f64 = 1.0;

impl Frame {
    fn of(
        target: &Target,
        (front, back): (&Upper, &Upper),
        gusset: &GussetPlan,
        knobs: &Knobs,
    ) -> Result<Self, Finding> {
        let sizes = Sizes::of(gusset, target);
        let at_front = |p: Point| Point::new(p.x, p.y - front.y_gusset);
        let at_back = |p: Point| Point::new(p.x, sizes.length + back.y_gusset - p.y);
        let (foot, end) = (at_front(front.foot()), at_back(back.foot()));
        let corner = Point::new(sizes.front, 0.0);
        let behind = Point::new(sizes.back, sizes.length);
        has_room(foot, corner, end, behind)?;
        let square = front.square();
        let (steep, fall) = (float::atan2(square.y, -square.x), float::atan2(-foot.y, foot.x - corner.x));
        let drawn = soft_max(
            soft_min(steep, fall - UNDER_CHORD - SCOOPED_UNDER * soft_max(knobs.scoop - FAIREST_SCOOP, 0.0, 0.2), SOFT),
            FLATTEST,
            SOFT,
        );
        let flatter = steep - drawn;
        let square = back.square();
        let narrowest = Point::new(sizes.narrow, sizes.narrowest);
        Ok(Self {
            stations: [foot, corner, narrowest, behind, end],
            leaving: Vec2::new(-float::cos(drawn), float::sin(drawn)),
            // The back takes up what the front is flatter by, so that both angles add up to 180°.
            arriving: Vec2::from_angle(float::atan2(square.y, -square.x) + flatter),
            flatter,
        })
    }

    fn run(&self) -> f64 {
        self.stations[0].x - self.stations[1].x
    }

    fn first_lengths(&self) -> [f64; SPANS] {
        let mut lengths = [0.0; SPANS];
        for (breaks, ends) in STATIONS.windows(2).zip(self.stations.windows(2)) {
            let spans = &mut lengths[breaks[0]..breaks[1]];
            let each = ends[0].distance(ends[1]) / spans.len() as f64;
            spans.fill(each);
        }
        lengths
    }

    fn curve(&self, lengths: &[f64; SPANS], weights: &[f64; SPANS], set: &Set) -> Result<Spline, Finding> {
        let through = |i: usize| (STATIONS[i], Condition::Through(self.stations[i]));
        // Hollow is the side of the leg; the normal to it is the direction turned by a quarter.
        let bent = |along: Vec2, runs: f64| Condition::Bent(Vec2::new(along.y, -along.x) / (runs * self.run()));
        let kept: [Kept; CONDITIONS] = [
            through(0),
            through(1),
            through(2),
            through(3),
            through(4),
            (0, Condition::Along(self.leaving)),
            (SPANS, Condition::Along(self.arriving)),
            (0, bent(self.leaving, FRONT_FOOT)),
            (SPANS, bent(self.arriving, BACK_FOOT)),
            (SEAT, set.seat),
            (MIDDLE, set.middle),
            (FRONT_SEAM, set.front_flare),
            (BACK_SEAM, set.back_flare),
        ];
        let curve = solve(lengths, weights, &kept, NARROWEST).ok_or_else(no_curve)?;
        let length: f64 = (0..SPANS).map(|span| curve.length(span)).sum();
        let chords: f64 = self.stations.windows(2).map(|ends| ends[0].distance(ends[1])).sum();
        if length > RUN_AWAY * chords { Err(no_curve()) } else { Ok(curve) }
    }

    /// The curve after all its steps.
    fn settled(&self, mut set: Set, knobs: &Knobs) -> Result<Spline, Finding> {
        let (mut lengths, mut weights) = (self.first_lengths(), [1.0; SPANS]);
        let mut curve = self.curve(&lengths, &weights, &set)?;
        for step in 1..STEPS {
            if step == SEATED {
                set.seat = Condition::Through(self.seated(&curve, knobs.cover));
            }
            if step == SCOOPED {
                let probed = Set { middle: Condition::Through(self.probed(&curve)), ..set };
                let probe = self.curve(&lengths, &weights, &probed)?;
                set.middle = Condition::Through(self.scooped(&curve, &probe, knobs.scoop));
            }
            lengths = even_lengths(&curve);
            weights = self.weights(&curve);
            curve = self.curve(&lengths, &weights, &set)?;
        }
        Ok(curve)
    }

    fn weights(&self, curve: &Spline) -> [f64; SPANS] {
        let reference = float::square(REFERENCE / self.run());
        std::array::from_fn(|span| {
            let bend = curve.bend(span);
            let counted = if span < BACK_SEAM { bend.max(0.0) } else { bend };
            reference / (counted * counted + reference)
        })
    }

    /// Where the line passes over the seat: the middle of its chord, moved outward by the cover; no
    /// barer than the fairest line there. Barer by 2 % of the chord, 1 in 220 random sheets dipped at
    /// the seat between two swings.
    fn seated(&self, curve: &Spline, cover: f64) -> Point {
        let (behind, end) = (self.stations[3], self.stations[4]);
        let chord = end - behind;
        let outward = Vec2::new(chord.y, -chord.x);
        let fairest = (curve.point(SEAT) - behind).dot(outward) / chord.hypot2();
        let asked = BARE + (FULL - BARE) * cover;
        behind + chord * 0.5 + outward * soft_max(asked, fairest, SOFT_COVER)
    }

    /// Does a side of the gusset have to run straighter at its seam, so as not to be narrower beside its
    /// narrowest place? Then it is set to.
    ///
    /// A cubic that is upright at one end and Δ further out after a length h keeps to one side of it up to
    /// a slope of 3·Δ/h there, and with m = 3·Δ/h + δ goes 4·(δh)³/(27·Δ²) beyond.
    fn limits_flares(&self, curve: &Spline, set: &mut Set) -> bool {
        let [_, corner, narrowest, behind, _] = self.stations;
        let mut limits = false;
        for (at, outward, end, spans, flare) in [
            (FRONT_SEAM, -1.0, corner, FRONT_SEAM..NARROWEST, &mut set.front_flare),
            (BACK_SEAM, 1.0, behind, NARROWEST..BACK_SEAM, &mut set.back_flare),
        ] {
            let (wider, length) = (end.x - narrowest.x, spans.map(|span| curve.length(span)).sum::<f64>());
            let unseen = float::cbrt(6.75 * UNSEEN * behind.y * wider * wider);
            let steepest = ((3.0 * wider + unseen) / length).min(1.0);
            let slope = outward * curve.heading(at).normalize().x;
            if slope > steepest && matches!(flare, Condition::Free) {
                let steepest = (2.0 * steepest - slope).max(EVEN_FLARE * wider / length);
                *flare = Condition::Along(Vec2::new(outward * steepest, (1.0 - steepest * steepest).sqrt()));
                limits = true;
            }
        }
        limits
    }

    /// Where the middle of the front leg goes: the depth of the fairest line there, as a share of
    /// the triangle of its tangents, moved on the logistic scale, so that it stays inside for every
    /// scoop from 0 to 1; and deep enough to stay one hollow.
    ///
    /// `probe` is the same curve with its middle moved to [`Frame::probed`].
    fn scooped(&self, curve: &Spline, probe: &Spline, scoop: f64) -> Point {
        let (foot, corner) = (self.stations[0], self.stations[1]);
        let (fairest, chord, arriving) = (curve.point(MIDDLE), corner - foot, curve.heading(FRONT_SEAM));
        let across = self.across();
        let apex = self.leaving * (chord.cross(arriving) / self.leaving.cross(arriving));
        let (depth, deepest) = ((fairest - foot).dot(across), apex.dot(across));
        let share = (depth / deepest).clamp(0.02, 0.98);
        let odds = share / (1.0 - share)
            * float::exp(SCOOP * (scoop - FAIREST_SCOOP) * (1.0 - SCOOP_FADES * (scoop - FAIREST_SCOOP)) - FAIREST);
        let asked = (odds / (1.0 + odds) - share) * deepest;
        // The curve is linear in its middle: moved by so much it is still hollow there.
        let bend = curve.bend_at(MIDDLE);
        let per_mm = (probe.bend_at(MIDDLE) - bend) / (PROBE * chord.hypot());
        let straightest = (LEAST_BEND - 1.0) * bend / per_mm;
        fairest + across * soft_min(asked, straightest, SOFT_SCOOP * chord.hypot())
    }

    /// The middle of the front leg a little nearer to the chord than a curve has it.
    fn probed(&self, curve: &Spline) -> Point {
        curve.point(MIDDLE) + self.across() * (PROBE * self.stations[1].distance(self.stations[0]))
    }

    /// From the front leg to its chord, square to it.
    fn across(&self) -> Vec2 {
        let chord = self.stations[1] - self.stations[0];
        Vec2::new(chord.y, -chord.x).normalize()
    }

    /// Each edge on its own half piece.
    fn cut_apart(&self, curve: &Spline, (front, back): (&Upper, &Upper)) -> Opening {
        let length = self.stations[3].y;
        let path = |spans, ends: (Point, Point)| ended(Path::new(curve.cubics(spans)), ends);
        let [foot, corner, _, behind, end] = self.stations;
        Opening {
            front: path(0..FRONT_SEAM, (foot, corner)).map(|p| Point::new(p.x, p.y + front.y_gusset)),
            gusset: path(FRONT_SEAM..BACK_SEAM, (corner, behind)),
            back: path(BACK_SEAM..SPANS, (behind, end))
                .reversed()
                .map(|p| Point::new(p.x, length + back.y_gusset - p.y)),
            flatter: self.flatter,
        }
    }
}

/// With its ends set to the points that it met within a rounding.
fn ended(path: Path, (start, end): (Point, Point)) -> Path {
    path.starting_at(start).reversed().starting_at(end).reversed()
}

fn even_lengths(curve: &Spline) -> [f64; SPANS] {
    let mut lengths = std::array::from_fn(|span| curve.length(span));
    for breaks in STATIONS.windows(2) {
        let spans = &mut lengths[breaks[0]..breaks[1]];
        let each = spans.iter().sum::<f64>() / spans.len() as f64;
        spans.fill(each);
    }
    lengths
}

/// The further beyond, the straighter it is set to run, down to a little over a parabola's slope.
const EVEN_FLARE: f64 = 2.2;
/// How much narrower nobody sees, in lengths of the gusset: 0.02 mm of 140.
const UNSEEN: f64 = 1.4e-4;

/// How strongly the scoop moves the middle of the front leg, less so the deeper it is; the scoop of the
/// fairest line; and how much straighter than the first solution that line is drawn, which takes the
/// last of its swing out.
const SCOOP: f64 = 1.2;
const SCOOP_FADES: f64 = 0.85;
const FAIREST_SCOOP: f64 = 0.42;
const FAIREST: f64 = 0.16;

/// The front leg keeps this share of the fairest line's curvature at its middle.
const LEAST_BEND: f64 = 0.2;
/// How softly that bound sets in, and how far the curve is moved to learn what moving it does, in
/// chords.
const SOFT_SCOOP: f64 = 0.01;
const PROBE: f64 = 0.02;

/// Where the back leg passes the middle of its chord, as a share of the chord, outward positive.
const BARE: f64 = -0.20;
const FULL: f64 = 0.13;
/// How softly it comes to the fairest line, in chords.
const SOFT_COVER: f64 = 0.03;

/// The least run of a leg edge across the piece, mm.
const SHORTEST_RUN: f64 = 15.0;

fn has_room(foot: Point, corner: Point, end: Point, behind: Point) -> Result<(), Finding> {
    if corner.x > foot.x - SHORTEST_RUN {
        return Err(no_hollow(2.0 * corner.x, 2.0 * foot.x));
    }
    if behind.x > end.x - SHORTEST_RUN || end.y < behind.y + SHORTEST_RUN {
        return Err(back_leg_refusal(end.x - behind.x, end.y - behind.y));
    }
    Ok(())
}

fn no_hollow(width: f64, front: f64) -> Finding {
    DraftFact::GussetTooWide { width, most: front - 2.0 * SHORTEST_RUN }.into()
}

fn back_leg_refusal(across: f64, down: f64) -> Finding {
    DraftFact::BackLeg { room: across.min(down), least: SHORTEST_RUN }.into()
}

fn no_curve() -> Finding {
    DraftFact::NoSmoothLeg.into()
}
