//! From what was written to what is used: defaults and estimates filled in, each one listed.

mod finish;
mod ledger;

pub use finish::{ElasticPlan, FinishPlan, LengthPlan, section_name};

use crate::body as form;
use crate::finding::Finding;
use crate::finish::Takes;
use crate::garment::{Source, Used};
use crate::keys::{body, fabric, gusset, seams, style};
use crate::population::{FRONT_SHARE, above_navel, thigh_girth};
use crate::sheet::{Body, Sheet};
use crate::terms::{ClothKind, Lining, PerOpening, SeamKind, WaistLevel};
use ledger::Ledger;

/// Everything the draft and the finishes need, complete, in millimetres and fractions.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct Plan {
    pub body: BodyPlan,
    pub cloth: ClothPlan,
    pub knobs: Knobs,
    pub gusset: GussetPlan,
    pub seams: SeamPlan,
    pub finish: PerOpening<FinishPlan>,
    /// Every value in use and where it came from.
    pub used: Vec<Used>,
}

/// The body, mm.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct BodyPlan {
    pub waist: f64,
    pub level: WaistLevel,
    pub hip: f64,
    pub waist_to_hip: f64,
    pub crotch: f64,
    pub crotch_front: f64,
    /// Was the front part measured?
    pub front_source: Source,
    pub thigh: f64,
    pub waist_breadth: f64,
    pub waist_depth: f64,
    pub hip_breadth: f64,
    pub hip_depth: f64,
    pub top_edge: Option<f64>,
    pub leg_line: Option<f64>,
    pub elastic_top: Option<f64>,
    pub child: bool,
}

/// The cloth; ratios as fractions.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct ClothPlan {
    pub name: String,
    pub kind: ClothKind,
    pub stretch_across: f64,
    pub stretch_along: f64,
    pub ease_across: f64,
    pub ease_along: f64,
    pub shrink_across: f64,
    pub shrink_along: f64,
}

/// The shape, mm and shares.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct Knobs {
    pub drop_front: f64,
    pub drop_side: f64,
    pub drop_back: f64,
    pub side_seam: f64,
    pub scoop: f64,
    pub cover: f64,
    pub back_share: f64,
    pub leg_edge: Option<f64>,
    /// Which of side seam, scoop and cover the sheet leaves free.
    pub free: Free,
}

/// The knobs a wanted leg edge may move: those that the sheet does not set.
#[derive(Clone, Copy, Debug)]
#[allow(missing_docs)]
pub struct Free {
    pub side_seam: bool,
    pub scoop: bool,
    pub cover: bool,
}

/// The gusset, mm.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct GussetPlan {
    pub length: f64,
    pub width: f64,
    pub front_width: f64,
    pub back_width: f64,
    pub forward: f64,
    pub layers: u8,
    pub lining: Lining,
}

/// The seams, mm.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct SeamPlan {
    pub kind: SeamKind,
    pub side: f64,
    pub gusset: f64,
}

impl Plan {
    /// Are both legs cut and marked alike, so that pieces are symmetric?
    pub fn legs_alike(&self) -> bool {
        let (left, right) = (&self.finish.left_leg, &self.finish.right_leg);
        left.lines == right.lines
            && left.marks == right.marks
            && left.spread == right.spread
            && left.gap == right.gap
            && left.length.is_some() == right.length.is_some()
            && (left.kind.takes() != Takes::Strip || (left.length == right.length && left.put_on == right.put_on))
    }

    /// Fills in a sheet.
    ///
    /// # Errors
    /// Every reason why the sheet cannot be filled in.
    pub fn of(sheet: &Sheet) -> Result<Self, Vec<Finding>> {
        let mut ledger = Ledger::default();
        let cloth = cloth(sheet, &mut ledger);
        let gusset_length = gusset_length(sheet, &mut ledger);
        let body = body(&sheet.body, &mut ledger);
        let gusset = gusset(sheet, gusset_length, &body, &mut ledger);
        let knobs = knobs(sheet, &body, &gusset, &mut ledger);
        let seams = seams(sheet, cloth.kind, &mut ledger);
        let finish = PerOpening::try_from_fn(|opening| finish::plan(sheet, opening, (&cloth, &seams), &mut ledger))
            .map_err(|f| vec![f])?;
        let Ledger { used } = ledger;
        Ok(Self { body, cloth, knobs, gusset, seams, finish, used })
    }
}

fn body(b: &Body, ledger: &mut Ledger) -> BodyPlan {
    let level = ledger.word(body::WAIST_LEVEL, &WaistLevel::ALL, b.waist_level, WaistLevel::Natural);
    let waist = ledger.given_mm(body::WAIST_GIRTH, b.waist_girth);
    let hip = ledger.given_mm(body::HIP_GIRTH, b.hip_girth);
    let waist_to_hip = ledger.given_mm(body::WAIST_TO_HIP, b.waist_to_hip);
    let crotch = ledger.given_mm(body::CROTCH_LENGTH, b.crotch_length);
    let crotch_front = ledger.mm(body::CROTCH_LENGTH_FRONT, b.crotch_length_front, crotch * FRONT_SHARE);
    let thigh = ledger.mm(body::THIGH_GIRTH, b.thigh_girth, thigh_girth(hip).mean);
    let waist_breadth = ledger.mm(body::WAIST_BREADTH, b.waist_breadth, form::waist_breadth(waist, hip));
    let waist_depth = ledger.mm(body::WAIST_DEPTH, b.waist_depth, form::waist_depth(waist, hip));
    let hip_breadth = ledger.mm(body::HIP_BREADTH, b.hip_breadth, form::hip_breadth(waist, hip));
    let hip_depth = ledger.mm(body::HIP_DEPTH, b.hip_depth, form::hip_depth(waist, hip));
    BodyPlan {
        waist,
        level,
        hip,
        waist_to_hip,
        crotch,
        crotch_front,
        front_source: if b.crotch_length_front.is_some() { Source::Given } else { Source::Estimated },
        thigh,
        waist_breadth,
        waist_depth,
        hip_breadth,
        hip_depth,
        top_edge: ledger.optional_mm(body::TOP_EDGE_GIRTH, b.top_edge_girth),
        leg_line: ledger.optional_mm(body::LEG_LINE_GIRTH, b.leg_line_girth),
        elastic_top: ledger.optional_mm(body::ELASTIC_TOP, b.elastic_top),
        child: b.child.unwrap_or(false),
    }
}

fn cloth(sheet: &Sheet, ledger: &mut Ledger) -> ClothPlan {
    let f = &sheet.fabric;
    let kind = ledger.word(fabric::KIND, &ClothKind::ALL, f.kind, ClothKind::Knit);
    let across = ledger.given_percent(fabric::STRETCH_ACROSS, f.stretch_across);
    let along = ledger.given_percent(fabric::STRETCH_ALONG, f.stretch_along);
    ClothPlan {
        name: f.name.clone().unwrap_or_else(|| "cloth".to_owned()),
        kind,
        stretch_across: across,
        stretch_along: along,
        ease_across: ledger.percent(fabric::EASE_ACROSS, f.ease_across, default_ease(kind, across * 100.0)),
        ease_along: ledger.percent(fabric::EASE_ALONG, f.ease_along, 0.0),
        shrink_across: ledger.percent(fabric::SHRINK_ACROSS, f.shrink_across, 0.0),
        shrink_along: ledger.percent(fabric::SHRINK_ALONG, f.shrink_along, 0.0),
    }
}

/// Ease across in percent, by kind and stretch. Common practice.
fn default_ease(kind: ClothKind, stretch: f64) -> f64 {
    match kind {
        ClothKind::Woven => 4.0,
        ClothKind::Knit if stretch < 25.0 => 0.0,
        ClothKind::Knit if stretch < 50.0 => -4.0,
        ClothKind::Knit if stretch <= 75.0 => -8.0,
        ClothKind::Knit => -10.0,
    }
}

fn gusset_length(sheet: &Sheet, ledger: &mut Ledger) -> f64 {
    let crotch = sheet.body.crotch_length.mm();
    let per = if sheet.body.waist_level.unwrap_or(WaistLevel::Natural) == WaistLevel::Natural { 0.09 } else { 0.105 };
    ledger.mm(gusset::LENGTH, sheet.gusset.length, 70.0 + per * crotch)
}

fn gusset(sheet: &Sheet, length: f64, body: &BodyPlan, ledger: &mut Ledger) -> GussetPlan {
    let g = &sheet.gusset;
    let shares = sheet.style.base.shares();
    let over = body.hip - 1000.0;
    let narrow = shares.narrow_width + crate::base::WIDTH_PER_HIP * over;
    let front = shares.front_width + crate::base::WIDTH_PER_HIP * over;
    let back = shares.back_width + shares.back_width_per_hip * over;
    let width = ledger.mm(gusset::WIDTH, g.width, narrow);
    GussetPlan {
        length,
        width,
        // A narrowest width of her own takes the ends along.
        front_width: ledger.mm(gusset::FRONT_WIDTH, g.front_width, front + width - narrow),
        back_width: ledger.mm(gusset::BACK_WIDTH, g.back_width, (back + width - narrow).max(width)),
        forward: ledger.number(gusset::FORWARD, g.forward, 0.40),
        layers: ledger.number(gusset::LAYERS, g.layers.map(f64::from), 2.0) as u8,
        lining: ledger.word(gusset::LINING, &Lining::ALL, g.lining, Lining::Enclosed),
    }
}

fn knobs(sheet: &Sheet, body: &BodyPlan, gusset: &GussetPlan, ledger: &mut Ledger) -> Knobs {
    let s = &sheet.style;
    let shares = s.base.shares();
    ledger.given_word(style::BASE, s.base.name());
    // How far the waist level sits above the navel, and the vertical scale, of the body.
    let front = body.crotch_front - gusset.forward * gusset.length;
    let above_navel = front * above_navel(body.level);
    let scale = 0.5 * ((front - above_navel) + 0.37 * (body.crotch - 2.0 * above_navel));
    let (drop, seam) = if shares.from_waist_level { (0.0, above_navel) } else { (above_navel, 0.0) };
    Knobs {
        drop_front: ledger.mm(style::TOP_DROP_FRONT, s.top_drop_front, drop + shares.front_drop * scale),
        drop_side: ledger.mm(style::TOP_DROP_SIDE, s.top_drop_side, drop + shares.side_drop * scale),
        drop_back: ledger.mm(style::TOP_DROP_BACK, s.top_drop_back, drop + shares.back_drop * scale),
        side_seam: ledger.mm(style::SIDE_SEAM, s.side_seam, seam + shares.side_seam * scale),
        scoop: ledger.number(style::FRONT_SCOOP, s.front_scoop, shares.scoop),
        cover: ledger.number(style::BACK_COVER, s.back_cover, shares.cover),
        back_share: ledger.number(style::BACK_SHARE, s.back_share, shares.back_share),
        leg_edge: ledger.optional_mm(style::LEG_EDGE, s.leg_edge),
        free: Free { side_seam: s.side_seam.is_none(), scoop: s.front_scoop.is_none(), cover: s.back_cover.is_none() },
    }
}

fn seams(sheet: &Sheet, cloth: ClothKind, ledger: &mut Ledger) -> SeamPlan {
    let kind = ledger.word(seams::KIND, &SeamKind::ALL, sheet.seams.kind, SeamKind::Overlock);
    // Common practice.
    let allowance = match (cloth, kind) {
        (ClothKind::Woven, _) => 12.0,
        (ClothKind::Knit, SeamKind::Overlock) => 7.0,
        (ClothKind::Knit, SeamKind::Zigzag) => 8.0,
        (ClothKind::Knit, SeamKind::Lockstitch) => 10.0,
    };
    SeamPlan {
        kind,
        side: ledger.mm(seams::SIDE, sheet.seams.side, allowance),
        gusset: ledger.mm(seams::GUSSET, sheet.seams.gusset, allowance),
    }
}
