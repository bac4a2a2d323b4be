//! What is done in a step, in as few words as a card has room for; allowances as they are said.

use crate::finish::task::Act;
use crate::garment::Step;
use crate::terms::PutOn;
use crate::topology::PieceId;
use crate::words::work::openings;
use crate::words::{Speech, act, spread};
use crate::work::doing::{Doing, Ends, GussetLies, Layers, Neatened, Runs, Spread};

/// What is done in a step.
pub(super) fn does(step: &Step, speech: Speech) -> String {
    match &step.doing {
        Doing::GussetSeam { panel, how, allowance, ends } => {
            gusset(*panel, *how, &speech.tool(*allowance)) + secured(*ends)
        }
        Doing::RollIn => ROLL_IN.to_owned(),
        Doing::TurnOut => "draw them out through a leg edge".to_owned(),
        Doing::Neaten(Neatened::Allowances) => "neaten both allowances together".to_owned(),
        Doing::Neaten(Neatened::LiningEnd) => "neaten the front end of the lining".to_owned(),
        Doing::PressGusset { towards, .. } => format!("press both seams, allowances {}", lies(*towards)),
        Doing::TackLining => {
            "lay the lining over the front seam, tack its end to the allowances: sides and middle".to_owned()
        }
        Doing::HoldLayers { inside } => {
            format!("sew both layers together {} inside the leg edges", speech.tool(*inside))
        }
        Doing::Align { edges } => {
            format!("right sides together, notches and ends of the {} matched; pin", openings(edges))
        }
        Doing::SideSeam { allowance, ends } => {
            format!("sew {} from the edges{}", speech.tool(*allowance), secured(*ends))
        }
        Doing::TrimEnds { .. } => "trim ends".to_owned(),
        Doing::PressSide { .. } => "press, allowances to the back".to_owned(),
        Doing::TackAllowances { edges } => format!("tack them at the {}", openings(edges)),
        Doing::CutOff { .. } => "cut it off, ends into the allowances".to_owned(),
        Doing::SeamBand { allowance } => format!("seam the ends of the band, {}", speech.tool(*allowance)),
        Doing::FoldBand { .. } => "fold the band in half lengthwise, right side out; press".to_owned(),
        // The marks say where the ends come to lie.
        Doing::Pin { put_on: PutOn::Round, .. } => "pin mark on mark".to_owned(),
        Doing::Pin { put_on: PutOn::Flat, .. } => "pin mark on mark, ends unstretched".to_owned(),
        Doing::Finish { acts, runs, spread } => finish(acts, *runs, spread.as_ref(), speech),
        Doing::LastLook => "cut threads, press, try on: nothing bites or cracks".to_owned(),
        // Said together; a band is marked by the notches that it is cut with.
        Doing::Mark { .. } | Doing::Cut { .. } | Doing::CutElastic { .. } | Doing::JoinRing { .. } => String::new(),
    }
}

/// What a task of a finish does, where its row runs, and how it takes what it holds.
pub(super) fn finish(acts: &[Act], runs: Option<Runs>, spread: Option<&Spread>, speech: Speech) -> String {
    let acts: Vec<_> = acts.iter().map(|one| act::told(*one, None, speech).brief).collect();
    let row = runs.map(|runs| format!(", {}", row(runs, speech))).unwrap_or_default();
    let spread = spread.map(|spread| format!("; {}", spread::brief(spread, speech))).unwrap_or_default();
    format!("{}{row}{spread}", acts.join("; "))
}

const ROLL_IN: &str = "gusset on back, right sides together, double notches matched; roll front and back up between the \
    layers, lining round the roll onto the wrong side of the back; pin";

fn gusset(panel: PieceId, how: Layers, allowance: &str) -> String {
    let notches = if panel == PieceId::Back { "double notches matched" } else { "centre notches matched" };
    let panel = panel.name();
    match how {
        Layers::Single => format!("gusset on {panel}, right sides together, {notches}; sew {allowance} from the edges"),
        Layers::PanelBetween => format!(
            "gusset on the {panel}'s right side, lining on its wrong side, right sides in, {notches}; sew \
             {allowance} from the edges"
        ),
        Layers::AroundRoll => format!("sew all three, {allowance}, the roll free"),
        Layers::LiningAside => {
            format!("lining aside, gusset on {panel}, right sides together, {notches}; sew {allowance} from the edges")
        }
    }
}

/// What is told at the seam itself: a row, a tack or stitches to and fro secure every other end.
const fn secured(ends: Ends) -> &'static str {
    match ends {
        Ends::ToAndFro | Ends::ChainCrossed | Ends::ChainTacked => "",
        Ends::ChainRunBack => ", running the chain back at a raw edge",
    }
}

const fn lies(towards: GussetLies) -> &'static str {
    match towards {
        GussetLies::AwayFromGusset => "away from the gusset",
        GussetLies::BetweenLayers => "between the layers",
        GussetLies::TowardsGusset => "towards the gusset",
    }
}

fn row(runs: Runs, speech: Speech) -> String {
    match runs {
        Runs::FromRawEdge(mm) => format!("{} from the raw edge", speech.tool(mm)),
        Runs::InsideFinishedEdge(mm) => format!("{} inside the finished edge", speech.tool(mm)),
    }
}
