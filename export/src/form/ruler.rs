//! A ruler at true size, with percent of a length that is marked on it.

use super::{Form, SMALL};
use crate::pdf::canvas::{Anchor, Setting};
use crate::pdf::style::{BODY, Pen};
use crate::pdf::tags::Tag;
use engine::quantity::Units;
use kurbo::{Point, Vec2};

/// A test: the length that is marked, in units of either kind of ruler, and each so many percent
/// that are told.
#[derive(Clone, Copy, Debug)]
pub(super) struct Test {
    cm: f64,
    inch: f64,
    percent: u32,
    most: u32,
}

/// Of a cloth: it stretches by up to three times its length.
pub(super) const FOLD: Test = Test { cm: 5.0, inch: 2.0, percent: 20, most: 240 };
/// Of an elastic, up to twice its length.
pub(super) const PULL: Test = Test { cm: 8.0, inch: 3.0, percent: 25, most: 100 };

/// A ruler in centimetres or in inches.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ruler {
    units: Units,
    /// From number to number, mm.
    unit: f64,
    /// Parts of that.
    parts: u32,
    /// So many units long.
    count: u32,
}

impl Ruler {
    /// What it takes, mm.
    pub(super) const HEIGHT: f64 = 16.5;

    pub(super) const fn of(units: Units) -> Self {
        match units {
            Units::Cm | Units::Mm => Self { units, unit: 10.0, parts: 10, count: 17 },
            Units::In => Self { units, unit: 25.4, parts: 8, count: 7 },
        }
    }

    /// In its own units.
    const fn marked(&self, test: Test) -> f64 {
        match self.units {
            Units::Cm | Units::Mm => test.cm,
            Units::In => test.inch,
        }
    }

    /// The length that is marked, in words.
    pub(super) fn start(&self, test: Test) -> String {
        match self.units {
            Units::Cm => format!("{} cm", test.cm),
            Units::Mm => format!("{} mm", 10.0 * test.cm),
            Units::In => format!("{} in", test.inch),
        }
    }

    /// Draws it from the left of what is left of the page.
    pub(super) fn draw(&self, form: &mut Form<'_>, test: Test) {
        let left = Point::new(form.room.x0 + 2.0, form.room.y0 + 9.2);
        let length = self.unit * f64::from(self.count);
        let alt = format!("Ruler at true size, {} units long, with percent of {}", self.count, self.start(test));
        form.canvas.part(Tag::Figure(alt));
        form.canvas.pen(Pen::Exact);
        form.canvas.line(left, left + Vec2::new(length, 0.0));
        for i in 0..=self.count * self.parts {
            let x = self.unit * f64::from(i) / f64::from(self.parts);
            let height = match i {
                i if i % self.parts == 0 => 5.0,
                i if i % (self.parts / 2) == 0 => 3.6,
                _ => 2.2,
            };
            form.canvas.line(left + Vec2::new(x, 0.0), left + Vec2::new(x, -height));
        }
        let words = |form: &mut Form<'_>, x: f64, y: f64, size: f64, text: &str| {
            let setting = Setting::level(size).anchored(Anchor::Middle);
            form.canvas.text(form.setter, left + Vec2::new(x, y), setting, text);
        };
        let of = if self.units == Units::Mm { 10 } else { 1 };
        for i in 0..=self.count {
            words(form, self.unit * f64::from(i), -5.8, SMALL, &(of * i).to_string());
        }
        let marked = self.unit * self.marked(test);
        for percent in (0..=test.most).step_by(test.percent as usize) {
            let x = marked * (1.0 + f64::from(percent) / 100.0);
            if x > length + 1e-9 {
                break;
            }
            form.canvas.pen(Pen::Exact);
            form.canvas.line(left + Vec2::new(x, 0.0), left + Vec2::new(x, 3.0));
            words(form, x, 3.4 + BODY, SMALL, &format!("{percent} %"));
        }
        form.canvas.done();
        form.room.y0 += Self::HEIGHT;
    }
}
