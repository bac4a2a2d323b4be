//! From what was written to what is used: defaults and estimates filled in, each one listed.

mod finish;
mod ledger;
pub(crate) mod parts;

pub use finish::{ElasticPlan, FinishPlan, LengthPlan, section_name};
pub use parts::{BodyPlan, ClothPlan, Free, GussetPlan, Knobs, SeamPlan};

use crate::body::Girths;
use crate::finding::Finding;
use crate::finish::Takes;
use crate::garment::{Source, Used};
use crate::keys::{body, fabric, gusset, seams, style};
use crate::population as people;
use crate::sheet::{Body, Sheet};
use crate::terms::{ClothKind, Lining, PerOpening, SeamKind, WaistLevel};
use ledger::Ledger;

/// Everything the draft and the finishes need, complete, in millimetres and fractions.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The body.
    pub body: BodyPlan,
    /// The cloth.
    pub cloth: ClothPlan,
    /// The shape.
    pub knobs: Knobs,
    /// The gusset.
    pub gusset: GussetPlan,
    /// The seams.
    pub seams: SeamPlan,
    /// How each opening is finished.
    pub finish: PerOpening<FinishPlan>,
    /// Every value in use and where it came from.
    pub used: Vec<Used>,
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
        let (mut of_cloth, mut ledger) = (Ledger::default(), Ledger::default());
        let gusset_length = gusset_length(sheet, &mut ledger);
        let body = body(&sheet.body, &mut ledger);
        let gusset = gusset(sheet, gusset_length, &body, &mut ledger);
        let knobs = knobs(sheet, &body, &gusset, &mut ledger);
        let cloth = cloth(sheet, (&body, &knobs), &mut of_cloth);
        let seams = seams(sheet, cloth.kind, &mut ledger);
        let finish = PerOpening::try_from_fn(|opening| {
            finish::plan(sheet, opening, (&cloth, &seams, knobs.side_seam), &mut ledger)
        })
        .map_err(|f| vec![f])?;
        // Cloth is listed first, though its ease is chosen last.
        let mut used = [of_cloth.used, ledger.used].concat();
        ledger::estimated(&mut used, &sheet.estimated);
        Ok(Self { body, cloth, knobs, gusset, seams, finish, used })
    }
}

fn body(b: &Body, ledger: &mut Ledger) -> BodyPlan {
    let level = ledger.word(body::WAIST_LEVEL, &WaistLevel::ALL, b.waist_level, WaistLevel::Natural);
    let waist = ledger.given_mm(body::WAIST_GIRTH, b.waist_girth);
    let hip = ledger.given_mm(body::HIP_GIRTH, b.hip_girth);
    let waist_to_hip = ledger.given_mm(body::WAIST_TO_HIP, b.waist_to_hip);
    let crotch = ledger.given_mm(body::CROTCH_LENGTH, b.crotch_length);
    let crotch_front = ledger.mm(body::CROTCH_LENGTH_FRONT, b.crotch_length_front, crotch * people::FRONT_SHARE);
    let thigh = ledger.mm(body::THIGH_GIRTH, b.thigh_girth, people::thigh_girth(hip).mean);
    let waist_breadth = ledger.mm(body::WAIST_BREADTH, b.waist_breadth, people::waist_breadth(waist, hip));
    let waist_depth = ledger.mm(body::WAIST_DEPTH, b.waist_depth, people::waist_depth(waist, hip));
    let hip_breadth = ledger.mm(body::HIP_BREADTH, b.hip_breadth, people::hip_breadth(waist, hip));
    let hip_depth = ledger.mm(body::HIP_DEPTH, b.hip_depth, people::hip_depth(waist, hip));
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

fn cloth(sheet: &Sheet, (body, knobs): (&BodyPlan, &Knobs), ledger: &mut Ledger) -> ClothPlan {
    let f = &sheet.fabric;
    let kind = ledger.word(fabric::KIND, &ClothKind::ALL, f.kind, ClothKind::Knit);
    let across = ledger.given_percent(fabric::STRETCH_ACROSS, f.stretch_across);
    let along = ledger.given_percent(fabric::STRETCH_ALONG, f.stretch_along);
    let usual = default_ease(kind, across * 100.0);
    let passing = usual.max(100.0 * passing_ease(body, knobs, across).min(0.0));
    ClothPlan {
        name: f.name.clone().unwrap_or_else(|| "cloth".to_owned()),
        kind,
        stretch_across: across,
        stretch_along: along,
        ease_across: ledger.percent(fabric::EASE_ACROSS, f.ease_across, passing),
        ease_along: ledger.percent(fabric::EASE_ALONG, f.ease_along, 0.0),
        shrink_across: ledger.percent(fabric::SHRINK_ACROSS, f.shrink_across, 0.0),
        shrink_along: ledger.percent(fabric::SHRINK_ALONG, f.shrink_along, 0.0),
    }
}

/// The least ease across, as a fraction, with which the top edge passes over the hips.
fn passing_ease(body: &BodyPlan, knobs: &Knobs, stretch: f64) -> f64 {
    body.hip / (Girths::of(body).top(knobs.top_level()) * (1.0 + AT_TOP * stretch)) - 1.0
}

/// How much of its stretch across a cloth has along a top edge, which slants.
const AT_TOP: f64 = 0.97;

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
    let above_navel = front * people::above_navel(body.level);
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
