//! What is done in a step, in as few words as a card has room for; allowances as they are said.

use crate::garment::Step;
use crate::terms::PutOn;
use crate::topology::PieceId;
use crate::words::work::openings;
use crate::words::{Speech, act, spread};
use crate::work::doing::{Doing, Ends, GussetLies, Laid, Layers, Neatened, Runs};

/// What is done in a step.
pub(super) fn does(step: &Step, speech: Speech) -> String {
    match &step.doing {
        Doing::GussetSeam { panel, how, allowance, ends } => {
            gusset(*panel, *how, &speech.tool(*allowance)) + secured(*ends)
        }
        Doing::RollIn => ROLL_IN.to_owned(),
        Doing::TurnOut => "turn out through a leg".to_owned(),
        Doing::Neaten(Neatened::Allowances) => "neaten both allowances together".to_owned(),
        Doing::Neaten(Neatened::LiningEnd) => "neaten the front end of the lining".to_owned(),
        Doing::PressGusset { towards, .. } => format!("press both seams, allowances {}", lies(*towards)),
        Doing::TackLining => {
            "lay the lining over the front seam, tack its end to the allowances: sides and middle".to_owned()
        }
        Doing::HoldLayers { inside } => {
            format!("sew both layers {} inside leg edges; cut seam ends level", speech.tool(*inside))
        }
        Doing::Align { .. } => "right sides together, notches and finished edges matched; pin".to_owned(),
        Doing::SideSeam { laid, allowance, ends } => {
            let laid = if *laid == Laid::Now { "right sides together, notches matched, " } else { "" };
            format!("{laid}sew {} from the edges{}", speech.tool(*allowance), secured(*ends))
        }
        Doing::TrimEnds { ends: Ends::ChainTacked, .. } => "cut off what sticks out, not the chain".to_owned(),
        Doing::TrimEnds { .. } => "cut off what sticks out".to_owned(),
        Doing::PressSide { .. } => "press, allowances to the back".to_owned(),
        Doing::TackAllowances { edges, ends } => {
            let chain = if *ends == Ends::ChainTacked { "; cut the chain" } else { "" };
            format!("sew across the allowances at the {}{chain}", openings(edges))
        }
        Doing::CutOff { .. } => "cut it off, ends into the allowances".to_owned(),
        Doing::SeamBand { allowance } => format!("seam the ends of the band, {}", speech.tool(*allowance)),
        Doing::FoldBand { .. } => "fold the band in half lengthwise, right side out; press".to_owned(),
        // The marks say where the ends come to lie.
        Doing::Pin { lies, put_on, .. } => {
            let lies = lies.map(|act| act::told(act, step.id.opening(), speech).brief + "; ").unwrap_or_default();
            let ends = match put_on {
                PutOn::Round => "",
                PutOn::Flat => ", unstretched beyond mark 1",
            };
            // At a seam or on a fold there is a number, and no notch.
            format!("{lies}pin number on number{ends}")
        }
        Doing::Finish { acts, runs, spread } => {
            let acts: Vec<_> = acts.iter().map(|one| act::told(*one, step.id.opening(), speech).brief).collect();
            let row = runs.map(|runs| format!(", {}", row(runs, speech))).unwrap_or_default();
            let spread = spread.as_ref().map(|spread| format!("; {}", spread::brief(spread, speech)));
            format!("{}{row}{}", acts.join("; "), spread.unwrap_or_default())
        }
        Doing::LastLook => "cut threads, press, try on".to_owned(),
        // Said together; a band is marked by the notches that it is cut with.
        Doing::Mark { .. } | Doing::Cut { .. } | Doing::CutElastic { .. } | Doing::JoinRing { .. } => String::new(),
    }
}

const ROLL_IN: &str = "gusset on back, right sides together, double notches matched; roll front and back \
    between, lining round the roll, right side on back's wrong side; pin";

fn gusset(panel: PieceId, how: Layers, allowance: &str) -> String {
    let notches = if panel == PieceId::Back { "double notches matched" } else { "centres matched" };
    let panel = panel.name();
    match how {
        Layers::Single => format!("gusset on {panel}, right sides together, {notches}; sew {allowance} from the edges"),
        Layers::PanelBetween => format!(
            "gusset on {panel}, right sides together, lining beneath, right side up, {notches}; sew {allowance} from \
             the edges"
        ),
        Layers::AroundRoll => format!("sew all three, {allowance}, roll free"),
        Layers::LiningAside => {
            format!("lining aside, gusset on {panel}, right sides together, {notches}; sew {allowance} from the edges")
        }
    }
}

/// What is told at the seam itself: a row, a tack or stitches to and fro secure every other end.
const fn secured(ends: Ends) -> &'static str {
    match ends {
        Ends::ToAndFro | Ends::ChainCrossed | Ends::ChainTacked => "",
        Ends::ChainRunBack => "; run the chain back into the seam at a raw edge",
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
        Runs::SwingFromRawEdge(mm) => format!("reaching {} inwards from raw edge", speech.tool(mm)),
        Runs::FromFold(mm) => format!("{} from the fold", speech.tool(mm)),
        Runs::FromOuterEdge(mm) => format!("{} from its outer edge", speech.tool(mm)),
    }
}
