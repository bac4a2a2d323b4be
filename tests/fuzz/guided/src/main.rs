//! One way into the program, led by the branches that an input reaches. From this folder, on a stable Rust
//! and with a C++ compiler:
//!
//! ```sh
//! RUSTFLAGS="--cfg fuzzing -Cpasses=sancov-module -Ccodegen-units=1 \
//!   -Cllvm-args=-sanitizer-coverage-level=3 -Cllvm-args=-sanitizer-coverage-inline-8bit-counters \
//!   -Cllvm-args=-sanitizer-coverage-pc-table -Cllvm-args=-sanitizer-coverage-trace-compares" \
//!   cargo build --release --target "$(rustc --print host-tuple)"
//! FUZZ_TARGET=sheet target/*/release/guided FOUND SEEDS -timeout=2 -rss_limit_mb=2000
//! ```
//!
//! `FUZZ_TARGET` is `sheet`, `people`, `sizes`, `dxf` or `svg`, or `numbers`, which wants no seeds; SEEDS is a
//! folder of such files, FOUND one for what is found. What stops it is an input that panics, takes over 2 s or too much memory: it becomes a
//! test by name. Of those that `-set_cover_merge=1` chooses in FOUND some small ones are kept in
//! `tests/fuzz/kept/`, and replayed by `cargo test`.

#![no_main]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "what cannot go on has failed")]

#[path = "../../inputs.rs"]
mod inputs;
#[path = "../../numbers.rs"]
#[allow(dead_code, reason = "the tests use more of it")]
mod numbers;

use fastrand::Rng;
use inputs::{Fates, GUIDED, Try};
use libfuzzer_sys::fuzz_target;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::LazyLock;

/// Here nothing leads but chance: what the bytes come to is its seed.
const BY_CHANCE: [(&str, Try); 1] = [("numbers", |bytes, fates| {
    let mut seed = DefaultHasher::new();
    bytes.hash(&mut seed);
    numbers::run(&mut Rng::with_seed(seed.finish()), fates);
})];

static TARGET: LazyLock<Try> = LazyLock::new(|| {
    let wanted = std::env::var("FUZZ_TARGET").expect("FUZZ_TARGET is not said");
    let mut all = GUIDED.iter().chain(&BY_CHANCE);
    all.find(|(name, _)| *name == wanted).expect("there is no such target").1
});

fuzz_target!(|bytes: &[u8]| TARGET(bytes, &mut Fates::default()));
