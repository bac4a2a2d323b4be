//! Asks what the test garment was like, edge by edge.

use super::{Stop, remarks};
use crate::args::{Judgements, judged};
use crate::commands::reading::Read;
use crate::dialogue::{Dialogue, Silence};
use engine::sheet::{Opening, Section, Verdict};
use engine::words::trial::sewn;
use std::io::{BufRead, Write};

/// Every judgement, by questions on the terminal.
pub(super) fn judgements(read: &Read) -> Result<Judgements, Stop> {
    asked(&mut Dialogue::here(), read).map_err(|_| {
        Stop::plain("the questions ended before the last answer, and nothing was written", "start again when you like")
    })
}

fn asked<R: BufRead, W: Write>(dialogue: &mut Dialogue<R, W>, read: &Read) -> Result<Judgements, Silence> {
    dialogue.say(
        "How did it feel? loose, right or tight; Enter leaves an edge out; Ctrl-C ends, and nothing is written.",
    )?;
    let mut edge = |opening: Opening| {
        let question = format!("  {}?", sewn(&read.sheet, &read.made.garment, opening));
        dialogue.until(&question, verdict)
    };
    let (left, right, top) = (edge(Opening::LeftLeg)?, edge(Opening::RightLeg)?, edge(Opening::Top)?);
    dialogue.say("What else was seen? One remark a line, such as “rides up at the back”; Enter ends.")?;
    let mut fit = Vec::new();
    loop {
        let remark = dialogue.until("  remark?", |text| match text {
            "" => Ok(None),
            text => remarks::one(text, read.sheet.units).map(|_| Some(text.to_owned())),
        })?;
        match remark {
            Some(remark) => fit.push(remark),
            None => break,
        }
    }
    let note = dialogue.ask("  A note?")?;
    Ok(Judgements { left, right, top, fit, note: (!note.is_empty()).then_some(note) })
}

fn verdict(text: &str) -> Result<Vec<(Option<Section>, Verdict)>, String> {
    if text.is_empty() { Ok(Vec::new()) } else { judged(text).map(|judged| vec![judged]) }
}
