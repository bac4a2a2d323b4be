//! Outside checks: the program's files, examined by libraries that know nothing of it.
//!
//! The program drafts a batch of sheets; one Python process then measures the record's own paths
//! and the other files. Python runs in a virtual environment that is built once under Cargo's
//! test folder. What cannot be checked is a failure, never a skip.

#![allow(clippy::print_stdout, reason = "a test program tells its results on standard output")]

#[path = "outside/class.rs"]
mod class;
#[path = "outside/prints.rs"]
mod prints;
#[path = "outside/python.rs"]
mod python;
#[path = "outside/renderer.rs"]
mod renderer;
#[path = "outside/report.rs"]
mod report;
#[path = "outside/sheets.rs"]
mod sheets;
#[path = "outside/size_table.rs"]
mod size_table;
#[path = "outside/variants.rs"]
mod variants;

use anyhow::{Context, Result, bail};
use report::{Outcome, Report, Wanted};
use serde::{Deserialize, Serialize};
use sheets::Case;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode, Stdio};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc;

/// One folder to check.
#[derive(Serialize)]
struct Job {
    title: String,
    sheet: PathBuf,
    folder: PathBuf,
    selftest: bool,
    /// Other forms of the files for cutters and plotters.
    variants: Vec<variants::Variant>,
    /// The print in other forms, where it is examined in all of them.
    prints: Vec<prints::Print>,
    /// A second renderer of PDF.
    renderer: PathBuf,
    /// The program itself.
    program: PathBuf,
}

/// One result of the Python side.
#[derive(Deserialize)]
struct Line {
    job: String,
    name: String,
    ok: bool,
    detail: String,
}

fn main() -> ExitCode {
    let wanted = Wanted::from_args(std::env::args().skip(1));
    let mut report = Report::new(&wanted);
    if wanted.runs()
        && let Err(error) = run(&wanted, &mut report)
    {
        report.add("outside", "runs to its end", Outcome::Failed, &format!("{error:#}"));
    }
    report.finish()
}

fn run(wanted: &Wanted, report: &mut Report<'_>) -> Result<()> {
    let base = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let folder = tempfile::Builder::new().prefix("outside-run-").tempdir_in(base)?;
    if wanted.is_for(class::TITLE) {
        class::check(&python::environment(base)?, folder.path(), report)?;
        if !wanted.is_whole() {
            return Ok(());
        }
    }
    if wanted.is_for(size_table::TITLE) {
        size_table::check(&python::environment(base)?, base, folder.path(), report)?;
        if !wanted.is_whole() {
            return Ok(());
        }
    }
    let cases = wanted.narrow(sheets::cases()?);
    let renderer = renderer::program(base)?;
    let drafted = cases.iter().filter_map(|case| draft(case, folder.path(), &renderer, report).transpose());
    let jobs = drafted.collect::<Result<Vec<_>>>()?;
    let python = python::environment(base)?;
    check(&python, &jobs, report)
}

/// Drafts one sheet; nothing comes back where the program failed, which is a failed check.
fn draft(case: &Case, folder: &Path, renderer: &Path, report: &mut Report<'_>) -> Result<Option<Job>> {
    let sheet = folder.join(format!("{}.toml", case.title.replace(' ', "-")));
    std::fs::write(&sheet, &case.text)?;
    let out = folder.join(case.title.replace(' ', "-"));
    let program =
        Command::new(env!("CARGO_BIN_EXE_quarterpin")).arg("draft").arg(&sheet).arg("-o").arg(&out).output()?;
    let detail = format!("{}: {}", program.status, String::from_utf8_lossy(&program.stderr).trim());
    let outcome = if program.status.success() { Outcome::Passed } else { Outcome::Failed };
    report.add(&case.title, "is drafted", outcome, &detail);
    if outcome != Outcome::Passed {
        return Ok(None);
    }
    let variants = if case.is_demo() { variants::draft(&sheet, &out)? } else { Vec::new() };
    let prints = if case.prints == sheets::Prints::Every { prints::draft(&sheet, &out)? } else { Vec::new() };
    let selftest = case.selftest == sheets::SelfTest::Here;
    let (title, renderer) = (case.title.clone(), renderer.to_owned());
    let program = PathBuf::from(env!("CARGO_BIN_EXE_quarterpin"));
    Ok(Some(Job { title, sheet, folder: out, selftest, variants, prints, renderer, program }))
}

/// Checks every folder, each in a Python process of its own, as many at once as there are cores.
fn check(python: &Path, jobs: &[Job], report: &mut Report<'_>) -> Result<()> {
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let next = AtomicUsize::new(0);
    let (said, heard) = mpsc::channel();
    std::thread::scope(|scope| {
        let workers: Vec<_> = (0..cores.min(jobs.len()))
            .map(|_| {
                let (next, said) = (&next, said.clone());
                scope.spawn(move || -> Result<()> {
                    while let Some(job) = jobs.get(next.fetch_add(1, Ordering::Relaxed)) {
                        check_one(python, job, &said).with_context(|| job.title.clone())?;
                    }
                    Ok(())
                })
            })
            .collect();
        drop(said);
        for Line { job, name, ok, detail } in heard {
            report.add(&job, &name, if ok { Outcome::Passed } else { Outcome::Failed }, &detail);
        }
        for worker in workers {
            worker.join().map_err(|_| anyhow::anyhow!("a check stopped half way"))??;
        }
        Ok(())
    })
}

fn check_one(python: &Path, job: &Job, said: &mpsc::Sender<Line>) -> Result<()> {
    let list = job.folder.with_extension("job.json");
    std::fs::write(&list, serde_json::to_vec_pretty(&[job])?)?;
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/outside/check.py");
    let mut child = Command::new(python)
        .args(["-I", "-B"])
        .arg("-c")
        .arg(RUN)
        .arg(&script)
        .arg(&list)
        .stdout(Stdio::piped())
        .spawn()
        .context("the Python of the virtual environment does not start")?;
    let out = child.stdout.take().context("the Python process has no output")?;
    for line in BufReader::new(out).lines() {
        let line = line?;
        said.send(serde_json::from_str(&line).with_context(|| format!("the checks wrote {line:?}, not a result"))?)?;
    }
    let status = child.wait()?;
    if !status.success() {
        bail!("the Python process ended with {status}");
    }
    Ok(())
}

/// Isolated from the user's own modules and settings; only the script's folder is added.
const RUN: &str = "import os, runpy, sys; script = sys.argv[1]; sys.argv = sys.argv[1:]; \
                   sys.path.insert(0, os.path.dirname(script)); sys.stdout.reconfigure(encoding='utf-8'); \
                   runpy.run_path(script, run_name='__main__')";
