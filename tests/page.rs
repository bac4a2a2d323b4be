//! Journeys through the page in a real browser: what a person does, from her first measure to the print.
//!
//! Each journey starts the program and a Chromium of its own, driven by selenium (tests/page/*.py); axe-core
//! looks at every view. Without a browser they fail and say what to install, or are left out by
//! `QUARTERPIN_WITHOUT_BROWSER=1`.

#![allow(clippy::print_stdout, reason = "a test program tells its results on standard output")]

#[path = "page/assets.rs"]
mod assets;
#[path = "page/browser.rs"]
mod browser;
#[path = "outside/python.rs"]
mod python;

use anyhow::{Context, Result};
use browser::Browser;
use libtest_mimic::{Arguments, Failed, Trial};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;

const LEFT_OUT: &str = "QUARTERPIN_WITHOUT_BROWSER";

/// Each a function of `journeys.py`, `many.py` or `views.py`.
const JOURNEYS: [&str; 19] = [
    "first_pair_to_print_in_inches",
    "pull_five_handles_and_undo_all",
    "wrong_number_and_its_remedy",
    "compare_two_finishes",
    "trial_to_convergence",
    "edited_meanwhile",
    "killed_and_gone_on_with",
    "two_tabs_in_step",
    "names_are_only_text",
    "files_as_the_command_line_makes_them",
    "lay_of_pairs",
    "class_mended_in_place",
    "sizes_over_the_pieces",
    "keyboard_only",
    "small_laptop",
    "phone",
    "forced_colours",
    "every_view_by_axe_light",
    "every_view_by_axe_dark",
];

fn main() -> ExitCode {
    let mut args = Arguments::from_args();
    // As many at once as there are cores: each is a browser.
    args.test_threads = args.test_threads.or_else(|| std::thread::available_parallelism().ok().map(Into::into));
    let left_out = std::env::var_os(LEFT_OUT).is_some_and(|value| value == "1");
    if left_out {
        println!(
            "\n{LEFT_OUT} is set: {} journeys through the page are LEFT OUT, and nothing is known of them\n",
            JOURNEYS.len()
        );
    }
    let wanted = !left_out && !args.list && JOURNEYS.iter().any(|name| is_wanted(&args, name));
    let means = Arc::new(if wanted { means().map_err(|error| format!("{error:#}")) } else { Err(String::new()) });
    let journeys = JOURNEYS.map(|name| {
        let means = Arc::clone(&means);
        Trial::test(name, move || walk(name, &means)).with_ignored_flag(left_out)
    });
    let assets = [
        Trial::test("assets_vendored_as_published", assets::vendored_as_published),
        Trial::test("assets_are_small", assets::small),
        Trial::test("assets_are_closed", assets::closed),
    ];
    libtest_mimic::run(&args, assets.into_iter().chain(journeys).collect()).exit_code()
}

fn is_wanted(args: &Arguments, name: &str) -> bool {
    args.filter.as_ref().is_none_or(|filter| name.contains(filter.as_str()))
}

/// What every journey needs.
struct Means {
    python: PathBuf,
    browser: Browser,
}

fn means() -> Result<Means> {
    let base = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let browser = browser::find()?;
    let python = python::environment(base, "page", include_str!("page/requirements.txt"))?;
    Ok(Means { python, browser })
}

fn walk(name: &str, means: &Result<Means, String>) -> Result<(), Failed> {
    let Means { python, browser } = means.as_ref().map_err(Failed::from)?;
    // Pictures stay, to be looked at.
    let pictures = Path::new(env!("CARGO_TARGET_TMPDIR")).join("page");
    std::fs::create_dir_all(&pictures)?;
    let output = python::process(python)
        .arg(Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/page/walk.py"))
        .arg(name)
        .arg(env!("CARGO_BIN_EXE_quarterpin"))
        .args([&browser.chromium, &browser.driver])
        .arg(pictures)
        .output()
        .context("the Python of the virtual environment does not start")
        .map_err(|error| format!("{error:#}"))?;
    if output.status.success() {
        return Ok(());
    }
    let said = [output.stdout, output.stderr].map(|text| String::from_utf8_lossy(&text).into_owned());
    Err(said.concat().into())
}
