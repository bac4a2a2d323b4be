//! The engine against surfaces and measures of real bodies: needs Python 3, whose environment it shares
//! with the outside checks of the files.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on has failed")]
#![allow(unreachable_pub, reason = "a test program has no outside")]
#![allow(clippy::print_stdout, reason = "building the environment takes a while and says so")]

#[path = "../../../tests/outside/python.rs"]
mod python;
#[path = "../support/mod.rs"]
mod support;

mod body_form;
mod finishes;
mod real_bodies;
mod women;

/// The Python of the outside checks.
fn outside_python() -> std::path::PathBuf {
    let requirements = include_str!("../../../tests/outside/requirements.txt");
    python::environment(std::path::Path::new(env!("CARGO_TARGET_TMPDIR")), "outside", requirements).unwrap()
}
