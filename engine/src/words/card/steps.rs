//! The order of work as short numbered lines under headings.

use super::acts::{act, lays};
use crate::drawing::card::{Line, Part};
use crate::finish::task::Act;
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
        let part = Part { heading: run.place.heading(), picture: None, lines: numbered.collect() };
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
    alike.then(|| format!("as the left side seam, lines {from} to {to}; here {} meet", openings(edges)))
}

/// The lines of a run.
fn lines(run: &Run<'_>, speech: Speech) -> Vec<Said> {
    match run.place {
        Place::Cutting => cutting(&run.steps).into_iter().map(Said::plain).collect(),
        Place::Edge(_) => edge(&run.steps, speech),
        Place::Seam(_) => seam(&run.steps, speech),
        Place::Gusset | Place::End => run.steps.iter().map(|step| line(step, speech)).collect(),
    }
}

/// A side seam is laid by its first step, whichever that is.
fn seam(steps: &[&Step], speech: Speech) -> Vec<Said> {
    let mut lines: Vec<Said> = steps.iter().map(|step| line(step, speech)).collect();
    if let (Some(first), Some(Doing::SideSeam { .. })) = (lines.first_mut(), steps.first().map(|step| &step.doing)) {
        first.text = format!("right sides together, notches matched, {}", first.text);
    }
    lines
}

/// Is the chain of a seam left to be caught?
pub(super) fn leaves_chain(step: &Step) -> bool {
    let (Doing::GussetSeam { ends, .. } | Doing::SideSeam { ends, .. }) = &step.doing else { return false };
    matches!(ends, Ends::ChainCrossed | Ends::ChainTacked)
}

fn line(step: &Step, speech: Speech) -> Said {
    Said { text: does(step, speech), setting: step.sewing }
}

/// What is put on is told with how it lies, which its first row needs no more.
fn edge(steps: &[&Step], speech: Speech) -> Vec<Said> {
    let here: Vec<&Step> = steps.iter().copied().filter(|step| !is_made_ready(step)).collect();
    let laid = |i: usize| match here.get(i).map(|step| &step.doing) {
        Some(Doing::Finish { acts, .. }) => acts.first().copied().filter(|act| lays(*act)),
        _ => None,
    };
    let is_pin = |i: usize| matches!(here.get(i).map(|step| &step.doing), Some(Doing::Pin { .. }));
    let mut out = Vec::new();
    for (i, step) in here.iter().enumerate() {
        let mut said = line(step, speech);
        if let Some(laid) = laid(i + 1).filter(|_| is_pin(i)) {
            said.text = format!("{}; {}", act(laid, speech, step.id.opening()), said.text);
        }
        if let (Doing::Finish { acts, runs, spread }, Some(_), true) = (&step.doing, laid(i), i > 0 && is_pin(i - 1)) {
            said.text = finish(&acts[1..], *runs, spread.as_ref(), step.id.opening(), speech);
        }
        out.push(said);
    }
    out.retain(|said| !said.text.is_empty());
    out
}

/// Elastics are cut, marked and joined before anything is sewn.
const fn is_made_ready(step: &Step) -> bool {
    matches!(&step.doing, Doing::CutElastic { .. } | Doing::Mark { what: Strip::Elastic, .. } | Doing::JoinRing { .. })
}

/// The elastics, made ready: the strips say the lengths.
fn made_ready(garment: &Garment, speech: Speech) -> Vec<Said> {
    let is_cut = garment.order_of_work.iter().any(|s| matches!(&s.doing, Doing::CutElastic { .. }));
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
        Said { text: format!("for the {of}, lap the ends {lap} to a ring, untwisted; sew across twice"), setting }
    };
    let cut = is_cut.then(|| Said::plain("cut and mark the elastics against their strips".to_owned()));
    cut.into_iter().chain(rings.into_iter().map(ring)).collect()
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
            format!("from {cloth}, greatest stretch {along}: {}", listed(&pieces))
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

fn does(step: &Step, speech: Speech) -> String {
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
            format!("hold both layers along the leg edges, {} inside: from here one layer", speech.tool(*inside))
        }
        Doing::Align { edges } => {
            format!(
                "right sides together, notches matched; pin across where edges and rows of the {} meet",
                openings(edges)
            )
        }
        Doing::SideSeam { allowance, ends } => {
            format!("sew {} from the edges{}", speech.tool(*allowance), secured(*ends))
        }
        Doing::TrimEnds { .. } => "trim what stands out".to_owned(),
        Doing::PressSide { .. } => "press, allowances to the back".to_owned(),
        Doing::TackAllowances { .. } => "tack the allowances down at the edges".to_owned(),
        Doing::CutOff { .. } => "cut it off, ends into the allowances".to_owned(),
        Doing::SeamBand { allowance } => format!("seam the ends of the band, {}", speech.tool(*allowance)),
        Doing::FoldBand { width } => format!("fold the band to {} and its allowance; press", speech.tool(*width)),
        Doing::Mark { .. } => "mark the band at its notches".to_owned(),
        Doing::Pin { put_on, ends, .. } => match put_on {
            PutOn::Round => format!("pin mark on mark, joint {}", ends.name()),
            PutOn::Flat => format!("pin mark on mark, ends slack {}", ends.name()),
        },
        Doing::Finish { acts, runs, spread } => finish(acts, *runs, spread.as_ref(), step.id.opening(), speech),
        Doing::LastLook => "cut threads, press, try on: edges flat, nothing bites, no seam cracks".to_owned(),
        // Said together.
        Doing::Cut { .. } | Doing::CutElastic { .. } | Doing::JoinRing { .. } => String::new(),
    }
}

fn finish(
    acts: &[Act],
    runs: Option<Runs>,
    spread: Option<&Spread>,
    opening: Option<Opening>,
    speech: Speech,
) -> String {
    let acts: Vec<String> = acts.iter().map(|a| act(*a, speech, opening)).collect();
    let row = runs.map(|runs| format!(", {}", row(runs, speech))).unwrap_or_default();
    let spread = spread.map(|spread| format!("; {}", spread_out(spread, speech))).unwrap_or_default();
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
            "{panel} between gusset (on its right side) and lining, their right sides towards it, {notches}; sew \
             {allowance} from the edges"
        ),
        Layers::AroundRoll => format!("sew all three, {allowance}, catching nothing of the roll"),
        Layers::LiningAside => {
            format!("lining aside, gusset on {panel}, right sides together, {notches}; sew {allowance} from the edges")
        }
    }
}

/// The chain of an overlocked seam is told where it has to be run back; else a row or a tack catches it, and
/// that it is left is told once.
const fn secured(ends: Ends) -> &'static str {
    match ends {
        Ends::ToAndFro => ", to and fro at the ends",
        Ends::ChainCrossed | Ends::ChainTacked => "",
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

fn spread_out(spread: &Spread, speech: Speech) -> String {
    match spread {
        Spread::LaidOn(hand) => {
            format!("unstretched, from {} in hand, over the allowances at both ends", speech.tape(*hand))
        }
        Spread::Alike(percent) if percent.abs() < UNFELT => "stretch neither".to_owned(),
        Spread::Alike(percent) if *percent < 0.0 => "ease it in".to_owned(),
        Spread::Alike(percent) => format!("stretch it {} %, never the cloth", short(*percent, 1)),
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

/// How the machines stand: an overlocker, and one for everything else.
#[derive(Default)]
struct Machines {
    overlocker: Option<Sewing>,
    other: Option<Sewing>,
}

impl Machines {
    /// A stitch with its settings; by name alone where the machine is set so already.
    fn set(&mut self, set: Sewing) -> String {
        let machine = if set.stitch == Stitch::Overlock { &mut self.overlocker } else { &mut self.other };
        if machine.replace(set) == Some(set) { format!("same {}", name(set.stitch)) } else { setting(&set) }
    }
}

const fn name(stitch: Stitch) -> &'static str {
    match stitch {
        Stitch::Lockstitch => "straight stitch",
        Stitch::Zigzag => "zigzag",
        Stitch::ThreeStep => "three-step zigzag",
        Stitch::Overlock => "overlock",
    }
}

fn setting(set: &Sewing) -> String {
    let span = |Span { from, to }: Span| match from < to {
        true => format!("{}–{}", short(from, 1), short(to, 1)),
        false => short(from, 1),
    };
    let width = set.width.map(|w| format!("width {}", span(w)));
    let feed = set.differential.map(|d| format!("differential {}", span(d)));
    let length = format!("{} {}", if set.stitch == Stitch::ThreeStep { "steps" } else { "length" }, span(set.length));
    let said: Vec<String> =
        [Some(name(set.stitch).to_owned()), width, Some(length), feed].into_iter().flatten().collect();
    said.join(", ")
}
