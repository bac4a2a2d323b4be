//! Questions on a terminal, one by one.

mod answers;

use crate::harmless::shown;
pub(crate) use answers::Answers;
use std::io::{self, BufRead, IsTerminal, Write};

/// Asks on standard output and hears on standard input.
pub(crate) struct Dialogue<R, W> {
    heard: R,
    said: W,
    answers: Answers,
}

/// Why there is no answer.
#[derive(Debug)]
pub(crate) enum Silence {
    /// Nobody answers any more.
    Ended,
    /// The terminal is gone.
    Io,
}

impl From<io::Error> for Silence {
    fn from(_: io::Error) -> Self {
        Self::Io
    }
}

/// Is there a person at both ends?
pub(crate) fn is_there() -> bool {
    io::stdin().is_terminal() && io::stdout().is_terminal()
}

impl Dialogue<io::StdinLock<'static>, io::Stdout> {
    /// With the person at the terminal; no answer is kept.
    pub(crate) fn here() -> Self {
        Self { heard: io::stdin().lock(), said: io::stdout(), answers: Answers::default() }
    }
}

impl<R: BufRead, W: Write> Dialogue<R, W> {
    /// From now on with these answers: what was given before is not asked again, and what is given is
    /// kept.
    pub(crate) fn keep(&mut self, answers: Answers) {
        self.answers = answers;
    }

    /// All that was kept can go.
    pub(crate) fn done(&mut self) {
        self.answers.remove();
    }

    /// A text on lines of its own; not while answers of before are gone through.
    pub(crate) fn say(&mut self, text: &str) -> Result<(), Silence> {
        if !self.answers.has_more() {
            writeln!(self.said, "{}", shown(text))?;
        }
        Ok(())
    }

    /// One line of an answer, without spaces round it.
    pub(crate) fn ask(&mut self, question: &str) -> Result<String, Silence> {
        if let Some(answer) = self.answers.take() {
            return Ok(answer);
        }
        write!(self.said, "{} ", shown(question))?;
        self.said.flush()?;
        let mut line = String::new();
        if self.heard.read_line(&mut line)? == 0 {
            return Err(Silence::Ended);
        }
        let answer = line.trim().to_owned();
        self.answers.put(&answer);
        Ok(answer)
    }

    /// The last answer meant this, however it was given.
    pub(crate) fn meant(&mut self, answer: &str) {
        self.answers.amend(Some(answer));
    }

    /// The last answer meant nothing: it is asked for again.
    pub(crate) fn again(&mut self, why: &str) -> Result<(), Silence> {
        self.answers.amend(None);
        self.say(&format!("  {why}"))
    }

    /// Asks until the answer means something; what is wrong with it is said.
    pub(crate) fn until<T>(
        &mut self,
        question: &str,
        mut meant: impl FnMut(&str) -> Result<T, String>,
    ) -> Result<T, Silence> {
        loop {
            let answer = self.ask(question)?;
            match meant(&answer) {
                Ok(value) => return Ok(value),
                Err(why) => self.again(&why)?,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_asks_until_the_answer_means_something() {
        let mut said = Vec::new();
        let mut dialogue = Dialogue { heard: &b"x\n 7 \n"[..], said: &mut said, answers: Answers::default() };
        let number = |text: &str| text.parse::<u8>().map_err(|_| "a number, please".to_owned());
        assert_eq!(dialogue.until("how many?", number).unwrap(), 7);
        assert!(matches!(dialogue.ask("and?"), Err(Silence::Ended)));
        assert_eq!(String::from_utf8(said).unwrap(), "how many?   a number, please\nhow many? and? ");
    }
}
