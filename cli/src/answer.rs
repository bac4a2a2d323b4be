//! What a command has to say, and the exit code that goes with it.

use crate::harmless::shown;
use std::io::{self, ErrorKind, Write};
use std::process::ExitCode;

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Done; there may be notes and warnings.
    Done,
    /// The sheet was understood, but the garment is refused.
    Refused,
    /// The input cannot be read, or the use is wrong.
    Unusable,
}

impl End {
    /// The process's exit code.
    pub const fn code(self) -> u8 {
        match self {
            Self::Done => 0,
            Self::Refused => 1,
            Self::Unusable => 2,
        }
    }
}

/// Everything a run says.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// For standard output. May carry styles; they are dropped where nobody sees them.
    pub out: String,
    /// For standard error, likewise.
    pub err: String,
    /// How it ended.
    pub end: End,
}

impl Answer {
    /// All went well, and this is the result.
    pub const fn done(out: String) -> Self {
        Self { out, err: String::new(), end: End::Done }
    }

    /// Says it on the terminal. Styles are kept only on a terminal that shows them, and never
    /// with `NO_COLOR`. A reader who has gone away is no error.
    pub fn tell(&self) -> ExitCode {
        // Nobody is left to hear it where standard error itself is gone.
        let _ = say(&mut anstream::stderr(), &shown(&self.err));
        match say(&mut anstream::stdout(), &shown(&self.out)) {
            Ok(()) => self.end.code().into(),
            Err(e) => {
                let _ = say(&mut anstream::stderr(), &format!("error: the result cannot be written out: {e}\n"));
                End::Unusable.code().into()
            }
        }
    }
}

fn say(stream: &mut impl Write, text: &str) -> io::Result<()> {
    match stream.write_all(text.as_bytes()).and_then(|()| stream.flush()) {
        Err(e) if e.kind() == ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}
