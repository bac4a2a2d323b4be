//! What the tests of the draft share: sheets by measure, a seeded source of numbers, and
//! measuring of a garment that owes nothing to the code it measures.

#![allow(dead_code, reason = "each test program uses its own part of this")]
#![allow(unreachable_pub, reason = "a test program has no outside")]

pub mod measure;
pub mod numbers;
pub mod polygon;
pub mod random;
pub mod seven;

use engine::base::Base;
use engine::finding::Finding;
use engine::finish::FinishKind;
use engine::plan::{BodyPlan, Plan};
use engine::quantity::{Length, Ratio, Units};
use engine::sheet::{
    Basis, Body, ClothKind, Elastic, Fabric, FinishSpec, Gusset, PerOpening, Print, Seams, Sheet, Style, WaistLevel,
};
use engine::words::{Said, Speech};

/// Does a finding say where it is, what it is and what to do?
pub fn is_told(found: &Finding) -> bool {
    let Said { place, text, next } = said(found);
    !place.is_empty() && !text.is_empty() && !next.is_empty()
}

/// What is said of a finding on a sheet in millimetres.
pub fn said(found: &Finding) -> Said {
    Speech(Units::Mm).finding(found)
}

/// A length from millimetres.
pub fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

/// A body's measures, mm.
#[derive(Clone, Debug)]
pub struct Measures {
    pub waist: f64,
    pub level: WaistLevel,
    pub hip: f64,
    pub waist_to_hip: f64,
    pub crotch: f64,
    pub crotch_front: Option<f64>,
    pub thigh: Option<f64>,
}

/// An invented body in the middle of the published ranges, natural waist.
pub fn ordinary() -> Measures {
    Measures {
        waist: 740.0,
        level: WaistLevel::Natural,
        hip: 980.0,
        waist_to_hip: 200.0,
        crotch: 710.0,
        crotch_front: Some(320.0),
        thigh: Some(570.0),
    }
}

/// A sheet for this body: cotton jersey, a soft 12 mm elastic turned in at the top, 8 mm edgings
/// at the legs, everything else by default.
pub fn sheet(m: &Measures, base: Base) -> Sheet {
    Sheet {
        name: "test pair".to_owned(),
        units: Units::Cm,
        date: None,
        body: body(m),
        fabric: jersey(),
        style: style(base),
        gusset: Gusset::default(),
        seams: Seams::default(),
        finish: PerOpening {
            top: elastic_finish("turned", "soft 12"),
            left_leg: elastic_finish("trim", "soft 8"),
            right_leg: elastic_finish("trim", "soft 8"),
        },
        elastics: [8.0, 10.0, 12.0].into_iter().map(|w| (format!("soft {w}"), elastic(w))).collect(),
        print: Print::default(),
        variants: Vec::new(),
        trials: Vec::new(),
        estimated: Vec::new(),
    }
}

pub fn body(m: &Measures) -> Body {
    Body {
        waist_girth: mm(m.waist),
        waist_level: Some(m.level),
        hip_girth: mm(m.hip),
        waist_to_hip: mm(m.waist_to_hip),
        crotch_length: mm(m.crotch),
        crotch_length_front: m.crotch_front.map(mm),
        thigh_girth: m.thigh.map(mm),
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

/// What the body form is made from: this body, with its estimates filled in.
pub fn planned(m: &Measures) -> BodyPlan {
    Plan::of(&sheet(m, Base::all().next().unwrap())).unwrap().body
}

fn jersey() -> Fabric {
    Fabric {
        name: Some("cotton jersey".to_owned()),
        kind: Some(ClothKind::Knit),
        stretch_across: Ratio::from_percent(60.0),
        stretch_along: Ratio::from_percent(40.0),
        width: Some(mm(1500.0)),
        price: None,
        nap: None,
        ease_across: None,
        ease_along: None,
        shrink_across: None,
        shrink_along: None,
    }
}

fn style(base: Base) -> Style {
    Style {
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

pub fn elastic(width: f64) -> Elastic {
    Elastic {
        width: mm(width),
        picot: Length::ZERO,
        stretch: Some(Ratio::from_percent(100.0)),
        growth: None,
        latex: Some(false),
        price: None,
        pull: Vec::new(),
    }
}

fn bare_finish(kind: &str) -> FinishSpec {
    FinishSpec::new(FinishKind::named(kind).unwrap())
}

/// A finish with an elastic 5 % shorter than its line.
pub fn elastic_finish(kind: &str, elastic: &str) -> FinishSpec {
    FinishSpec {
        elastic: Some(elastic.to_owned()),
        basis: Some(Basis::Reduction(Ratio::from_percent(5.0))),
        ..bare_finish(kind)
    }
}

/// A finish by its word, with what it needs and nothing else: an elastic of this name, if it takes
/// one.
pub fn finish(kind: &str, elastic: &str) -> FinishSpec {
    let bare = bare_finish(kind);
    if bare.kind.takes().elastic() { elastic_finish(kind, elastic) } else { bare }
}

/// A hem this deep, mm.
pub fn hem(depth: f64) -> FinishSpec {
    FinishSpec { depth: Some(mm(depth)), ..bare_finish("hem") }
}
