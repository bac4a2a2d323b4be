//! Sheets as a person writes them, read and made: what is cut, marked, checked and said.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on has failed")]

#[path = "support/sources.rs"]
mod sources;
#[path = "../engine/tests/support/mod.rs"]
mod support;

#[path = "sheets/card.rs"]
mod card;
#[path = "sheets/cases.rs"]
mod cases;
#[path = "sheets/checks.rs"]
mod checks;
#[path = "sheets/elastics.rs"]
mod elastics;
#[path = "sheets/golden.rs"]
mod golden;
#[path = "sheets/lays.rs"]
mod lays;
#[path = "sheets/marks.rs"]
mod marks;
#[path = "sheets/spoken.rs"]
mod spoken;
#[path = "sheets/twins.rs"]
mod twins;
