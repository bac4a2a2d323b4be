//! Outside checks: the program's files, examined by libraries that know nothing of it.
//!
//! The program drafts a batch of sheets; Python then measures the record's own paths and the other
//! files. Python runs in a virtual environment that is built once under Cargo's test folder. What cannot
//! be checked is a failure, never a skip.

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
#[path = "outside/worker.rs"]
mod worker;

use anyhow::{Context, Result};
use rayon::prelude::*;
use report::{Outcome, Report, Wanted};
use serde::{Deserialize, Serialize};
use sheets::Case;
use std::path::{Path, PathBuf};
use std::process::{Command, ExitCode};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::mpsc::{self, Sender};
use worker::Worker;

/// One folder to check.
#[derive(Serialize)]
struct Job {
    title: String,
    sheet: PathBuf,
    folder: PathBuf,
    #[serde(skip)]
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

/// What is checked of a folder in one go; those that take longest come first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
enum Part {
    /// That the checks can fail; and what trials teach.
    Harms,
    /// The print in other forms.
    Prints,
    /// A second renderer of it; the form to measure by, and the terminal.
    Renderer,
    /// The files for cutters in other forms.
    Forms,
    /// Drafts of all finishes, read.
    Mixes,
    /// Its record and its files.
    Files,
}

impl Part {
    fn of(job: &Job) -> impl Iterator<Item = Self> {
        let has_prints = !job.prints.is_empty();
        let parts = [
            (Self::Files, true),
            (Self::Forms, !job.variants.is_empty()),
            (Self::Prints, has_prints),
            (Self::Renderer, has_prints),
            (Self::Mixes, job.selftest),
            (Self::Harms, job.selftest),
        ];
        parts.into_iter().filter(|(_, is_asked)| *is_asked).map(|(part, _)| part)
    }
}

/// One result.
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

/// Reports while everything is checked beside it.
fn run(wanted: &Wanted, report: &mut Report<'_>) -> Result<()> {
    let (said, heard) = mpsc::channel();
    std::thread::scope(|scope| {
        let checks = scope.spawn(move || everything(wanted, &said));
        for Line { job, name, ok, detail } in heard {
            report.add(&job, &name, if ok { Outcome::Passed } else { Outcome::Failed }, &detail);
        }
        checks.join().map_err(|_| anyhow::anyhow!("a check stopped half way"))?
    })
}

/// Drafts while Python and the second renderer are made ready; then checks.
fn everything(wanted: &Wanted, said: &Sender<Line>) -> Result<()> {
    let base = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let folder = tempfile::Builder::new().prefix("outside-run-").tempdir_in(base)?;
    let (class, sizes) = (wanted.is_for(class::TITLE), wanted.is_for(size_table::TITLE));
    let cases = if (class || sizes) && !wanted.is_whole() { Vec::new() } else { wanted.narrow(sheets::cases()?) };
    let drafted = || cases.par_iter().map(|case| draft(case, folder.path(), said)).collect::<Result<Vec<_>>>();
    let (python, renderer, drafted) = std::thread::scope(|scope| {
        let python = scope.spawn(|| environment(base));
        let renderer = scope.spawn(|| if cases.is_empty() { Ok(PathBuf::new()) } else { renderer::program(base) });
        let drafted = drafted();
        (python.join(), renderer.join(), drafted)
    });
    let stopped = |_| anyhow::anyhow!("what the checks need was not made ready");
    let (python, renderer) = (python.map_err(stopped)??, renderer.map_err(stopped)??);
    let mut jobs: Vec<Job> = drafted?.into_iter().flatten().collect();
    jobs.iter_mut().for_each(|job| job.renderer.clone_from(&renderer));
    let mut parts: Vec<(&Job, Part)> = jobs.iter().flat_map(|job| Part::of(job).map(move |part| (job, part))).collect();
    parts.sort_by_key(|(_, part)| *part);
    let mut tasks: Vec<Task<'_>> = Vec::new();
    if class {
        tasks.push(Box::new(|_| class::check(&python, folder.path(), said)));
    }
    if sizes {
        tasks.push(Box::new(|_| size_table::check(&python, base, folder.path(), said)));
    }
    for (job, part) in parts {
        tasks.push(Box::new(move |worker| worker.check(&Asked { job, part }, said).with_context(|| job.title.clone())));
    }
    at_once(&tasks, &python)
}

/// Something to check, for the most part by the Python process of its thread.
type Task<'t> = Box<dyn Fn(&mut Worker) -> Result<()> + Sync + 't>;

/// The Python with the outside libraries.
fn environment(base: &Path) -> Result<PathBuf> {
    python::environment(base, "outside", include_str!("outside/requirements.txt"))
}

/// Drafts one sheet; nothing comes back where the program failed, which is a failed check.
fn draft(case: &Case, folder: &Path, said: &Sender<Line>) -> Result<Option<Job>> {
    let sheet = folder.join(format!("{}.toml", case.title.replace(' ', "-")));
    std::fs::write(&sheet, &case.text)?;
    let out = folder.join(case.title.replace(' ', "-"));
    let program =
        Command::new(env!("CARGO_BIN_EXE_quarterpin")).arg("draft").arg(&sheet).arg("-o").arg(&out).output()?;
    let detail = format!("{}: {}", program.status, String::from_utf8_lossy(&program.stderr).trim());
    let ok = program.status.success();
    said.send(Line { job: case.title.clone(), name: "is drafted".to_owned(), ok, detail })?;
    if !ok {
        return Ok(None);
    }
    let variants = if case.is_demo() { variants::draft(&sheet, &out)? } else { Vec::new() };
    let prints = if case.prints == sheets::Prints::Every { prints::draft(&sheet, &out)? } else { Vec::new() };
    let selftest = case.selftest == sheets::SelfTest::Here;
    let (title, renderer) = (case.title.clone(), PathBuf::new());
    let program = PathBuf::from(env!("CARGO_BIN_EXE_quarterpin"));
    Ok(Some(Job { title, sheet, folder: out, selftest, variants, prints, renderer, program }))
}

/// Does all tasks in their order, as many at once as there are cores.
fn at_once(tasks: &[Task<'_>], python: &Path) -> Result<()> {
    let cores = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let next = AtomicUsize::new(0);
    let work = || -> Result<()> {
        let mut worker = Worker::start(python)?;
        while let Some(task) = tasks.get(next.fetch_add(1, Ordering::Relaxed)) {
            task(&mut worker)?;
        }
        Ok(())
    };
    std::thread::scope(|scope| {
        let workers: Vec<_> = (0..cores.min(tasks.len())).map(|_| scope.spawn(work)).collect();
        let mut done = workers.into_iter().map(|worker| worker.join());
        done.try_for_each(|ended| ended.map_err(|_| anyhow::anyhow!("a check stopped half way"))?)
    })
}

/// A part of a folder as `check.py` is asked for it.
#[derive(Serialize)]
struct Asked<'a> {
    #[serde(flatten)]
    job: &'a Job,
    part: Part,
}

/// Isolated from the user's own modules and settings; only the script's folder is added.
const RUN: &str = "import os, runpy, sys; script = sys.argv[1]; sys.argv = sys.argv[1:]; \
                   sys.path.insert(0, os.path.dirname(script)); sys.stdout.reconfigure(encoding='utf-8'); \
                   runpy.run_path(script, run_name='__main__')";
