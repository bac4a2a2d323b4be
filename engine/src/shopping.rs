//! What a pair takes of elastic, thread and needles, and what to buy for one pair or for many.
//!
//! What a pair takes is measured on it; what comes on top is common practice, and each part of the
//! sum is kept, so that it can be told and checked.

mod needs;
mod thread;

pub use needs::{ElasticNeed, Needs, ThreadNeed};
pub use thread::{Ratio, Sureness};

use crate::quantity::Units;
use crate::stitch::{Needle, Stitch};

/// What is bought beyond what is cut, for ends that are crooked and joins that are undone, as a share.
/// Common practice.
pub const ELASTIC_WASTE: f64 = 0.05;

/// Of every elastic of a pair, for a sample: sewn on a scrap it tells its growth, mm. Common practice.
pub const SAMPLE: f64 = 150.0;

/// What to buy.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shopping {
    /// By name and width.
    pub elastics: Vec<ElasticBuy>,
    /// By stitch.
    pub threads: Vec<ThreadBuy>,
    /// By point.
    pub needles: Vec<NeedleBuy>,
}

/// All of one elastic. Lengths are mm.
#[derive(Clone, Debug, PartialEq)]
pub struct ElasticBuy {
    /// What it is called.
    pub name: String,
    /// Its whole width.
    pub width: f64,
    /// So many pairs have it.
    pub pairs: usize,
    /// Cut lengths, added up.
    pub cut: f64,
    /// More than that to have in hand, where it is laid on flat and cut after sewing.
    pub in_hand: f64,
    /// For ends and joins.
    pub waste: f64,
    /// For samples.
    pub samples: f64,
    /// All of it, rounded up to what shops sell.
    pub length: f64,
    /// Of a metre; where shops sell in inches, of a yard. The dearest, where sheets differ.
    pub price: Option<f64>,
    /// Of that length.
    pub cost: Option<f64>,
}

/// All the thread of one stitch. Lengths are mm.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadBuy {
    /// Which stitch.
    pub stitch: Stitch,
    /// Sewn with it, added up.
    pub sewn: f64,
    /// What it takes, waste included.
    pub length: f64,
}

/// So many pairs are sewn with this needle.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NeedleBuy {
    /// Which.
    pub needle: Needle,
    /// How many pairs.
    pub pairs: usize,
}

impl Shopping {
    /// For all these pairs; shops sell by the unit that is spoken.
    pub fn of<'n>(pairs: impl IntoIterator<Item = &'n Needs>, units: Units) -> Self {
        let mut all = Self::default();
        for needs in pairs {
            needs.elastics.iter().for_each(|need| all.elastic(need));
            needs.threads.iter().for_each(|need| all.thread(need));
            needs.needle.into_iter().for_each(|needle| all.needle(needle));
        }
        all.elastics.sort_by(|a, b| a.name.cmp(&b.name).then(a.width.total_cmp(&b.width)));
        all.threads.sort_by_key(|thread| thread.stitch.code());
        for e in &mut all.elastics {
            e.waste = ELASTIC_WASTE * e.cut;
            e.samples = SAMPLE * e.pairs as f64;
            e.length = sold(e.cut + e.in_hand + e.waste + e.samples, units);
            e.cost = e.price.map(|price| cost(e.length, price, units));
        }
        for t in &mut all.threads {
            t.length = t.stitch.thread().length(t.sewn);
        }
        all
    }

    fn elastic(&mut self, need: &ElasticNeed) {
        // Widths are exact: they were written, not computed.
        let same = |e: &&mut ElasticBuy| e.name == need.name && (e.width - need.width).abs() < 1e-6;
        match self.elastics.iter_mut().find(same) {
            Some(e) => {
                e.pairs += 1;
                e.cut += need.cut;
                e.in_hand += need.in_hand;
                e.price = e.price.into_iter().chain(need.price).reduce(f64::max);
            }
            None => self.elastics.push(ElasticBuy {
                name: need.name.clone(),
                width: need.width,
                pairs: 1,
                cut: need.cut,
                in_hand: need.in_hand,
                waste: 0.0,
                samples: 0.0,
                length: 0.0,
                price: need.price,
                cost: None,
            }),
        }
    }

    fn thread(&mut self, need: &ThreadNeed) {
        match self.threads.iter_mut().find(|t| t.stitch == need.stitch) {
            Some(t) => t.sewn += need.sewn,
            None => self.threads.push(ThreadBuy { stitch: need.stitch, sewn: need.sewn, length: 0.0 }),
        }
    }

    fn needle(&mut self, needle: Needle) {
        match self.needles.iter_mut().find(|n| n.needle == needle) {
            Some(n) => n.pairs += 1,
            None => self.needles.push(NeedleBuy { needle, pairs: 1 }),
        }
    }
}

/// Up to what shops sell by length, mm: a tenth of a metre, or an eighth of a yard. Common practice.
pub fn sold(mm: f64, units: Units) -> f64 {
    let step = match units {
        Units::In => 36.0 * 25.4 / 8.0,
        Units::Cm | Units::Mm => 100.0,
    };
    // A hair over a whole step is a rounding.
    (mm / step - 1e-9).ceil().max(0.0) * step
}

/// What a length costs at a price for a metre, or for a yard where shops sell in inches; to a hundredth.
pub fn cost(mm: f64, price: f64, units: Units) -> f64 {
    let sold_by = match units {
        Units::In => 36.0 * 25.4,
        Units::Cm | Units::Mm => 1000.0,
    };
    (mm / sold_by * price * 100.0).round() / 100.0
}

#[cfg(test)]
mod tests;
