//! Turned: a plush or picot elastic sewn to the raw edge and turned inside.

use super::task::stitch::{THREE_STEP, ZIGZAG};
use super::{Finish, Lines, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge};

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
        let picots = if s.picot > 0.0 { ", picots towards the garment" } else { "" };
        vec![
            Task::row(
                "row 1",
                ZIGZAG,
                0.0,
                format!("lay the elastic on the right side, plush side up{picots}, and zigzag along its inner edge"),
            ),
            Task::press("turn cloth and elastic to the inside so that the plush side lies on the skin, and press"),
            Task::row(
                "row 2",
                THREE_STEP,
                -(s.width - s.picot) + FROM_INNER_EDGE,
                "zigzag again from the right side, close to the edge of the elastic",
            ),
        ]
    }
}
