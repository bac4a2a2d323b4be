//! From pages to the bytes of a file: printpdf makes the document, what falls short is mended.

use super::book::{Book, Page};
use super::canvas::{PT_PER_MM, Typesetter, form_name};
use super::error::PdfError;
use super::form::Form;
use super::{mark, repair, squeeze};
use crate::mark::PROGRAM;
use lopdf::Document;
use printpdf::xobject::{DictItem, ExternalStream, ExternalXObject};
use printpdf::{PdfDocument, PdfPage, PdfSaveOptions, Pt, Rect, XObject, XObjectId};
use std::collections::BTreeMap;

/// The bytes of a file.
pub(crate) fn write(book: &Book, setter: &Typesetter) -> Result<Vec<u8>, PdfError> {
    let mut document = made(book);
    repair::mend(&mut document, book, setter)?;
    squeeze::streams(&mut document);
    mark::bytes(document)
}

/// The document as printpdf makes it: what it says of itself, its pages, and the forms on them.
pub(super) fn made(book: &Book) -> Document {
    let mut pdf = PdfDocument::new(&book.title);
    pdf.metadata.info.author = PROGRAM.to_owned();
    pdf.metadata.info.producer = PROGRAM.to_owned();
    // Names of our own: printpdf would draw them by chance.
    let forms = book.forms.iter().enumerate().map(|(i, form)| (XObjectId(form_name(i)), object(form)));
    pdf.resources.xobjects.map.extend(forms);
    pdf.pages = book.pages.iter().map(sized).collect();
    pdf.to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new())
}

/// The crate turns millimetres into points by seven digits, so that paper of 11 in would be 792.0001
/// points long: points are handed to it.
fn sized(page: &Page) -> PdfPage {
    let paper = Rect::from_wh(points(page.size.width), points(page.size.height));
    PdfPage { media_box: paper.clone(), trim_box: paper.clone(), crop_box: paper, ops: Vec::new() }
}

fn points(mm: f64) -> Pt {
    Pt((mm * PT_PER_MM) as f32)
}

/// A form of the crate's own kind comes without a /BBox, so that readers draw nothing: an external
/// object takes a dictionary of ours.
fn object(form: &Form) -> XObject {
    let b = form.bounds;
    let corners = [b.x0, -b.y1, b.x1, -b.y0].map(|mm| DictItem::Real(points(mm).0));
    let word = |w: &str| DictItem::Name(w.as_bytes().to_vec());
    let dict = BTreeMap::from([
        ("Type".to_owned(), word("XObject")),
        ("Subtype".to_owned(), word("Form")),
        ("BBox".to_owned(), DictItem::Array(corners.to_vec())),
    ]);
    let stream = ExternalStream { dict, content: form.content.clone(), compress: true };
    XObject::External(ExternalXObject { stream, width: None, height: None, dpi: None })
}
