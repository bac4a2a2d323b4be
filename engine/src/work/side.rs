//! Side seams: the left one is closed first, and a flat top edge begins and ends in the right one.

use super::{Bench, Job, Phase, capital, chained, cutting, edge, gusset};
use crate::finish::task::stitch;
use crate::garment::Need;
use crate::terms::{Opening, PutOn};
use crate::words::both;

/// By the wearer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Side {
    Left,
    Right,
}

impl Side {
    /// In the order they are closed.
    pub(super) const ALL: [Self; 2] = [Self::Left, Self::Right];

    /// The seam's name.
    pub(super) const fn seam(self) -> &'static str {
        match self {
            Self::Left => "left side seam",
            Self::Right => "right side seam",
        }
    }

    /// The step after which the seam can be worked over.
    pub(super) fn pressed(self) -> String {
        format!("{} pressed", self.seam())
    }

    /// The openings that begin and end in this seam where they are put on flat.
    const fn ends_here(self) -> &'static [Opening] {
        match self {
            Self::Left => &[Opening::LeftLeg],
            Self::Right => &[Opening::Top, Opening::RightLeg],
        }
    }

    const fn phase(self) -> Phase {
        match self {
            Self::Left => Phase::LeftSeam,
            Self::Right => Phase::RightSeam,
        }
    }
}

impl Opening {
    /// The side seam that a leg crosses; a top crosses both.
    pub(super) const fn own_side(self) -> Option<Side> {
        match self {
            Self::Top => None,
            Self::LeftLeg => Some(Side::Left),
            Self::RightLeg => Some(Side::Right),
        }
    }
}

/// Everything at one side seam, in a row.
pub(super) fn jobs(bench: Bench<'_>, side: Side) -> Vec<Job> {
    let flat: Vec<(Opening, String)> = side
        .ends_here()
        .iter()
        .filter(|o| bench.plan.finish.get(**o).put_on == PutOn::Flat)
        .filter_map(|o| edge::last(bench, *o).map(|last| (*o, last)))
        .collect();
    let edges: Vec<&str> = flat.iter().map(|(o, _)| o.name()).collect();
    let over = (!edges.is_empty()).then(|| edges.join(" and "));
    let mut links = Vec::new();
    if let Some(over) = &over {
        links.push((aligned(side, over), ""));
    }
    links.push((sewn(bench, side), "finished edges that meet in a seam are pinned first, so that none stands higher"));
    if let Some(over) = &over {
        links.push((trimmed(side, over), "what lies in the seam can only be trimmed when it is caught"));
    }
    if bench.neatens() {
        links.push((neatened(bench, side), "the edges are neatened as they will lie, after all trimming"));
    }
    links.push((pressed(bench, side), "a seam is pressed when nothing more is cut off it"));
    if let Some(over) = &over {
        links.push((tacked(side, over), "the allowances are tacked where the iron laid them"));
    }
    let mut jobs = chained(links);
    if let Some(first) = jobs.first_mut() {
        for (_, last) in &flat {
            first.step.needs.push(Need { before: last.clone(), because: CAUGHT });
        }
    }
    jobs
}

const CAUGHT: &str = "what is put on flat is finished while this seam is open, which then catches its ends";

fn named(side: Side, what: &str) -> String {
    format!("{} {what}", side.seam())
}

fn titled(side: Side, what: &str) -> String {
    format!("{}, {what}", capital(side.seam()))
}

fn aligned(side: Side, over: &str) -> Job {
    let does = format!(
        "lay front on back, right sides together; match the finished edges and every row of stitches of the {over} \
         exactly, and pin across the seam"
    );
    Job::new(side.phase(), named(side, "aligned"), titled(side, "align the edges"), does).edge(side.seam())
}

fn sewn(bench: Bench<'_>, side: Side) -> Job {
    let does = format!(
        "lay front on back, right sides together, notches in the middle of the seam on each other, and sew {} from the \
         raw edges; the allowances go towards the back",
        both(bench.plan.seams.side)
    );
    let job = Job::new(side.phase(), side.seam(), titled(side, "sew"), does)
        .edge(side.seam())
        .length(bench.seam_length(side.seam()))
        .stitch(bench.seam_stitch())
        .caution(bench.seam_caution())
        .after(&cutting::name("front"), "both sides of the seam have to be cut")
        .after(&cutting::name("back"), "both sides of the seam have to be cut");
    match gusset::turned_out(bench) {
        Some(turned) => {
            job.after(turned, "front and back can be rolled into the gusset only while their sides are open")
        }
        None => job,
    }
}

fn trimmed(side: Side, over: &str) -> Job {
    let does = format!("trim what stands out of the seam at the {over}: ends of elastic or band, corners, threads");
    Job::new(side.phase(), named(side, "trimmed"), titled(side, "trim the ends"), does)
        .edge(side.seam())
        .caution("do not cut into the stitches")
}

fn neatened(bench: Bench<'_>, side: Side) -> Job {
    let does = "zigzag over the raw edges of both allowances together: a woven frays";
    Job::new(side.phase(), named(side, "neatened"), titled(side, "neaten the allowances"), does)
        .edge(side.seam())
        .length(bench.seam_length(side.seam()))
        .stitch(stitch::ZIGZAG)
}

fn pressed(bench: Bench<'_>, side: Side) -> Job {
    let does =
        format!("press the seam flat as sewn, then its allowances, {}, towards the back", both(bench.plan.seams.side));
    Job::new(side.phase(), side.pressed(), titled(side, "press"), does)
        .edge(side.seam())
        .caution("test the iron on a scrap: elastane and plush scorch")
}

fn tacked(side: Side, over: &str) -> Job {
    let does = format!(
        "hold the allowances down towards the back with a short dense zigzag across them at the {over}, so that they do \
         not show beyond the edge or scratch"
    );
    Job::new(side.phase(), named(side, "tacked"), titled(side, "tack the allowances"), does)
        .edge(side.seam())
        .stitch(stitch::ZIGZAG)
}
