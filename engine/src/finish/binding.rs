//! Binding: a fold-over elastic round the raw edge.

use super::task::{Act, TaskId};
use super::{Finish, Lines, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches, Stuff};
use crate::keys::{Field, PerEdge};
use crate::stitch::Sewing;

pub(super) struct Binding;

/// From the open edges of the elastic to its row, mm. Common practice.
const FROM_EDGE: f64 = 1.5;

impl Finish for Binding {
    fn name(&self) -> &'static str {
        "binding"
    }

    fn also(&self) -> &'static [&'static str] {
        &["bound", "fold over", "foldover", "fold over elastic", "foldover elastic"]
    }

    fn summary(&self) -> &'static str {
        "fold-over elastic folded round the raw edge, sewn once through all layers"
    }

    fn takes(&self) -> Takes {
        Takes::Elastic
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[]
    }

    fn folds_elastic(&self) -> bool {
        true
    }

    fn lines(&self, s: &Settings) -> Lines {
        let half = 0.5 * s.width;
        Lines {
            cut: 0.0,
            sewing: Some(-(half - FROM_EDGE)),
            second: None,
            measured: Some(0.0),
            turned_in: TurnedIn::No,
            fold: Some(0.0),
            elastic: Some((-half, 0.0)),
            skin: Skin::Touches,
        }
    }

    fn profile(&self, s: &Settings) -> Profile {
        let half = 0.5 * s.width;
        let round = vec![(-half, 2.0), (0.0, 2.0), (0.0, 0.0), (-half, 0.0)];
        Profile {
            plies: vec![Ply::cloth(&[(-half - SHOWN, 1.0), (0.0, 1.0)]), Ply { stuff: Stuff::Elastic, course: round }],
            rows: vec![Stitches::new(-(half - FROM_EDGE), 0.0, 2.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        let along = -(0.5 * s.width - FROM_EDGE);
        vec![
            Task::by_hand(TaskId::Fold, [Act::LayInCrease]),
            Task::row(TaskId::Row1, Sewing::zigzag(), along, [Act::StitchFolded]),
        ]
    }
}
