//! The command `quarterpin`.

use clap::Parser;
use quarterpin::{args::Typed, commands};
use std::process::ExitCode;

fn main() -> ExitCode {
    // Wrong use ends here, with a hint and exit code 2.
    let typed = Typed::parse();
    let request = typed.meaning();
    let answer = commands::run(&request);
    answer.tell()
}
