//! What every exporter asks of a drawing before it writes, and outlines as one path.

use engine::curve::Path;
use engine::drawing::{Drawing, Edge, Extent, Loop, Piece, Role};
use kurbo::{BezPath, Line, ParamCurve, PathEl, PathSeg, Point, Shape};

/// Edges of a loop meet within this, mm; what is closer is written as one point.
const JOIN_TOLERANCE: f64 = 1e-3;

/// No garment is larger than this, mm.
const LARGEST: f64 = 1e5;

/// Less than this is no piece of cloth, mm².
const SMALLEST_AREA: f64 = 1.0;

/// A drawing that cannot be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Flaw {
    /// Nothing to draw.
    #[error("the drawing has no pieces, so there is nothing to write")]
    NoPieces,
    /// Not exactly one cut outline.
    #[error("piece `{piece}` has {count} cut outlines where one is needed: draft it again")]
    CutOutlines {
        /// Its name.
        piece: String,
        /// How many it has.
        count: usize,
    },
    /// A loop or line without anything in it.
    #[error("piece `{piece}`: {what} is empty: draft it again")]
    Empty {
        /// Its name.
        piece: String,
        /// The loop or line.
        what: String,
    },
    /// Two neighbours that do not meet.
    #[error("piece `{piece}`: {what} is open after its edge `{edge}`, by {gap:.3} mm: draft it again")]
    Open {
        /// Its name.
        piece: String,
        /// The loop.
        what: String,
        /// The edge before the gap.
        edge: String,
        /// Its width, mm.
        gap: f64,
    },
    /// Not a number, infinite, or far beyond any garment.
    #[error("piece `{piece}`: {what} holds a number that is no length: check the measurements")]
    Number {
        /// Its name.
        piece: String,
        /// Where it is.
        what: String,
    },
    /// An outline that encloses nothing.
    #[error("piece `{piece}`: its cut outline encloses no cloth: check the measurements")]
    NoArea {
        /// Its name.
        piece: String,
    },
    /// A half without its fold.
    #[error("piece `{piece}` is a half without a fold line: draft it again")]
    NoFold {
        /// Its name.
        piece: String,
    },
}

/// The role in words, for messages.
pub(crate) fn role_words(role: Role) -> &'static str {
    match role {
        Role::Cut => "the cut outline",
        Role::Sewing => "the sewing line",
        Role::SecondRow => "the second row",
        Role::Finished => "the finished edge",
    }
}

/// Refuses what would become a broken file.
///
/// # Errors
/// The first [`Flaw`] found, naming the piece.
pub(crate) fn check(drawing: &Drawing) -> Result<(), Flaw> {
    check_all(&drawing.pieces)
}

/// The same of pieces.
///
/// # Errors
/// As for a drawing.
pub(crate) fn check_all(pieces: &[Piece]) -> Result<(), Flaw> {
    if pieces.is_empty() {
        return Err(Flaw::NoPieces);
    }
    pieces.iter().try_for_each(check_piece)
}

fn check_piece(piece: &Piece) -> Result<(), Flaw> {
    let name = &piece.name;
    let count = piece.loops.iter().filter(|l| l.role == Role::Cut).count();
    if count != 1 {
        return Err(Flaw::CutOutlines { piece: name.clone(), count });
    }
    piece.loops.iter().try_for_each(|l| check_loop(name, l))?;
    for open in &piece.lines {
        check_path(name, || format!("{} along `{}`", role_words(open.role), open.edge), &open.path)?;
    }
    check_marks(piece)?;
    if piece.extent == Extent::HalfOnFold && piece.mirror.is_none() {
        return Err(Flaw::NoFold { piece: name.clone() });
    }
    let area = piece.cut().map_or(0.0, |l| joined(l).to_bez_path().area().abs());
    if area < SMALLEST_AREA { Err(Flaw::NoArea { piece: name.clone() }) } else { Ok(()) }
}

fn check_loop(piece: &str, l: &Loop) -> Result<(), Flaw> {
    let what = role_words(l.role);
    if l.edges.is_empty() {
        return Err(Flaw::Empty { piece: piece.to_owned(), what: what.to_owned() });
    }
    for edge in &l.edges {
        check_path(piece, || format!("{what}, edge `{}`", edge.name), &edge.path)?;
    }
    for (edge, next) in neighbours(&l.edges) {
        let gap = (next.path.start() - edge.path.end()).hypot();
        if gap > JOIN_TOLERANCE {
            let (piece, what, edge) = (piece.to_owned(), what.to_owned(), edge.name.clone());
            return Err(Flaw::Open { piece, what, edge, gap });
        }
    }
    Ok(())
}

fn neighbours(edges: &[Edge]) -> impl Iterator<Item = (&Edge, &Edge)> {
    edges.iter().zip(edges.iter().cycle().skip(1))
}

/// What it is, is put into words only where it is wrong.
fn check_path(piece: &str, what: impl Fn() -> String, path: &Path) -> Result<(), Flaw> {
    if path.segments().is_empty() {
        return Err(Flaw::Empty { piece: piece.to_owned(), what: what() });
    }
    sound_or(piece, what, every_point(path, is_sound))
}

fn check_marks(piece: &Piece) -> Result<(), Flaw> {
    for notch in &piece.notches {
        let sound = is_sound(notch.at) && is_sound(notch.inward.to_point()) && is_sound(Point::new(notch.depth, 0.0));
        sound_or(&piece.name, || format!("notch `{}`", notch.id), sound)?;
    }
    let lines =
        [("the grain line", Some(piece.grain)), ("the stretch line", Some(piece.stretch)), ("the fold", piece.mirror)];
    for (what, line) in lines {
        sound_or(&piece.name, || what.to_owned(), line.is_none_or(is_sound_line))?;
    }
    let b = piece.text_box;
    let what = || "the text box".to_owned();
    sound_or(&piece.name, what, is_sound(Point::new(b.x0, b.y0)) && is_sound(Point::new(b.x1, b.y1)))
}

fn sound_or(piece: &str, what: impl Fn() -> String, sound: bool) -> Result<(), Flaw> {
    if sound { Ok(()) } else { Err(Flaw::Number { piece: piece.to_owned(), what: what() }) }
}

/// Does this hold of every control point of a path?
fn every_point(path: &Path, is_so: impl Fn(Point) -> bool) -> bool {
    path.segments().iter().all(|segment| match *segment {
        PathSeg::Line(l) => [l.p0, l.p1].into_iter().all(&is_so),
        PathSeg::Quad(q) => [q.p0, q.p1, q.p2].into_iter().all(&is_so),
        PathSeg::Cubic(c) => [c.p0, c.p1, c.p2, c.p3].into_iter().all(&is_so),
    })
}

fn is_sound_line(line: Line) -> bool {
    is_sound(line.p0) && is_sound(line.p1)
}

/// Neither NaN nor infinite nor out of all measure (a NaN is in no range).
fn is_sound(p: Point) -> bool {
    [p.x, p.y].iter().all(|v| (-LARGEST..=LARGEST).contains(v))
}

/// All edges of a loop as one path.
pub(crate) fn joined(l: &Loop) -> Path {
    chained(&l.edges)
}

/// Edges that meet head to tail, as one path.
pub(crate) fn chained(edges: &[Edge]) -> Path {
    Path::new(edges.iter().flat_map(|e| e.path.segments()).copied().collect())
}

/// A closed path through these corners.
pub(crate) fn polygon(corners: &[Point]) -> BezPath {
    if corners.is_empty() {
        return BezPath::new();
    }
    let to = |(i, p): (usize, &Point)| if i == 0 { PathEl::MoveTo(*p) } else { PathEl::LineTo(*p) };
    BezPath::from_vec(corners.iter().enumerate().map(to).chain([PathEl::ClosePath]).collect())
}

/// A run of edges to be drawn in one go.
pub(crate) struct Run {
    /// Its named parts, head to tail.
    pub(crate) edges: Vec<Edge>,
    /// Does it end where it starts?
    pub(crate) is_closed: bool,
}

/// A loop without the edges that lie on the fold: nothing is sewn there.
pub(crate) fn stitched(piece: &Piece, l: &Loop) -> Vec<Run> {
    let is_on_fold = |e: &Edge| piece.mirror.is_some_and(|m| lies_on(&e.path, m));
    let Some(fold) = l.edges.iter().position(is_on_fold) else {
        return vec![Run { edges: l.edges.clone(), is_closed: true }];
    };
    let mut runs: Vec<Vec<Edge>> = Vec::new();
    let mut is_running = false;
    for edge in l.edges.iter().cycle().skip(fold).take(l.edges.len()) {
        if is_on_fold(edge) {
            is_running = false;
            continue;
        }
        match runs.last_mut() {
            Some(run) if is_running => run.push(edge.clone()),
            _ => runs.push(vec![edge.clone()]),
        }
        is_running = true;
    }
    runs.into_iter().map(|edges| Run { edges, is_closed: false }).collect()
}

/// Is a path a part of the endless straight line through another?
fn lies_on(path: &Path, line: Line) -> bool {
    let along = line.p1 - line.p0;
    let length = along.hypot();
    let off = |p: Point| (p - line.p0).cross(along).abs() / length;
    length > 0.0 && every_point(path, |p| off(p) <= JOIN_TOLERANCE)
}

/// The parts of the finished edge that are worth a line of their own: those that do not run along
/// the cut line or the sewing line of the same edge.
pub(crate) fn finished_apart(piece: &Piece) -> Vec<&Edge> {
    let others: Vec<&Edge> = piece.loops.iter().filter(|l| l.role != Role::Finished).flat_map(|l| &l.edges).collect();
    let finished = piece.loops.iter().filter(|l| l.role == Role::Finished).flat_map(|l| &l.edges);
    finished.filter(|e| !others.iter().any(|o| o.name == e.name && runs_along(&e.path, &o.path))).collect()
}

/// Do two paths run along each other (three places of the one within a hundredth of the other)?
fn runs_along(a: &Path, b: &Path) -> bool {
    let (bez, segments) = (b.to_bez_path(), a.segments());
    // By its segments, not by its length, which would have to be measured.
    let place = |share: f64| {
        let along = share * segments.len() as f64;
        segments.get(along as usize).map(|segment| segment.eval(along.fract()))
    };
    [0.25, 0.5, 0.75].into_iter().filter_map(place).all(|p| nearest(&bez, p) < 0.01)
}

fn nearest(path: &kurbo::BezPath, p: Point) -> f64 {
    use kurbo::ParamCurveNearest;
    // kurbo's accuracy has to be far finer than the distance that is asked for.
    path.segments().map(|s| s.nearest(p, 1e-6).distance_sq).fold(f64::INFINITY, f64::min).sqrt()
}
