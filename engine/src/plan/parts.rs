//! The parts of a plan: body, cloth, shape, gusset and seams, complete.

use crate::garment::Source;
use crate::terms::{ClothKind, Lining, SeamKind, WaistLevel};

/// The body, mm.
#[derive(Clone, Debug)]
pub struct BodyPlan {
    /// Round the body at the waist level.
    pub waist: f64,
    /// Where that level is.
    pub level: WaistLevel,
    /// Round the body at the hip level.
    pub hip: f64,
    /// Down the side, from waist level to hip level.
    pub waist_to_hip: f64,
    /// Waist level front, between the legs, waist level back.
    pub crotch: f64,
    /// The front part of that.
    pub crotch_front: f64,
    /// Was the front part measured?
    pub front_source: Source,
    /// Round the thigh.
    pub thigh: f64,
    /// Side to side at the waist level.
    pub waist_breadth: f64,
    /// Front to back at the waist level.
    pub waist_depth: f64,
    /// Side to side at the hip level.
    pub hip_breadth: f64,
    /// Front to back at the hip level.
    pub hip_depth: f64,
    /// Round the body where the top edge will sit, where measured.
    pub top_edge: Option<f64>,
    /// Round the leg where the leg edge will sit, where measured.
    pub leg_line: Option<f64>,
    /// The joined length of the top elastic that feels right, where known.
    pub elastic_top: Option<f64>,
    /// Is it a child's?
    pub child: bool,
}

/// The cloth; ratios as fractions.
#[derive(Clone, Debug)]
pub struct ClothPlan {
    /// What it is called on pieces and in lists.
    pub name: String,
    /// Knit or woven.
    pub kind: ClothKind,
    /// How far it can be stretched, across.
    pub stretch_across: f64,
    /// How far it can be stretched, along.
    pub stretch_along: f64,
    /// How much larger (+) or smaller (−) than the body it is, across.
    pub ease_across: f64,
    /// The same, along.
    pub ease_along: f64,
    /// Shrinkage still to come, across.
    pub shrink_across: f64,
    /// Shrinkage still to come, along.
    pub shrink_along: f64,
}

/// The shape, mm and shares.
#[derive(Clone, Debug)]
pub struct Knobs {
    /// Depth of the top edge under the waist level, at the centre front.
    pub drop_front: f64,
    /// Depth of the top edge under the waist level, at the sides.
    pub drop_side: f64,
    /// Depth of the top edge under the waist level, at the centre back.
    pub drop_back: f64,
    /// Length of the finished side seam.
    pub side_seam: f64,
    /// Front leg edge: 0 straight, 1 deeply cut away.
    pub scoop: f64,
    /// Back: 0 bare, 1 full.
    pub cover: f64,
    /// Share of the hip girth that the back takes.
    pub back_share: f64,
    /// Wanted length of a finished leg edge.
    pub leg_edge: Option<f64>,
    /// Which of side seam, scoop and cover the sheet leaves free.
    pub free: Free,
}

impl Knobs {
    /// The depth at which the girth of the top edge is read, mm: the mean all round.
    pub(crate) fn top_level(&self) -> f64 {
        (self.drop_front + 2.0 * self.drop_side + self.drop_back) / 4.0
    }
}

/// The knobs a wanted leg edge may move: those that the sheet does not set.
#[derive(Clone, Copy, Debug)]
pub struct Free {
    /// Its length.
    pub side_seam: bool,
    /// Of the front leg edge.
    pub scoop: bool,
    /// Of the back.
    pub cover: bool,
}

/// The gusset, mm.
#[derive(Clone, Debug)]
pub struct GussetPlan {
    /// From the front seam to the back seam.
    pub length: f64,
    /// Where it is narrowest.
    pub width: f64,
    /// At the front seam.
    pub front_width: f64,
    /// At the back seam.
    pub back_width: f64,
    /// Share of its length in front of the lowest point.
    pub forward: f64,
    /// 1 or 2.
    pub layers: u8,
    /// How a second layer is sewn in.
    pub lining: Lining,
}

/// The seams, mm.
#[derive(Clone, Debug)]
pub struct SeamPlan {
    /// How side and gusset seams are sewn.
    pub kind: SeamKind,
    /// Allowance of the side seams.
    pub side: f64,
    /// Allowance of the gusset seams.
    pub gusset: f64,
}
