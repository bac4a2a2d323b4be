//! `explain`: what a code or a term means, how it is computed, what to do.

mod picture;

use super::new::write_new_file;
use super::stop::Stop;
use crate::answer::Answer;
use crate::args::AnswerAs;
use crate::sheet::words::nearest;
use crate::terminal::{heading, plain, wrapped};
use engine::finish::FinishKind;
use engine::trial::remark::Remark;
use engine::words::explain::{self, Entry};
use serde_json::{Value, json};
use std::path::Path;

pub(super) fn run(name: Option<&str>, file: Option<&Path>, answer: AnswerAs) -> Result<Answer, Stop> {
    let Some(name) = name else {
        return Ok(Answer::done(match answer {
            AnswerAs::Json => list_as_json(),
            AnswerAs::Text => list(),
        }));
    };
    let explained = explained(name, answer)?;
    let Some(file) = file else { return Ok(explained) };
    let drawn = picture::of(name).ok_or_else(|| {
        let names: Vec<&str> = picture::names().collect();
        let next = format!("pictures are there for every finish and for {}", names.join(", "));
        Stop::plain(&format!("a picture of \"{}\" would not help", plain(name)), &next)
    })?;
    write_new_file(file, drawn)?;
    Ok(match answer {
        AnswerAs::Json => explained,
        AnswerAs::Text => Answer::done(format!("{}\nWritten: {}\n", explained.out, plain(&file.display().to_string()))),
    })
}

fn explained(name: &str, answer: AnswerAs) -> Result<Answer, Stop> {
    if let Some(entry) = explain::of(name) {
        return Ok(Answer::done(one(entry, answer)));
    }
    if let Some(kind) = FinishKind::named(name) {
        let next = "`finishes` lists its keys; `finishes --picture FILE.svg` draws it";
        let computed = "where its lines run is told by `finishes --json`";
        return Ok(Answer::done(one(&Entry { name: kind.name(), means: kind.summary(), computed, next }, answer)));
    }
    if Remark::of(name).is_some() {
        return Err(Stop::plain(
            &format!("\"{}\" is a fit remark, of a test garment", plain(name)),
            "`quarterpin trial SHEET --fit \"…\"` says what to do about it; `--fit list` lists all of them",
        ));
    }
    let known = explain::codes().chain(explain::terms()).map(|entry| entry.name);
    let next = match nearest(name, known) {
        Some(near) => format!("did you mean \"{near}\"?"),
        None => "`quarterpin explain` lists every code and term".to_owned(),
    };
    Err(Stop::plain(&format!("nothing is known of \"{}\"", plain(name)), &next))
}

fn one(entry: &Entry, answer: AnswerAs) -> String {
    let Entry { name, means, computed, next } = *entry;
    match answer {
        AnswerAs::Json => format!("{:#}\n", as_json(entry)),
        AnswerAs::Text => {
            let part = |lead: &str, text: &str| format!("  {lead}{}\n", wrapped(text, 2 + lead.len()));
            heading(name).trim_start().to_owned()
                + &part("means:    ", means)
                + &part("computed: ", computed)
                + &part("next:     ", next)
        }
    }
}

fn list_as_json() -> String {
    let all = |entries: &mut dyn Iterator<Item = &'static Entry>| entries.map(as_json).collect::<Vec<_>>();
    let finishes: Vec<&str> = FinishKind::all().map(|kind| kind.name()).collect();
    let (codes, terms) = (all(&mut explain::codes()), all(&mut explain::terms()));
    format!("{:#}\n", json!({ "codes": codes, "terms": terms, "finishes": finishes }))
}

fn as_json(entry: &Entry) -> Value {
    let Entry { name, means, computed, next } = *entry;
    json!({ "name": name, "means": means, "computed": computed, "next": next })
}

fn list() -> String {
    let names = |entries: &mut dyn Iterator<Item = &'static Entry>| {
        let names: Vec<&str> = entries.map(|entry| entry.name).collect();
        format!("  {}\n", wrapped(&names.join(", "), 2))
    };
    let finishes: Vec<&str> = FinishKind::all().map(|kind| kind.name()).collect();
    heading("Codes of the checks").trim_start().to_owned()
        + &names(&mut explain::codes())
        + &heading("Terms")
        + &names(&mut explain::terms())
        + &heading("Finishes")
        + &format!("  {}\n", wrapped(&finishes.join(", "), 2))
}
