//! Band: a strip of knit, doubled, a piece of its own.

use super::task::{Act, TaskId};
use super::{Demand, Finish, Lines, Reductions, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN, Stitches, Stuff};
use crate::keys::{Field, PerEdge, finish};
use crate::stitch::Sewing;

pub(super) struct Band;

impl Finish for Band {
    fn name(&self) -> &'static str {
        "band"
    }

    fn summary(&self) -> &'static str {
        "a doubled strip of knit sewn on, no elastic"
    }

    fn takes(&self) -> Takes {
        Takes::Strip
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[finish::WIDTH]
    }

    fn demands(&self) -> Demand {
        Demand::Knit
    }

    fn reductions(&self) -> Reductions {
        Reductions::STRIP
    }

    fn lines(&self, s: &Settings) -> Lines {
        Lines {
            cut: -s.band_width + s.seam,
            sewing: Some(-s.band_width),
            second: None,
            measured: Some(-s.band_width),
            turned_in: TurnedIn::No,
            fold: None,
            elastic: Some((-s.band_width, 0.0)),
            skin: Skin::Covered,
        }
    }

    fn profile(&self, s: &Settings) -> Profile {
        let (sewn, raw) = (-s.band_width, -s.band_width - s.seam);
        // All allowances lie towards the garment.
        let strip = vec![(raw, 1.0), (sewn, 1.0), (sewn, 3.0), (0.0, 3.0), (0.0, 0.0), (sewn, 0.0), (raw, 0.0)];
        Profile {
            plies: vec![
                Ply::cloth(&[(raw - SHOWN, 3.0), (sewn, 3.0), (sewn, 2.0), (raw, 2.0)]),
                Ply { stuff: Stuff::Band, course: strip },
            ],
            rows: vec![Stitches::new(sewn, 0.0, 2.0)],
        }
    }

    fn tasks(&self, s: &Settings) -> Vec<Task> {
        // Sewn like any seam of the sheet: its kind is known where the order of work is planned.
        let row = Task::row(TaskId::Row1, Sewing::zigzag(), -s.band_width, [Act::LayBand, Act::SewBandOn(s.seam)]);
        vec![row, Task::press(Act::TurnBandOut)]
    }
}
