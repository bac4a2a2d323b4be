//! Garments measured from outside the engine: closed forms, seeded properties, and the order of work
//! tried on a work table. Quick, and without any other program.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on has failed")]
#![allow(unreachable_pub, reason = "a test program has no outside")]
#![allow(clippy::print_stdout, reason = "some print what they measured, to be read")]

#[path = "../support/mod.rs"]
mod support;

mod body_form;
mod closed_forms;
mod knobs;
mod leg_edge;
mod order_of_work;
mod sameness;
mod smoothness;
