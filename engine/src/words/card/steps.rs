//! The order of work as short numbered lines under headings.

use super::acts::act;
use crate::drawing::card::{Line, Part};
use crate::garment::{Garment, Step};
use crate::stitch::{Sewing, Span, Stitch};
use crate::terms::{Extent, Opening, PutOn};
use crate::topology::{PieceId, SectionId, Side};
use crate::words::number::short;
use crate::words::work::openings;
use crate::words::{Speech, capital, listed, together};
use crate::work::doing::{Doing, Ends, GussetLies, Layers, Neatened, Notches, Runs, Spread, StretchRuns, Strip};
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

/// What is done at one place in a row.
struct Run<'a> {
    place: Place,
    steps: Vec<&'a Step>,
}

/// Every part, with the opening that it finishes.
pub(super) fn parts(garment: &Garment, speech: Speech) -> Vec<(Part, Option<Opening>)> {
    let runs = runs(&garment.order_of_work);
    let mut number = 0;
    let mut out: Vec<(Part, Option<Opening>)> = Vec::new();
    let mut before: Vec<(&Run<'_>, Vec<String>, usize)> = Vec::new();
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
                lines = vec![line];
            }
        }
        let first = number + 1;
        let numbered = lines.iter().map(|text| {
            number += 1;
            Line { number, text: text.clone() }
        });
        let lines_of = numbered.collect();
        out.push((Part { heading: run.place.heading(), picture: None, lines: lines_of }, run.place.opening()));
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
fn as_before(first: &Run<'_>, second: &Run<'_>, (theirs, own): (&[String], &[String]), from: usize) -> Option<String> {
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
    alike.then(|| format!("as the left side seam, lines {from} to {to}; here {} meet", openings(edges)))
}

/// The lines of a run.
fn lines(run: &Run<'_>, speech: Speech) -> Vec<String> {
    match run.place {
        Place::Cutting => cutting(&run.steps),
        Place::Edge(_) => edge(&run.steps, speech),
        _ => run.steps.iter().map(|step| line(step, speech)).collect(),
    }
}

fn line(step: &Step, speech: Speech) -> String {
    let text = does(step, speech);
    step.sewing.as_ref().map_or_else(|| text.clone(), |set| format!("{text}: {}", setting(set)))
}

/// Everything that is cut, a line for each cloth, and the notches.
fn cutting(steps: &[&Step]) -> Vec<String> {
    let mut cloths: Vec<(&str, StretchRuns, Vec<String>)> = Vec::new();
    let mut marked: Vec<&Notches> = Vec::new();
    for step in steps {
        let (Doing::Cut { quantity, material, extent, stretch, notches }, Some(piece)) = (&step.doing, step.id.piece())
        else {
            continue;
        };
        let fold = if *extent == Extent::HalfOnFold { " on the fold" } else { "" };
        let said = format!("{quantity} {}{fold}", piece.name());
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
            format!("{cloth}, greatest stretch {along}: {}", listed(&pieces))
        })
        .collect();
    out.push(notches(&marked));
    out
}

fn notches(marked: &[&Notches]) -> String {
    let shown = marked.iter().find_map(|n| match n {
        Notches::ChalkedOn(edges) => Some(edges),
        _ => None,
    });
    match shown {
        Some(edges) => format!("chalk the notches of the {}, which show; snip the others", openings(edges)),
        None => "snip or chalk every notch".to_owned(),
    }
}

/// An elastic is marked against its strip before its ends are joined.
fn edge(steps: &[&Step], speech: Speech) -> Vec<String> {
    let marks = steps.iter().find_map(|s| match &s.doing {
        Doing::Mark { what: Strip::Elastic, marks, .. } => Some(marks.len()),
        _ => None,
    });
    let is_marking = |s: &&&Step| !matches!(&s.doing, Doing::Mark { what: Strip::Elastic, .. });
    let said = steps.iter().filter(is_marking).map(|step| match (&step.doing, marks) {
        (Doing::CutElastic { .. }, Some(_)) => format!("{}; mark it against its strip", line(step, speech)),
        _ => line(step, speech),
    });
    said.collect()
}

fn does(step: &Step, speech: Speech) -> String {
    match &step.doing {
        Doing::GussetSeam { panel, how, allowance, ends } => {
            format!("{}; {}", gusset(*panel, *how, &speech.tool(*allowance)), secured(*ends))
        }
        Doing::RollIn => ROLL_IN.to_owned(),
        Doing::TurnOut => "draw front and back out through one open leg edge".to_owned(),
        Doing::Neaten(Neatened::Allowances) => "neaten both allowances together".to_owned(),
        Doing::Neaten(Neatened::LiningEnd) => "neaten the front end of the lining".to_owned(),
        Doing::PressGusset { towards, .. } => format!("press both seams, allowances {}", lies(*towards)),
        Doing::TackLining => {
            "lay the lining over the front seam; tack its end to the allowances at the sides and in the \
                              middle"
                .to_owned()
        }
        Doing::HoldLayers { inside } => {
            format!(
                "both layers flat, as one from here: hold them along both leg edges, {} inside the raw edges",
                speech.tool(*inside)
            )
        }
        Doing::Align { edges } => {
            format!(
                "front on back, right sides together; pin across where edges and rows of the {} meet",
                openings(edges)
            )
        }
        Doing::SideSeam { allowance, ends } => {
            format!(
                "right sides together, notches matched, sew {} from the raw edges; {}",
                speech.tool(*allowance),
                secured(*ends)
            )
        }
        Doing::TrimEnds { .. } => "trim what stands out at the edges".to_owned(),
        Doing::PressSide { .. } => "press, allowances towards the back".to_owned(),
        Doing::TackAllowances { .. } => "tack the allowances down at the edges".to_owned(),
        Doing::CutElastic { name, length, .. } => format!("cut {} of {name}, slack", speech.tape(*length)),
        Doing::CutOff { into } => {
            format!("cut the elastic off, {} into the allowance at either end", speech.tool(*into))
        }
        Doing::JoinRing { overlap } => {
            format!("lap its ends {} to a ring, untwisted, and sew across twice", speech.tool(*overlap))
        }
        Doing::SeamBand { allowance } => format!("seam the ends of the band, {}", speech.tool(*allowance)),
        Doing::FoldBand { width } => {
            format!("fold the band lengthwise to {} and its allowance; press", speech.tool(*width))
        }
        Doing::Mark { .. } => "mark the band at its notches".to_owned(),
        Doing::Pin { put_on, ends, .. } => match put_on {
            PutOn::Round => format!("pin it on, mark on mark, its joint {}", ends.name()),
            PutOn::Flat => format!("pin it on, mark on mark, both ends {}, slack in the allowances", ends.name()),
        },
        Doing::Finish { acts, runs, spread } => {
            let acts: Vec<String> = acts.iter().map(|a| act(*a, speech, step.id.opening())).collect();
            let runs = runs.map(|runs| row(runs, speech));
            let spread = spread.as_ref().map(|spread| spread_out(spread, speech));
            acts.into_iter().chain(runs).chain(spread).collect::<Vec<_>>().join("; ")
        }
        Doing::LastLook => "cut the threads, press, try on: edges lie flat, nothing bites, no seam cracks".to_owned(),
        // Said together.
        Doing::Cut { .. } => String::new(),
    }
}

const ROLL_IN: &str = "gusset on back, right sides together, double notches matched; roll front and back up between the \
    layers, bring the lining round the roll onto the wrong side of the back, pin all three";

fn gusset(panel: PieceId, how: Layers, allowance: &str) -> String {
    let notches = if panel == PieceId::Back { "double notches" } else { "centre notches" };
    let panel = panel.name();
    match how {
        Layers::Single => {
            format!("gusset on {panel}, right sides together, {notches} matched; sew {allowance} from the raw edges")
        }
        Layers::PanelBetween => format!(
            "{panel} between gusset (right side) and lining (wrong side), right sides towards it, {notches} matched; sew \
             {allowance} from the raw edges"
        ),
        Layers::AroundRoll => format!("sew all three {allowance} from the raw edges, the roll loose inside"),
        Layers::LiningAside => {
            format!(
                "lining aside; gusset on {panel}, right sides together, {notches} matched; sew {allowance} from the raw edges"
            )
        }
    }
}

const fn secured(ends: Ends) -> &'static str {
    match ends {
        Ends::ToAndFro => "to and fro at both ends",
        Ends::ChainCrossed | Ends::ChainTacked => "leave chain at both ends",
        Ends::ChainRunBack => "run the chain back into the seam at a raw edge",
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
        Runs::FromRawEdge(mm) => format!("the row {} from the raw edge", speech.tool(mm)),
        Runs::InsideFinishedEdge(mm) => format!("the row {} inside the finished edge", speech.tool(mm)),
    }
}

fn spread_out(spread: &Spread, speech: Speech) -> String {
    match spread {
        Spread::LaidOn(hand) => {
            format!("no stretch, from {} in hand, over the allowances at both ends", speech.tape(*hand))
        }
        Spread::Alike(percent) if percent.abs() < UNFELT => "stretch neither it nor the cloth".to_owned(),
        Spread::Alike(percent) if *percent < 0.0 => "ease it in".to_owned(),
        Spread::Alike(percent) => format!("stretch it {} % from mark to mark, never the cloth", short(*percent, 1)),
        Spread::BySection(parts) => by_section(parts),
    }
}

/// Percent; what is shown as nothing is not stretched.
const UNFELT: f64 = 0.05;

fn by_section(parts: &[(SectionId, f64)]) -> String {
    let how = |percent: f64| match percent {
        p if p.abs() < UNFELT => "flat".to_owned(),
        p if p < 0.0 => "eased in".to_owned(),
        p => format!("stretched {} %", short(p, 1)),
    };
    together(parts.iter().map(|(section, percent)| (section.name(), how(*percent)))).join(", ")
}

/// A stitch with its settings.
fn setting(set: &Sewing) -> String {
    let span = |Span { from, to }: Span| {
        if from < to { format!("{}–{}", short(from, 1), short(to, 1)) } else { short(from, 1) }
    };
    let stitch = match set.stitch {
        Stitch::Lockstitch => "straight stitch",
        Stitch::Zigzag => "zigzag",
        Stitch::ThreeStep => "three-step zigzag",
        Stitch::Overlock => "overlock / serger",
    };
    let width = set.width.map(|w| format!("width {}", span(w)));
    let feed = set.differential.map(|d| format!("differential {}", span(d)));
    let length = format!("{} {}", if set.stitch == Stitch::ThreeStep { "steps" } else { "length" }, span(set.length));
    let said: Vec<String> = [Some(stitch.to_owned()), width, Some(length), feed].into_iter().flatten().collect();
    said.join(", ")
}
