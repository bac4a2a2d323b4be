//! Trim: an elastic edging that stands out beyond the cloth.

use super::{Finish, Lines, Settings, Skin, Takes, TurnedIn};
use crate::sheet::Reach;

pub(super) struct Trim;

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

    fn keys(&self) -> &'static [&'static str] {
        &["bite", "reach"]
    }

    fn lines(&self, s: &Settings) -> Lines {
        let (w, b) = (s.width, s.bite);
        // The elastic folds out at the inner swing of the zigzag, a bite inside the raw edge.
        match s.reach {
            Reach::Keep => Lines {
                cut: -(w - 2.0 * b),
                sewing: Some(-(w - b)),
                second: None,
                measured: Some(-(w - b)),
                turned_in: TurnedIn::No,
                elastic: Some((-w, 0.0)),
                skin: Skin::Touches,
            },
            Reach::Add => Lines {
                cut: 0.0,
                sewing: Some(-b),
                second: None,
                measured: Some(-b),
                turned_in: TurnedIn::No,
                elastic: Some((-2.0 * b, w - 2.0 * b)),
                skin: Skin::Touches,
            },
        }
    }
}
