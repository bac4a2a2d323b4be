//! The lay: how whole pieces lie on the width of a cloth, and how long a piece of it they take.
//!
//! Pieces lie right side up on a single layer, along its grain, each as drawn or turned by half a
//! turn where the cloth allows it. They are laid by their outlines, not by boxes: `nofit` says where
//! one may not lie beside another, `search` looks for a short lay in a number of steps, and `proof`
//! measures the result again on the outlines themselves, without anything the search stands on.

pub(crate) mod laid;
mod minkowski;
mod nofit;
mod pairs;
mod proof;
mod search;
mod shape;
mod sides;
mod task;
#[cfg(test)]
mod tests;

pub use laid::{Cloth, Lay, Placed, Turn, Ways};
pub use search::Progress;

use crate::drawing::{Drawing, Piece};
use crate::sheet::Fabric;
use kurbo::Shape as _;
use nofit::Table;
use proof::Outline;
use shape::{Place, Shape};
use task::Task;

/// Between pieces that are cut one by one with scissors, mm. Common practice.
pub const GAP: f64 = 5.0;

/// How pieces are laid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rules {
    /// The least distance between two pieces, mm.
    pub gap: f64,
    /// Steps of the search, each one piece looked after; as many as are usual where it is not said.
    pub steps: Option<u64>,
}

impl Default for Rules {
    fn default() -> Self {
        Self { gap: GAP, steps: None }
    }
}

/// Pieces of one outline to be laid.
#[derive(Clone, Copy, Debug)]
pub struct Wanted<'a> {
    /// As drawn; a half is laid whole.
    pub piece: &'a Piece,
    /// What is taken out of the cloth for it and has to keep the gap: the piece itself, or with a
    /// tool that takes cloth away its outline grown by that.
    pub taken: &'a Piece,
    /// How many of them.
    pub times: u32,
}

/// Pieces that cannot be laid.
#[derive(Clone, Debug, PartialEq)]
pub enum LayError {
    /// One that is wider than the cloth.
    TooWide {
        /// Its name.
        piece: String,
        /// Its width, mm.
        needs: f64,
        /// Of the cloth, mm.
        width: f64,
    },
    /// Two that lie too near each other, or one beyond the cloth: a fault of the search.
    Unsound {
        /// The name of a piece that does.
        piece: String,
    },
}

/// The lays of so many pairs of a garment, one for each cloth in the order of its pieces; none where
/// the cloth's width is not known. `taken` are the same pieces as they are taken out of the cloth, see
/// [`Wanted`]; `told` hears how far the search has come.
///
/// # Errors
/// [`LayError`] for a piece that does not go on the cloth.
pub fn of_pairs(
    drawing: &Drawing,
    taken: &Drawing,
    fabric: &Fabric,
    pairs: u32,
    rules: Rules,
    told: &mut dyn FnMut(Progress),
) -> Result<Vec<Lay>, LayError> {
    let mut names: Vec<&str> = Vec::new();
    for piece in &drawing.pieces {
        if !names.contains(&piece.material.as_str()) {
            names.push(&piece.material);
        }
    }
    let cloths = names.into_iter().filter_map(|name| Cloth::of(fabric, name));
    let lay = |cloth: Cloth| {
        let own = drawing.pieces.iter().zip(&taken.pieces).filter(|(p, _)| p.material == cloth.name);
        let wanted: Vec<Wanted<'_>> =
            own.map(|(piece, taken)| Wanted { piece, taken, times: piece.quantity.saturating_mul(pairs) }).collect();
        Ok(Lay { pairs, ..on_cloth(&wanted, cloth, rules, told)? })
    };
    cloths.map(lay).collect()
}

/// Lays pieces on a cloth. The same pieces, cloth and rules give the same lay, everywhere.
///
/// # Errors
/// [`LayError`] for a piece that does not go on the cloth.
pub fn on_cloth(
    wanted: &[Wanted<'_>],
    cloth: Cloth,
    rules: Rules,
    told: &mut dyn FnMut(Progress),
) -> Result<Lay, LayError> {
    let outlines: Vec<Outline> = wanted.iter().map(|w| Outline::of(w.taken)).collect();
    let (shapes, shape_of) = distinct(&outlines);
    for (w, shape) in wanted.iter().zip(&shape_of) {
        let needs = shapes[*shape].bounds.width();
        if needs > cloth.width {
            return Err(LayError::TooWide { piece: w.piece.name.clone(), needs, width: cloth.width });
        }
    }
    let each: Vec<usize> =
        wanted.iter().enumerate().flat_map(|(i, w)| std::iter::repeat_n(i, w.times as usize)).collect();
    let pieces: Vec<usize> = each.iter().map(|i| shape_of[*i]).collect();
    let table = Table::of(&shapes, rules.gap);
    let may_turn = cloth.ways == Ways::Both;
    let task = Task { shapes: &shapes, table: &table, pieces: &pieces, width: cloth.width, may_turn };
    let steps = rules.steps.unwrap_or_else(|| usual_steps(pieces.len()));
    let proved = |places: &[Place]| {
        let places = shape::on_micrometres(places.to_vec());
        let length = task.length(&places);
        let placed: Vec<Placed> = each.iter().zip(&places).map(|(i, place)| at_place(wanted, *i, *place)).collect();
        proof::check(&outlines, &placed, (cloth.width, length), rules.gap).map(|()| (placed, length))
    };
    let (placed, length) = proved(&search::shortest(&task, steps, &|places| proved(places).is_ok(), told))?;
    // What the tool takes away is not used.
    let areas: Vec<f64> = wanted.iter().map(|w| Outline::of(w.piece).path.area().abs()).collect();
    let area: f64 = each.iter().map(|i| areas[*i]).sum();
    let use_percent = if placed.is_empty() { 0.0 } else { 100.0 * area / (cloth.width * length) };
    Ok(Lay { cloth, length, use_percent, pairs: 1, gap: rules.gap, steps, placed })
}

fn at_place(wanted: &[Wanted<'_>], i: usize, place: Place) -> Placed {
    let turn = if place.is_turned { Turn::Half } else { Turn::AsDrawn };
    Placed { piece: wanted[i].piece.name.clone(), wanted: i, at: place.at, turn }
}

/// The shapes without repetition, and which of them each outline has: layers that are sewn as one
/// have the same.
fn distinct(outlines: &[Outline]) -> (Vec<Shape>, Vec<usize>) {
    let mut shapes: Vec<Shape> = Vec::new();
    let mut which = Vec::with_capacity(outlines.len());
    for outline in outlines {
        let shape = outline.shape();
        which.push(shapes.iter().position(|known| *known == shape).unwrap_or_else(|| {
            shapes.push(shape);
            shapes.len() - 1
        }));
    }
    (shapes, which)
}

/// The fewest steps for each piece, what more pieces make of it, and the most of all: a single pair takes some
/// hundredths of a second, two pairs a second, ten some seconds, twenty people less than half a minute.
const STEPS_A_PIECE: u64 = 400;
const STEPS_A_TRIPLE: u64 = 25;
const MOST_STEPS: u64 = 60_000;

/// As many as is usual for so many pieces.
fn usual_steps(pieces: usize) -> u64 {
    let n = pieces as u64;
    (STEPS_A_TRIPLE * n.pow(3)).max(STEPS_A_PIECE * n).min(MOST_STEPS)
}
