//! `finishes`: the table of edge finishes, for those who have to choose one.

use super::new::write_new_file;
use super::stop::Stop;
use crate::answer::Answer;
use crate::args::AnswerAs;
use crate::terminal::table::{Column::Left, Columns};
use crate::terminal::{heading, plain, wrapped};
use engine::finish::{Demand, FinishKind, Settings, Skin, Takes, Ways};
use engine::keys::finish;
use engine::sheet::{ClothKind, Opening};
use export::mark::PROGRAM;
use export::profile::{Panel, strip};
use export::record::VERSION;
use serde_json::{Value, json};
use std::path::Path;

pub(super) fn run(picture: Option<&Path>, answer: AnswerAs) -> Result<Answer, Stop> {
    if let Some(file) = picture {
        write_new_file(file, strip(&panels()))?;
    }
    let text = match answer {
        AnswerAs::Text => text(picture),
        AnswerAs::Json => format!("{:#}\n", json!({ "version": VERSION, "program": PROGRAM, "finishes": all() })),
    };
    Ok(Answer::done(text))
}

fn all() -> Value {
    FinishKind::all().map(record).collect()
}

fn takes(kind: FinishKind) -> &'static str {
    match kind.takes() {
        Takes::Elastic => "an elastic",
        Takes::Threaded => "an elastic, threaded",
        Takes::Strip => "a strip of the cloth",
        Takes::Nothing => "nothing",
    }
}

const fn put_on(ways: Ways) -> &'static str {
    match ways {
        Ways::FlatOrRound => "flat or round",
        Ways::RoundOnly => "round",
    }
}

const fn cloth(demand: Demand) -> &'static str {
    match demand {
        Demand::AnyCloth => "any",
        Demand::Knit => "knits",
        Demand::NoFraying => "what does not fray",
    }
}

const fn skin(skin: Skin) -> &'static str {
    match skin {
        Skin::Touches => "on the skin",
        Skin::Covered => "no",
    }
}

/// Every key that a section of this finish can have, in the order of a sheet.
fn keys(kind: FinishKind) -> Vec<&'static str> {
    finish::all().filter(|key| *key != finish::KIND && kind.takes_key(*key)).map(|key| key.name()).collect()
}

/// A finish on a leg, with a plush elastic 12 mm wide of which 2 mm are picots: what the picture shows.
fn shown() -> Settings {
    Settings::usual(Opening::LeftLeg, ClothKind::Knit, (12.0, 2.0), 7.0, 90.0)
}

fn text(picture: Option<&Path>) -> String {
    let heads = [("finish", Left), ("takes", Left), ("put on", Left), ("cloth", Left), ("elastic", Left)];
    let mut table = Columns::new(&heads);
    for kind in FinishKind::all() {
        let elastic = if kind.takes().elastic() { skin(kind.lines(&shown()).skin) } else { "none" };
        let cells = [kind.name(), takes(kind), put_on(kind.ways()), cloth(kind.demands()), elastic];
        table.line(cells.map(str::to_owned));
    }
    let mut text = heading("Finishes").trim_start().to_owned() + &table.text() + &heading("In words");
    for kind in FinishKind::all() {
        let lead = format!("  {}: ", kind.name());
        let keys = keys(kind).join(", ");
        let words = format!("{}. Keys: {keys}", kind.summary());
        text += &format!("{lead}{}\n", wrapped(&words, 4));
    }
    if let Some(file) = picture {
        text += &format!("\nWritten: {}\n", plain(&file.display().to_string()));
    }
    text
}

fn record(kind: FinishKind) -> Value {
    let lines = kind.lines(&shown());
    json!({
        "name": kind.name(),
        "summary": kind.summary(),
        "takes": takes(kind),
        "put_on": put_on(kind.ways()),
        "cloth": cloth(kind.demands()),
        "keys": keys(kind),
        "on_a_12_mm_elastic": {
            "cut": lines.cut,
            "sewing": lines.sewing,
            "second_row": lines.second,
            "measured": lines.measured,
            "elastic": lines.elastic.map(|(from, to)| [from, to]),
        },
    })
}

/// A picture of one finish alone.
pub(super) fn picture_of(kind: FinishKind) -> String {
    strip(&[panel(kind)])
}

fn panels() -> Vec<Panel> {
    FinishKind::all().map(panel).collect()
}

/// One finish, cut across.
pub(crate) fn panel(kind: FinishKind) -> Panel {
    let settings = shown();
    let place = match kind.lines(&settings).cut {
        c if c > 0.0 => format!("cut {c:.1} mm beyond the finished edge"),
        c if c < 0.0 => format!("cut {:.1} mm inside the finished edge", -c),
        _ => "cut at the finished edge".to_owned(),
    };
    Panel {
        title: kind.name().to_owned(),
        caption: vec![kind.summary().to_owned(), place],
        profile: kind.profile(&settings),
    }
}
