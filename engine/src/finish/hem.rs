//! Hem: the cloth itself, folded in and stitched, without elastic.

use super::{Finish, Lines, Settings, Skin, Takes, TurnedIn};

pub(super) struct Hem;

impl Finish for Hem {
    fn name(&self) -> &'static str {
        "hem"
    }

    fn summary(&self) -> &'static str {
        "cloth folded in once and stitched with a stretch stitch, no elastic"
    }

    fn takes(&self) -> Takes {
        Takes::Nothing
    }

    fn keys(&self) -> &'static [&'static str] {
        &["depth"]
    }

    fn lines(&self, s: &Settings) -> Lines {
        Lines {
            cut: s.depth,
            sewing: Some(-(s.depth - 2.0)),
            second: None,
            measured: None,
            turned_in: TurnedIn::AtFinishedEdge,
            elastic: None,
            skin: Skin::Covered,
        }
    }
}
