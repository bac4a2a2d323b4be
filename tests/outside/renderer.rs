//! A renderer of PDF in Rust, built once as a program of its own.

use anyhow::{Context, Result, bail};
use std::fs::File;
use std::path::{Path, PathBuf};
use std::process::Command;

/// The built program. It is a workspace of its own, so that what it needs does not change how the
/// program is built.
pub(crate) fn program(base: &Path) -> Result<PathBuf> {
    let manifest = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/outside/renderer/Cargo.toml");
    let target = base.join("renderer");
    let lock = File::create(base.join("renderer.lock"))?;
    lock.lock().context("the lock of the renderer cannot be taken")?;
    if !target.exists() {
        println!("building the renderer of the outside checks, once");
    }
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let built = Command::new(cargo)
        .args(["build", "--quiet", "--locked", "--manifest-path"])
        .arg(&manifest)
        .arg("--target-dir")
        .arg(&target)
        .output()
        .context("Cargo does not start")?;
    if !built.status.success() {
        bail!("the renderer of the outside checks is not built: {}", String::from_utf8_lossy(&built.stderr).trim());
    }
    Ok(target.join("debug").join(format!("outside-renderer{}", std::env::consts::EXE_SUFFIX)))
}
