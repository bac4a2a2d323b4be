//! The record's keys, in order.

use super::check::Check;
use crate::mark::{BLANK, PROGRAM};
use serde::Serialize;

/// The shape's version: it rises when a key changes its meaning or goes.
pub const VERSION: u32 = 1;

#[derive(Serialize)]
pub(super) struct Record<'g> {
    version: u32,
    program: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    mark: Option<&'static str>,
    name: &'g str,
    units: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) used: Option<Vec<Used<'g>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) pieces: Option<Vec<Piece<'g>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) seams: Option<Vec<Seam>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) crossings: Option<Vec<Crossing>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) openings: Option<Vec<Opening<'g>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) elastics: Option<Vec<Total<'g>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) checks: Option<Vec<Check<'g>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) order_of_work: Option<Vec<Step>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) shopping: Option<serde_json::Value>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) alternatives: Option<Vec<Alternative<'g>>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) lays: Option<Vec<Lay<'g>>>,
}

impl<'g> Record<'g> {
    /// As a file, by which it is known again.
    pub(super) fn marked(self) -> Self {
        Self { mark: Some(BLANK), ..self }
    }

    /// A record with nothing in it yet.
    pub(super) const fn head(name: &'g str) -> Self {
        Self {
            version: VERSION,
            program: PROGRAM,
            mark: None,
            name,
            units: "mm",
            used: None,
            pieces: None,
            seams: None,
            crossings: None,
            openings: None,
            elastics: None,
            checks: None,
            order_of_work: None,
            shopping: None,
            alternatives: None,
            lays: None,
        }
    }
}

/// What a variant of the sheet makes; its checks are with the others. The key of the record keeps
/// the name of its first version.
#[derive(Serialize)]
pub(super) struct Alternative<'g> {
    pub(super) name: &'g str,
    pub(super) used: Vec<Used<'g>>,
    pub(super) pieces: Vec<Piece<'g>>,
    pub(super) seams: Vec<Seam>,
    pub(super) crossings: Vec<Crossing>,
    pub(super) openings: Vec<Opening<'g>>,
    pub(super) elastics: Vec<Total<'g>>,
    pub(super) order_of_work: Vec<Step>,
}

/// How whole pieces lie on a length of cloth.
#[derive(Serialize)]
pub(super) struct Lay<'g> {
    pub(super) cloth: &'g str,
    pub(super) width_mm: f64,
    pub(super) length_mm: f64,
    pub(super) use_percent: f64,
    pub(super) pairs: u32,
    pub(super) gap_mm: f64,
    pub(super) placed: Vec<Placed<'g>>,
}

/// The whole piece is turned about its origin by so many degrees, then moved.
#[derive(Serialize)]
pub(super) struct Placed<'g> {
    pub(super) piece: &'g str,
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) turn: f64,
}

#[derive(Serialize)]
pub(super) struct Used<'g> {
    pub(super) key: String,
    pub(super) value: Value<'g>,
    pub(super) source: &'static str,
    pub(super) note: &'g str,
}

#[derive(Serialize)]
#[serde(untagged)]
pub(super) enum Value<'g> {
    Number(f64),
    Word(&'g str),
}

#[derive(Serialize)]
pub(super) struct Piece<'g> {
    pub(super) name: &'static str,
    pub(super) quantity: u32,
    pub(super) material: &'g str,
    pub(super) on_fold: bool,
    pub(super) area_mm2: f64,
    pub(super) perimeter_mm: f64,
    pub(super) cut: Vec<Edge>,
    pub(super) sewing: Vec<Edge>,
    pub(super) finished: Vec<Edge>,
    pub(super) notches: Vec<Notch>,
}

#[derive(Serialize)]
pub(super) struct Edge {
    pub(super) edge: &'static str,
    pub(super) d: String,
}

#[derive(Serialize)]
pub(super) struct Notch {
    pub(super) id: String,
    pub(super) edge: &'static str,
    pub(super) at: [f64; 2],
    pub(super) along: f64,
    pub(super) inward: [f64; 2],
    pub(super) mate: Option<String>,
}

#[derive(Serialize)]
pub(super) struct EdgeRef {
    pub(super) piece: &'static str,
    pub(super) edge: &'static str,
    pub(super) reverse: bool,
    pub(super) mirrored: bool,
}

#[derive(Serialize)]
pub(super) struct Seam {
    pub(super) name: &'static str,
    pub(super) a: EdgeRef,
    pub(super) b: EdgeRef,
    pub(super) length_a: f64,
    pub(super) length_b: f64,
    pub(super) difference: f64,
    pub(super) sewn_a: f64,
    pub(super) sewn_b: f64,
}

#[derive(Serialize)]
pub(super) struct Crossing {
    pub(super) opening: &'static str,
    pub(super) seam: &'static str,
    pub(super) a: EdgeRef,
    pub(super) b: EdgeRef,
    pub(super) angle: f64,
}

#[derive(Serialize)]
pub(super) struct Opening<'g> {
    pub(super) name: &'static str,
    pub(super) finish: &'static str,
    pub(super) put_on: &'static str,
    pub(super) finished: f64,
    pub(super) sewing: f64,
    pub(super) cut: f64,
    pub(super) path: Vec<EdgeRef>,
    pub(super) sections: Vec<Section>,
    pub(super) elastic: Option<Elastic<'g>>,
    pub(super) band: Option<Band>,
    /// Left open in the row of stitches to thread an elastic through.
    pub(super) gap: Option<Gap>,
    pub(super) worn: Worn,
}

#[derive(Serialize)]
pub(super) struct Section {
    pub(super) name: &'static str,
    pub(super) from: String,
    pub(super) to: String,
    pub(super) finished: f64,
    pub(super) sewing: f64,
    pub(super) cut: f64,
    pub(super) reduction: Option<f64>,
    pub(super) elastic_length: Option<f64>,
    pub(super) stretch: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct Elastic<'g> {
    pub(super) name: &'g str,
    pub(super) width: f64,
    pub(super) reduction: f64,
    pub(super) basis: &'static str,
    pub(super) finished_length: f64,
    pub(super) cut_length: f64,
    pub(super) in_hand: Option<f64>,
    pub(super) joining: String,
    pub(super) marks: Vec<Mark>,
}

#[derive(Serialize)]
pub(super) struct Total<'g> {
    pub(super) name: &'g str,
    pub(super) width: f64,
    pub(super) cut_length: f64,
    pub(super) in_hand: f64,
}

#[derive(Serialize)]
pub(super) struct Mark {
    pub(super) label: String,
    pub(super) place: String,
    pub(super) along_elastic: f64,
    pub(super) along_edge: f64,
    /// Of an elastic; a band has notches.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) from_cut_end: Vec<f64>,
}

#[derive(Serialize)]
pub(super) struct Band {
    pub(super) piece: &'static str,
    pub(super) length: f64,
    pub(super) width: f64,
    pub(super) cut_length: f64,
    pub(super) reduction: f64,
    pub(super) joining: String,
    pub(super) marks: Vec<Mark>,
}

#[derive(Serialize)]
pub(super) struct Gap {
    pub(super) length: f64,
    pub(super) place: &'static str,
}

#[derive(Serialize)]
pub(super) struct Worn {
    pub(super) girth: f64,
    pub(super) girth_source: &'static str,
    pub(super) relaxed: f64,
    pub(super) stretch: f64,
    pub(super) cloth_stretch: f64,
    pub(super) tension_n: Option<f64>,
    pub(super) pressure_kpa: Option<f64>,
}

#[derive(Serialize)]
pub(super) struct Step {
    pub(super) step: String,
    pub(super) title: String,
    pub(super) does: String,
    pub(super) edge: Option<&'static str>,
    pub(super) length: Option<f64>,
    pub(super) stitch: Option<&'static str>,
    pub(super) machine: Option<Machine>,
    pub(super) needs: Vec<String>,
    /// Why, need by need.
    pub(super) because: Vec<&'static str>,
    pub(super) caution: Option<&'static str>,
}

/// What the machine is set to; each pair is from the least to the most that is usual.
#[derive(Serialize)]
pub(super) struct Machine {
    pub(super) needle: Option<String>,
    pub(super) stitch: String,
    pub(super) width_mm: Option<[f64; 2]>,
    pub(super) length_mm: [f64; 2],
    pub(super) differential_feed: Option<[f64; 2]>,
}
