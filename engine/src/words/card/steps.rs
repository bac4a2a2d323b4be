//! The order of work as short numbered lines under headings.

use super::machine::Machines;
use super::says::does;
use crate::drawing::card::{Line, Part, Picture};
use crate::garment::{Garment, Step};
use crate::stitch::Sewing;
use crate::terms::{Extent, Opening};
use crate::topology::Side;
use crate::words::work::openings;
use crate::words::{Speech, capital, listed};
use crate::work::doing::{Doing, Ends, Notches, StretchRuns, Strip};
use crate::work::step::{SewnSeam, StepId};

/// Where a step is done: the headings of the card.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Place {
    Cutting,
    Gusset,
    Seam(Side),
    Edge(Opening),
    End,
}

impl Place {
    const fn of(step: &Step) -> Self {
        match step.id {
            StepId::Cut(_) => Self::Cutting,
            StepId::Gusset(_) | StepId::Seam(SewnSeam::FrontGusset | SewnSeam::BackGusset, _) => Self::Gusset,
            StepId::Seam(SewnSeam::Side(side), _) => Self::Seam(side),
            StepId::Edge(opening, _) => Self::Edge(opening),
            StepId::LastLook => Self::End,
        }
    }

    fn heading(self) -> String {
        match self {
            Self::Cutting => "Cut".to_owned(),
            Self::Gusset => "Gusset".to_owned(),
            Self::Seam(side) => format!("{} side seam", capital(side.name())),
            Self::Edge(opening) => capital(opening.name()),
            Self::End => "Last".to_owned(),
        }
    }

    const fn opening(self) -> Option<Opening> {
        match self {
            Self::Edge(opening) => Some(opening),
            _ => None,
        }
    }
}

/// What is done in one go, and how the machine is set for it.
#[derive(PartialEq)]
struct Said {
    text: String,
    setting: Option<Sewing>,
}

impl Said {
    const fn plain(text: String) -> Self {
        Self { text, setting: None }
    }
}

/// What is done at one place in a row.
struct Run<'a> {
    place: Place,
    steps: Vec<&'a Step>,
}

/// Every part, with the opening that it finishes.
pub(super) fn parts(garment: &Garment, speech: Speech) -> Vec<(Part, Option<Opening>)> {
    let runs = runs(&garment.order_of_work);
    let (mut number, mut machines) = (0, Machines::default());
    let mut out: Vec<(Part, Option<Opening>)> = Vec::new();
    let mut before: Vec<(&Run<'_>, Vec<Said>, usize)> = Vec::new();
    for run in &runs {
        let mut lines = lines(run, speech);
        let twin = before.iter().find(|(other, ..)| are_twins(other.place, run.place));
        if let Some((other, theirs, first)) = twin {
            let adjacent = before.last().is_some_and(|(last, ..)| last.place == other.place);
            if *theirs == lines && adjacent {
                if let Some((part, _)) = out.last_mut() {
                    part.heading = both(run.place).to_owned();
                }
                continue;
            }
            if let Some(line) = as_before(other, run, (theirs, &lines), *first) {
                lines = vec![Said::plain(line)];
            }
        }
        let first = number + 1;
        if run.place == Place::Cutting {
            lines.extend(made_ready(garment, speech));
        }
        let numbered = lines.iter().map(|Said { text, setting }| {
            number += 1;
            Line { number, text: capital(text), setting: setting.map(|set| machines.set(set)) }
        });
        let is_rolled = run.steps.iter().any(|step| step.doing == Doing::RollIn);
        let picture = is_rolled.then_some(Picture::Roll);
        let part = Part { heading: run.place.heading(), picture, lines: numbered.collect() };
        out.push((part, run.place.opening()));
        before.push((run, lines, first));
    }
    out
}

fn runs(steps: &[Step]) -> Vec<Run<'_>> {
    let mut out: Vec<Run<'_>> = Vec::new();
    for step in steps {
        let place = Place::of(step);
        match out.last_mut() {
            Some(run) if run.place == place => run.steps.push(step),
            _ => out.push(Run { place, steps: vec![step] }),
        }
    }
    out
}

/// The two legs, and the two side seams.
fn are_twins(a: Place, b: Place) -> bool {
    let pair = [
        (Place::Edge(Opening::LeftLeg), Place::Edge(Opening::RightLeg)),
        (Place::Seam(Side::Left), Place::Seam(Side::Right)),
    ];
    pair.contains(&(a, b))
}

const fn both(place: Place) -> &'static str {
    match place {
        Place::Edge(_) => "Each leg",
        _ => "Each side seam",
    }
}

/// A second side seam that differs from the first in the edges that meet there, and a leg like the other.
fn as_before(first: &Run<'_>, second: &Run<'_>, (theirs, own): (&[Said], &[Said]), from: usize) -> Option<String> {
    let to = from + theirs.len() - 1;
    if theirs == own {
        return Some(format!("as the {}, lines {from} to {to}", first.place.heading().to_lowercase()));
    }
    let ids = |run: &Run<'_>| {
        run.steps
            .iter()
            .map(|s| match s.id {
                StepId::Seam(_, what) => Some(what),
                _ => None,
            })
            .collect::<Vec<_>>()
    };
    let edges = second.steps.iter().find_map(|s| match &s.doing {
        Doing::Align { edges } => Some(edges),
        _ => None,
    })?;
    let alike = ids(first) == ids(second) && first.place != second.place && theirs.len() == own.len();
    alike.then(|| format!("as the left side seam, lines {from} to {to}, at the {}", openings(edges)))
}

/// The lines of a run.
fn lines(run: &Run<'_>, speech: Speech) -> Vec<Said> {
    match run.place {
        Place::Cutting => cutting(&run.steps).into_iter().map(Said::plain).collect(),
        Place::Edge(_) => edge(&run.steps, speech),
        Place::Seam(_) | Place::Gusset | Place::End => run.steps.iter().map(|step| line(step, speech)).collect(),
    }
}

/// How the ends of seams are secured: told once, but for a seam at a raw edge.
pub(super) fn ends(steps: &[Step]) -> Option<&'static str> {
    steps.iter().find_map(|step| match &step.doing {
        Doing::GussetSeam { ends: Ends::ToAndFro, .. } | Doing::SideSeam { ends: Ends::ToAndFro, .. } => {
            Some("Sew to and fro where seams end.")
        }
        Doing::GussetSeam { ends: Ends::ChainCrossed | Ends::ChainTacked, .. }
        | Doing::SideSeam { ends: Ends::ChainCrossed | Ends::ChainTacked, .. } => {
            Some("Leave chain at overlocked ends.")
        }
        _ => None,
    })
}

fn line(step: &Step, speech: Speech) -> Said {
    Said { text: does(step, speech), setting: step.sewing }
}

/// What is put on was made ready before.
fn edge(steps: &[&Step], speech: Speech) -> Vec<Said> {
    let here = steps.iter().filter(|step| !is_made_ready(step)).map(|step| line(step, speech));
    here.filter(|said| !said.text.is_empty()).collect()
}

/// Elastics are cut, marked and joined before anything is sewn.
const fn is_made_ready(step: &Step) -> bool {
    matches!(&step.doing, Doing::CutElastic { .. } | Doing::Mark { what: Strip::Elastic, .. } | Doing::JoinRing { .. })
}

/// The elastics, made ready: the strips say the lengths.
fn made_ready(garment: &Garment, speech: Speech) -> Vec<Said> {
    let of = |is: fn(&Doing) -> bool| -> Vec<Opening> {
        let steps = garment.order_of_work.iter().filter(|step| is(&step.doing));
        steps.filter_map(|step| step.id.opening()).collect()
    };
    let marked = of(|doing| matches!(doing, Doing::Mark { what: Strip::Elastic, .. }));
    let cut = of(|doing| matches!(doing, Doing::CutElastic { .. }));
    let mut lines = Vec::new();
    // What is threaded has no marks on its strip.
    let ready = match (marked.len(), cut.len()) {
        (_, 0) => None,
        (0, _) => Some("cut the elastics on their rulers"),
        (some, all) if some < all => Some("cut the elastics on their rulers, marked where given"),
        _ => Some("cut and mark the elastics on their rulers"),
    };
    lines.extend(ready.map(str::to_owned));
    let laid_on = of(|doing| matches!(doing, Doing::CutOff { .. }));
    if !laid_on.is_empty() {
        lines.push(format!("leave the elastic of the {} in one length", openings(&laid_on)));
    }
    let mut rings: Vec<(f64, Option<Sewing>, Vec<Opening>)> = Vec::new();
    for step in &garment.order_of_work {
        let (Doing::JoinRing { overlap }, Some(opening)) = (&step.doing, step.id.opening()) else { continue };
        match rings.iter_mut().find(|(known, ..)| known == overlap) {
            Some((.., openings)) => openings.push(opening),
            None => rings.push((*overlap, step.sewing, vec![opening])),
        }
    }
    let ring = |(overlap, setting, of): (f64, Option<Sewing>, Vec<Opening>)| {
        let (of, lap) = (openings(&of), speech.tool(overlap));
        Said { text: format!("{of}: lap mark 1 on mark 1, {lap}, to a ring, untwisted; sew across twice"), setting }
    };
    lines.into_iter().map(Said::plain).chain(rings.into_iter().map(ring)).collect()
}

/// Everything that is cut, a line for each cloth, and the notches.
fn cutting(steps: &[&Step]) -> Vec<String> {
    let mut cloths: Vec<(&str, StretchRuns, Vec<String>)> = Vec::new();
    let mut marked: Vec<&Notches> = Vec::new();
    let mut folded = false;
    for step in steps {
        let (Doing::Cut { quantity, material, extent, stretch, notches }, Some(piece)) = (&step.doing, step.id.piece())
        else {
            continue;
        };
        let fold = if *extent == Extent::HalfOnFold { " on the fold" } else { "" };
        folded |= *extent == Extent::HalfOnFold;
        let plural = if *quantity > 1 { "s" } else { "" };
        let said = format!("{quantity} {}{plural}{fold}", piece.name());
        match cloths.iter_mut().find(|(cloth, runs, _)| cloth == material && runs == stretch) {
            Some((.., pieces)) => pieces.push(said),
            None => cloths.push((material, *stretch, vec![said])),
        }
        if !marked.contains(&notches) {
            marked.push(notches);
        }
    }
    let mut out: Vec<String> = cloths
        .iter()
        .map(|(cloth, stretch, pieces)| {
            let pieces: Vec<&str> = pieces.iter().map(String::as_str).collect();
            let along = match stretch {
                StretchRuns::RoundTheBody => "round the body",
                StretchRuns::AlongTheStrip => "along the strip",
            };
            format!("from {cloth}, greatest stretch {along}: {}", listed(&pieces))
        })
        .collect();
    out.push(notches(&marked, folded));
    out
}

/// A fold has no notch: its ends are the marks of the centre.
fn notches(marked: &[&Notches], folded: bool) -> String {
    let shown = marked.iter().find_map(|n| match n {
        Notches::ChalkedOn(edges) => Some(edges),
        _ => None,
    });
    let Some(edges) = shown else {
        let folds = if folded { " and fold end" } else { "" };
        return format!("snip or chalk every notch{folds}");
    };
    let [here, there] = match (folded, edges.contains(&Opening::Top)) {
        (false, _) => ["", ""],
        (true, true) => [" and fold ends", ""],
        (true, false) => ["", " and fold ends"],
    };
    format!("chalk the notches{here} of the {}, which show; snip the others{there}", openings(edges))
}
