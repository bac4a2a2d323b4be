//! The girth of the body at a depth under the waist level.

use crate::plan::parts::{BodyPlan, ClothPlan};
use crate::terms::{ClothKind, WaistLevel};

/// Girths of a body by depth, mm.
#[derive(Clone, Debug)]
pub(crate) struct Girths {
    waist: f64,
    hip: f64,
    waist_to_hip: f64,
    widening: f64,
    top_edge: Option<f64>,
}

impl Girths {
    /// Widening evenly from waist to hip, as no body does but a cone.
    #[cfg(test)]
    pub(super) fn evenly(b: &BodyPlan) -> Self {
        Self { widening: 0.0, ..Self::of(b) }
    }

    pub(crate) fn of(b: &BodyPlan) -> Self {
        // Real waists widen fast below the natural waist, less so below the navel.
        let widening = match b.level {
            WaistLevel::Natural => 1.0,
            WaistLevel::Midway => 0.6,
            WaistLevel::Navel => 0.2,
        };
        Self { waist: b.waist, hip: b.hip, waist_to_hip: b.waist_to_hip, widening, top_edge: b.top_edge }
    }

    /// W + (H − W)·t·(1 + c(1 − t)) at t of the way from waist level to hip level; the hip girth
    /// beyond. Above the waist level the waist girth stands.
    pub(crate) fn at(&self, depth: f64) -> f64 {
        let t = (depth / self.waist_to_hip).clamp(0.0, 1.0);
        self.waist + (self.hip - self.waist) * t * (1.0 + self.widening * (1.0 - t))
    }

    /// Round the body where the top edge sits, as measured, else at a depth.
    pub(crate) fn top(&self, depth: f64) -> f64 {
        self.top_edge.unwrap_or_else(|| self.at(depth))
    }

    /// The whole ring of the top edge on washed cloth. A woven top has to pass over the hip.
    pub(crate) fn top_ring(&self, depth: f64, cloth: &ClothPlan) -> f64 {
        let ring = self.top(depth) * (1.0 + cloth.ease_across);
        match cloth.kind {
            ClothKind::Knit => ring,
            ClothKind::Woven => ring.max(self.hip),
        }
    }
}
