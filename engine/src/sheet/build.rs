//! Sheets made in code: what has to be said, and nothing else.

use super::{Body, Fabric, FinishSpec, Sheet, Style};
use crate::base::Base;
use crate::finish::FinishKind;
use crate::quantity::{Length, Ratio, Units};
use crate::terms::PerOpening;
use std::collections::BTreeMap;

impl Sheet {
    /// A sheet in centimetres: this body, cloth, shape and finish, and all else by default.
    pub fn new(name: &str, body: Body, fabric: Fabric, style: Style, finish: PerOpening<FinishSpec>) -> Self {
        Self {
            name: name.to_owned(),
            units: Units::Cm,
            date: None,
            body,
            estimated: Vec::new(),
            fabric,
            style,
            gusset: super::Gusset::default(),
            seams: super::Seams::default(),
            finish,
            variants: Vec::new(),
            elastics: BTreeMap::new(),
            print: super::Print::default(),
            trials: Vec::new(),
        }
    }
}

impl Body {
    /// The four measurements that are needed: waist girth, hip girth, waist to hip, crotch length.
    pub const fn new(waist_girth: Length, hip_girth: Length, waist_to_hip: Length, crotch_length: Length) -> Self {
        Self {
            waist_girth,
            waist_level: None,
            hip_girth,
            waist_to_hip,
            crotch_length,
            crotch_length_front: None,
            thigh_girth: None,
            waist_breadth: None,
            waist_depth: None,
            hip_breadth: None,
            hip_depth: None,
            top_edge_girth: None,
            leg_line_girth: None,
            elastic_top: None,
            child: None,
        }
    }
}

impl Fabric {
    /// A cloth with its two stretches by the fold test, percent.
    pub const fn new(stretch_across: f64, stretch_along: f64) -> Self {
        Self {
            name: None,
            kind: None,
            stretch_across: Ratio::from_percent(stretch_across),
            stretch_along: Ratio::from_percent(stretch_along),
            width: None,
            price: None,
            nap: None,
            ease_across: None,
            ease_along: None,
            shrink_across: None,
            shrink_along: None,
        }
    }
}

impl Style {
    /// A base as it is.
    pub const fn new(base: Base) -> Self {
        Self {
            base,
            top_drop_front: None,
            top_drop_side: None,
            top_drop_back: None,
            side_seam: None,
            front_scoop: None,
            back_cover: None,
            back_share: None,
            leg_edge: None,
        }
    }
}

impl FinishSpec {
    /// A finish with all its settings by default.
    pub const fn new(kind: FinishKind) -> Self {
        Self {
            kind,
            elastic: None,
            basis: None,
            put_on: None,
            marks: None,
            spread: None,
            sections: BTreeMap::new(),
            bite: None,
            reach: None,
            lap: None,
            room: None,
            catch: None,
            turn: None,
            depth: None,
            width: None,
            overlap: None,
        }
    }

    /// The same finish on all three openings.
    pub fn everywhere(self) -> PerOpening<Self> {
        PerOpening { top: self.clone(), left_leg: self.clone(), right_leg: self }
    }
}
