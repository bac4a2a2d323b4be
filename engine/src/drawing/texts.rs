//! What is written on a piece and beside the pieces: which lines there are. Their words are made
//! in `words`, in the sheet's unit.

use crate::drawing::{Note, Shown, TextLine, TextStyle};
use crate::garment::{Garment, OpeningWalk, Piece, Step};
use crate::plan::Plan;
use crate::sheet::Trial;
use crate::terms::Extent;
use crate::words::{Speech, notes as words, piece, work};

fn body(text: String) -> TextLine {
    TextLine { style: TextStyle::Body, text }
}

/// Every line on a piece.
pub(super) fn on_piece(p: &Piece, garment: &Garment, plan: &Plan) -> Vec<TextLine> {
    let speech = Speech(garment.units);
    let extent = if p.on_fold { Extent::HalfOnFold } else { Extent::Full };
    let mut lines = vec![
        TextLine { style: TextStyle::Title, text: p.id.name().to_owned() },
        TextLine { style: TextStyle::Pattern, text: piece::pattern(&garment.name, garment.date.as_deref()) },
        TextLine { style: TextStyle::Cutting, text: piece::cutting(p.quantity, &p.material, extent) },
    ];
    lines.extend(details(p, garment, plan, speech).into_iter().map(body));
    lines
}

/// Allowances, and how each edge of the piece is finished.
fn details(p: &Piece, garment: &Garment, plan: &Plan, speech: Speech) -> Vec<String> {
    let mut bands = garment.openings.iter().filter_map(|o| o.band.as_ref());
    if let Some(band) = bands.find(|b| b.piece == p.id) {
        return piece::band(band, &plan.seams, speech).into();
    }
    let mut lines = if p.id.is_gusset() {
        vec![piece::gusset_allowance(&plan.seams, speech)]
    } else {
        vec![piece::allowances(&plan.seams, speech), piece::top_edge(&plan.finish.top, speech)]
    };
    lines.extend(piece::leg_edges(&plan.finish.left_leg, &plan.finish.right_leg, speech));
    lines
}

/// The blocks that belong to no piece.
pub(super) fn notes(garment: &Garment, plan: &Plan, variants: &[Plan], trials: &[Trial]) -> Vec<Note> {
    let others = || garment.variants.iter();
    let elastic = std::iter::once(elastics(garment)).chain(others().map(|a| elastics_of(&a.name, &a.garment, garment)));
    let own = words::cloth(&plan.cloth);
    let cloths = others().zip(variants).map(|(a, other)| cloth_of(&a.name, words::cloth(&other.cloth), &own));
    let cloth = std::iter::once(whole(CLOTH, own.clone())).chain(cloths);
    let middle = [
        whole("Checks", garment.checks.iter().map(|f| words::finding(f, Speech(garment.units))).collect()),
        tried(trials),
        whole("Cautions", words::CAUTIONS.map(str::to_owned).to_vec()),
    ];
    // Last of the blocks: it runs on over pages of its own.
    let work = std::iter::once(order_of_work(garment)).chain(others().map(|a| work_of(&a.name, &a.garment, garment)));
    elastic.chain(cloth).chain(middle).chain(work).filter(|note| !note.lines.is_empty()).collect()
}

fn whole(heading: &str, lines: Vec<String>) -> Note {
    Note { heading: heading.to_owned(), lines, shown: Shown::Whole }
}

/// What the latest test garments taught, a line each.
fn tried(trials: &[Trial]) -> Note {
    let lines = trials.iter().skip(trials.len().saturating_sub(TRIALS)).map(words::trial).collect();
    let heading = if trials.len() > TRIALS { words::latest_trials(TRIALS) } else { "Trials so far".to_owned() };
    Note { heading, lines, shown: Shown::LineByLine }
}

/// So many trials are told on the print; older ones have been learned from.
const TRIALS: usize = 12;

const ELASTIC: &str = "Elastic";
const CLOTH: &str = "Cloth";
const WORK: &str = "Order of work";

fn elastics(garment: &Garment) -> Note {
    let speech = Speech(garment.units);
    let openings = garment.openings.iter().map(|o| words::sewn_on(o, speech));
    let totals = garment.elastics.iter().map(|t| words::total(t, speech));
    whole(ELASTIC, openings.chain(totals).collect())
}

/// What a variant sews on that the sheet itself does not.
fn elastics_of(name: &str, other: &Garment, own: &Garment) -> Note {
    let speech = Speech(own.units);
    let is_known = |o: &&OpeningWalk| own.openings.iter().any(|k| k.opening == o.opening && is_sewn_alike(k, o));
    let openings = other.openings.iter().filter(|o| !is_known(o)).map(|o| words::sewn_on(o, speech));
    let totals = other.elastics.iter().filter(|t| !own.elastics.contains(t)).map(|t| words::total(t, speech));
    whole(&words::differing(ELASTIC, name), openings.chain(totals).collect())
}

/// Is the same sewn on, to a line as long?
fn is_sewn_alike(a: &OpeningWalk, b: &OpeningWalk) -> bool {
    let facts = |o: &OpeningWalk| (o.finish, o.put_on, o.finished, o.sewing, o.elastic.clone(), o.band.clone());
    facts(a) == facts(b)
}

/// What a variant says of its cloth that the sheet does not.
fn cloth_of(name: &str, mut lines: Vec<String>, own: &[String]) -> Note {
    lines.retain(|line| !own.contains(line));
    whole(&words::differing(CLOTH, name), lines)
}

fn order_of_work(garment: &Garment) -> Note {
    let speech = Speech(garment.units);
    let steps = (1..).zip(&garment.order_of_work);
    let needle = garment.order_of_work.iter().find_map(|s| s.needle).map(work::setting_up);
    whole(WORK, needle.into_iter().chain(steps.map(|(n, step)| words::step(n, step, speech))).collect())
}

/// The steps that a variant does not share, with the numbers they have in its own order.
fn work_of(name: &str, other: &Garment, own: &Garment) -> Note {
    let is_known = |step: &Step| own.order_of_work.iter().any(|k| k.is_same_work(step));
    let steps = (1..).zip(&other.order_of_work).filter(|(_, step)| !is_known(step));
    let lines = steps.map(|(n, step)| words::step(n, step, Speech(own.units))).collect();
    whole(&words::differing(WORK, name), lines)
}

#[cfg(test)]
mod tests {
    use crate::base::Base;
    use crate::drawing::TextStyle;
    use crate::support;

    /// What differs in the cloth of a variant is told, and nothing where it does not.
    #[test]
    fn the_cloth_of_a_variant_is_told() {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        let mut firm = sheet.variant("firm");
        firm.fabric.name = Some("firm jersey".to_owned());
        let same = sheet.variant("same cloth");
        sheet.variants = vec![firm, same];
        let notes = crate::make(&sheet).unwrap().drawing.notes;
        let cloths: Vec<_> = notes.iter().filter(|n| n.heading.starts_with("Cloth")).collect();
        let [_, firm] = cloths.as_slice() else { panic!("{cloths:?}") };
        assert!(firm.heading.contains("“firm”"), "{}", firm.heading);
        assert!(firm.lines.len() == 1 && firm.lines[0].starts_with("firm jersey, "), "{:?}", firm.lines);
    }

    /// A cloth's name is the person's own: what it says of folds is kept, halved or whole.
    #[test]
    fn unfolding_changes_how_a_piece_is_cut_and_no_name() {
        let mut sheet = support::sheet(&support::ordinary(), Base::named("brief").unwrap());
        sheet.fabric.name = Some("jersey, sold on the fold".to_owned());
        let drawing = crate::make(&sheet).unwrap().drawing;
        let lines = |drawing: &crate::drawing::Drawing, style| -> Vec<String> {
            drawing.pieces[0].text.iter().filter(|l| l.style == style).map(|l| l.text.clone()).collect()
        };
        let whole = drawing.unfolded();
        let cut = "cut 1 of jersey, sold on the fold,";
        assert_eq!(lines(&drawing, TextStyle::Cutting), [format!("{cut} on the fold, right side up")]);
        assert_eq!(lines(&whole, TextStyle::Cutting), [format!("{cut} whole piece, right side up")]);
        assert_eq!(lines(&drawing, TextStyle::Body), lines(&whole, TextStyle::Body));
    }
}
