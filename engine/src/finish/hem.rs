//! Hem: the cloth itself, folded in and stitched, without elastic.

use super::task::{Act, TaskId};
use super::{Demand, Finish, Lines, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge, finish};
use crate::stitch::Sewing;

pub(super) struct Hem;

/// From the raw edge to the row, mm. Common practice.
const FROM_EDGE: f64 = 2.0;

impl Finish for Hem {
    fn name(&self) -> &'static str {
        "hem"
    }

    fn summary(&self) -> &'static str {
        "cloth folded in once and stitched with a stretch stitch, no elastic"
    }

    fn takes(&self) -> Takes {
        Takes::Nothing
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[finish::DEPTH]
    }

    fn demands(&self) -> Demand {
        Demand::Knit
    }

    fn lines(&self, s: &Settings) -> Lines {
        Lines {
            cut: s.depth,
            sewing: Some(-(s.depth - FROM_EDGE)),
            second: None,
            measured: None,
            turned_in: TurnedIn::AtFinishedEdge,
            fold: Some(0.0),
            elastic: None,
            skin: Skin::Covered,
        }
    }

    fn profile(&self, s: &Settings) -> Profile {
        Profile {
            plies: vec![Ply::cloth(&[(-s.depth - SHOWN, 1.0), (0.0, 1.0), (0.0, 0.0), (-s.depth, 0.0)])],
            rows: vec![Stitches::new(-(s.depth - FROM_EDGE), 0.0, 1.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        vec![
            Task::press(Act::FoldIn(s.depth)),
            Task::row(TaskId::Row1, Sewing::zigzag(), -(s.depth - FROM_EDGE), [Act::StitchHem]),
        ]
    }
}
