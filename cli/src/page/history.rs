//! Undo and redo without end: of each step what it changed of the text, and nothing else.

/// One step.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Step {
    /// What it is called.
    label: String,
    /// In bytes.
    at: usize,
    took: String,
    put: String,
}

impl Step {
    fn between(label: String, old: &str, new: &str) -> Self {
        let same = old.bytes().zip(new.bytes()).take_while(|(a, b)| a == b).count();
        let mut at = same;
        while !(old.is_char_boundary(at) && new.is_char_boundary(at)) {
            at -= 1;
        }
        let room = old.len().min(new.len()) - at;
        let mut behind = old.bytes().rev().zip(new.bytes().rev()).take(room).take_while(|(a, b)| a == b).count();
        while !(old.is_char_boundary(old.len() - behind) && new.is_char_boundary(new.len() - behind)) {
            behind -= 1;
        }
        let took = old[at..old.len() - behind].to_owned();
        let put = new[at..new.len() - behind].to_owned();
        Self { label, at, took, put }
    }

    fn done(&self, text: &mut String) {
        text.replace_range(self.at..self.at + self.took.len(), &self.put);
    }

    fn undone(&self, text: &mut String) {
        text.replace_range(self.at..self.at + self.put.len(), &self.took);
    }
}

/// Every step of a text.
#[derive(Clone, Debug, Default)]
pub(super) struct History {
    steps: Vec<Step>,
    /// So many of them are done; the others were undone.
    done: usize,
}

impl History {
    /// A text becomes another one; what was undone before is forgotten.
    pub(super) fn step(&mut self, label: &str, text: &mut String, new: String) {
        if *text == new {
            return;
        }
        self.steps.truncate(self.done);
        self.steps.push(Step::between(label.to_owned(), text, &new));
        self.done += 1;
        *text = new;
    }

    /// Goes one step back, if there is one.
    pub(super) fn undo(&mut self, text: &mut String) -> bool {
        let Some(step) = self.done.checked_sub(1).and_then(|last| self.steps.get(last)) else { return false };
        step.undone(text);
        self.done -= 1;
        true
    }

    /// Goes one step on again, if there is one.
    pub(super) fn redo(&mut self, text: &mut String) -> bool {
        let Some(step) = self.steps.get(self.done) else { return false };
        step.done(text);
        self.done += 1;
        true
    }

    /// What would be undone, and what redone.
    pub(super) fn labels(&self) -> (Option<&str>, Option<&str>) {
        let label = |at: Option<usize>| at.and_then(|at| self.steps.get(at)).map(|step| step.label.as_str());
        (label(self.done.checked_sub(1)), label(Some(self.done)))
    }

    /// How many there are of each.
    pub(super) const fn counts(&self) -> (usize, usize) {
        (self.done, self.steps.len() - self.done)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_step_is_gone_back_and_forth() {
        let texts = ["", "a = 1", "a = 12", "ä = 12", "ö = 12\n", "ö = 12\nö = 12\n", "x", "ö"];
        let (mut history, mut text) = (History::default(), String::new());
        for (i, new) in texts.iter().enumerate().skip(1) {
            history.step(&format!("{i}"), &mut text, (*new).to_owned());
        }
        for old in texts.iter().rev().skip(1) {
            assert!(history.undo(&mut text));
            assert_eq!(text, *old);
        }
        assert!(!history.undo(&mut text));
        assert_eq!(history.labels(), (None, Some("1")));
        for new in texts.iter().skip(1) {
            assert!(history.redo(&mut text));
            assert_eq!(text, *new);
        }
        assert!(!history.redo(&mut text));
        history.undo(&mut text);
        history.step("other", &mut text, "y".to_owned());
        assert_eq!((history.labels(), history.counts()), ((Some("other"), None), (7, 0)));
    }
}
