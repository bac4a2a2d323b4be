//! Turned: a plush or picot elastic sewn to the raw edge and turned inside.

use super::{Finish, Lines, Settings, Skin, Takes, TurnedIn};

pub(super) struct Turned;

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

    fn keys(&self) -> &'static [&'static str] {
        &[]
    }

    fn lines(&self, s: &Settings) -> Lines {
        let solid = s.width - s.picot;
        Lines {
            cut: solid,
            sewing: Some(0.0),
            second: Some(-solid + 1.5),
            measured: Some(0.0),
            turned_in: TurnedIn::AtFinishedEdge,
            elastic: Some((-solid, s.picot)),
            skin: Skin::Touches,
        }
    }
}
