//! The commands: each turns a request into an answer.

mod check;
pub(crate) mod class;
mod draft;
mod drawn;
mod exports;
mod finishes;
mod new;
mod reading;
mod record;
mod stop;
mod walk;
mod work;

use crate::answer::Answer;
use crate::args::{FileChoices, Request};
use crate::output::Ready;
use crate::schema::schema;
use stop::Stop;

/// Does what is asked.
pub fn run(request: &Request) -> Answer {
    let result = match request {
        Request::Draft { reading, into, replace, files } => draft::run(reading, into, *replace, files),
        Request::Walk { reading, marks } => walk::run(reading, *marks),
        Request::Work { reading, reasons } => work::run(reading, *reasons),
        Request::Inspect { reading } => drawn::inspect(reading),
        Request::Check { reading } => check::run(reading),
        Request::Class(class) => class::run(class),
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
    exports::all(&read, &FileChoices::default()).ok().map(|files| files.ready)
}
