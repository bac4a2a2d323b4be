//! What is written on a piece and beside the pieces: which lines there are. Their words are made
//! in `words`, in the sheet's unit.

use crate::drawing::{TextLine, TextStyle, Trials};
use crate::garment::{Garment, Piece};
use crate::plan::Plan;
use crate::sheet::Trial;
use crate::words::{Speech, piece, tried};

fn body(text: String) -> TextLine {
    TextLine { style: TextStyle::Body, text }
}

/// Every line on a piece.
pub(super) fn on_piece(p: &Piece, garment: &Garment, plan: &Plan) -> Vec<TextLine> {
    let speech = Speech(garment.units);
    let mut lines = vec![
        TextLine { style: TextStyle::Title, text: p.id.name().to_owned() },
        TextLine { style: TextStyle::Pattern, text: piece::pattern(&garment.name, garment.date.as_deref()) },
        TextLine { style: TextStyle::Cutting, text: piece::cutting(p.quantity, &p.material, p.extent) },
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

/// What the latest test garments taught, a line each.
pub(super) fn trials(trials: &[Trial]) -> Trials {
    let told = &trials[trials.len().saturating_sub(TRIALS)..];
    Trials { heading: tried::heading(told.len(), trials.len()), lines: told.iter().map(tried::trial).collect() }
}

/// So many trials are told on the print; older ones have been learned from.
const TRIALS: usize = 12;

#[cfg(test)]
mod tests {
    use crate::base::Base;
    use crate::drawing::TextStyle;
    use crate::support;

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
