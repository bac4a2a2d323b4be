//! `explain`: what a code or a term means, how it is computed, what to do.

use super::stop::Stop;
use crate::answer::Answer;
use crate::args::AnswerAs;
use crate::sheet::words::nearest;
use crate::terminal::{heading, plain, wrapped};
use engine::finish::FinishKind;
use engine::words::explain::{self, Entry};
use serde_json::json;

pub(super) fn run(name: Option<&str>, answer: AnswerAs) -> Result<Answer, Stop> {
    let Some(name) = name else { return Ok(Answer::done(list())) };
    if let Some(entry) = explain::of(name) {
        return Ok(Answer::done(one(entry, answer)));
    }
    if let Some(kind) = FinishKind::named(name) {
        let next = "`finishes` lists its keys; `finishes --picture FILE.svg` draws it";
        let computed = "where its lines run is told by `finishes --json`";
        return Ok(Answer::done(one(&Entry { name: kind.name(), means: kind.summary(), computed, next }, answer)));
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
        AnswerAs::Json => {
            format!("{:#}\n", json!({ "name": name, "means": means, "computed": computed, "next": next }))
        }
        AnswerAs::Text => {
            let part = |lead: &str, text: &str| format!("  {lead}{}\n", wrapped(text, 2 + lead.len()));
            heading(name).trim_start().to_owned()
                + &part("means:    ", means)
                + &part("computed: ", computed)
                + &part("next:     ", next)
        }
    }
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
