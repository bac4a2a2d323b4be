//! Results, told the way Cargo's own test programs tell theirs.

use crate::sheets::Case;
use std::process::ExitCode;
use std::time::Instant;

/// How one check came out.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Outcome {
    Passed,
    Failed,
}

/// What was asked for on the command line.
pub(crate) struct Wanted {
    filters: Vec<String>,
    mode: Mode,
}

#[derive(PartialEq, Eq)]
enum Mode {
    Run,
    List,
    /// `--ignored`: none is.
    IgnoredOnly,
}

/// Cargo's test flags that take a value.
const WITH_VALUE: [&str; 6] = ["--test-threads", "--skip", "--format", "--color", "--logfile", "--shuffle-seed"];

impl Wanted {
    pub(crate) fn from_args(args: impl Iterator<Item = String>) -> Self {
        let (mut filters, mut mode, mut value_follows) = (Vec::new(), Mode::Run, false);
        for arg in args {
            match arg.as_str() {
                _ if std::mem::take(&mut value_follows) => {}
                "--list" => mode = Mode::List,
                "--ignored" => mode = Mode::IgnoredOnly,
                flag if flag.starts_with('-') => value_follows = WITH_VALUE.contains(&flag),
                _ => filters.push(arg),
            }
        }
        Self { filters, mode }
    }

    pub(crate) fn runs(&self) -> bool {
        if self.mode == Mode::List {
            println!("outside: test\n\n1 test, 0 benchmarks");
        }
        self.mode == Mode::Run
    }

    /// Is everything asked for?
    pub(crate) fn is_whole(&self) -> bool {
        self.filters.is_empty()
    }

    /// Is a check of its own asked for, by its very name or with everything else?
    pub(crate) fn is_for(&self, title: &str) -> bool {
        self.is_whole() || self.filters.iter().any(|filter| filter == title)
    }

    /// Only the sheets that a filter names; all of them where it names none, but a check.
    pub(crate) fn narrow(&self, cases: Vec<Case>) -> Vec<Case> {
        let named =
            |case: &Case| self.filters.iter().any(|f| f.contains(&case.title) || case.title.contains(f.as_str()));
        if cases.iter().any(named) { cases.into_iter().filter(named).collect() } else { cases }
    }

    fn takes(&self, name: &str) -> bool {
        self.filters.is_empty() || self.filters.iter().any(|f| name.contains(f.as_str()))
    }
}

/// Everything that was checked.
pub(crate) struct Report<'a> {
    wanted: &'a Wanted,
    began: Instant,
    passed: usize,
    filtered: usize,
    failed: Vec<(String, String)>,
}

impl<'a> Report<'a> {
    pub(crate) fn new(wanted: &'a Wanted) -> Self {
        Self { wanted, began: Instant::now(), passed: 0, filtered: 0, failed: Vec::new() }
    }

    /// A failure counts whatever the filter says: it may be why the wanted check is missing.
    pub(crate) fn add(&mut self, job: &str, name: &str, outcome: Outcome, detail: &str) {
        let title = format!("{job}: {name}");
        match outcome {
            Outcome::Passed if !self.wanted.takes(&title) => self.filtered += 1,
            Outcome::Passed => {
                self.passed += 1;
                println!("test {title} ... ok");
                if !detail.is_empty() && std::env::var_os("OUTSIDE_DETAILS").is_some() {
                    println!("     {detail}");
                }
            }
            Outcome::Failed => {
                println!("test {title} ... FAILED");
                self.failed.push((title, detail.to_owned()));
            }
        }
    }

    /// The closing lines; success only where something was checked and nothing failed.
    pub(crate) fn finish(self) -> ExitCode {
        let Self { wanted, began, passed, filtered, failed } = self;
        if wanted.mode == Mode::List {
            return ExitCode::SUCCESS;
        }
        if !failed.is_empty() {
            println!("\nfailures:\n");
            for (title, detail) in &failed {
                println!("---- {title} ----\n{detail}\n");
            }
        }
        let word = if failed.is_empty() { "ok" } else { "FAILED" };
        println!(
            "\ntest result: {word}. {passed} passed; {} failed; 0 ignored; 0 measured; {filtered} filtered out; finished in {:.2}s\n",
            failed.len(),
            began.elapsed().as_secs_f64()
        );
        if failed.is_empty() { ExitCode::SUCCESS } else { ExitCode::from(101) }
    }
}
