//! `completions`: the words of the command line, for a shell.

use crate::answer::Answer;
use crate::args::Typed;
use clap::CommandFactory;
use clap_complete::Shell;

pub(super) fn run(shell: Shell) -> Answer {
    let mut command = Typed::command();
    let name = command.get_name().to_owned();
    let mut out = Vec::new();
    clap_complete::generate(shell, &mut command, name, &mut out);
    Answer::done(String::from_utf8_lossy(&out).into_owned())
}
