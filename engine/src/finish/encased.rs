//! Encased: a plain elastic sewn to the wrong side and folded in, covered by the cloth.

use super::task::{Act, ClothSide, Meets, TaskId, Up};
use super::{Finish, Lines, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge};
use crate::stitch::Sewing;

pub(super) struct Encased;

/// From the raw edge to the first row, and from the inner edge to the second, mm. Common practice.
const FIRST: f64 = 2.5;
const SECOND: f64 = 2.0;

impl Finish for Encased {
    fn name(&self) -> &'static str {
        "encased"
    }

    fn summary(&self) -> &'static str {
        "plain elastic sewn to the wrong side at the raw edge, folded in once, covered by the cloth"
    }

    fn takes(&self) -> Takes {
        Takes::Elastic
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[]
    }

    fn lines(&self, s: &Settings) -> Lines {
        Lines {
            cut: s.width,
            sewing: Some(s.width - FIRST),
            second: Some(-(s.width - SECOND)),
            measured: Some(0.0),
            turned_in: TurnedIn::AtFinishedEdge,
            fold: Some(0.0),
            elastic: Some((-s.width, 0.0)),
            skin: Skin::Covered,
        }
    }

    fn profile(&self, s: &Settings) -> Profile {
        let w = s.width;
        Profile {
            plies: vec![
                Ply::cloth(&[(-w - SHOWN, 2.0), (0.0, 2.0), (0.0, 0.0), (-w, 0.0)]),
                Ply::elastic(-w, 0.0, 1.0),
            ],
            // Sewn on before the fold, the first row comes to lie as far inside it.
            rows: vec![Stitches::new(-(w - FIRST), 0.0, 1.0), Stitches::new(-(w - SECOND), 0.0, 2.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        let lay = Act::LayOnRawEdge(ClothSide::Wrong, Up::Either, Meets::of(s.picot));
        vec![
            Task::row(TaskId::Row1, Sewing::zigzag(), s.width - FIRST, [lay, Act::ZigzagOnRawEdge]),
            Task::press(Act::FoldOverElastic),
            Task::row(TaskId::Row2, Sewing::three_step(s.width), -(s.width - SECOND), [Act::StitchNearRawEdge]),
        ]
    }
}
