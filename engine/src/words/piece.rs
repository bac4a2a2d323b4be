//! What is written on a piece.

use super::{Speech, joining};
use crate::elastic::BandCut;
use crate::finish::TurnedIn;
use crate::plan::{FinishPlan, SeamPlan};
use crate::terms::Extent;
use crate::topology::Side;

/// The pattern that a piece belongs to.
pub(crate) fn pattern(name: &str, date: Option<&str>) -> String {
    date.map_or_else(|| name.to_owned(), |date| format!("{name}, {date}"))
}

/// Two layers that are cut after one outline.
pub(crate) fn layers(piece: &str, other: &str) -> String {
    other.strip_prefix(piece).map_or_else(|| format!("{piece} and {other}"), |rest| format!("{piece} and its{rest}"))
}

/// How two layers of one outline are cut.
pub(crate) fn cutting_layers(of: [(u32, &str); 2], extent: Extent) -> String {
    match of {
        [(n, one), (m, other)] if one == other => cutting(n + m, one, extent),
        [(n, one), (m, other)] => cutting(n, &format!("{one} and {m} of {other}"), extent),
    }
}

/// The numbers of a mark on both halves of a half piece; `side` is the wearer's side of the half that
/// is drawn.
pub(crate) fn numbers(here: usize, there: usize, side: Side) -> String {
    let initial = |side: Side| match side {
        Side::Left => 'L',
        Side::Right => 'R',
    };
    format!("{}{here} {}{there}", initial(side), initial(side.other()))
}

/// How it is cut.
pub(crate) fn cutting(quantity: u32, material: &str, extent: Extent) -> String {
    let how = match extent {
        Extent::HalfOnFold => "on the fold",
        Extent::Full => "whole piece",
    };
    format!("cut {quantity} of {material}, {how}, right side up")
}

/// The seam allowance of front and back.
pub(crate) fn allowances(seams: &SeamPlan, speech: Speech) -> String {
    let (side, gusset) = (speech.tool(seams.side), speech.tool(seams.gusset));
    if seams.side == seams.gusset { allowance(&side) } else { allowance(&format!("side {side}, gusset {gusset}")) }
}

/// The seam allowance of a gusset.
pub(crate) fn gusset_allowance(seams: &SeamPlan, speech: Speech) -> String {
    allowance(&speech.tool(seams.gusset))
}

fn allowance(of: &str) -> String {
    format!("seam allowance {of}, included")
}

/// The seam allowance of a band, and how it is folded.
pub(crate) fn band(band: &BandCut, seams: &SeamPlan, speech: Speech) -> [String; 2] {
    [
        format!("seam allowance {}, included all round", speech.tool(seams.side)),
        format!("doubled lengthwise to {}; {}", speech.tool(band.width), joining(band, speech)),
    ]
}

/// How the top edge of a piece is finished.
pub(crate) fn top_edge(top: &FinishPlan, speech: Speech) -> String {
    format!("top edge: {}", edge(top, speech))
}

/// How its leg edges are finished: one line where they are finished alike.
pub(crate) fn leg_edges(left: &FinishPlan, right: &FinishPlan, speech: Speech) -> Vec<String> {
    if is_alike(left, right) {
        return vec![format!("leg edge: {}", edge(left, speech))];
    }
    vec![
        format!("left leg (wearer's): {}", edge(left, speech)),
        format!("right leg (wearer's): {}", edge(right, speech)),
    ]
}

/// Are they cut alike, for the same elastic?
fn is_alike(a: &FinishPlan, b: &FinishPlan) -> bool {
    let name = |f: &FinishPlan| f.elastic.as_ref().map(|e| e.name.clone());
    a.kind == b.kind && name(a) == name(b) && a.lines.cut == b.lines.cut && a.lines.turned_in == b.lines.turned_in
}

fn edge(f: &FinishPlan, speech: Speech) -> String {
    let elastic = f.elastic.as_ref().map_or_else(String::new, |e| format!(", {}", e.name));
    let cut = f.lines.cut;
    let allowance = match (f.lines.turned_in, cut) {
        (TurnedIn::AtFinishedEdge, _) => format!("{} beyond the fold, included", speech.tool(cut)),
        (TurnedIn::No, c) if c < 0.0 => format!("cut {} inside the finished edge", speech.tool(-c)),
        (TurnedIn::No, 0.0) => "cut at the finished edge".to_owned(),
        (TurnedIn::No, _) => format!("{} included", speech.tool(cut)),
    };
    format!("{}{elastic}, {allowance}", f.kind.name())
}
