//! Questions on a terminal, one by one.

use crate::harmless::shown;
use std::io::{self, BufRead, IsTerminal, Write};

/// Asks on standard output and hears on standard input.
pub(crate) struct Dialogue<R, W> {
    heard: R,
    said: W,
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
    /// With the person at the terminal.
    pub(crate) fn here() -> Self {
        Self { heard: io::stdin().lock(), said: io::stdout() }
    }
}

impl<R: BufRead, W: Write> Dialogue<R, W> {
    /// A text on lines of its own.
    pub(crate) fn say(&mut self, text: &str) -> Result<(), Silence> {
        writeln!(self.said, "{}", shown(text))?;
        Ok(())
    }

    /// One line of an answer, without spaces round it.
    pub(crate) fn ask(&mut self, question: &str) -> Result<String, Silence> {
        write!(self.said, "{} ", shown(question))?;
        self.said.flush()?;
        let mut line = String::new();
        if self.heard.read_line(&mut line)? == 0 {
            return Err(Silence::Ended);
        }
        Ok(line.trim().to_owned())
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
                Err(why) => self.say(&format!("  {why}"))?,
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
        let mut dialogue = Dialogue { heard: &b"x\n 7 \n"[..], said: &mut said };
        let number = |text: &str| text.parse::<u8>().map_err(|_| "a number, please".to_owned());
        assert_eq!(dialogue.until("how many?", number).unwrap(), 7);
        assert!(matches!(dialogue.ask("and?"), Err(Silence::Ended)));
        assert_eq!(String::from_utf8(said).unwrap(), "how many?   a number, please\nhow many? and? ");
    }
}
