//! The steps of the order of work, in words: what is done, what to heed, what the machine is set to.

mod gusset;
mod machine;

pub use super::because::because;
pub use machine::{needle, setting_up, sewing, stitch};

use super::{Speech, act, capital, finish, listed};
use crate::finish::task::Caution;
use crate::terms::{Extent, Opening, PutOn};
use crate::topology::PieceId;
use crate::words::number::short;
use crate::work::doing::{Distance, Doing, Ends, Joins, Laid, Neatened, Notches, StretchRuns, Strip};
use crate::work::step::{EdgeStep, GussetStep, SeamStep, Step, StepId};

/// The title of a step.
pub fn title(step: &Step) -> String {
    let at = |place: &str, what: &str| format!("{}, {what}", capital(place));
    match step.id {
        StepId::Cut(piece) => format!("Cut the {}", piece.name()),
        StepId::Gusset(what) => gusset_title(what).to_owned(),
        StepId::Seam(line, what) => at(line.name(), seam_title(what)),
        StepId::Edge(opening, what) => at(opening.name(), edge_title(what, step)),
        StepId::LastLook => "Last look".to_owned(),
    }
}

const fn gusset_title(what: GussetStep) -> &'static str {
    match what {
        GussetStep::RolledIn => "Gusset, roll in front and back",
        GussetStep::TurnedOut => "Gusset, turn out",
        GussetStep::LiningEndNeatened => "Gusset lining, neaten its loose end",
        GussetStep::Pressed => "Gusset, press",
        GussetStep::LiningTacked => "Gusset lining, tack its loose end",
        GussetStep::LayersHeld => "Gusset, hold the layers together",
    }
}

const fn seam_title(what: SeamStep) -> &'static str {
    match what {
        SeamStep::Aligned => "align the edges",
        SeamStep::Sewn => "sew",
        SeamStep::Trimmed => "cut off the ends",
        SeamStep::Neatened => "neaten the allowances",
        SeamStep::Pressed => "press",
        SeamStep::Tacked => "tack the allowances",
    }
}

fn edge_title(what: EdgeStep, step: &Step) -> &'static str {
    match (what, &step.doing) {
        (EdgeStep::ElasticCut, Doing::CutOff { .. }) => "cut the elastic off",
        (EdgeStep::ElasticCut, _) => "cut the elastic",
        (EdgeStep::ElasticJoined, _) => "join the elastic to a ring",
        (EdgeStep::ElasticMarked, _) => "mark the elastic",
        (EdgeStep::BandEnds, _) => "seam the ends of the band",
        (EdgeStep::BandFolded, _) => "fold the band",
        (EdgeStep::BandMarked, _) => "mark the band",
        (EdgeStep::Pinned, Doing::Pin { what: Strip::Band, .. }) => "pin the band",
        (EdgeStep::Pinned, _) => "pin the elastic",
        (EdgeStep::Task(task), Doing::Finish { acts, .. }) => finish::task(task, acts),
        (EdgeStep::Task(task), _) => finish::task(task, &[]),
    }
}

/// The length that is told beside the title, mm: nobody measures how far the scissors went.
pub fn sewn_length(step: &Step) -> Option<f64> {
    step.length.filter(|_| step.id.piece().is_none())
}

/// What is done, in one or two sentences without a full stop.
pub fn does(step: &Step, speech: Speech) -> String {
    match &step.doing {
        Doing::Cut { quantity, material, extent, stretch, notches } => {
            cut(*quantity, material, *extent, *stretch, notches)
        }
        Doing::GussetSeam { panel, how, allowance, ends } => {
            format!("{}; {}", gusset::seam(*panel, *how, &speech.tool(*allowance)), secured(*ends))
        }
        Doing::RollIn => gusset::ROLL_IN.to_owned(),
        Doing::TurnOut => gusset::TURN_OUT.to_owned(),
        Doing::Neaten(what) => neaten(*what).to_owned(),
        Doing::PressGusset { allowance, towards } => gusset::press(&speech.tool(*allowance), *towards),
        Doing::TackLining => gusset::TACK_LINING.to_owned(),
        Doing::HoldLayers { inside } => gusset::hold(&speech.tool(*inside)),
        Doing::Align { edges } => format!(
            "lay front on back, right sides together, notches in the middle of the seam on each other; match the \
             finished edges and every row of stitches of the {} exactly, and pin across the seam: each pin comes out \
             before needle or knife reaches it",
            openings(edges)
        ),
        Doing::SideSeam { laid, allowance, ends } => format!(
            "{}sew {} from the raw edges; the allowances go towards the back; {}",
            match laid {
                Laid::Now =>
                    "lay front on back, right sides together, notches in the middle of the seam on each other, and ",
                Laid::Pinned => "",
            },
            speech.tool(*allowance),
            secured(*ends)
        ),
        Doing::TrimEnds { edges, ends } => {
            let what = match ends {
                Ends::ChainTacked => "ends of elastic or band, and corners; leave the chain",
                Ends::ToAndFro | Ends::ChainCrossed | Ends::ChainRunBack => "ends of elastic or band, corners, threads",
            };
            format!("cut off what sticks out of the seam at the {}: {what}", openings(edges))
        }
        Doing::PressSide { allowance } => {
            format!("press the seam flat as sewn, then its allowances, {}, towards the back", speech.tool(*allowance))
        }
        Doing::TackAllowances { edges, ends } => format!(
            "hold the allowances down towards the back with a short dense zigzag across them at the {}, so that they \
             do not show beyond the edge or scratch{}",
            openings(edges),
            match ends {
                Ends::ChainTacked => "; then cut off the chain",
                Ends::ToAndFro | Ends::ChainCrossed | Ends::ChainRunBack => "",
            }
        ),
        Doing::CutElastic { name, length, joins, growth } => cut_elastic(name, *length, *joins, *growth, speech),
        Doing::CutOff { into } => format!(
            "cut the elastic off at the raw edge of the seam allowance, so that both ends run {} into it",
            speech.tool(*into)
        ),
        Doing::JoinRing { overlap } => format!(
            "lay the elastic in a ring without a twist, lap its ends {}, mark 1 on mark 1, and sew across the lap twice",
            speech.tool(*overlap)
        ),
        Doing::SeamBand { allowance } => format!(
            "lay the ends right sides together and sew {} from them; press the allowances apart",
            speech.tool(*allowance)
        ),
        Doing::FoldBand { width } => format!(
            "fold the band along its middle, wrong sides together, to {} and its allowance, and press",
            speech.tool(*width)
        ),
        Doing::Mark { what, put_on, allowance, marks } => mark(*what, *put_on, *allowance, marks, speech),
        Doing::Pin { what, lies, put_on, ends, marks } => {
            let places: Vec<String> =
                marks.iter().map(|m| format!("mark {} at {}", m.number, m.place.name())).collect();
            let ends = match put_on {
                PutOn::Round => format!("{} {}", joint(*what), ends.name()),
                PutOn::Flat => {
                    format!("both ends {}, run through the allowances without any stretch", ends.name())
                }
            };
            let lies = lies.map(|act| act::told(act, step.id.opening(), speech).full);
            let (lies, strip) = match &lies {
                Some(lies) => (format!("{lies}; "), "it"),
                None => (String::new(), strip(*what)),
            };
            format!(
                "{lies}pin {strip} to the edge, each mark at the notch, seam or fold of its number: {}; {ends}",
                places.join("; ")
            )
        }
        Doing::Finish { acts, runs, spread } => {
            finish::task_does(speech, step.id.opening(), acts, *runs, spread.as_ref())
        }
        Doing::LastLook => {
            "cut the threads off, press the pair once more, and try it on: edges lie flat without biting, and no seam \
             cracks when it is pulled wide"
                .to_owned()
        }
    }
}

fn cut(quantity: u32, material: &str, extent: Extent, stretch: StretchRuns, notches: &Notches) -> String {
    let stretch = match stretch {
        StretchRuns::RoundTheBody => "round the body",
        StretchRuns::AlongTheStrip => "along the strip",
    };
    // Folded, the cloth lies right side in.
    let onto = match extent {
        Extent::HalfOnFold => format!("{material}, folded right side in, its centre on the fold"),
        Extent::Full => format!("the right side of {material}"),
    };
    // A fold has no notch: its ends are the marks of the centre.
    let folds = match extent {
        Extent::HalfOnFold => ", and the fold at both its ends",
        Extent::Full => "",
    };
    let notches = match notches {
        Notches::None => String::new(),
        Notches::Snipped => format!("; snip or chalk every notch{folds}"),
        Notches::ChalkedOn(edges) => {
            let show = if edges.len() == 1 { "shows" } else { "show" };
            format!("; chalk the notches of the {}, which {show}, and snip or chalk the others{folds}", openings(edges))
        }
    };
    format!("lay the piece on {onto}, greatest stretch {stretch}, and cut {quantity} along the cut line{notches}")
}

const fn neaten(what: Neatened) -> &'static str {
    match what {
        Neatened::Allowances => "zigzag over the raw edges of both allowances together: a woven frays",
        Neatened::LiningEnd => "zigzag over the front end of the lining, which stays loose: a woven frays",
    }
}

/// How the ends of a seam are secured.
const fn secured(ends: Ends) -> &'static str {
    match ends {
        Ends::ToAndFro => "sew to and fro at both ends",
        Ends::ChainCrossed => "leave some chain at both ends, which the rows along the edges will catch",
        Ends::ChainTacked => "leave some chain at both ends until the allowances are tacked, or a row catches it",
        Ends::ChainRunBack => {
            "run the chain back into the seam with a blunt needle where an edge stays raw: no row will catch it there"
        }
    }
}

fn cut_elastic(name: &str, length: f64, joins: Joins, growth: f64, speech: Speech) -> String {
    let ends = match joins {
        Joins::Ring(mm) => format!("its ends are lapped {} to a ring", speech.tool(mm)),
        Joins::InSeam(mm) => format!("{} at either end lie in the seam, unstretched", speech.tool(mm)),
        Joins::Threaded(mm) => {
            format!("its ends are lapped {} when it has been threaded and tried on", speech.tool(mm))
        }
    };
    let short_by = if growth > 0.0 {
        format!("; it is {} % short, which it grows in sewing", short(growth, 1))
    } else {
        String::new()
    };
    format!("cut {} of {name}, laid out slack: {ends}{short_by}", speech.tape(length))
}

fn mark(what: Strip, put_on: PutOn, allowance: f64, marks: &[Distance], speech: Speech) -> String {
    let from = match (what, put_on) {
        (Strip::Band, PutOn::Round) => "at its notches, counted from the seam of its ends",
        (Strip::Band, PutOn::Flat) => "at its notches, counted from its cut end",
        (Strip::Elastic, _) => "counted from its cut end",
    };
    let is_end = |mm: f64| match what {
        Strip::Elastic => marks.first().is_some_and(|first| first.along >= mm),
        Strip::Band => allowance > 0.0 && mm - allowance < crate::elastic::NEAR,
    };
    let place = |mark: &Distance| match mark.along {
        mm if mm < crate::elastic::NEAR => format!("mark {} on {}", mark.number, joint(what)),
        mm if is_end(mm) => {
            format!("mark {} at {} from either end", mark.number, speech.tool(mm))
        }
        mm => format!("mark {} at {}", mark.number, speech.tape(mm)),
    };
    let places: Vec<String> = marks.iter().map(place).collect();
    format!("mark the {}, {from}: {}", strip(what), places.join("; "))
}

/// Where the ends of a ring meet.
const fn joint(what: Strip) -> &'static str {
    match what {
        Strip::Elastic => "the joint",
        Strip::Band => "the seam of its ends",
    }
}

const fn strip(what: Strip) -> &'static str {
    match what {
        Strip::Elastic => "elastic",
        Strip::Band => "band",
    }
}

/// `top edge and right leg`.
pub(super) fn openings(edges: &[Opening]) -> String {
    let names: Vec<&str> = edges.iter().map(|o| o.name()).collect();
    listed(&names)
}

/// What to take care of.
pub const fn caution(of: Caution) -> &'static str {
    match of {
        Caution::Iron => "test the iron on a scrap: elastane scorches",
        Caution::Knife => "mind the knife: it cuts what lies beyond the allowance, pins too",
        Caution::Cracks => "stretch the seam a little while you sew: a lockstitch on a knit cracks",
        Caution::Roll => "catch nothing of the roll in the seam",
        Caution::Grows => "sew a sample as long as a hand first: an elastic can come out longer than it was",
        Caution::Twist => "run the ring through your fingers before you sew: a twist cannot be undone later",
        Caution::ClothBelow => "mind the cloth underneath",
        Caution::StitchesBeside => "do not cut into the stitches",
        Caution::TooTight => "deep marks, numbness or tingling mean that an edge is too tight: loosen it",
    }
}

/// The front or the back, as a gusset seam meets it.
const fn panel(piece: PieceId) -> &'static str {
    piece.name()
}
