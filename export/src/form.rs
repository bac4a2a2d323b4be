//! A form to measure by: a figure with the tape's place for every measure, boxes to write in, and
//! rulers at true size for the fold test and the pull test; behind it a table for a class.

mod class;
mod figure;
mod person;
mod ruler;

use crate::pdf::book::{Book, Page};
use crate::pdf::canvas::{Canvas, Setting, Typesetter};
use crate::pdf::sheet::handout;
use crate::pdf::style::{BODY, HEADING, Pen, TITLE};
use crate::pdf::tags::Tag;
use crate::pdf::text::{LEADING, wrap};
use crate::pdf::{PdfError, face, file};
use engine::quantity::Units;
use engine::sheet::Paper;
use kurbo::{Point, Rect, Size};

/// Left free on every side, mm.
const MARGIN: f64 = 12.0;
/// Words of explanation, mm.
const SMALL: f64 = 2.6;

/// The paper that the form is made for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FormPaper {
    /// 210 by 297 mm.
    #[default]
    A4,
    /// 8 1/2 by 11 in.
    Letter,
}

impl FormPaper {
    /// With the words for them.
    pub const NAMED: [(&'static str, Self); 2] = [("a4", Self::A4), ("letter", Self::Letter)];

    fn size(self) -> Size {
        handout(match self {
            Self::A4 => Paper::A4,
            Self::Letter => Paper::Letter,
        })
    }
}

/// The form as a PDF, to be filled in by hand in this unit.
///
/// # Errors
/// [`PdfError`] where the file cannot be put together.
pub fn form(units: Units, paper: FormPaper) -> Result<Vec<u8>, PdfError> {
    let mut setter = Typesetter::of(face()?);
    let size = paper.size();
    let mut pages = Vec::new();
    for (name, draw) in [("one person", person::draw as fn(&mut Form)), ("class", class::draw)] {
        let mut form = Form::of(size, units, &mut setter);
        draw(&mut form);
        pages.push(Page { size, content: form.canvas.finish(), name: name.to_owned() });
    }
    let title = "To measure by".to_owned();
    file::write(&Book { title, forms: Vec::new(), pages, bookmarks: Vec::new(), layers: Vec::new() }, &setter)
}

/// A page under way.
struct Form<'a> {
    canvas: Canvas,
    setter: &'a mut Typesetter,
    units: Units,
    /// What is left of the page.
    room: Rect,
}

impl<'a> Form<'a> {
    fn of(size: Size, units: Units, setter: &'a mut Typesetter) -> Self {
        let room = size.to_rect().inset(-MARGIN);
        Self { canvas: Canvas::page(size.height), setter, units, room }
    }

    /// How lengths are written.
    const fn unit(&self) -> &'static str {
        match self.units {
            Units::Cm => "cm",
            Units::Mm => "mm",
            Units::In => "inches",
        }
    }

    fn title(&mut self, text: &str) {
        self.set(text, Setting::level(TITLE).heavy(), Tag::Title);
    }

    fn heading(&mut self, text: &str) {
        self.set(text, Setting::level(HEADING).heavy(), Tag::Heading);
    }

    fn say(&mut self, text: &str) {
        self.set(text, Setting::level(SMALL), Tag::Paragraph);
    }

    /// Words over the whole width.
    fn set(&mut self, text: &str, setting: Setting, tag: Tag) {
        self.canvas.part(tag);
        self.room.y0 = self.lines(text, setting, self.room);
        self.canvas.done();
    }

    /// Words wrapped into a box from its top; answers where they end.
    fn lines(&mut self, text: &str, setting: Setting, place: Rect) -> f64 {
        let mut y = place.y0;
        for line in wrap(self.setter.face, text, setting.size, 0.98 * place.width()) {
            self.canvas.text(self.setter, Point::new(place.x0, y + setting.size), setting, &line);
            y += LEADING * setting.size;
        }
        y
    }

    /// A box to write in.
    fn blank(&mut self, place: Rect) {
        self.canvas.pen(Pen::Exact);
        self.canvas.frame(place);
    }

    /// Boxes in a row, each with words before it; as wide as the page together.
    fn blanks(&mut self, of: &[(&str, f64)], height: f64) {
        let words: f64 = of.iter().map(|(words, _)| self.setter.face.width(words) * BODY + 3.0).sum();
        let shares: f64 = of.iter().map(|(_, share)| share).sum();
        let unit = (self.room.width() - words - 4.0 * (of.len() - 1) as f64) / shares;
        let mut x = self.room.x0;
        self.canvas.part(Tag::Paragraph);
        for (words, share) in of {
            let base = self.room.y0 + 0.5 * height + 0.36 * BODY;
            self.canvas.text(self.setter, Point::new(x, base), Setting::level(BODY), words);
            x += self.setter.face.width(words) * BODY + 1.5;
            self.blank(Rect::from_origin_size((x, self.room.y0), (share * unit, height)));
            x += share * unit + 5.5;
        }
        self.canvas.done();
        self.room.y0 += height;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lopdf::Document;

    #[test]
    fn two_pages_of_the_paper_in_every_unit_and_the_same_bytes_twice() {
        for (paper, width) in [(FormPaper::A4, 210.0), (FormPaper::Letter, 215.9)] {
            for (_, units) in Units::ALL {
                let bytes = form(units, paper).unwrap();
                assert!(bytes == form(units, paper).unwrap());
                let document = Document::load_mem(&bytes).unwrap();
                assert_eq!(document.page_iter().count(), 2);
                for id in document.page_iter() {
                    let page = document.get_dictionary(id).unwrap();
                    let points = page.get(b"MediaBox").unwrap().as_array().unwrap();
                    let mm = f64::from(points[2].as_float().unwrap()) * 25.4 / 72.0;
                    assert!((mm - width).abs() < 1e-3, "{mm}");
                }
            }
        }
    }

    #[test]
    fn everything_has_room() {
        let mut setter = Typesetter::of(face().unwrap());
        for paper in [FormPaper::A4, FormPaper::Letter] {
            for (_, units) in Units::ALL {
                for draw in [person::draw, class::draw] {
                    let mut form = Form::of(paper.size(), units, &mut setter);
                    draw(&mut form);
                    assert!(form.room.y0 <= form.room.y1, "{paper:?} {units:?}: {:?}", form.room);
                }
            }
        }
    }
}
