//! What one pair takes.

use crate::garment::Garment;
use crate::stitch::{Needle, Stitch};

/// What one pair takes.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Needs {
    /// Each of its elastics.
    pub elastics: Vec<ElasticNeed>,
    /// What is sewn by machine, by stitch.
    pub threads: Vec<ThreadNeed>,
    /// The needle it is sewn with.
    pub needle: Option<Needle>,
}

/// Of one elastic, over all openings. Lengths are mm.
#[derive(Clone, Debug, PartialEq)]
pub struct ElasticNeed {
    /// Its name in the sheet.
    pub name: String,
    /// Its whole width.
    pub width: f64,
    /// Cut lengths, added up.
    pub cut: f64,
    /// More than that to have in hand, where it is laid on flat and cut after sewing.
    pub in_hand: f64,
    /// Of a metre; where shops sell in inches, of a yard.
    pub price: Option<f64>,
}

impl ElasticNeed {
    /// All that is to be there when it is sewn.
    pub fn to_have(&self) -> f64 {
        self.cut + self.in_hand
    }
}

/// What is sewn with one stitch, mm.
#[derive(Clone, Debug, PartialEq)]
pub struct ThreadNeed {
    /// Which stitch.
    pub stitch: Stitch,
    /// Lengths of the steps, added up.
    pub sewn: f64,
}

impl Needs {
    /// Of the garment itself; its variants are other pairs.
    pub fn of(garment: &Garment) -> Self {
        let mut needs = Self::default();
        for elastic in garment.openings.iter().filter_map(|o| o.elastic.as_ref()) {
            let in_hand = elastic.in_hand.map_or(0.0, |mm| mm - elastic.cut_length);
            match needs.elastics.iter_mut().find(|e| e.name == elastic.name) {
                Some(e) => {
                    e.cut += elastic.cut_length;
                    e.in_hand += in_hand;
                }
                None => needs.elastics.push(ElasticNeed {
                    name: elastic.name.clone(),
                    width: elastic.width,
                    cut: elastic.cut_length,
                    in_hand,
                    price: elastic.price,
                }),
            }
        }
        for step in &garment.order_of_work {
            let (Some(sewing), Some(length)) = (step.sewing, step.length) else { continue };
            match needs.threads.iter_mut().find(|t| t.stitch == sewing.stitch) {
                Some(t) => t.sewn += length,
                None => needs.threads.push(ThreadNeed { stitch: sewing.stitch, sewn: length }),
            }
        }
        needs.needle = garment.order_of_work.iter().find_map(|step| step.needle);
        needs
    }
}
