//! `open`: the page on the loopback address, until it is told to stop.

use super::stop::Stop;
use crate::answer::Answer;
use crate::args::Browser;
use crate::page::{Desk, Folder, Listening, Trouble, serve};
use std::ffi::OsStr;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(super) fn run(sheet: Option<&Path>, port: Option<u16>, browser: Browser) -> Result<Answer, Stop> {
    let desk = desk(sheet)?;
    let at = Listening::at(port).map_err(|e| {
        let what =
            format!("the page cannot be served{}: {e}", port.map(|p| format!(" at port {p}")).unwrap_or_default());
        Stop::plain(&what, "choose another port, or leave --port out")
    })?;
    let address = at.address();
    let ready = || {
        // Whoever started it may have gone away from its output; the page is there all the same.
        let _ = say(&address);
        if browser == Browser::Opened && open::that_detached(&address).is_err() {
            let _ = writeln!(io::stderr(), "no browser could be opened: open the address above in one");
        }
    };
    serve(at, desk, ready).map_err(|e| Stop::plain(&format!("the page cannot be served: {e}"), "try again"))?;
    Ok(Answer::done(String::new()))
}

fn say(address: &str) -> io::Result<()> {
    let mut out = io::stdout().lock();
    writeln!(out, "{address}")?;
    writeln!(out, "Open this address in a browser; only this machine can. Ctrl-C ends.")?;
    out.flush()
}

/// With the sheet that was named, else with the folder one is in.
fn desk(sheet: Option<&Path>) -> Result<Desk, Stop> {
    let Some(sheet) = sheet else { return Ok(Desk::with(folder(Path::new("."))?)) };
    let unread = |e: &dyn std::fmt::Display| {
        let what = format!("{} cannot be opened: {e}", sheet.display());
        Stop::plain(&what, "check its name, or begin a new one with `quarterpin open` alone")
    };
    let path: PathBuf = std::fs::canonicalize(sheet).map_err(|e| unread(&e))?;
    if path.is_dir() {
        return Ok(Desk::with(folder(&path)?));
    }
    let file = path.file_name().and_then(OsStr::to_str).ok_or_else(|| unread(&"its name is no text"))?;
    let mut desk = Desk::with(folder(path.parent().unwrap_or(Path::new(".")))?);
    desk.open(file).map_err(|Trouble { text, next, .. }| Stop::plain(&text, &next))?;
    Ok(desk)
}

fn folder(path: &Path) -> Result<Folder, Stop> {
    Folder::at(path).map_err(|e| Stop::plain(&format!("{}: {e}", path.display()), "check the folder"))
}
