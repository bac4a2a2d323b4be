//! A style over the sizes of a table: how long everything is in each, and how it grows from one to the
//! next.

#[cfg(test)]
mod tests;

use crate::garment::{Garment, Value};
use crate::keys::{Home, Key, Single, body};
use crate::terms::Opening;
use crate::topology::{MarkPlace, PieceId, SeamId, Side};

/// A length that every size has.
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A measure of the body.
    Measure(Key),
    /// An opening, finished.
    Edge(Opening),
    /// A seam on the finished edges.
    Seam(SeamId),
    /// A piece as it is drawn, from side to side.
    Across(PieceId),
    /// A piece as it is drawn, from top to bottom.
    Along(PieceId),
    /// The elastic of an opening, as it is cut.
    Elastic(Opening),
    /// A mark on that elastic, from its first cut end.
    Mark(Opening, usize, MarkPlace),
}

/// One length in every size.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// Which.
    pub what: What,
    /// In the order of the sizes, mm; none where a size has no such length.
    pub lengths: Vec<Option<f64>>,
}

/// Every length in every size.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Growth {
    /// In the order in which they are told.
    pub lines: Vec<Line>,
}

/// How a length grows from one size to the next, beside the hip girth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// As it does between the other sizes.
    Even,
    /// More or less than that.
    Uneven,
    /// Smaller where the body is larger, or the other way round.
    Against,
}

/// A step may differ from the usual one by so much of it, and by so much, mm. Ours: a tape does not tell
/// two millimetres on an edge.
const UNEVEN: (f64, f64) = (0.25, 2.0);
/// Nearer than this, two lengths are the same, mm.
const SAME: f64 = 0.5;
/// Nearer than this, both sides are alike, mm: what a record tells.
const ALIKE: f64 = 1e-6;

impl Growth {
    /// Of these sizes, in their order.
    pub fn of(sizes: &[&Garment]) -> Self {
        let mut lines: Vec<Line> = Vec::new();
        for (at, garment) in sizes.iter().enumerate() {
            for (what, length) in lengths(garment) {
                let line = match lines.iter().position(|line| line.what.is(&what)) {
                    Some(known) => &mut lines[known],
                    None => {
                        lines.push(Line { what, lengths: vec![None; sizes.len()] });
                        let last = lines.len() - 1;
                        &mut lines[last]
                    }
                };
                line.lengths[at] = Some(length);
            }
        }
        lines.sort_by_key(|line| line.what.rank());
        Self { lines }
    }

    /// The lines without those of a right side that are as on the left.
    pub fn listed(&self) -> impl Iterator<Item = &Line> {
        self.lines.iter().filter(|line| !self.is_repeated(line))
    }

    /// Are there lines of a right side that are not listed?
    pub fn is_shortened(&self) -> bool {
        self.lines.iter().any(|line| self.is_repeated(line))
    }

    fn is_repeated(&self, line: &Line) -> bool {
        let left = line.what.on_the_left();
        left.is_some_and(|left| self.lines.iter().any(|other| other.what.is(&left) && other.is_as_long(line)))
    }

    /// How every step of a length goes; none where a size has no such length, and where the hip girth itself
    /// goes the other way than between most sizes: that is told of it alone.
    pub fn steps(&self, line: &Line) -> Vec<Option<Step>> {
        let hip_girth = What::Measure(Key::from(body::HIP_GIRTH));
        let hips = self.lines.iter().find(|line| line.what == hip_girth).map(Line::growth).unwrap_or_default();
        let way = median(hips.iter().flatten().copied().collect()).unwrap_or_default();
        let is_back = |hip: f64| hip * way < 0.0 && hip.abs() > SAME;
        let own = line.growth();
        let both = || own.iter().zip(&hips).filter_map(|(own, hip)| own.zip(hip.filter(|hip| !is_back(*hip))));
        let rates = both().filter(|(_, hip)| hip.abs() > SAME).map(|(own, hip)| own / hip);
        let rate = median(rates.collect());
        // A table may add so much to a measure each time; a garment has to follow the hip.
        let is_measure = matches!(line.what, What::Measure(_));
        let each = median(both().map(|(own, _)| own).collect()).filter(|_| is_measure);
        let step = |(own, hip): (&Option<f64>, &Option<f64>)| {
            let (own, hip) = own.as_ref().zip(hip.as_ref())?;
            match (is_back(*hip), line.what == hip_girth) {
                (true, is_hip) => is_hip.then_some(Step::Against),
                (false, _) => Some(judged(*own, *hip, (rate?, each))),
            }
        };
        own.iter().zip(&hips).map(step).collect()
    }
}

impl Line {
    fn is_as_long(&self, other: &Self) -> bool {
        self.lengths.iter().zip(&other.lengths).all(|pair| match pair {
            (Some(own), Some(theirs)) => (own - theirs).abs() < ALIKE,
            (own, theirs) => own.is_none() && theirs.is_none(),
        })
    }

    /// From each size to the next, mm.
    pub fn growth(&self) -> Vec<Option<f64>> {
        let step = |w: &[Option<f64>]| w[0].zip(w[1]).map(|(a, b)| b - a);
        self.lengths.windows(2).map(step).collect()
    }
}

/// By what is usual: so much to a millimetre of the hip, or so much from each size to the next.
fn judged(own: f64, hip: f64, (rate, each): (f64, Option<f64>)) -> Step {
    let is_as = |expected: f64| (own - expected).abs() <= (UNEVEN.0 * expected.abs()).max(UNEVEN.1);
    if own * hip < 0.0 && own.abs() > SAME {
        Step::Against
    } else if is_as(rate * hip) || each.is_some_and(is_as) {
        Step::Even
    } else {
        Step::Uneven
    }
}

fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let (low, high) = (values.len().checked_sub(1)? / 2, values.len() / 2);
    Some(0.5 * (values[low] + values[high]))
}

impl What {
    /// The same length of another size? A mark is known by its number.
    fn is(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Mark(o, n, _), Self::Mark(p, m, _)) => o == p && n == m,
            _ => self == other,
        }
    }

    /// The same on the other side, of what is on the right.
    fn on_the_left(&self) -> Option<Self> {
        match self {
            Self::Edge(Opening::RightLeg) => Some(Self::Edge(Opening::LeftLeg)),
            Self::Elastic(Opening::RightLeg) => Some(Self::Elastic(Opening::LeftLeg)),
            Self::Mark(Opening::RightLeg, number, place) => Some(Self::Mark(Opening::LeftLeg, *number, *place)),
            Self::Seam(SeamId::Side(Side::Right)) => Some(Self::Seam(SeamId::Side(Side::Left))),
            Self::Seam(SeamId::FrontGusset(Side::Right)) => Some(Self::Seam(SeamId::FrontGusset(Side::Left))),
            Self::Seam(SeamId::BackGusset(Side::Right)) => Some(Self::Seam(SeamId::BackGusset(Side::Left))),
            _ => None,
        }
    }

    const fn rank(&self) -> usize {
        match self {
            Self::Measure(_) => 0,
            Self::Edge(_) => 1,
            Self::Seam(_) => 2,
            Self::Across(_) | Self::Along(_) => 3,
            Self::Elastic(_) => 4,
            Self::Mark(..) => 5,
        }
    }
}

/// Every length of a garment.
fn lengths(garment: &Garment) -> Vec<(What, f64)> {
    let measures = garment.used.iter().filter_map(|used| match (used.key.home(), &used.value) {
        (Home::Single(Single::Body), Value::Mm(mm)) => Some((What::Measure(used.key.clone()), *mm)),
        _ => None,
    });
    let edges = garment.openings.iter().map(|o| (What::Edge(o.opening), o.finished));
    let seams = garment.seams.iter().map(|s| (What::Seam(s.id), s.length_a));
    let pieces = garment.pieces.iter().flat_map(|piece| {
        let bounds = piece.bounds();
        [(What::Across(piece.id), bounds.width()), (What::Along(piece.id), bounds.height())]
    });
    let elastics = garment.openings.iter().filter_map(|o| Some((o.opening, o.elastic.as_ref()?)));
    let cut = elastics.clone().map(|(opening, elastic)| (What::Elastic(opening), elastic.cut_length));
    let marks = elastics.flat_map(|(opening, elastic)| {
        let mark = move |mark: &crate::elastic::Mark| {
            let along = elastic.from_cut_end(mark).first().copied()?;
            Some((What::Mark(opening, mark.number, mark.place), along))
        };
        elastic.marks.iter().filter_map(mark)
    });
    measures.chain(edges).chain(seams).chain(pieces).chain(cut).chain(marks).collect()
}
