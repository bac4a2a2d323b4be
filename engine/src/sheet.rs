//! The measurement sheet as typed quantities: what a person wrote, nothing filled in.
//!
//! Reading a file into these types is the border's work (the command line); a value that is
//! `None` was not written. [`crate::plan`] fills in defaults and estimates and lists each one.

mod build;
#[cfg(test)]
mod tests;

use crate::base::Base;
use crate::finish::FinishKind;
use crate::quantity::{Length, Ratio, Units};
pub use crate::terms::{
    ClothKind, Lining, Marks, Opening, PerOpening, PutOn, Reach, SeamKind, Section, Spread, Verdict, WaistLevel,
};
use std::collections::BTreeMap;

/// A whole sheet.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Written on every piece.
    pub name: String,
    /// The unit the person writes and reads in.
    pub units: Units,
    /// ISO 8601 date, only ever repeated.
    pub date: Option<String>,
    /// The body.
    pub body: Body,
    /// The cloth.
    pub fabric: Fabric,
    /// The shape.
    pub style: Style,
    /// The gusset.
    pub gusset: Gusset,
    /// The seams.
    pub seams: Seams,
    /// How each opening is finished.
    pub finish: PerOpening<FinishSpec>,
    /// The same sheet with something changed.
    pub variants: Vec<Variant>,
    /// Elastics by name.
    pub elastics: BTreeMap<String, Elastic>,
    /// Paper.
    pub print: Print,
    /// Test garments so far.
    pub trials: Vec<Trial>,
}

/// The same sheet with something changed: every section that can differ, whole, the changes laid
/// over the sheet's own values.
#[derive(Clone, Debug)]
pub struct Variant {
    /// What the person calls it; unique in a sheet.
    pub name: String,
    /// The body.
    pub body: Body,
    /// The cloth.
    pub fabric: Fabric,
    /// The shape.
    pub style: Style,
    /// The gusset.
    pub gusset: Gusset,
    /// How each opening is finished.
    pub finish: PerOpening<FinishSpec>,
}

impl Sheet {
    /// The sheet of one of its variants: a garment of its own, called by both names.
    pub fn taking(&self, variant: &Variant) -> Self {
        Self {
            name: format!("{} – {}", self.name, variant.name),
            units: self.units,
            date: self.date.clone(),
            body: variant.body.clone(),
            fabric: variant.fabric.clone(),
            style: variant.style.clone(),
            gusset: variant.gusset.clone(),
            seams: self.seams.clone(),
            finish: variant.finish.clone(),
            variants: Vec::new(),
            elastics: self.elastics.clone(),
            print: self.print.clone(),
            trials: self.trials.clone(),
        }
    }

    /// A variant of this name that changes nothing yet.
    pub fn variant(&self, name: &str) -> Variant {
        Variant {
            name: name.to_owned(),
            body: self.body.clone(),
            fabric: self.fabric.clone(),
            style: self.style.clone(),
            gusset: self.gusset.clone(),
            finish: self.finish.clone(),
        }
    }
}

/// Body measurements. Girths are full girths.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct Body {
    pub waist_girth: Length,
    pub waist_level: Option<WaistLevel>,
    pub hip_girth: Length,
    /// Down the side, from waist level to hip level.
    pub waist_to_hip: Length,
    /// Waist level front, between the legs, waist level back.
    pub crotch_length: Length,
    pub crotch_length_front: Option<Length>,
    pub thigh_girth: Option<Length>,
    /// Side to side at the waist level, between two rulers.
    pub waist_breadth: Option<Length>,
    /// Front to back at the waist level, between two rulers.
    pub waist_depth: Option<Length>,
    /// Side to side at the hip level, between two rulers.
    pub hip_breadth: Option<Length>,
    /// Front to back at the hip level, between two rulers.
    pub hip_depth: Option<Length>,
    /// Round the body where the top edge will sit.
    pub top_edge_girth: Option<Length>,
    /// Round the leg where the leg edge will sit.
    pub leg_line_girth: Option<Length>,
    /// The joined length of the top elastic that feels right on the body.
    pub elastic_top: Option<Length>,
    /// Said of a child's sheet, so that the cautions for children apply.
    pub child: Option<bool>,
}

/// The cloth.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct Fabric {
    pub name: Option<String>,
    pub kind: Option<ClothKind>,
    pub stretch_across: Ratio,
    pub stretch_along: Ratio,
    pub width: Option<Length>,
    pub ease_across: Option<Ratio>,
    pub ease_along: Option<Ratio>,
    /// Shrinkage still to come.
    pub shrink_across: Option<Ratio>,
    pub shrink_along: Option<Ratio>,
}

/// The shape: a base and the knobs set over it.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct Style {
    pub base: Base,
    pub top_drop_front: Option<Length>,
    pub top_drop_side: Option<Length>,
    pub top_drop_back: Option<Length>,
    pub side_seam: Option<Length>,
    pub front_scoop: Option<f64>,
    pub back_cover: Option<f64>,
    pub back_share: Option<f64>,
    pub leg_edge: Option<Length>,
}

/// The gusset.
#[derive(Clone, Debug, Default)]
#[allow(missing_docs)]
pub struct Gusset {
    pub length: Option<Length>,
    /// The narrowest width, finished edge to finished edge.
    pub width: Option<Length>,
    pub front_width: Option<Length>,
    pub back_width: Option<Length>,
    /// Share of its length in front of the lowest point.
    pub forward: Option<f64>,
    /// 1 or 2.
    pub layers: Option<u8>,
    pub lining: Option<Lining>,
}

/// Seams and their allowances.
#[derive(Clone, Debug, Default)]
#[allow(missing_docs)]
pub struct Seams {
    pub kind: Option<SeamKind>,
    pub side: Option<Length>,
    pub gusset: Option<Length>,
}

/// What the length of an elastic is taken from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Basis {
    /// So much shorter than its line on the edge.
    Reduction(Ratio),
    /// This finished length.
    Length(Length),
    /// The length that feels right on the body (`elastic_top`).
    Body,
}

/// How one opening is finished, as written.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct FinishSpec {
    pub kind: FinishKind,
    /// The name of an elastic of the sheet.
    pub elastic: Option<String>,
    pub basis: Option<Basis>,
    pub put_on: Option<PutOn>,
    pub marks: Option<Marks>,
    pub spread: Option<Spread>,
    /// A reduction of its own for a section.
    pub sections: BTreeMap<Section, Ratio>,
    pub bite: Option<Length>,
    pub reach: Option<Reach>,
    pub lap: Option<Length>,
    pub room: Option<Length>,
    pub catch: Option<Length>,
    pub turn: Option<Length>,
    pub depth: Option<Length>,
    /// Of a band.
    pub width: Option<Length>,
    pub overlap: Option<Length>,
}

/// One elastic.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub struct Elastic {
    pub width: Length,
    /// The decorative part of the width.
    pub picot: Length,
    /// How far it can be stretched.
    pub stretch: Option<Ratio>,
    /// How much longer it comes out after sewing.
    pub growth: Option<Ratio>,
    pub latex: Option<bool>,
    /// Stretch and grams-force on one flat strip, in rising order.
    pub pull: Vec<(Ratio, f64)>,
}

/// A paper format.
#[derive(Clone, Copy, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum Paper {
    A4,
    Letter,
    A3,
    Legal,
    Tabloid,
    A0,
    /// A roll of this width, as long as it needs.
    Roll(Length),
}

impl Paper {
    /// Every named format, with the word a sheet uses.
    pub const NAMED: [(&'static str, Self); 6] = [
        ("A4", Self::A4),
        ("Letter", Self::Letter),
        ("A3", Self::A3),
        ("Legal", Self::Legal),
        ("Tabloid", Self::Tabloid),
        ("A0", Self::A0),
    ];

    /// Width and height upright, in millimetres (ISO 216; North American sizes are inch sizes).
    /// A roll has no height of its own.
    pub fn size_mm(self) -> (f64, Option<f64>) {
        match self {
            Self::A4 => (210.0, Some(297.0)),
            Self::Letter => (215.9, Some(279.4)),
            Self::A3 => (297.0, Some(420.0)),
            Self::Legal => (215.9, Some(355.6)),
            Self::Tabloid => (279.4, Some(431.8)),
            Self::A0 => (841.0, Some(1189.0)),
            Self::Roll(width) => (width.mm(), None),
        }
    }
}

/// Printing at home.
#[derive(Clone, Debug, Default)]
#[allow(missing_docs)]
pub struct Print {
    pub paper: Option<Paper>,
    pub margin: Option<Length>,
    pub overlap: Option<Length>,
}

/// One test garment and what it taught.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct Trial {
    pub date: Option<String>,
    pub edge: Opening,
    pub reduction: Option<Ratio>,
    pub verdict: Verdict,
    pub note: Option<String>,
}
