//! What to doubt in a file that was walked.

use super::Doubt;
use crate::read::{Found, LINES, Outlines, SeamLengths, Walked, all_openings, all_seams};
use engine::finding::{Level, Measured, Unit};

/// Sides of a seam that differ by more are not from rounding or chords, mm.
const SEAM_TOLERANCE: f64 = 0.1;

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
        lines.map(move |line| lost(name, &format!("{line} lines"), pieces))
    });
    let lost_seams = lost_seams.map(|(name, pieces)| lost(name, "sewing lines", pieces));
    differ.chain(lost_seams).chain(lost_openings).collect()
}

fn differing(s: &SeamLengths) -> Option<Doubt> {
    let difference = (s.length_a - s.length_b).abs();
    let text = format!(
        "{} is {:.3} mm long and {} {:.3} mm, which is {difference:.3} mm apart",
        s.a, s.length_a, s.b, s.length_b
    );
    (difference > SEAM_TOLERANCE).then(|| Doubt {
        code: "walk-seam-differs",
        level: Level::Warning,
        place: s.name.clone(),
        measured: Some(Measured { value: difference, limit: SEAM_TOLERANCE, unit: Unit::Mm }),
        text,
        next: "make both sides equally long, or ease one to the other knowingly".to_owned(),
    })
}

fn lost(name: &str, lines: &str, pieces: &[&str]) -> Doubt {
    let text = format!(
        "it cannot be measured: on the {lines} of {}, its edges are not there under their names, or were moved too far",
        pieces.join(" and ")
    );
    Doubt {
        code: "walk-not-measured",
        level: Level::Warning,
        place: name.to_owned(),
        measured: None,
        text,
        next: "measure it by hand, or draft the file again and edit less at a time".to_owned(),
    }
}
