//! Tunnel (casing): the cloth folded in and stitched, an elastic threaded through.

use super::task::{Act, Caution, TaskId};
use super::{Finish, Lines, Reductions, Settings, Skin, Takes, Task, TurnedIn, Ways};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge, finish};
use crate::stitch::Sewing;

pub(super) struct Tunnel;

/// Left open to thread an elastic through, mm, and how much wider than the elastic at least.
/// Common practice.
const GAP: f64 = 30.0;
const PASSING: f64 = 10.0;

fn gap(s: &Settings) -> f64 {
    GAP.max(s.width + PASSING)
}

impl Finish for Tunnel {
    fn name(&self) -> &'static str {
        "tunnel"
    }

    fn summary(&self) -> &'static str {
        "cloth folded in and stitched to a tunnel / casing, plain elastic threaded through it"
    }

    fn takes(&self) -> Takes {
        Takes::Threaded
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[finish::ROOM, finish::CATCH, finish::TURN]
    }

    fn ways(&self) -> Ways {
        Ways::RoundOnly
    }

    fn reductions(&self) -> Reductions {
        Reductions::RUNS_FREELY
    }

    fn lines(&self, s: &Settings) -> Lines {
        let deep = s.width + s.room;
        Lines {
            cut: deep + s.catch + s.turn,
            sewing: Some(-deep),
            second: None,
            measured: Some(-0.5 * deep),
            turned_in: TurnedIn::AtFinishedEdge,
            fold: Some(0.0),
            elastic: Some((-s.width - 0.5 * s.room, -0.5 * s.room)),
            skin: Skin::Covered,
        }
    }

    fn gap(&self, s: &Settings) -> Option<f64> {
        Some(gap(s))
    }

    fn profile(&self, s: &Settings) -> Profile {
        let deep = s.width + s.room;
        let end = -(deep + s.catch);
        let mut course = vec![(end - SHOWN, 3.0), (0.0, 3.0), (0.0, 0.0), (end, 0.0)];
        if s.turn > 0.0 {
            course.extend([(end, 1.0), (end + s.turn, 1.0)]);
        }
        Profile {
            plies: vec![Ply::cloth(&course), Ply::elastic(-s.width - 0.5 * s.room, -0.5 * s.room, 2.0)],
            rows: vec![Stitches::new(-deep, 0.0, 3.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        let fold = Act::FoldIn(s.width + s.room + s.catch);
        let folds = if s.turn > 0.0 { vec![Act::TurnUnder(s.turn), fold, Act::Press] } else { vec![fold, Act::Press] };
        vec![
            Task { caution: Some(Caution::Iron), ..Task::by_hand(TaskId::Fold, folds) },
            Task::row(TaskId::Row1, Sewing::zigzag(), -(s.width + s.room), [Act::StitchTunnel(gap(s))]),
            Task::by_hand(TaskId::Thread, [Act::Thread]),
            Task::by_hand(TaskId::TryOn, [Act::TryOn]),
            Task::by_hand(TaskId::Join, [Act::LapEnds(s.overlap)]).sewn(Sewing::dense_zigzag()),
            Task::by_hand(TaskId::Close, [Act::CloseGap]).sewn(Sewing::zigzag()),
        ]
    }
}
