//! Raw: the edge is left as it is cut.

use super::{Demand, Finish, Lines, Settings, Skin, Takes, Task, TurnedIn};
use crate::finish::profile::{Ply, Profile, SHOWN};
use crate::keys::{Field, PerEdge};

pub(super) struct Raw;

impl Finish for Raw {
    fn name(&self) -> &'static str {
        "raw"
    }

    fn summary(&self) -> &'static str {
        "left as it is cut, for cloth that does not fray"
    }

    fn takes(&self) -> Takes {
        Takes::Nothing
    }

    fn keys(&self) -> &'static [Field<PerEdge>] {
        &[]
    }

    fn demands(&self) -> Demand {
        Demand::NoFraying
    }

    fn lines(&self, _: &Settings) -> Lines {
        Lines {
            cut: 0.0,
            sewing: None,
            second: None,
            measured: None,
            turned_in: TurnedIn::No,
            fold: None,
            elastic: None,
            skin: Skin::Covered,
        }
    }

    fn profile(&self, _: &Settings) -> Profile {
        Profile { plies: vec![Ply::cloth(&[(-SHOWN, 0.0), (0.0, 0.0)])], rows: Vec::new() }
    }

    fn tasks(&self, _: &Settings) -> Vec<Task> {
        Vec::new()
    }
}
