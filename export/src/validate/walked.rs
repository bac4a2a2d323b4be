//! What to doubt in a file that was walked.

use super::fact::{Fact, SEAM_DIFFERS};
use super::{Doubt, Place};
use crate::read::{Found, LINES, Outlines, SeamLengths, Walked, all_openings, all_seams};

/// What a person should know before trusting the file: seams whose sides differ, and what its names
/// do not allow to be measured.
///
/// A file without any name of an edge has nothing to doubt here.
pub fn doubts(found: &Outlines, walked: &Walked) -> Vec<Doubt> {
    if !found.lines.iter().flat_map(|l| &l.edges).any(|e| e.found != Found::TurnPoints) {
        return Vec::new();
    }
    let (seams, openings) = (all_seams(), all_openings());
    let differ = walked.seams.iter().filter(|s| s.line == LINES[0]).filter_map(differing);
    let lost_seams = seams.iter().filter(|(name, _)| !walked.seams.iter().any(|s| s.name == *name));
    let is_measured = |name: &str, line: &str| walked.openings.iter().any(|o| o.name == name && o.line == line);
    let is_drawn = |line: &str| found.lines.iter().any(|l| l.line == line);
    let lost_openings = openings.iter().flat_map(|(name, pieces)| {
        let lines = LINES.into_iter().filter(|line| is_drawn(line) && !is_measured(name, line));
        lines.map(move |line| lost(name, line, pieces))
    });
    let lost_seams = lost_seams.map(|(name, pieces)| lost(name, LINES[0], pieces));
    differ.chain(lost_seams).chain(lost_openings).collect()
}

fn differing(s: &SeamLengths) -> Option<Doubt> {
    let (a, b) = ((s.a.clone(), s.length_a), (s.b.clone(), s.length_b));
    let differs = (a.1 - b.1).abs() > SEAM_DIFFERS;
    differs.then(|| Doubt::new(Place::named(&s.name), Fact::SeamDiffers { a, b }))
}

fn lost(name: &str, line: &'static str, pieces: &[&'static str]) -> Doubt {
    Doubt::new(Place::named(name), Fact::NotMeasured { line, pieces: pieces.to_vec() })
}
