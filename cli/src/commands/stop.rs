//! Why a command ends early.

use crate::answer::{Answer, End};
use crate::args::AnswerAs;
use crate::sheet::ReadError;
use crate::terminal;
use export::record::Trouble;

/// Why a command ended early, ready to be shown.
#[derive(Debug)]
pub(crate) struct Stop {
    answer: Answer,
    /// The same for a program, where the answer has nothing for one yet.
    pub(super) troubles: Vec<Trouble>,
}

/// One reason, as programs get it.
pub(super) fn refusal(code: &'static str, place: &str, what: &str, next: &str) -> Trouble {
    let [place, text, next] = [place, what, next].map(str::to_owned);
    Trouble { code, place, text, next }
}

impl Stop {
    /// The sheet was understood, and refused; `out` is for those who pipe it.
    pub(super) const fn refused(out: String, err: String) -> Self {
        Self { answer: Answer { out, err, end: End::Refused }, troubles: Vec::new() }
    }

    /// The input cannot be used.
    pub(super) const fn unusable(err: String) -> Self {
        Self { answer: Answer { out: String::new(), err, end: End::Unusable }, troubles: Vec::new() }
    }

    /// One thing that went wrong, and what to do.
    pub(super) fn plain(what: &str, next: &str) -> Self {
        let troubles = vec![refusal("command", "", what, next)];
        Self { troubles, ..Self::unusable(terminal::trouble(what, next)) }
    }

    /// The sheet cannot be read.
    pub(super) fn unread(e: &ReadError) -> Self {
        let troubles = match e {
            ReadError::Sheet { problems, .. } => {
                let one = |(line, key, what, next): (usize, &str, &str, &str)| {
                    let place = if key.is_empty() { format!("line {line}") } else { format!("line {line}, {key}") };
                    refusal("sheet", &place, what, next)
                };
                problems.told().map(one).collect()
            }
            other => vec![file(&other.to_string())],
        };
        Self { troubles, ..Self::unusable(e.render(true)) }
    }

    /// What was wrong and what to do, in plain words.
    pub(crate) fn in_words(&self) -> (String, String) {
        match self.troubles.as_slice() {
            [one, ..] => (one.text.clone(), one.next.clone()),
            [] => (anstream::adapter::strip_str(&self.answer.err).to_string(), String::new()),
        }
    }

    /// The answer, in the shape that was asked for.
    pub(super) fn told(self, shape: AnswerAs) -> Answer {
        if shape == AnswerAs::Text || !self.answer.out.is_empty() {
            return self.answer;
        }
        match export::record::troubles(&self.troubles) {
            Ok(out) => Answer { out, ..self.answer },
            Err(e) => broken(&e).answer,
        }
    }
}

/// A fault of the program itself.
pub(super) fn broken(cause: &dyn std::error::Error) -> Stop {
    Stop::plain(&cause.to_string(), "report it with the sheet: it is a fault of the program")
}

/// The error's own words end with what to do.
fn file(said: &str) -> Trouble {
    let (what, next) = said.split_once("; ").unwrap_or((said, ""));
    refusal("file", "", what, next)
}
