//! Lapped: an elastic laid on top of the cloth, covering its raw edge.

use super::task::{Act, Meets, TaskId};
use super::{Finish, Lines, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge, finish};
use crate::stitch::Sewing;

pub(super) struct Lapped;

/// From an edge to the row that holds it, mm. Common practice.
const FROM_EDGE: f64 = 1.5;

/// The row that holds the elastic's inner edge; on a narrow lap in the middle of it, so that it holds cloth.
fn inner_row(s: &Settings) -> f64 {
    -(s.width - FROM_EDGE.min(0.5 * s.lap))
}

impl Finish for Lapped {
    fn name(&self) -> &'static str {
        "lapped"
    }

    fn summary(&self) -> &'static str {
        "elastic or lace laid on top of the cloth, covering its raw edge, two rows"
    }

    fn takes(&self) -> Takes {
        Takes::Elastic
    }

    fn shows_elastic(&self) -> bool {
        true
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[finish::LAP]
    }

    fn lines(&self, s: &Settings) -> Lines {
        let raw = -(s.width - s.lap);
        Lines {
            cut: raw,
            sewing: Some(inner_row(s)),
            second: Some(raw - FROM_EDGE),
            measured: Some(inner_row(s)),
            turned_in: TurnedIn::No,
            fold: None,
            elastic: Some((-s.width, 0.0)),
            skin: Skin::Touches,
        }
    }

    fn profile(&self, s: &Settings) -> Profile {
        let raw = -(s.width - s.lap);
        Profile {
            plies: vec![Ply::cloth(&[(-s.width - SHOWN, 0.0), (raw, 0.0)]), Ply::elastic(-s.width, 0.0, 1.0)],
            rows: vec![Stitches::new(inner_row(s), 0.0, 1.0), Stitches::new(raw - FROM_EDGE, 0.0, 1.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        let raw = -(s.width - s.lap);
        vec![
            Task::by_hand(TaskId::Baste, [Act::LayOver(s.lap, Meets::of(s.picot)), Act::Baste]),
            Task::row(TaskId::Row1, Sewing::zigzag(), inner_row(s), [Act::ZigzagEdgeOnCloth]),
            Task::row(TaskId::Row2, Sewing::zigzag(), raw - FROM_EDGE, [Act::ZigzagRawEdgeBelow]),
        ]
    }
}
