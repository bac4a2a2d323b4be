//! Numbers and curves as the record writes them, and where in the record they stand.

use crate::number::millionth;
use engine::curve::{Path, elements};
use engine::words::Speech;
use kurbo::{PathEl, Point, Vec2};
use std::fmt;

/// The record could not be written.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    /// A computed value is infinite or no number at all.
    #[error(
        "the record cannot be written: {field} is {value}, not a number. This is a fault of the program: please report it with the sheet"
    )]
    NotANumber {
        /// Where in the record: `pieces[0].area_mm2`.
        field: String,
        /// What stands there.
        value: f64,
    },
    /// Serialisation failed.
    #[error("the record cannot be written: {0}")]
    Unwritten(#[source] serde_json::Error),
}

/// A place in the record, put into words only when something is wrong there.
#[derive(Clone, Copy)]
pub(super) struct At<'a> {
    /// The unit that the record's texts speak.
    pub(super) speech: Speech,
    parent: Option<&'a At<'a>>,
    step: Step<'a>,
}

#[derive(Clone, Copy)]
enum Step<'a> {
    Root,
    Key(&'a str),
    Item(usize),
}

impl At<'_> {
    pub(super) const fn root(speech: Speech) -> At<'static> {
        At { speech, parent: None, step: Step::Root }
    }

    pub(super) const fn key<'b>(&'b self, key: &'b str) -> At<'b> {
        At { speech: self.speech, parent: Some(self), step: Step::Key(key) }
    }

    pub(super) const fn item(&self, index: usize) -> At<'_> {
        At { speech: self.speech, parent: Some(self), step: Step::Item(index) }
    }

    /// Six decimals, never −0.
    pub(super) fn number(&self, value: f64) -> Result<f64, RecordError> {
        if !value.is_finite() {
            return Err(RecordError::NotANumber { field: self.to_string(), value });
        }
        Ok(millionth(value))
    }

    pub(super) fn maybe(&self, value: Option<f64>) -> Result<Option<f64>, RecordError> {
        value.map(|v| self.number(v)).transpose()
    }

    pub(super) fn point(&self, p: Point) -> Result<[f64; 2], RecordError> {
        Ok([self.number(p.x)?, self.number(p.y)?])
    }

    pub(super) fn vector(&self, v: Vec2) -> Result<[f64; 2], RecordError> {
        self.point(v.to_point())
    }

    /// SVG path data: absolute M, L and C only.
    pub(super) fn path(&self, path: &Path) -> Result<String, RecordError> {
        let mut pen = Pen { text: String::new(), last: Point::ZERO };
        for element in elements(path) {
            self.element(&mut pen, element)?;
        }
        Ok(pen.text)
    }

    fn element(&self, pen: &mut Pen, element: PathEl) -> Result<(), RecordError> {
        match element {
            PathEl::MoveTo(p) => self.draw(pen, "M", &[p]),
            PathEl::LineTo(p) => self.draw(pen, "L", &[p]),
            PathEl::CurveTo(a, b, p) => self.draw(pen, "C", &[a, b, p]),
            // A quadratic is exactly this cubic.
            PathEl::QuadTo(q, p) => {
                let (a, b) = (pen.last.lerp(q, 2.0 / 3.0), p.lerp(q, 2.0 / 3.0));
                self.draw(pen, "C", &[a, b, p])
            }
            PathEl::ClosePath => Ok(()),
        }
    }

    fn draw(&self, pen: &mut Pen, command: &str, points: &[Point]) -> Result<(), RecordError> {
        if !pen.text.is_empty() {
            pen.text.push(' ');
        }
        pen.text.push_str(command);
        for p in points {
            let [x, y] = self.point(*p)?;
            pen.text.push_str(&format!(" {x} {y}"));
            pen.last = *p;
        }
        Ok(())
    }
}

impl fmt::Display for At<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(parent) = self.parent {
            parent.fmt(f)?;
        }
        match self.step {
            Step::Root => Ok(()),
            Step::Key(key) if self.parent.is_some_and(|p| matches!(p.step, Step::Root)) => f.write_str(key),
            Step::Key(key) => write!(f, ".{key}"),
            Step::Item(index) => write!(f, "[{index}]"),
        }
    }
}

struct Pen {
    text: String,
    last: Point,
}
