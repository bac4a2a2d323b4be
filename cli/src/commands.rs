//! The commands: each turns a request into an answer.

mod check;
pub(crate) mod class;
pub(crate) mod compare;
mod completions;
mod draft;
mod drawn;
mod explain;
pub(crate) mod exports;
pub(crate) mod finishes;
mod form;
mod input;
pub(crate) mod lays;
mod licences;
mod man;
pub(crate) mod new;
mod open;
mod reading;
mod record;
pub(crate) mod sizes;
mod stop;
pub(crate) mod trial;
mod walk;
mod work;

use crate::answer::{Answer, End};
use crate::args::{AnswerAs, Call, FileChoices, Request, Voice};
use crate::harmless::json;
use crate::output::Ready;
use crate::schema::schema;
pub(crate) use stop::Stop;

/// Does what is asked.
pub fn run(call: &Call) -> Answer {
    let Call { request, voice } = call;
    let answer = done(request).unwrap_or_else(|stop| match request {
        Request::Draft { reading, .. } => draft::stopped(stop, reading.answer),
        _ => stop.told(request.answer()),
    });
    match (voice, request.answer(), answer.end) {
        (Voice::Quiet, AnswerAs::Text, End::Done) => Answer::done(String::new()),
        (_, AnswerAs::Json, _) => Answer { out: json(answer.out), ..answer },
        _ => answer,
    }
}

fn done(request: &Request) -> Result<Answer, Stop> {
    match request {
        Request::Draft { reading, into, replace, files } => draft::run(reading, into, *replace, files),
        Request::Walk { reading, marks } => walk::run(reading, *marks),
        Request::Work { reading, reasons } => work::run(reading, *reasons),
        Request::Inspect { reading } => drawn::inspect(reading),
        Request::Check { reading } => check::run(reading),
        Request::Class(class) => class::run(class),
        Request::Sizes(sizes) => sizes::run(sizes),
        Request::Finishes { picture, answer } => finishes::run(picture.as_deref(), *answer),
        Request::New { file, units, questions } => new::run(file, *units, *questions),
        Request::Open { sheet, port, browser } => open::run(sheet.as_deref(), *port, *browser),
        Request::Explain { code, picture, answer } => explain::run(code.as_deref(), picture.as_deref(), *answer),
        Request::Compare(compare) => compare::run(compare),
        Request::Form { file, units, paper, replace } => form::run(file, *units, *paper, *replace),
        Request::Trial { sheet, judged, date, apply, picture, answer } => {
            trial::run(sheet, judged, *date, (*apply, picture.as_deref()), *answer)
        }
        Request::Schema => Ok(Answer::done(format!("{:#}\n", schema()))),
        Request::Completions { shell } => Ok(completions::run(*shell)),
        Request::Man { into, replace } => man::run(into, *replace),
        Request::Licences => Ok(licences::run()),
    }
}

/// The answer to a command line that was not understood, for a program.
pub fn misuse(e: &clap::Error) -> Answer {
    let said = e.render().to_string();
    let mut parts = said.trim_end().split("\n\n");
    let what = parts.next().unwrap_or_default().trim_start_matches("error: ");
    let next: Vec<&str> = parts.map(str::trim).collect();
    let mut stop = Stop::unusable(e.render().ansi().to_string());
    stop.troubles = vec![stop::refusal("use", "the command line", what, &next.join("; "))];
    stop.told(AnswerAs::Json)
}

/// The same for a person.
pub fn misuse_told(e: &clap::Error) -> Answer {
    Answer { out: String::new(), err: e.render().ansi().to_string(), end: End::Unusable }
}

/// Every file of a pattern from the text of a sheet, in memory, by default choices; none where the
/// sheet makes no garment. What `draft` does but for reading, writing and telling; for benches.
pub fn files(source: &str) -> Option<Vec<Ready>> {
    let mut read = reading::Read::of(source)?;
    let choices = FileChoices::default();
    exports::all(&mut read, &choices).ok().map(|files| files.ready)
}
