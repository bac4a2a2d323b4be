//! Answers that are kept in a small file while questions are asked, so that nothing is lost however
//! they end: the file is whole or not there, and goes when all is done.

use crate::output::put_beside;
use serde::{Deserialize, Serialize};
use std::collections::VecDeque;
use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

/// What is kept: as it was answered, in the order that it was asked.
#[derive(Debug, Default, Deserialize, Serialize)]
struct Kept {
    /// Which questions these answer, so that no others are answered with them.
    questions: String,
    /// What was chosen beside the questions.
    choice: Option<String>,
    answers: Vec<String>,
}

/// Answers, those of before among them; by default kept nowhere.
#[derive(Debug, Default)]
pub(crate) struct Answers {
    file: Option<PathBuf>,
    kept: Kept,
    /// Given before, and not gone through yet.
    before: VecDeque<String>,
}

impl Answers {
    /// Those that are kept beside a file that is to be written by these questions.
    pub(crate) fn beside(target: &Path, questions: &str, choice: Option<&str>) -> Self {
        let mut name: OsString = target.to_owned().into();
        name.push(".answers");
        let file = PathBuf::from(name);
        let fresh = Kept { questions: questions.to_owned(), choice: choice.map(str::to_owned), answers: Vec::new() };
        match fs::read_to_string(&file) {
            Err(_) => Self { file: Some(file), kept: fresh, before: VecDeque::new() },
            Ok(text) => match serde_json::from_str::<Kept>(&text) {
                Ok(kept) if kept.questions == questions => {
                    let before = kept.answers.iter().cloned().collect();
                    Self { file: Some(file), kept: Kept { answers: Vec::new(), ..kept }, before }
                }
                // Somebody else's file stays what it is.
                _ => Self { file: None, kept: fresh, before: VecDeque::new() },
            },
        }
    }

    /// What was chosen beside the questions when they were begun.
    pub(crate) fn choice(&self) -> Option<&str> {
        self.kept.choice.as_deref()
    }

    /// The file, where there is one.
    pub(crate) fn file(&self) -> Option<&Path> {
        self.file.as_deref()
    }

    /// How many of before are to be gone through.
    pub(crate) fn left(&self) -> usize {
        self.before.len()
    }

    /// Those of before are not wanted; the questions begin anew, with this choice.
    pub(crate) fn forget(&mut self, choice: Option<&str>) {
        self.before.clear();
        self.kept.choice = choice.map(str::to_owned);
        self.remove();
    }

    /// Are there any of before?
    pub(super) fn has_more(&self) -> bool {
        !self.before.is_empty()
    }

    /// The next one of before.
    pub(super) fn take(&mut self) -> Option<String> {
        let answer = self.before.pop_front()?;
        self.kept.answers.push(answer.clone());
        Some(answer)
    }

    pub(super) fn put(&mut self, answer: &str) {
        self.kept.answers.push(answer.to_owned());
        self.write();
    }

    /// The last answer is put otherwise, or taken back. What came after one that is taken back answers
    /// other questions.
    pub(super) fn amend(&mut self, answer: Option<&str>) {
        self.kept.answers.pop();
        match answer {
            Some(answer) => self.kept.answers.push(answer.to_owned()),
            None => self.before.clear(),
        }
        if !self.has_more() {
            self.write();
        }
    }

    pub(super) fn remove(&mut self) {
        if let Some(file) = &self.file {
            let _ = fs::remove_file(file);
        }
    }

    /// Where it cannot be kept, the questions go on without.
    fn write(&self) {
        let Some(file) = &self.file else { return };
        let folder = file.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
        let Ok(text) = serde_json::to_string_pretty(&self.kept) else { return };
        if let Ok(written) = put_beside(folder, ".quarterpin-answers-", text.as_bytes()) {
            let _ = written.persist(file);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn begun(folder: &Path) -> Answers {
        Answers::beside(&folder.join("ada.toml"), "questions 1", Some("in"))
    }

    #[test]
    fn what_was_answered_is_there_again() {
        let folder = tempfile::tempdir().unwrap();
        let mut first = begun(folder.path());
        ["Ada", "snug", "73"].iter().for_each(|answer| first.put(answer));
        first.amend(Some("74"));
        drop(first);
        let mut again = Answers::beside(&folder.path().join("ada.toml"), "questions 1", None);
        assert_eq!((again.left(), again.choice()), (3, Some("in")));
        assert_eq!(again.take().as_deref(), Some("Ada"));
        assert_eq!(again.take().as_deref(), Some("snug"));
        again.amend(None);
        assert_eq!(again.left(), 0, "what came after answers something else");
        assert_eq!(begun(folder.path()).left(), 1);
        again.remove();
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
    }

    #[test]
    fn other_peoples_files_are_left_alone() {
        let folder = tempfile::tempdir().unwrap();
        for text in ["mine", r#"{"questions": "questions 0", "choice": null, "answers": ["a"]}"#] {
            fs::write(folder.path().join("ada.toml.answers"), text).unwrap();
            let mut answers = begun(folder.path());
            answers.put("Ada");
            answers.remove();
            assert_eq!(answers.left(), 0);
            assert_eq!(fs::read_to_string(folder.path().join("ada.toml.answers")).unwrap(), text);
        }
    }
}
