//! Trim: an elastic edging that stands out beyond the cloth.

use super::task::{Act, ClothSide, Meets, TaskId, Up};
use super::{Finish, Lines, Reductions, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches};
use crate::keys::{Field, PerEdge, finish};
use crate::stitch::Sewing;
use crate::terms::Reach;

pub(super) struct Trim;

/// Where the elastic folds out: the inner swing of the zigzag, a bite inside the raw edge.
fn fold(s: &Settings) -> f64 {
    match s.reach {
        Reach::Keep => -(s.width - s.bite),
        Reach::Add => -s.bite,
    }
}

impl Finish for Trim {
    fn name(&self) -> &'static str {
        "trim"
    }

    fn summary(&self) -> &'static str {
        "elastic zigzagged to the raw edge, flipped to stand out beyond the cloth, topstitched"
    }

    fn takes(&self) -> Takes {
        Takes::Elastic
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[finish::BITE, finish::REACH]
    }

    fn reductions(&self) -> Reductions {
        Reductions::LAID_ON
    }

    fn lines(&self, s: &Settings) -> Lines {
        let fold = fold(s);
        Lines {
            cut: fold + s.bite,
            sewing: Some(fold),
            second: Some(fold - 0.5 * s.bite),
            measured: Some(fold),
            turned_in: TurnedIn::No,
            fold: Some(fold),
            elastic: Some((fold - s.bite, fold - s.bite + s.width)),
            skin: Skin::Touches,
        }
    }

    fn profile(&self, s: &Settings) -> Profile {
        let (fold, inner) = (fold(s), fold(s) - s.bite);
        Profile {
            plies: vec![
                Ply::cloth(&[(inner - SHOWN, 2.0), (fold, 2.0), (fold, 1.0), (inner, 1.0)]),
                Ply::elastic(inner, inner + s.width, 0.0),
            ],
            rows: vec![Stitches::new(fold, 0.0, 1.0), Stitches::new(fold - 0.5 * s.bite, 0.0, 2.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        let row = fold(s);
        let lay = Act::LayOnRawEdge(ClothSide::Right, Up::Soft, Meets::of(s.picot));
        vec![
            Task::row(TaskId::Row1, Sewing::zigzag(), row, [lay, Act::ZigzagAtRawEdge(s.bite)]),
            Task::press(Act::FlipOut),
            Task::row(TaskId::Row2, Sewing::zigzag(), row - 0.5 * s.bite, [Act::Topstitch]),
        ]
    }
}
