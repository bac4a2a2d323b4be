//! What to doubt in a file that was walked.

use super::fact::{ALLOWANCE_LEFT, Fact, SCALED, SEAM_DIFFERS, SOMEBODYS};
use super::{Doubt, Place};
use crate::read::{EdgeLength, Found, LINES, Lying, Outlines, ReadLine, SeamLengths, Walked, all_openings, all_seams};
use kurbo::{Line, ParamCurve, ParamCurveNearest, Point};
use std::collections::BTreeMap;

/// What a person should know before trusting the file: seams whose sides differ, and what its names
/// do not allow to be measured.
///
/// A file without any name of an edge has nothing to doubt here.
pub fn doubts(found: &Outlines, walked: &Walked) -> Vec<Doubt> {
    if !found.lines.iter().flat_map(|l| &l.edges).any(|e| e.found != Found::TurnPoints) {
        return Vec::new();
    }
    let (seams, openings) = (all_seams(), all_openings());
    let scaled = found.scale.filter(|scale| (scale - 1.0).abs() > SCALED);
    let scaled = scaled.map(|scale| Doubt::new(Place::Drawing, Fact::Scaled(scale)));
    let nobodys = walked.openings.iter().filter(|ring| !SOMEBODYS.contains(&ring.length)).map(|ring| {
        Doubt::new(Place::named(&ring.name), Fact::NobodysSize { line: ring.line.clone(), length: ring.length })
    });
    let missing = missing(found, &seams);
    let is_here = |pieces: &[&'static str]| !pieces.iter().any(|piece| missing.contains(piece));
    let differ = walked.seams.iter().filter(|s| s.line == LINES[0]).filter_map(differing);
    let lost_seams = seams.iter().filter(|(name, _)| !walked.seams.iter().any(|s| s.name == *name));
    let lost_seams = lost_seams.filter(|(_, pieces)| is_here(pieces));
    let is_measured = |name: &str, line: &str| walked.openings.iter().any(|o| o.name == name && o.line == line);
    let is_drawn = |line: &str| found.lines.iter().any(|l| l.line == line);
    let openings = openings.iter().filter(|(_, pieces)| is_here(pieces));
    let lost_openings = openings.flat_map(|(name, pieces)| {
        let lines = LINES.into_iter().filter(|line| is_drawn(line) && !is_measured(name, line));
        lines.map(move |line| lost(name, line, pieces))
    });
    let lost_seams = lost_seams.map(|(name, pieces)| lost(name, LINES[0], pieces));
    let is_cut_only = !walked.seams.is_empty() && !walked.seams.iter().any(SeamLengths::is_sewn);
    let cut_only = is_cut_only.then(|| Doubt::new(Place::Drawing, Fact::CutLinesOnly));
    scaled
        .into_iter()
        .chain(nobodys)
        .chain(differ)
        .chain(cut_only)
        .chain(narrow(found))
        .chain((!missing.is_empty()).then(|| Doubt::new(Place::Drawing, Fact::PiecesMissing(missing.clone()))))
        .chain(lost_seams)
        .chain(lost_openings)
        .collect()
}

/// The pieces of seams that the file has no line of.
fn missing(found: &Outlines, seams: &[Lying]) -> Vec<&'static str> {
    let mut missing = Vec::new();
    for piece in seams.iter().flat_map(|(_, pieces)| pieces) {
        if !missing.contains(piece) && !found.lines.iter().any(|line| line.piece == *piece) {
            missing.push(*piece);
        }
    }
    missing
}

fn differing(s: &SeamLengths) -> Option<Doubt> {
    let (a, b) = ((s.a.clone(), s.length_a), (s.b.clone(), s.length_b));
    let differs = (a.1 - b.1).abs() > SEAM_DIFFERS;
    differs.then(|| Doubt::new(Place::named(&s.name), Fact::SeamDiffers { a, b }))
}

fn lost(name: &str, line: &'static str, pieces: &[&'static str]) -> Doubt {
    Doubt::new(Place::named(name), Fact::NotMeasured { line, pieces: pieces.to_vec() })
}

/// Edges along which the cut line comes too near to the sewing line, where both are straight parts.
fn narrow(found: &Outlines) -> Vec<Doubt> {
    let mut cut: BTreeMap<&str, Vec<(usize, &ReadLine)>> = BTreeMap::new();
    for (i, line) in found.lines.iter().enumerate().filter(|(_, l)| l.line == LINES[1]) {
        cut.entry(&line.piece).or_default().push((i, line));
    }
    let mut left = MOST_MEASURED;
    let mut doubts = Vec::new();
    for (i, sewing) in found.lines.iter().enumerate().filter(|(_, l)| l.line == LINES[0]) {
        let own = cut.get(sewing.piece.as_str()).map(Vec::as_slice).unwrap_or_default();
        // The only one of its piece, or of copies that which is drawn after it.
        let after = if own.len() == 1 { 0 } else { own.partition_point(|(at, _)| *at < i) };
        let Some((_, beside)) = own.get(after) else { continue };
        for edge in &sewing.edges {
            let other = beside.edges.iter().find(|e| e.name == edge.name);
            let Some((least, usual)) = other.and_then(|other| allowance(edge, other, &mut left)) else { continue };
            // At a raw edge both lines are one.
            if usual > SEAM_DIFFERS && least < ALLOWANCE_LEFT * usual {
                let fact = Fact::AllowanceNarrow { edge: edge.name.clone(), least, usual };
                doubts.push(Doubt::new(Place::named(&sewing.piece), fact));
            }
        }
    }
    doubts
}

/// Between places of a sewing line that are looked at, mm.
const STEP: f64 = 1.0;

/// So many distances are measured of a file: fifty times those of any pair of ours, in less than a second.
const MOST_MEASURED: usize = 100_000_000;

/// How far a cut edge lies from its sewing line: where it is nearest, and in the middle of all places.
fn allowance(sewing: &EdgeLength, cut: &EdgeLength, left: &mut usize) -> Option<(f64, f64)> {
    let (sewn, mut beside) = (sides(sewing), sides(cut));
    without_square_ends(&mut beside, &sewn);
    let count = |side: &Line| ((side.p1 - side.p0).hypot() / STEP).ceil().max(1.0) as usize;
    let measured = sewn.iter().map(|side| count(side) + 1).sum::<usize>().saturating_mul(beside.len());
    *left = left.checked_sub(measured)?;
    let places = sewn.iter().flat_map(|side| {
        let count = count(side);
        (0..=count).map(move |i| side.eval(i as f64 / count as f64))
    });
    let off = |p: Point| beside.iter().map(|l| l.nearest(p, 1e-9).distance_sq).fold(f64::INFINITY, f64::min).sqrt();
    let mut all: Vec<f64> = places.map(off).collect();
    all.sort_by(f64::total_cmp);
    let (least, usual) = (all.first()?, all.get(all.len() / 2)?);
    usual.is_finite().then_some((*least, *usual))
}

/// An allowance may end square to its seam: that side reaches the stitches, and is no part of its width.
fn without_square_ends(cut: &mut Vec<Line>, sewn: &[Line]) {
    if let [.., last, end] = cut[..]
        && is_square_end(end, last, sewn)
    {
        cut.pop();
    }
    if let [start, first, ..] = cut[..]
        && is_square_end(start, first, sewn)
    {
        cut.remove(0);
    }
}

/// Square to the side beside it within three degrees, and to an end of the seam as well, which may be drawn in chords.
fn is_square_end(end: Line, side: Line, sewn: &[Line]) -> bool {
    is_square(end, side, 0.05) && [sewn.first(), sewn.last()].into_iter().flatten().any(|s| is_square(end, *s, 0.2))
}

/// Within an angle of this sine.
fn is_square(one: Line, other: Line, off: f64) -> bool {
    let (a, b) = (one.p1 - one.p0, other.p1 - other.p0);
    a.dot(b).abs() < off * a.hypot() * b.hypot()
}

fn sides(edge: &EdgeLength) -> Vec<Line> {
    edge.runs.iter().flat_map(|run| run.windows(2)).map(|w| Line::new(w[0], w[1])).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cutter::Notches;
    use crate::read::{self, Format};
    use crate::sample;

    fn narrow_in(text: &str) -> Vec<String> {
        let told = |d: &Doubt| match &d.fact {
            Fact::AllowanceNarrow { edge, .. } => format!("{}, {edge}", d.place),
            other => format!("{other:?}"),
        };
        narrow(&read::read(text.as_bytes(), Format::Dxf).unwrap()).iter().map(told).collect()
    }

    /// The file to exchange has both rows; a corner of the cut line that is moved through them is told.
    /// The legs of the invented drawing have allowances of many widths, its seams one each.
    #[test]
    fn a_cut_line_that_nears_its_sewing_line_is_told() {
        for notches in [Notches::Slits, Notches::Vees] {
            let text = String::from_utf8(crate::dxf::pieces(&sample::drawing(), notches).unwrap()).unwrap();
            let before = narrow_in(&text);
            assert!(before.iter().all(|told| told.contains("leg")), "{before:?}");
            let cut = text.find("POLYLINE\r\n  8\r\n1\r\n").unwrap();
            let mut told: Vec<String> = Vec::new();
            for y in vertices(&text[cut..]) {
                for by in [-12.0, 12.0] {
                    let (from, to) = (cut + y.start, cut + y.end);
                    let moved: f64 = text[from..to].trim().parse::<f64>().unwrap() + by;
                    told.extend(narrow_in(&format!("{}{moved}{}", &text[..from], &text[to..])));
                }
            }
            told.retain(|one| !before.contains(one));
            assert!(told.contains(&"front, side seam".to_owned()), "{notches:?}: {told:?}");
        }
    }

    /// Where the y of each vertex of the first polyline stands.
    fn vertices(text: &str) -> Vec<std::ops::Range<usize>> {
        let end = text.find("SEQEND").unwrap();
        let at = |(i, mark): (usize, &str)| {
            let from = i + mark.len();
            from..from + text[from..].find("\r\n").unwrap()
        };
        text[..end].match_indices("\r\n 20\r\n").map(at).skip(1).collect()
    }
}
