//! Inputs by the thousand, made by chance from the fixtures: whatever comes, the program says yes or no.
//!
//! `cargo test` replays some of each target. A long run, in one process and on one core:
//! `FUZZ_SECONDS=3600 cargo test -p quarterpin --test fuzz -- --ignored long --nocapture`; `FUZZ_TARGET`
//! names one target, `FUZZ_FROM` the number to begin at. Every input follows from its target and its
//! number, so that a finding is made again by `FUZZ_TARGET=name FUZZ_FROM=number`.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on has failed")]

#[path = "fuzz/files.rs"]
mod files;
#[path = "fuzz/inputs.rs"]
mod inputs;
#[path = "fuzz/mutate.rs"]
mod mutate;
#[path = "fuzz/numbers.rs"]
mod numbers;
#[path = "fuzz/page.rs"]
mod page;
#[path = "fuzz/targets.rs"]
mod targets;
#[path = "fuzz/worst.rs"]
mod worst;

use inputs::Fates;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use targets::{TARGETS, Target};

/// No input of these sizes may take longer.
const LONGEST: Duration = Duration::from_secs(2);

/// Runs one input of a target.
fn run(target: &Target, number: u64, fates: &mut Fates) {
    let began = Instant::now();
    let ended = catch_unwind(AssertUnwindSafe(|| (target.run)(&mut fastrand::Rng::with_seed(number), fates)));
    let took = began.elapsed();
    assert!(ended.is_ok(), "FUZZ_TARGET={} FUZZ_FROM={number} panics", target.name);
    assert!(took < LONGEST, "FUZZ_TARGET={} FUZZ_FROM={number} takes {took:?}", target.name);
}

#[test]
fn some_inputs_of_every_target() {
    for target in TARGETS {
        let mut fates = Fates::default();
        for number in 0..target.replayed {
            run(target, number, &mut fates);
        }
        // Both sides of the door are used.
        assert!(fates.taken > 0 && fates.refused > 0, "{}: {fates:?}", target.name);
    }
}

/// Some of what a guided search found, each small, and for something in the program that others do not reach.
#[test]
fn what_was_kept_of_the_guided_search() {
    for (name, run) in inputs::GUIDED {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/fuzz/kept").join(name);
        let mut files: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
        files.sort();
        assert!(!files.is_empty(), "nothing is kept of {name}");
        let mut fates = Fates::default();
        for file in &files {
            let (bytes, began) = (std::fs::read(file).unwrap(), Instant::now());
            let ended = catch_unwind(AssertUnwindSafe(|| run(&bytes, &mut fates)));
            assert!(ended.is_ok(), "{} panics", file.display());
            assert!(began.elapsed() < LONGEST, "{} takes {:?}", file.display(), began.elapsed());
        }
        assert_eq!(fates.taken + fates.refused, files.len() as u64, "{name}: yes or no to each");
    }
}

fn set<T: std::str::FromStr>(name: &str) -> Option<T> {
    std::env::var(name).ok()?.parse().ok()
}

#[test]
#[ignore = "as long as FUZZ_SECONDS says"]
fn long() {
    let seconds = set("FUZZ_SECONDS").unwrap_or(60);
    let wanted: Option<String> = set("FUZZ_TARGET");
    let chosen: Vec<&Target> = TARGETS.iter().filter(|t| wanted.as_ref().is_none_or(|name| t.name == name)).collect();
    let from: u64 = set("FUZZ_FROM").unwrap_or(1_000_000);
    let share = Duration::from_secs(seconds) / chosen.len() as u32;
    for target in chosen {
        let (began, mut fates, mut number) = (Instant::now(), Fates::default(), from);
        while began.elapsed() < share {
            run(target, number, &mut fates);
            number += 1;
        }
        println!("{}: {} inputs from {from} in {:.0?}, {fates:?}", target.name, number - from, began.elapsed());
    }
}
