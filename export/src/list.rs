//! A list on paper: headings, paragraphs and tables, on as many pages as they take.

use crate::pdf::book::{Book, Bookmark, Page};
use crate::pdf::canvas::{Canvas, Setting, Typesetter};
use crate::pdf::sheet::handout;
use crate::pdf::style::{BODY, HEADING, Pen, TITLE};
use crate::pdf::tags::Tag;
use crate::pdf::text::{LEADING, Words};
use crate::pdf::{PdfError, face, file};
use engine::sheet::Paper;
use kurbo::{Point, Rect, Size};

/// Left free on every side, mm.
const MARGIN: f64 = 15.0;
/// Over and under the words of a row, mm.
const PAD: f64 = 0.9;
/// Between columns, mm.
const GUTTER: f64 = 3.0;
/// Of what stands in a table, mm: seven and a half points.
const SMALL: f64 = 2.65;

/// A list.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct List {
    /// What it is called.
    pub title: String,
    /// From the top.
    pub parts: Vec<Part>,
}

/// A part of a list.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// The head of what follows, with a bookmark; on a page of its own where it says so.
    Heading(String, Start),
    /// Words over the whole width.
    Paragraph(String),
    /// Words in columns.
    Table(Table),
}

/// Where a heading starts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// Where there is room.
    Here,
    /// On a new page.
    NewPage,
}

/// Words in columns under heads.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// A head for every column, with its share of the width.
    pub heads: Vec<(String, f64)>,
    /// A cell for every column.
    pub rows: Vec<Vec<String>>,
}

/// The list as a PDF; on Letter where the print is on a paper of that system, else on A4.
///
/// # Errors
/// [`PdfError`] where the file cannot be put together.
pub fn list(list: &List, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let mut setter = Typesetter::of(face()?);
    let size = handout(paper);
    let mut flow = Flow {
        size,
        setter: &mut setter,
        done: Vec::new(),
        canvas: Canvas::page(size.height),
        y: MARGIN,
        marks: Vec::new(),
    };
    flow.words(&list.title, Setting::level(TITLE).heavy(), Tag::Title);
    flow.y += 0.4 * TITLE;
    for part in &list.parts {
        match part {
            Part::Heading(text, start) => flow.heading(text, *start),
            Part::Paragraph(text) => flow.words(text, Setting::level(BODY), Tag::Paragraph),
            Part::Table(table) => flow.table(table),
        }
    }
    let Flow { mut done, canvas, marks, .. } = flow;
    done.push(canvas);
    let page = |(i, canvas): (usize, Canvas)| Page { size, content: canvas.finish(), name: format!("list {}", i + 1) };
    let pages = done.into_iter().enumerate().map(page).collect();
    let title = list.title.clone();
    file::write(&Book { title, forms: Vec::new(), pages, bookmarks: marks, layers: Vec::new() }, &setter)
}

/// Words flowing down pages.
struct Flow<'a> {
    size: Size,
    setter: &'a mut Typesetter,
    done: Vec<Canvas>,
    canvas: Canvas,
    y: f64,
    marks: Vec<Bookmark>,
}

impl Flow<'_> {
    fn room(&self) -> Rect {
        self.size.to_rect().inset(-MARGIN)
    }

    fn new_page(&mut self) {
        let full = std::mem::replace(&mut self.canvas, Canvas::page(self.size.height));
        self.done.push(full);
        self.y = self.room().y0;
    }

    /// Goes on to a new page unless there is so much room left. Answers whether it went on.
    fn need(&mut self, height: f64) -> bool {
        let is_full = self.y + height > self.room().y1 && self.y > self.room().y0;
        if is_full {
            self.new_page();
        }
        is_full
    }

    fn lines(&self, text: &str, size: f64, width: f64) -> Vec<String> {
        let face = &self.setter.face;
        Words::of(face, text).lines(face, size, 0.97 * width).map(str::to_owned).collect()
    }

    /// Words over the whole width, torn apart only between lines.
    fn words(&mut self, text: &str, setting: Setting, tag: Tag) {
        let lines = self.lines(text, setting.size, self.room().width());
        self.canvas.part(tag.clone());
        for line in lines {
            if self.y + LEADING * setting.size > self.room().y1 {
                self.canvas.done();
                self.new_page();
                self.canvas.part(tag.clone());
            }
            let at = Point::new(self.room().x0, self.y + setting.size);
            self.canvas.text(self.setter, at, setting, &line);
            self.y += LEADING * setting.size;
        }
        self.canvas.done();
        self.y += 0.3 * setting.size;
    }

    /// A heading keeps company with a few lines of what follows.
    fn heading(&mut self, text: &str, start: Start) {
        match start {
            Start::NewPage => self.new_page(),
            Start::Here => {
                self.y += 0.8 * HEADING;
                self.need(4.0 * LEADING * HEADING);
            }
        }
        let at = Point::new(self.room().x0, self.size.height - self.y);
        self.marks.push(Bookmark { title: text.to_owned(), page: self.done.len(), at, inside: Vec::new() });
        self.words(text, Setting::level(HEADING).heavy(), Tag::Heading);
    }

    /// The heads stand on every page that the table goes on to.
    fn table(&mut self, table: &Table) {
        let heads: Vec<&str> = table.heads.iter().map(|(head, _)| head.as_str()).collect();
        let all: f64 = table.heads.iter().map(|(_, share)| share).sum();
        let room = self.room().width() - GUTTER * (table.heads.len().saturating_sub(1)) as f64;
        let widths: Vec<f64> = table.heads.iter().map(|(_, share)| share / all * room).collect();
        let set = |flow: &Self, cells: &[&str]| {
            cells.iter().zip(&widths).map(|(cell, width)| flow.lines(cell, SMALL, *width)).collect::<Vec<_>>()
        };
        let head = set(self, &heads);
        self.need(height(&head) + 3.0 * LEADING * SMALL);
        self.row(&head, &widths, Setting::level(SMALL).heavy());
        for row in &table.rows {
            let cells: Vec<&str> = row.iter().map(String::as_str).collect();
            let row = set(self, &cells);
            if self.need(height(&row)) {
                self.row(&head, &widths, Setting::level(SMALL).heavy());
            }
            self.row(&row, &widths, Setting::level(SMALL));
        }
        self.y += BODY;
    }

    fn row(&mut self, cells: &[Vec<String>], widths: &[f64], setting: Setting) {
        let mut x = self.room().x0;
        // Read as one sentence: a part for each cell of a thousand people takes more memory than all else.
        self.canvas.part(Tag::Paragraph);
        for (lines, width) in cells.iter().zip(widths) {
            for (i, line) in lines.iter().enumerate() {
                let y = self.y + PAD + setting.size + i as f64 * LEADING * setting.size;
                self.canvas.text(self.setter, Point::new(x, y), setting, line);
            }
            x += width + GUTTER;
        }
        self.canvas.done();
        self.y += height(cells);
        self.canvas.pen(Pen::Grid);
        self.canvas.line(Point::new(self.room().x0, self.y), Point::new(self.room().x1, self.y));
    }
}

/// Of a row of cells, mm.
fn height(cells: &[Vec<String>]) -> f64 {
    cells.iter().map(Vec::len).max().unwrap_or(0) as f64 * LEADING * SMALL + 2.0 * PAD
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pdf::pages;

    fn long(rows: usize) -> List {
        let row = |i: usize| vec![i.to_string(), "a name".to_owned(), "words ".repeat(i % 40)];
        let heads = [("row", 1.0), ("name", 3.0), ("what is odd", 6.0)].map(|(head, share)| (head.to_owned(), share));
        let table = Table { heads: heads.to_vec(), rows: (0..rows).map(row).collect() };
        let heading = Part::Heading("To buy".to_owned(), Start::NewPage);
        List {
            title: "A class".to_owned(),
            parts: vec![Part::Table(table), heading, Part::Paragraph("thread ".repeat(900))],
        }
    }

    #[test]
    fn it_goes_on_over_pages_and_is_the_same_twice() {
        for paper in [Paper::A4, Paper::Letter] {
            let few = list(&long(3), paper).unwrap();
            let many = list(&long(400), paper).unwrap();
            assert!(pages(&few).is_some_and(|n| (2..=4).contains(&n)), "{:?}", pages(&few));
            assert!(pages(&many) > Some(10));
            assert!(many == list(&long(400), paper).unwrap());
        }
    }
}
