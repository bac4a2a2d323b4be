//! From pages to the bytes of a file, by lopdf.

use super::book::{Book, Form, Page};
use super::canvas::{FONT_NAME, PT_PER_MM, Typesetter, form_name};
use super::error::PdfError;
use super::tags::{self, Tag};
use super::{embed, layer, mark, metadata, squeeze, way};
use crate::mark::PROGRAM;
use kurbo::Rect;
use lopdf::xref::XrefType;
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};

/// The version that knows layers, tags and these fonts.
const VERSION: &str = "1.7";
/// Of all words on the pages but a person's own.
const LANGUAGE: &str = "en";

/// The bytes of a file.
pub(crate) fn write(book: &Book, setter: &Typesetter) -> Result<Vec<u8>, PdfError> {
    let mut document = Document::with_version(VERSION);
    // Our mark moves what follows it: a table can be moved with it, a stream cannot.
    document.reference_table.cross_reference_type = XrefType::CrossReferenceTable;
    let face = embed::face(&mut document, setter)?;
    let (names, layers) = layer::add(&mut document, &book.layers);
    let shared = dictionary! { "Font" => dictionary! { FONT_NAME => face }, "Properties" => names };
    let in_forms = document.add_object(shared.clone());
    let mut forms = Dictionary::new();
    for (i, form) in book.forms.iter().enumerate() {
        forms.set(form_name(i), document.add_object(form_object(form, in_forms)));
    }
    let mut on_pages = shared;
    on_pages.set("XObject", forms);
    let on_pages = document.add_object(on_pages);
    let tree = document.new_object_id();
    let each = |(i, page): (usize, &Page)| page_object(&mut document, page, i, (tree, on_pages));
    let pages: Vec<ObjectId> = book.pages.iter().enumerate().map(each).collect();
    let kids: Vec<Object> = pages.iter().copied().map(Object::Reference).collect();
    document.objects.insert(
        tree,
        Object::Dictionary(dictionary! {
            "Type" => "Pages", "Count" => kids.len() as i64, "Kids" => kids,
        }),
    );
    let mut catalogue = catalogue(tree);
    if let Some(layers) = layers {
        catalogue.set("OCProperties", layers);
    }
    let parts: Vec<(ObjectId, &[Tag])> =
        pages.iter().copied().zip(book.pages.iter().map(|p| p.content.parts.as_slice())).collect();
    catalogue.set("StructTreeRoot", tags::add(&mut document, &parts, &book.forms));
    catalogue.set("Metadata", document.add_object(metadata::stream(&book.title, LANGUAGE)));
    let page_names = book.pages.iter().map(|p| p.name.as_str());
    way::add(&mut document, &mut catalogue, &book.bookmarks, &pages, page_names);
    let root = document.add_object(catalogue);
    let info = document.add_object(dictionary! {
        "Title" => lopdf::text_string(&book.title),
        "Author" => Object::string_literal(PROGRAM),
        "Producer" => Object::string_literal(PROGRAM),
    });
    document.trailer.set("Root", root);
    document.trailer.set("Info", info);
    squeeze::streams(&mut document);
    mark::bytes(document)
}

fn catalogue(pages: ObjectId) -> Dictionary {
    dictionary! {
        "Type" => "Catalog",
        "Pages" => pages,
        "PageLayout" => "OneColumn",
        "PageMode" => "UseNone",
        "Lang" => Object::string_literal(LANGUAGE),
        "MarkInfo" => dictionary! { "Marked" => true },
        // A reader that scales pages to fit spoils every length (ISO 32000-1, table 150).
        "ViewerPreferences" => dictionary! {
            "PrintScaling" => "None", "PickTrayByPDFSize" => true, "DisplayDocTitle" => true,
        },
    }
}

/// A box in points, y up.
fn corners(b: Rect) -> Vec<Object> {
    [b.x0, -b.y1, b.x1, -b.y0].map(|mm| Object::Real((mm * PT_PER_MM) as f32)).to_vec()
}

fn form_object(form: &Form, resources: ObjectId) -> Stream {
    let dictionary = dictionary! {
        "Type" => "XObject", "Subtype" => "Form", "BBox" => corners(form.bounds), "Resources" => resources,
    };
    Stream::new(dictionary, form.content.clone())
}

fn page_object(
    document: &mut Document,
    page: &Page,
    number: usize,
    (tree, resources): (ObjectId, ObjectId),
) -> ObjectId {
    let content = document.add_object(Stream::new(dictionary! {}, page.content.bytes.clone()));
    let size = Rect::new(0.0, -page.size.height, page.size.width, 0.0);
    document.add_object(dictionary! {
        "Type" => "Page",
        "Parent" => tree,
        "MediaBox" => corners(size),
        "Resources" => resources,
        "Contents" => content,
        "StructParents" => number as i64,
        "Tabs" => "S",
    })
}
