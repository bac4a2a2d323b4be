//! Encased: a plain elastic sewn to the wrong side and folded in, covered by the cloth.

use super::task::stitch::{THREE_STEP, ZIGZAG};
use super::{Finish, Lines, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge};

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
        vec![
            Task::row(
                "row 1",
                ZIGZAG,
                s.width - FIRST,
                "lay the elastic on the wrong side, its edge on the raw edge, and zigzag along that edge",
            ),
            Task::press("fold elastic and cloth to the inside, along the inner edge of the elastic, and press"),
            Task::row(
                "row 2",
                THREE_STEP,
                -(s.width - SECOND),
                "zigzag from the right side through all layers, near the raw edge",
            ),
        ]
    }
}
