//! From pages to a document, by printpdf: its pages, and what is drawn on them.
//!
//! Form objects of the crate's own kind (0.12.8) lack a /BBox, so that readers draw nothing: forms
//! come in as external objects with a dictionary made here. Everything else that it leaves out or
//! gets wrong is mended in `finish`.

use super::book::{Book, Form, Page};
use super::canvas::{PT_PER_MM, Typesetter};
use super::error::PdfError;
use super::{mark, squeeze, way};
use crate::mark::PROGRAM;
use kurbo::Rect;
use lopdf::Document;
use printpdf::xobject::{DictItem, ExternalStream, ExternalXObject};
use printpdf::{Mm, Op, PaintMode, PdfDocument, PdfPage, PdfSaveOptions, Pt, XObject, XObjectId, XObjectTransform};
use std::collections::BTreeMap;

/// The bytes of a file.
pub(super) fn write(mut book: Book<'_>, setter: &Typesetter) -> Result<Vec<u8>, PdfError> {
    let bookmarks = std::mem::take(&mut book.bookmarks);
    let names: Vec<String> = book.pages.iter_mut().map(|p| std::mem::take(&mut p.name)).collect();
    let drawing = book.drawing;
    let mut document = build(book);
    mark::complete(&mut document, drawing, setter)?;
    way::add(&mut document, &bookmarks, &names).map_err(|e| PdfError::Write(e.to_string()))?;
    squeeze::streams(&mut document);
    mark::bytes(document)
}

fn build(book: Book<'_>) -> Document {
    let mut pdf = PdfDocument::new(&book.drawing.name);
    pdf.metadata.info.author = PROGRAM.to_owned();
    pdf.metadata.info.producer = PROGRAM.to_owned();
    let mut names = Vec::new();
    for (i, form) in book.forms.into_iter().enumerate() {
        names.push(add_form(&mut pdf, format!("Piece{i}"), form));
    }
    for (i, page) in book.pages.into_iter().enumerate() {
        let mut ops = placed(&page, &names);
        let bounds = Rect::new(0.0, -page.size.height, page.size.width, 0.0);
        let front = add_form(&mut pdf, format!("Page{i}"), Form { content: page.front, bounds });
        ops.push(Op::UseXobject { id: front, transform: at(0.0, 0.0) });
        pdf.pages.push(PdfPage::new(Mm(page.size.width as f32), Mm(page.size.height as f32), ops));
    }
    pdf.to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new())
}

/// The pieces on a page.
fn placed(page: &Page, names: &[XObjectId]) -> Vec<Op> {
    let clip = printpdf::Rect {
        x: points(page.clip.x0),
        y: points(page.size.height - page.clip.y1),
        width: points(page.clip.width()),
        height: points(page.clip.height()),
        mode: Some(PaintMode::Clip),
        winding_order: None,
    };
    let mut ops = vec![Op::SaveGraphicsState, Op::DrawRectangle { rectangle: clip }];
    for (form, place) in &page.placed {
        if let Some(id) = names.get(*form) {
            ops.push(Op::UseXobject { id: id.clone(), transform: at(place.x, page.size.height - place.y) });
        }
    }
    ops.push(Op::RestoreGraphicsState);
    ops
}

fn points(mm: f64) -> Pt {
    Pt((mm * PT_PER_MM) as f32)
}

/// At this place from the bottom left of the page, mm.
fn at(x: f64, y: f64) -> XObjectTransform {
    XObjectTransform { translate_x: Some(points(x)), translate_y: Some(points(y)), ..XObjectTransform::default() }
}

fn add_form(pdf: &mut PdfDocument, name: String, form: Form) -> XObjectId {
    let b = form.bounds;
    let corners = [b.x0, -b.y1, b.x1, -b.y0].map(|mm| DictItem::Real((mm * PT_PER_MM) as f32));
    let word = |w: &str| DictItem::Name(w.as_bytes().to_vec());
    let dict = BTreeMap::from([
        ("Type".to_owned(), word("XObject")),
        ("Subtype".to_owned(), word("Form")),
        ("BBox".to_owned(), DictItem::Array(corners.to_vec())),
    ]);
    let stream = ExternalStream { dict, content: form.content, compress: true };
    let object = XObject::External(ExternalXObject { stream, width: None, height: None, dpi: None });
    // A name of our own: printpdf would take the next one of the process.
    let id = XObjectId(name);
    pdf.resources.xobjects.map.insert(id.clone(), object);
    id
}
