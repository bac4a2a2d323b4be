//! `work`: the order of work alone, every step in full.

use super::stop::Stop;
use super::{reading, record};
use crate::answer::Answer;
use crate::args::{AnswerAs, Reading, Reasons};
use crate::terminal::work;
use export::record::Part;

pub(super) fn run(reading: &Reading, reasons: Reasons) -> Result<Answer, Stop> {
    let read = reading::read(reading)?;
    read.stop_at_warnings(reading)?;
    let garment = &read.made.garment;
    let out = match reading.answer {
        AnswerAs::Json => record::parts(garment, &[Part::OrderOfWork])?,
        AnswerAs::Text => work::render(&garment.order_of_work, read.sheet.units, reasons),
    };
    Ok(Answer::done(out))
}
