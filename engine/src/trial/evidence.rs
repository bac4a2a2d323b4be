//! What the trials of a sheet say of one spot, in settings of today's garment.
//!
//! A setting that was sewn with another elastic, cloth or shape is carried over: through the tension
//! of both elastics where their pull tests are known, else through how far it was stretched on the
//! body. How far that may be off is an assumption, stated with each way.

use super::belief::Told;
use super::setting::{self, Spot};
use crate::garment::OpeningWalk;
use crate::keys::Edges;
use crate::measure::pressure::Pull;
use crate::sheet::{Sheet, Trial};
use crate::terms::Verdict;

/// One verdict, as of today.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// Which block of the sheet, counted from 1.
    pub trial: usize,
    /// From when.
    pub date: Option<String>,
    /// The edge that was judged.
    pub edge: Edges,
    /// Today's setting that is worn alike, %.
    pub setting: f64,
    /// What was said.
    pub verdict: Verdict,
    /// How it was carried over.
    pub carried: Carried,
    /// The elastic and the cloth that it was sewn with, where they were not today's.
    pub sewn_with: SewnWith,
}

/// Names of an elastic and a cloth, as far as the block says them.
pub type SewnWith = Option<(Option<String>, Option<String>)>;

/// How a setting was carried over to today's garment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Carried {
    /// The same elastic and cloth.
    AsSewn,
    /// Another cloth under the same elastic.
    OtherCloth,
    /// Another elastic, by the same tension on the body.
    ByTension,
    /// Another elastic, by the same stretch on the body.
    ByStretch,
    /// Another elastic or cloth, and nothing to compare by: the reduction as it was.
    AsWritten,
}

impl Carried {
    /// How far such settings may be off, all together, percentage points.
    pub const fn doubt(self) -> f64 {
        match self {
            Self::AsSewn => 0.0,
            Self::OtherCloth | Self::ByTension => 1.5,
            Self::ByStretch | Self::AsWritten => 4.0,
        }
    }
}

/// Every verdict of the sheet on a spot; `walk` is its opening today.
pub fn judged(sheet: &Sheet, walk: &OpeningWalk, spot: Spot) -> Vec<Judged> {
    let one = |(i, trial): (usize, &Trial)| {
        let (setting, carried) = today(sheet, walk, trial)?;
        let (edge, verdict, date) = (trial.edge, trial.verdict, trial.date.clone());
        let sewn_with = (carried != Carried::AsSewn).then(|| (trial.elastic.clone(), trial.cloth.clone()));
        Some(Judged { trial: i + 1, date, edge, setting, verdict, carried, sewn_with })
    };
    sheet.trials.iter().enumerate().filter(|(_, trial)| concerns(trial, spot)).filter_map(one).collect()
}

/// The same for the model, those of one origin together.
pub fn told<'j>(judged: impl IntoIterator<Item = &'j Judged>) -> Vec<Told> {
    let mut groups: Vec<(&Judged, Told)> = Vec::new();
    for one in judged {
        let said = (one.setting, one.verdict);
        match groups.iter_mut().find(|(first, _)| first.shares_doubt_with(one)) {
            Some((_, told)) => told.verdicts.push(said),
            None => groups.push((one, Told { verdicts: vec![said], doubt: one.carried.doubt() })),
        }
    }
    groups.into_iter().map(|(_, told)| told).collect()
}

impl Judged {
    /// Are both off by the same, if they are off at all?
    pub(super) fn shares_doubt_with(&self, other: &Self) -> bool {
        (self.carried, &self.sewn_with) == (other.carried, &other.sewn_with)
    }
}

/// Does a trial say something of a spot? What one leg says holds for the other, but for an edge on
/// which nothing was sewn that has a length: its verdict is about the cut of the cloth.
pub(super) fn concerns(trial: &Trial, spot: Spot) -> bool {
    let is_set = trial.finish.is_none_or(|kind| kind.takes().length());
    is_set && trial.section == spot.section && (trial.edge == Edges::Top) == (spot.edge == Edges::Top)
}

/// Today's setting that is worn as the trial was, and how it was carried over.
fn today(sheet: &Sheet, walk: &OpeningWalk, trial: &Trial) -> Option<(f64, Carried)> {
    let elastic = walk.elastic.as_ref().map(|e| e.name.as_str());
    let differs = |then: &Option<String>, now: Option<&str>| then.as_deref().is_some_and(|then| now != Some(then));
    let had_none = trial.finish.is_some_and(|kind| !kind.takes().elastic());
    let other_elastic = differs(&trial.elastic, elastic) || (had_none && elastic.is_some());
    let other_cloth = differs(&trial.cloth, sheet.fabric.name.as_deref());
    let Some(stretch) = trial.worn_stretch.map(|s| s.percent()) else {
        let carried = if other_elastic || other_cloth { Carried::AsWritten } else { Carried::AsSewn };
        return Some((trial.reduction?.percent(), carried));
    };
    let at = |stretch| setting::at_stretch(stretch, walk.worn.cloth_stretch);
    Some(match (other_elastic, other_cloth) {
        (false, false) => (at(stretch), Carried::AsSewn),
        (false, true) => (at(stretch), Carried::OtherCloth),
        (true, _) => match alike_in_tension(sheet, trial.elastic.as_deref(), elastic, stretch) {
            Some(alike) => (at(alike), Carried::ByTension),
            None => (at(stretch), Carried::ByStretch),
        },
    })
}

/// The stretch at which one elastic pulls as another does at its own; none beyond a pull test.
fn alike_in_tension(sheet: &Sheet, then: Option<&str>, now: Option<&str>, stretch: f64) -> Option<f64> {
    let pull = |name: Option<&str>| Some(Pull::of(&sheet.elastics.get(name?)?.pull));
    let tension = pull(then)?.tension(stretch)?;
    let pull = pull(now)?;
    let (mut low, mut high) = pull.range()?;
    if pull.tension(high)? < tension {
        return None;
    }
    // Tension grows with stretch: halving the range ends at the only place. 60 halvings of 500 %
    // leave less than can be told apart.
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if pull.tension(middle)? < tension { low = middle } else { high = middle }
    }
    Some(high)
}
