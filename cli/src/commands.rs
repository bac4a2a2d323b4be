//! The commands: each turns a request into an answer.

mod check;
mod draft;
mod drawn;
mod exports;
mod finishes;
mod new;
mod reading;
mod record;
mod walk;
mod work;

use crate::answer::{Answer, End};
use crate::args::{CutterFiles, PaperUse, Request};
use crate::output::Ready;
use crate::schema::schema;
use crate::terminal;

/// Does what is asked.
pub fn run(request: &Request) -> Answer {
    let result = match request {
        Request::Draft { reading, into, replace, paper, cutter } => {
            draft::run(reading, into, *replace, &exports::Choices { paper, cutter })
        }
        Request::Walk { reading, marks } => walk::run(reading, *marks),
        Request::Work { reading, reasons } => work::run(reading, *reasons),
        Request::Inspect { reading } => drawn::inspect(reading),
        Request::Check { reading } => check::run(reading),
        Request::Finishes { picture, answer } => finishes::run(picture.as_deref(), *answer),
        Request::New { file, units } => new::run(file, *units),
        Request::Schema => Ok(Answer::done(format!("{:#}\n", schema()))),
    };
    result.unwrap_or_else(|Stop(answer)| answer)
}

/// Every file of a pattern from the text of a sheet, in memory, by default choices; none where the
/// sheet makes no garment. What `draft` does but for reading, writing and telling; for benches.
pub fn files(source: &str) -> Option<Vec<Ready>> {
    let read = reading::Read::of(source)?;
    let (paper, cutter) = (PaperUse::default(), CutterFiles::default());
    exports::all(&read, &exports::Choices { paper: &paper, cutter: &cutter }).ok().map(|files| files.ready)
}

/// Why a command ended early, ready to be shown.
#[derive(Debug)]
struct Stop(Answer);

impl Stop {
    /// The sheet was understood, and refused; `out` is for those who pipe it.
    const fn refused(out: String, err: String) -> Self {
        Self(Answer { out, err, end: End::Refused })
    }

    /// The input cannot be used.
    const fn unusable(err: String) -> Self {
        Self(Answer { out: String::new(), err, end: End::Unusable })
    }

    /// One thing that went wrong, and what to do.
    fn plain(what: &str, next: &str) -> Self {
        Self::unusable(terminal::trouble(what, next))
    }
}
