//! From pages to a file: printpdf builds the document, a finishing pass makes it what it should be.
//!
//! printpdf 0.12.8 needs help in these places, each found by looking at its files: form objects
//! of its own kind lack a /BBox, so forms come in as external objects with a dictionary made here;
//! its fonts cannot be set with exact glyph numbers inside forms, so the face is embedded here;
//! the header says 1.3; an empty /GTS_PDFXVersion claims PDF/X; /PageMode is a string; ids come
//! from a counter of the whole process; and it knows no /PrintScaling.

use super::book::{Book, Form, Page};
use super::canvas::{FONT_NAME, PT_PER_MM, Typesetter};
use super::error::PdfError;
use super::{embed, layer, squeeze, way};
use crate::mark::PROGRAM;
use engine::drawing::Drawing;
use kurbo::Rect;
use lopdf::{Dictionary, Document, Object, StringFormat, dictionary};
use printpdf::xobject::{DictItem, ExternalStream, ExternalXObject};
use printpdf::{Mm, Op, PaintMode, PdfDocument, PdfPage, PdfSaveOptions, Pt, XObject, XObjectId, XObjectTransform};
use std::collections::BTreeMap;

/// The second comment line of a file of ours, by which it is known again.
fn mark() -> String {
    format!("%{PROGRAM}\n")
}

/// The bytes of a file.
pub(super) fn write(mut book: Book<'_>, setter: &Typesetter) -> Result<Vec<u8>, PdfError> {
    let bookmarks = std::mem::take(&mut book.bookmarks);
    let names: Vec<String> = book.pages.iter_mut().map(|p| std::mem::take(&mut p.name)).collect();
    let drawing = book.drawing;
    let mut document = build(book);
    finish(&mut document, drawing, setter)?;
    way::add(&mut document, &bookmarks, &names).map_err(|e| PdfError::Write(e.to_string()))?;
    squeeze::streams(&mut document);
    let id = fingerprint(&document);
    document.trailer.set("ID", vec![id.clone(), id]);
    let mut bytes = Vec::new();
    document.save_to(&mut bytes).map_err(|e| PdfError::Write(e.to_string()))?;
    marked(&bytes).ok_or_else(|| PdfError::Write("the table of objects is not where it should be".to_owned()))
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

fn finish(document: &mut Document, drawing: &Drawing, setter: &Typesetter) -> Result<(), PdfError> {
    document.version = "1.7".to_owned();
    let face = embed::face(document, setter)?;
    let layers = layer::add(document, drawing).map_err(|e| PdfError::Write(e.to_string()))?;
    let fonts = dictionary! { FONT_NAME => face };
    let resources = document.add_object(dictionary! { "Font" => fonts, "Properties" => layers });
    for object in document.objects.values_mut() {
        match object {
            Object::Stream(s) if s.dict.get(b"Subtype").is_ok_and(|n| n.as_name().is_ok_and(|n| n == b"Form")) => {
                s.dict.set("Resources", Object::Reference(resources));
            }
            Object::Dictionary(d) if d.has_type(b"Page") => {
                d.remove(b"Annots");
            }
            _ => {}
        }
    }
    catalogue(document).map_err(|e| PdfError::Write(e.to_string()))
}

fn catalogue(document: &mut Document) -> Result<(), lopdf::Error> {
    let catalogue = document.catalog_mut()?;
    catalogue.set("PageMode", Object::Name(b"UseNone".to_vec()));
    catalogue.set("PageLayout", Object::Name(b"OneColumn".to_vec()));
    catalogue.set("Lang", Object::string_literal("en"));
    let viewer = dictionary! { "PrintScaling" => "None", "DisplayDocTitle" => true };
    catalogue.set("ViewerPreferences", viewer);
    let info = document.trailer.get(b"Info")?.as_reference()?;
    let info = document.get_object_mut(info)?.as_dict_mut()?;
    // No claim of PDF/X, no clock, nothing empty.
    for key in ["GTS_PDFXVersion", "CreationDate", "ModDate", "Trapped", "Identifier", "Subject", "Keywords", "Creator"]
    {
        info.remove(key.as_bytes());
    }
    Ok(())
}

/// An id that follows from the content (FNV-1a, twice, with different starts).
fn fingerprint(document: &Document) -> Object {
    let mut hashes = [0xcbf2_9ce4_8422_2325_u64, 0x8422_2325_cbf2_9ce4];
    let mut feed = |bytes: &[u8]| {
        for hash in &mut hashes {
            *hash = bytes.iter().fold(*hash, |h, b| (h ^ u64::from(*b)).wrapping_mul(0x0100_0000_01b3));
        }
    };
    for object in document.objects.values() {
        match object {
            Object::Stream(s) => {
                feed(&s.content);
                feed(format!("{:?}", s.dict.get(b"BBox")).as_bytes());
            }
            Object::Dictionary(d) => feed(format!("{:?}", sorted(d)).as_bytes()),
            _ => {}
        }
    }
    Object::String(hashes.iter().flat_map(|h| h.to_be_bytes()).collect(), StringFormat::Hexadecimal)
}

fn sorted(d: &Dictionary) -> BTreeMap<Vec<u8>, String> {
    d.iter().map(|(k, v)| (k.clone(), format!("{v:?}"))).collect()
}

/// The same file with our mark after the header and the line of high bytes. lopdf writes no
/// comments of others, so what follows moves, and the table of objects with it.
fn marked(bytes: &[u8]) -> Option<Vec<u8>> {
    let line = |from: usize| bytes.get(from..)?.iter().position(|b| *b == b'\n').map(|i| from + i + 1);
    let after = line(line(0)?)?;
    let end = bytes.len();
    let start = b"\nstartxref\n";
    let tail = bytes.windows(start.len()).rposition(|w| w == start)?;
    let number = std::str::from_utf8(&bytes[tail + start.len()..end]).ok()?.lines().next()?;
    let table: usize = number.parse().ok()?;
    let mark = mark();
    let mut out = [&bytes[..after], mark.as_bytes(), bytes.get(after..table)?].concat();
    let moved = mark.len();
    for entry in bytes.get(table..tail)?.split_inclusive(|b| *b == b'\n') {
        out.extend(moved_entry(entry, moved).unwrap_or_else(|| entry.to_vec()));
    }
    out.extend(format!("\nstartxref\n{}\n%%EOF\n", table + moved).bytes());
    Some(out)
}

/// An entry of an object in use, `nnnnnnnnnn ggggg n`, with its place moved on.
fn moved_entry(entry: &[u8], moved: usize) -> Option<Vec<u8>> {
    let text = std::str::from_utf8(entry).ok()?;
    let (offset, rest) = text.split_at_checked(10)?;
    if entry.len() != 20 || !rest.trim_end().ends_with(" n") {
        return None;
    }
    let offset: usize = offset.parse().ok()?;
    Some(format!("{:010}{rest}", offset + moved).into_bytes())
}
