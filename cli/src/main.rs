//! The command `quarterpin`.

use quarterpin::{args::Typed, commands};
use std::process::ExitCode;

fn main() -> ExitCode {
    match Typed::read(std::env::args_os()) {
        Ok(request) => commands::run(&request).tell(),
        // Wrong use ends here, with a hint and exit code 2.
        Err(e) => e.exit(),
    }
}
