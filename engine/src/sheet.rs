//! The measurement sheet as typed quantities: what a person wrote, nothing filled in.
//!
//! Reading a file into these types is the border's work (the command line); a value that is
//! `None` was not written. [`crate::plan`] fills in defaults and estimates and lists each one.

mod build;
#[cfg(test)]
mod tests;

use crate::base::Base;
use crate::finish::FinishKind;
use crate::keys::{Edges, Key};
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
    /// Measures in it that nobody took: estimated from the others.
    pub estimated: Vec<Key>,
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
            estimated: self.estimated.clone(),
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
pub struct Body {
    /// Round the body at the waist level.
    pub waist_girth: Length,
    /// The level that the waist was measured at.
    pub waist_level: Option<WaistLevel>,
    /// Round the body at the hip level.
    pub hip_girth: Length,
    /// Down the side, from waist level to hip level.
    pub waist_to_hip: Length,
    /// Waist level front, between the legs, waist level back.
    pub crotch_length: Length,
    /// The part of the crotch length in front of the lowest point.
    pub crotch_length_front: Option<Length>,
    /// Round the thigh.
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
pub struct Fabric {
    /// What it is called on pieces and in lists.
    pub name: Option<String>,
    /// Knit or woven.
    pub kind: Option<ClothKind>,
    /// How far it can be stretched, across.
    pub stretch_across: Ratio,
    /// How far it can be stretched, along.
    pub stretch_along: Ratio,
    /// Usable width, selvedge to selvedge.
    pub width: Option<Length>,
    /// What a metre of it costs; on a sheet in inches, a yard.
    pub price: Option<f64>,
    /// Whether it has a nap or a print with an upper end.
    pub nap: Option<bool>,
    /// How much larger (+) or smaller (−) than the body it is, across.
    pub ease_across: Option<Ratio>,
    /// The same, along.
    pub ease_along: Option<Ratio>,
    /// Shrinkage still to come.
    pub shrink_across: Option<Ratio>,
    /// Shrinkage still to come, along.
    pub shrink_along: Option<Ratio>,
}

/// The shape: a base and the knobs set over it.
#[derive(Clone, Debug)]
pub struct Style {
    /// What the rest is set over.
    pub base: Base,
    /// Depth of the top edge under the waist level, at the centre front.
    pub top_drop_front: Option<Length>,
    /// Depth of the top edge under the waist level, at the sides.
    pub top_drop_side: Option<Length>,
    /// Depth of the top edge under the waist level, at the centre back.
    pub top_drop_back: Option<Length>,
    /// Length of the finished side seam.
    pub side_seam: Option<Length>,
    /// Front leg edge: 0 straight, 1 deeply cut away.
    pub front_scoop: Option<f64>,
    /// Back: 0 bare, 1 full.
    pub back_cover: Option<f64>,
    /// Share of the hip girth that the back takes.
    pub back_share: Option<f64>,
    /// Wanted length of a finished leg edge.
    pub leg_edge: Option<Length>,
}

/// The gusset.
#[derive(Clone, Debug, Default)]
pub struct Gusset {
    /// From the front seam to the back seam.
    pub length: Option<Length>,
    /// The narrowest width, finished edge to finished edge.
    pub width: Option<Length>,
    /// At the front seam.
    pub front_width: Option<Length>,
    /// At the back seam.
    pub back_width: Option<Length>,
    /// Share of its length in front of the lowest point.
    pub forward: Option<f64>,
    /// 1 or 2.
    pub layers: Option<u8>,
    /// How a second layer is sewn in.
    pub lining: Option<Lining>,
}

/// Seams and their allowances.
#[derive(Clone, Debug, Default)]
pub struct Seams {
    /// How side and gusset seams are sewn.
    pub kind: Option<SeamKind>,
    /// Allowance of the side seams.
    pub side: Option<Length>,
    /// Allowance of the gusset seams.
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
pub struct FinishSpec {
    /// Which finish.
    pub kind: FinishKind,
    /// The name of an elastic of the sheet.
    pub elastic: Option<String>,
    /// What the length of the elastic or band is taken from.
    pub basis: Option<Basis>,
    /// Before the last seam of the edge is closed, or after.
    pub put_on: Option<PutOn>,
    /// How many matching marks.
    pub marks: Option<Marks>,
    /// How the stretch is spread.
    pub spread: Option<Spread>,
    /// A reduction of its own for a section.
    pub sections: BTreeMap<Section, Ratio>,
    /// From the raw edge to the inner swing of the zigzag.
    pub bite: Option<Length>,
    /// Whether an edging that stands out adds to the finished width.
    pub reach: Option<Reach>,
    /// How far a lapped elastic lies on the cloth.
    pub lap: Option<Length>,
    /// Room for the elastic to move in a tunnel.
    pub room: Option<Length>,
    /// Cloth beyond the stitches that hold a tunnel.
    pub catch: Option<Length>,
    /// Turned under at the raw edge of a tunnel.
    pub turn: Option<Length>,
    /// How deep a hem is folded in.
    pub depth: Option<Length>,
    /// Of a band.
    pub width: Option<Length>,
    /// How far the ends of a ring of elastic lie over each other.
    pub overlap: Option<Length>,
}

/// One elastic.
#[derive(Clone, Debug, PartialEq)]
pub struct Elastic {
    /// All of it.
    pub width: Length,
    /// The decorative part of the width.
    pub picot: Length,
    /// How far it can be stretched.
    pub stretch: Option<Ratio>,
    /// How much longer it comes out after sewing.
    pub growth: Option<Ratio>,
    /// Whether it holds latex.
    pub latex: Option<bool>,
    /// What a metre of it costs; on a sheet in inches, a yard.
    pub price: Option<f64>,
    /// Stretch and grams-force on one flat strip, in rising order.
    pub pull: Vec<(Ratio, f64)>,
}

/// A paper format.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Paper {
    /// ISO 216.
    A4,
    /// 8.5 × 11 in.
    Letter,
    /// ISO 216.
    A3,
    /// 8.5 × 14 in.
    Legal,
    /// 11 × 17 in.
    Tabloid,
    /// ISO 216.
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
pub struct Print {
    /// The format of a page.
    pub paper: Option<Paper>,
    /// What the printer leaves white all round.
    pub margin: Option<Length>,
    /// How far two pages lie over each other.
    pub overlap: Option<Length>,
}

/// What one test garment taught of one edge, and what that edge was.
#[derive(Clone, Debug)]
pub struct Trial {
    /// When, as written.
    pub date: Option<String>,
    /// The edge, or both legs, that it is about.
    pub edge: Edges,
    /// The only part of the edge that was judged.
    pub section: Option<Section>,
    /// How it was finished.
    pub finish: Option<FinishKind>,
    /// The name of its elastic.
    pub elastic: Option<String>,
    /// The reduction that was sewn, of all that was judged.
    pub reduction: Option<Ratio>,
    /// The finished length of the elastic or band.
    pub length: Option<Length>,
    /// Each section's own reduction, where they differed.
    pub sections: BTreeMap<Section, Ratio>,
    /// How far it was stretched on the body.
    pub worn_stretch: Option<Ratio>,
    /// The name of the cloth.
    pub cloth: Option<String>,
    /// How the edge felt.
    pub verdict: Verdict,
    /// Whatever else is worth keeping.
    pub note: Option<String>,
}
