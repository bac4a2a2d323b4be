//! The command `quarterpin`.

use quarterpin::args::{Typed, wants_json};
use quarterpin::{commands, terminal};
use std::ffi::OsString;
use std::process::ExitCode;

fn main() -> ExitCode {
    terminal::follow();
    let words: Vec<OsString> = std::env::args_os().collect();
    match Typed::read(&words) {
        Ok(call) => commands::run(&call).tell(),
        // A program that asked for JSON gets it for wrong use as well.
        Err(e) if e.use_stderr() && wants_json(&words) => commands::misuse(&e).tell(),
        // Wrong use ends here, with a hint and exit code 2: it repeats what was typed.
        Err(e) if e.use_stderr() => commands::misuse_told(&e).tell(),
        // A call for help.
        Err(e) => e.exit(),
    }
}
