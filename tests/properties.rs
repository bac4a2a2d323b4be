//! Seeded properties: sheets by the hundred, drawn at random, and what has to hold for each.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on has failed")]

mod support;

#[path = "properties/knobs.rs"]
mod knobs;
#[path = "properties/leg_edge.rs"]
mod leg_edge;
#[path = "properties/sameness.rs"]
mod sameness;
#[path = "properties/smoothness.rs"]
mod smoothness;
#[path = "properties/spoken.rs"]
mod spoken;
