//! The virtual environment of the outside checks: built once, never half.

use anyhow::{Context, Result, bail};
use sha2::{Digest, Sha256};
use std::fs::{self, File};
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const TRIES: usize = 3;

#[cfg(windows)]
const SYSTEM: &str = "python";
#[cfg(not(windows))]
const SYSTEM: &str = "python3";

#[cfg(windows)]
const INSIDE: &str = "Scripts/python.exe";
#[cfg(not(windows))]
const INSIDE: &str = "bin/python";

/// The Python of an environment with every pinned package of a list, which is whole.
///
/// Its folder is named by a hash of the requirement list and of the Python itself. A lock keeps
/// two runs from building at once, and the stamp is written last, so that a build that was cut
/// off is begun anew.
pub(crate) fn environment(base: &Path, name: &str, requirements: &str) -> Result<PathBuf> {
    let folder = base.join(format!("{name}-{}", key(requirements)?));
    let (python, stamp) = (folder.join(INSIDE), folder.join("complete"));
    let lock = File::create(base.join(format!("{name}.lock")))?;
    lock.lock().context("the lock of the Python environment cannot be taken")?;
    if !stamp.exists() {
        println!("building the Python environment of the checks {name}, once");
        if folder.exists() {
            fs::remove_dir_all(&folder)?;
        }
        build(&folder, &python, requirements)?;
        fs::write(&stamp, "")?;
    }
    Ok(python)
}

/// A process of such a Python, apart from the user's own modules and settings. What is used of the packages is
/// compiled into a folder of the environment: all of them would take longer than they are used.
pub(crate) fn process(python: &Path) -> Command {
    let compiled = python.parent().and_then(Path::parent).unwrap_or(python).join("compiled");
    let mut process = Command::new(python);
    process.args(["-I", "-X"]).arg(format!("pycache_prefix={}", compiled.display()));
    process
}

fn key(requirements: &str) -> Result<String> {
    let output = Command::new(SYSTEM)
        .args(["-I", "-c", "import sys, sysconfig; print(sys.version, sysconfig.get_platform(), sys.prefix)"])
        .output()
        .with_context(|| format!("the outside checks need Python 3.11 or later as `{SYSTEM}`"))?;
    let about = String::from_utf8_lossy(&output.stdout).into_owned();
    let mut numbers = about.split(['.', ' ']).map_while(|n| n.parse::<u32>().ok());
    if !output.status.success() || (numbers.next(), numbers.next()) < (Some(3), Some(11)) {
        bail!("the outside checks need Python 3.11 or later as `{SYSTEM}`; it says {:?}", about.trim());
    }
    let hash = Sha256::new().chain_update(requirements).chain_update(about).finalize();
    Ok(hash.iter().take(8).map(|byte| format!("{byte:02x}")).collect())
}

fn build(folder: &Path, python: &Path, requirements: &str) -> Result<()> {
    let made = Command::new(SYSTEM).args(["-I", "-m", "venv"]).arg(folder).status()?;
    if !made.success() {
        bail!("`{SYSTEM} -m venv` ended with {made}: is the venv module of this Python installed?");
    }
    let list = folder.join("requirements.txt");
    fs::write(&list, requirements)?;
    let mut last = String::new();
    for attempt in 1..=TRIES {
        match install(python, &list)? {
            Installed::Yes => return Ok(()),
            Installed::No { package, message } => {
                last = format!("at {package}: {message}");
                println!("  try {attempt} of {TRIES} failed {last}");
            }
        }
    }
    bail!("the Python packages of the checks cannot be installed, {TRIES} times, {last}")
}

enum Installed {
    Yes,
    No { package: String, message: String },
}

fn install(python: &Path, list: &Path) -> Result<Installed> {
    let mut child = Command::new(python)
        .args(["-m", "pip", "install", "--no-input", "--disable-pip-version-check", "--progress-bar", "off"])
        .args(["--no-compile", "--require-hashes", "--no-deps", "--only-binary", ":all:", "-r"])
        .arg(list)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()?;
    let out = child.stdout.take().context("pip has no output")?;
    let mut errors = child.stderr.take().context("pip has no error output")?;
    // Read beside the output, or a full pipe would stop pip.
    let reader = std::thread::spawn(move || {
        let mut text = String::new();
        errors.read_to_string(&mut text).map(|_| text)
    });
    let mut package = "the start".to_owned();
    for line in BufReader::new(out).lines() {
        let line = line?;
        if let Some(rest) = line.strip_prefix("Collecting ") {
            package = rest.split(' ').next().unwrap_or(rest).to_owned();
            println!("  {package}");
        }
    }
    let status = child.wait()?;
    let message = reader.join().unwrap_or_else(|_| Ok(String::new()))?;
    Ok(if status.success() { Installed::Yes } else { Installed::No { package, message: message.trim().to_owned() } })
}
