//! Turned: a plush or picot elastic sewn to the raw edge and turned inside.

use super::task::{Act, ClothSide, Meets, TaskId, Up};
use super::{Finish, Lines, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge};
use crate::stitch::Sewing;

pub(super) struct Turned;

/// From the inner edge of the elastic to its second row, mm. Common practice.
const FROM_INNER_EDGE: f64 = 1.5;

impl Finish for Turned {
    fn name(&self) -> &'static str {
        "turned"
    }

    fn summary(&self) -> &'static str {
        "plush or picot elastic sewn on the right side, turned to the inside, zigzagged again"
    }

    fn takes(&self) -> Takes {
        Takes::Elastic
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[]
    }

    fn lines(&self, s: &Settings) -> Lines {
        let solid = s.width - s.picot;
        Lines {
            cut: solid,
            sewing: Some(0.0),
            second: Some(-solid + FROM_INNER_EDGE),
            measured: Some(0.0),
            turned_in: TurnedIn::AtFinishedEdge,
            fold: Some(0.0),
            elastic: Some((-solid, s.picot)),
            skin: Skin::Touches,
        }
    }

    fn profile(&self, s: &Settings) -> Profile {
        let solid = s.width - s.picot;
        Profile {
            plies: vec![
                Ply::cloth(&[(-solid - SHOWN, 2.0), (0.0, 2.0), (0.0, 1.0), (-solid, 1.0)]),
                Ply::elastic(-solid, s.picot, 0.0),
            ],
            rows: vec![Stitches::new(0.0, 0.0, 1.0), Stitches::new(-solid + FROM_INNER_EDGE, 0.0, 2.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        let meets = Meets::of(s.picot);
        let solid = s.width - s.picot;
        let lay = Act::LayOnRawEdge(ClothSide::Right, Up::Soft, meets);
        vec![
            Task::row(TaskId::Row1, Sewing::zigzag(), 0.0, [lay, Act::ZigzagInnerEdge(meets)]),
            Task::press(Act::TurnSoftOnSkin),
            Task::row(TaskId::Row2, Sewing::three_step(solid), -solid + FROM_INNER_EDGE, [Act::StitchNearElastic]),
        ]
    }
}
