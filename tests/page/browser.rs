//! The browser of the machine, and what drives it; put there by the system's own means where that is allowed.

use anyhow::{Context, Result, bail};
use std::path::PathBuf;
use std::process::Command;

/// Programs of one version.
pub(crate) struct Browser {
    pub(crate) chromium: PathBuf,
    pub(crate) driver: PathBuf,
}

const PACKAGES: [&str; 2] = ["chromium", "chromium-driver"];

/// Chromium and its driver in the PATH; installed where they are not, and Debian's `apt-get` may.
pub(crate) fn find() -> Result<Browser> {
    if let Some(browser) = there() {
        return Ok(browser);
    }
    if is_root() && in_path("apt-get").is_some() {
        println!("installing {} for the journeys through the page, once", PACKAGES.join(" and "));
        let install = |arguments: &[&str]| {
            Command::new("apt-get").args(arguments).env("DEBIAN_FRONTEND", "noninteractive").output()
        };
        install(&["update", "--quiet"])?;
        let arguments = [&["install", "--yes", "--quiet", "--no-install-recommends"], PACKAGES.as_slice()].concat();
        let output = install(&arguments).context("apt-get does not start")?;
        if !output.status.success() {
            bail!("apt-get cannot install Chromium: {}", String::from_utf8_lossy(&output.stderr).trim());
        }
    }
    there().context(
        "the journeys through the page need Chromium and its driver: on Debian `apt-get install chromium \
         chromium-driver`, elsewhere Chromium or Chrome with the chromedriver of the same version, in the PATH. \
         QUARTERPIN_WITHOUT_BROWSER=1 leaves the journeys out",
    )
}

fn there() -> Option<Browser> {
    let chromium = ["chromium", "chromium-browser", "google-chrome", "chrome"].into_iter().find_map(in_path)?;
    Some(Browser { chromium, driver: in_path("chromedriver")? })
}

fn in_path(name: &str) -> Option<PathBuf> {
    let name = format!("{name}{}", std::env::consts::EXE_SUFFIX);
    std::env::split_paths(&std::env::var_os("PATH")?).map(|folder| folder.join(&name)).find(|file| file.is_file())
}

fn is_root() -> bool {
    Command::new("id").arg("-u").output().is_ok_and(|output| output.stdout.trim_ascii() == b"0")
}
