//! What is written on a piece and beside the pieces. Lengths are given in mm and inches, so that
//! the same pattern serves whoever holds it.

use crate::drawing::{Note, ON_FOLD, Shown, TextLine, TextStyle, WHOLE};
use crate::finish::TurnedIn;
use crate::garment::{Garment, Mark, OpeningWalk, Piece, Step};
use crate::plan::{FinishPlan, Plan};
use crate::sheet::Trial;
use crate::terms::{ClothKind, PutOn};
use crate::words::both;

fn body(text: String) -> TextLine {
    TextLine { style: TextStyle::Body, text }
}

/// Every line on a piece.
pub(super) fn on_piece(p: &Piece, garment: &Garment, plan: &Plan) -> Vec<TextLine> {
    let mut lines = vec![TextLine { style: TextStyle::Title, text: format!("{}: {}", garment.name, p.name) }];
    let how = if p.on_fold { ON_FOLD } else { WHOLE };
    lines.push(body(format!("cut {} of {}, {how}, right side up", p.quantity, p.material)));
    let side = both(plan.seams.side);
    if let Some(band) = garment.openings.iter().filter_map(|o| o.band.as_ref()).find(|b| b.piece == p.name) {
        lines.push(body(format!("seam allowance {side}, included all round")));
        lines.push(body(format!("doubled lengthwise to {}; {}", both(band.width), band.joining)));
        lines.extend(garment.date.iter().map(|d| body(d.clone())));
        return lines;
    }
    let seams = if is_gusset(p) {
        both(plan.seams.gusset)
    } else if plan.seams.side == plan.seams.gusset {
        side
    } else {
        format!("side {side}, gusset {}", both(plan.seams.gusset))
    };
    lines.push(body(format!("seam allowance {seams}, included")));
    lines.extend(finishes(p, plan).into_iter().map(body));
    lines.extend(garment.date.iter().map(|d| body(d.clone())));
    lines
}

/// The gusset or its second layer.
pub(super) fn is_gusset(p: &Piece) -> bool {
    p.name.starts_with("gusset")
}

/// One line for each edge of the piece that is finished.
fn finishes(p: &Piece, plan: &Plan) -> Vec<String> {
    let (top, left, right) = (&plan.finish.top, &plan.finish.left_leg, &plan.finish.right_leg);
    let mut lines = Vec::new();
    if !is_gusset(p) {
        lines.push(format!("top edge: {}", edge(top)));
    }
    if edge(left) == edge(right) {
        lines.push(format!("leg edge: {}", edge(left)));
    } else {
        lines.push(format!("left leg (wearer's): {}", edge(left)));
        lines.push(format!("right leg (wearer's): {}", edge(right)));
    }
    lines
}

fn edge(f: &FinishPlan) -> String {
    let elastic = f.elastic.as_ref().map_or_else(String::new, |e| format!(", {}", e.name));
    let cut = f.lines.cut;
    let allowance = match (f.lines.turned_in, cut) {
        (TurnedIn::AtFinishedEdge, _) => format!("{} beyond the fold, included", both(cut)),
        (TurnedIn::No, c) if c < 0.0 => format!("cut {} inside the finished edge", both(-c)),
        (TurnedIn::No, 0.0) => "cut at the finished edge".to_owned(),
        (TurnedIn::No, _) => format!("{} included", both(cut)),
    };
    format!("{}{elastic}, {allowance}", f.kind.name())
}

/// The blocks that belong to no piece.
pub(super) fn notes(garment: &Garment, plan: &Plan, trials: &[Trial]) -> Vec<Note> {
    let of_all = |block: fn(&Garment) -> Note| {
        let own = block(garment);
        let others =
            garment.alternatives.iter().map(|a| differing(&own, block(&a.garment), &a.name)).collect::<Vec<_>>();
        std::iter::once(own).chain(others)
    };
    let others = [cloth(plan), checks(garment), tried(trials), cautions()];
    let blocks = of_all(elastics).chain(others).chain(of_all(order_of_work));
    blocks.filter(|note| !note.lines.is_empty()).collect()
}

/// What an alternative's block says that the sheet's own does not, whatever the numbers of its steps.
fn differing(own: &Note, other: Note, alternative: &str) -> Note {
    let known: Vec<&str> = own.lines.iter().map(|line| unnumbered(line)).collect();
    let heading = format!("{}, alternative “{alternative}”: what differs", own.heading);
    let lines = other.lines.into_iter().filter(|line| !known.contains(&unnumbered(line))).collect();
    Note { heading, lines, shown: other.shown }
}

/// A step without its number.
fn unnumbered(line: &str) -> &str {
    match line.split_once(". ") {
        Some((number, words)) if number.bytes().all(|b| b.is_ascii_digit()) => words,
        _ => line,
    }
}

fn whole(heading: &str, lines: Vec<String>) -> Note {
    Note { heading: heading.to_owned(), lines, shown: Shown::Whole }
}

/// What the latest test garments taught, a line each.
fn tried(trials: &[Trial]) -> Note {
    let lines = trials.iter().skip(trials.len().saturating_sub(TRIALS)).map(trial).collect();
    let heading = if trials.len() > TRIALS { format!("The last {TRIALS} trials") } else { "Trials so far".to_owned() };
    Note { heading, lines, shown: Shown::LineByLine }
}

/// So many trials are told on the print; older ones have been learned from.
const TRIALS: usize = 12;

fn trial(t: &Trial) -> String {
    let date = t.date.as_ref().map(|d| format!("{d}, ")).unwrap_or_default();
    let shorter = t.reduction.map(|r| format!(" with {:.1} % reduction", r.percent())).unwrap_or_default();
    let note = t.note.as_ref().map(|n| format!(" ({n})")).unwrap_or_default();
    format!("{date}{}{shorter}: {}{note}", t.edge.name(), t.verdict.name())
}

fn elastics(garment: &Garment) -> Note {
    let openings = garment.openings.iter().map(sewn_on);
    let totals = garment.elastics.iter().map(|t| format!("{} in all: {} for one pair", t.name, both(t.cut_length)));
    whole("Elastic", openings.chain(totals).collect())
}

/// What is sewn to an opening, with its marks.
fn sewn_on(o: &OpeningWalk) -> String {
    let head = format!("{}: {}", o.opening.name(), o.finish);
    let put_on = if o.put_on == PutOn::Flat { "flat" } else { "round" };
    match (&o.elastic, &o.band) {
        (Some(e), _) => format!(
            "{head}, {}; sewn to a line of {}; cut {} (finished {}, {:.1} % shorter); put on {put_on}, {}; marks at {}",
            e.name,
            both(o.sewing),
            both(e.cut_length),
            both(e.finished_length),
            e.reduction,
            e.joining,
            marks(&e.marks)
        ),
        (None, Some(b)) => format!(
            "{head}; sewn to a line of {}; cut {} long (finished {}, {:.1} % shorter), {} wide; put on {put_on}, {}; \
             marks at {}",
            both(o.sewing),
            both(b.cut_length),
            both(b.length),
            b.reduction,
            both(b.width),
            b.joining,
            marks(&b.marks)
        ),
        (None, None) => format!("{head}, no elastic; edge {}", both(o.finished)),
    }
}

/// Each mark with its distance from the first, along the elastic.
fn marks(marks: &[Mark]) -> String {
    marks.iter().map(|m| format!("{} {}", m.place, both(m.along_elastic))).collect::<Vec<_>>().join(", ")
}

fn cloth(plan: &Plan) -> Note {
    let c = &plan.cloth;
    let kind = if c.kind == ClothKind::Knit { "knit" } else { "woven" };
    let lines = vec![
        format!(
            "{}, {kind}; stretches {:.0} % across, {:.0} % along",
            c.name,
            100.0 * c.stretch_across,
            100.0 * c.stretch_along
        ),
        format!("drafted {} across and {} along", eased(c.ease_across), eased(c.ease_along)),
        "greatest stretch goes round the body; the grain line runs down it".to_owned(),
    ];
    whole("Cloth", lines)
}

fn eased(ease: f64) -> String {
    let percent = 100.0 * ease.abs();
    match ease.total_cmp(&0.0) {
        std::cmp::Ordering::Less => format!("{percent:.1} % smaller than the body"),
        std::cmp::Ordering::Equal => "as large as the body".to_owned(),
        std::cmp::Ordering::Greater => format!("{percent:.1} % larger than the body"),
    }
}

fn checks(garment: &Garment) -> Note {
    let lines = garment.checks.iter().map(|c| format!("{}: {}. Next: {}.", c.level.name(), c.text, c.next)).collect();
    whole("Checks", lines)
}

fn cautions() -> Note {
    let lines = [
        "Drafted for bodies without a front pouch. Sew a trial / muslin in the same cloth before you cut good cloth.",
        "Deep marks, numbness, tingling or swelling mean that an edge is too tight: loosen it. With pregnancy, diabetes, \
         lymphoedema, nerve or circulation trouble, or after surgery, ask a clinician.",
        "Needle, blade and hot iron: the usual care.",
    ];
    whole("Cautions", lines.map(str::to_owned).to_vec())
}

/// Every step with its number, last of the blocks: it runs on over pages of its own.
fn order_of_work(garment: &Garment) -> Note {
    let lines = (1..).zip(&garment.order_of_work).map(|(n, step)| numbered(n, step)).collect();
    whole("Order of work", lines)
}

fn numbered(n: usize, step: &Step) -> String {
    let length = step.length.map(|mm| format!(" Along {}.", both(mm))).unwrap_or_default();
    let stitch = step.stitch.as_ref().map(|code| format!(" Stitch {code} (ISO 4915).")).unwrap_or_default();
    let care = step.caution.as_ref().map(|care| format!(" Care: {care}.")).unwrap_or_default();
    format!("{n}. {}: {}.{length}{stitch}{care}", step.title, step.does)
}
