//! The work of a finish that is in no file but its own, and the small parts of the planner.

use super::doing::{Ends, Notches};
use super::*;
use crate::base::Base;
use crate::garment::Level;
use crate::sheet::{FinishSpec, Sheet};
use crate::support;
use crate::terms::{PerOpening, PutOn};
use crate::topology::PieceId;

/// An invented body in ordinary jersey, one layer of gusset, every edge finished like this.
fn sheet(kind: &str, put_on: PutOn) -> Sheet {
    let mut sheet = support::sheet(&support::ordinary(), Base::all().next().expect("there are bases"));
    let spec = FinishSpec { put_on: Some(put_on), ..support::finish(kind, "soft 8") };
    sheet.finish = PerOpening::from_fn(|_| spec.clone());
    sheet.gusset.layers = Some(1);
    sheet
}

fn names(kind: &str, put_on: PutOn) -> Vec<String> {
    let made = crate::make(&sheet(kind, put_on)).unwrap();
    assert!(made.garment.checks.iter().all(|f| f.level < Level::Refusal));
    made.garment.order_of_work.into_iter().map(|s| s.id.name()).collect()
}

/// Its one row comes where a flat edge has it, and the seams that catch its ends are aligned.
#[test]
fn a_new_finish_is_put_in_order_by_its_own_file() {
    let flat = [
        "cut front",
        "cut back",
        "cut gusset",
        "front gusset seam",
        "back gusset seam",
        "gusset pressed",
        "left leg row 1",
        "right leg row 1",
        "left side seam aligned",
        "left side seam",
        "left side seam trimmed",
        "left side seam pressed",
        "left side seam tacked",
        "top edge row 1",
        "right side seam aligned",
        "right side seam",
        "right side seam trimmed",
        "right side seam pressed",
        "right side seam tacked",
        "last look",
    ];
    assert_eq!(names("scallop", PutOn::Flat), flat);
    let round = [
        "left side seam",
        "left side seam pressed",
        "right side seam",
        "right side seam pressed",
        "left leg row 1",
        "right leg row 1",
        "top edge row 1",
        "last look",
    ];
    let until_pressed = &flat[..6];
    assert_eq!(names("scallop", PutOn::Round), [until_pressed, round.as_slice()].concat());
}

#[test]
fn nothing_is_done_at_a_raw_edge() {
    let names = names("raw", PutOn::Flat);
    assert!(!names.iter().any(|n| n.contains("leg") || n.contains("top edge") || n.contains("aligned")), "{names:?}");
}

const A: StepId = StepId::Cut(PieceId::Front);
const B: StepId = StepId::Cut(PieceId::Back);
const C: StepId = StepId::Cut(PieceId::Gusset);

const fn job(id: StepId) -> Job {
    Job::new(Phase::End, id, Doing::LastLook)
}

#[test]
fn a_chain_gives_each_job_the_one_before() {
    let mut chain = Chain::default();
    for (id, because) in [(A, Because::IsCut), (B, Because::LayersAreCut), (C, Because::OneRing)] {
        chain.then(because, job(id));
    }
    let needs: Vec<Vec<Need>> = chain.0.into_iter().map(|j| j.step.needs).collect();
    let need = |step, because| vec![Need { step, because }];
    assert_eq!(needs, [Vec::new(), need(A, Because::LayersAreCut), need(B, Because::OneRing)]);
}

#[test]
fn everything_that_nobody_waits_for_comes_before_the_end() {
    let end = last(&[job(A), job(B).after(A, Because::IsCut), job(C)]);
    let before: Vec<StepId> = end.step.needs.iter().map(|n| n.step).collect();
    assert_eq!(before, [B, C]);
}

/// An overlock chain that no row crosses has to be run back; a zigzag is sewn to and fro anyway.
#[test]
fn a_seam_that_ends_at_a_raw_edge_is_secured() {
    let ends = |kind, seams| {
        let mut sheet = sheet(kind, PutOn::Flat);
        sheet.seams.kind = Some(seams);
        let steps = crate::make(&sheet).unwrap().garment.order_of_work;
        let of = |step: &Step| match step.doing {
            Doing::SideSeam { ends, .. } | Doing::GussetSeam { ends, .. } => Some((step.id.name(), ends)),
            _ => None,
        };
        steps.iter().filter_map(of).collect::<Vec<_>>()
    };
    let (gusset, left, right) = (0..2, 2, 3);
    let raw = ends("raw", SeamKind::Overlock);
    assert!(raw.iter().all(|(_, e)| *e == Ends::ChainRunBack), "{raw:?}");
    let scallop = ends("scallop", SeamKind::Overlock);
    assert!(scallop[gusset].iter().all(|(_, e)| *e == Ends::ChainCrossed), "{scallop:?}");
    // A flat leg is finished before its side seam, which is tacked there.
    assert!([left, right].iter().all(|i| scallop[*i].1 == Ends::ChainTacked), "{scallop:?}");
    assert!(ends("raw", SeamKind::Zigzag).iter().all(|(_, e)| *e == Ends::ToAndFro));
}

#[test]
fn notches_are_chalked_on_edges_that_show() {
    let of = |kind| {
        let steps = crate::make(&sheet(kind, PutOn::Flat)).unwrap().garment.order_of_work;
        let front = steps.into_iter().find(|s| s.id == StepId::Cut(PieceId::Front)).unwrap();
        match front.doing {
            Doing::Cut { notches, .. } => notches,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(of("raw"), Notches::ChalkedOn(Opening::ALL.to_vec()));
    for kind in ["trim", "turned", "encased", "lapped", "binding", "hem", "band"] {
        assert_eq!(of(kind), Notches::Snipped, "{kind}");
    }
}
