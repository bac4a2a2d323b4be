//! Each cause is found in the crate's own document; after the repair it is gone. Where the first half
//! of a test fails, the crate has moved on, and the step can go.

use super::super::book::{Book, Bookmark, Page};
use super::super::canvas::{Content, Typesetter};
use super::super::form::Form;
use super::super::{face, file, layer, sample};
use super::*;
use kurbo::{Point, Rect, Size};
use printpdf::{Layer, LayerInternalId, Mm, PageAnnotId, PageAnnotation, PdfDocument, PdfPage, PdfSaveOptions};
use std::collections::BTreeSet;

const DRAWN: &[u8] = b"/H1 <</MCID 0>> BDC 0 0 m 9 9 l S EMC";

fn book() -> Book {
    let size = Size::new(210.0, 297.0);
    let content = || Content { bytes: DRAWN.to_vec(), parts: vec![Tag::Title] };
    let page = |name: &str| Page { size, content: content(), name: name.to_owned() };
    let form = Form { content: b"0 0 m".to_vec(), bounds: Rect::new(0.0, 0.0, 50.0, 40.0), alt: "front".to_owned() };
    let bookmark = Bookmark { title: "front".to_owned(), page: 1, at: Point::new(10.0, 20.0), inside: vec![] };
    Book {
        title: "Ελένη".to_owned(),
        forms: vec![form],
        pages: vec![page("start"), page("A1")],
        bookmarks: vec![bookmark],
        layers: layer::named(&sample::drawing("x"), &[]),
    }
}

/// As the crate makes it, and mended.
fn both() -> [Document; 2] {
    let book = book();
    let (bare, mut mended) = (file::made(&book), file::made(&book));
    mend(&mut mended, &book, &Typesetter::of(face().unwrap())).unwrap();
    [bare, mended]
}

fn info(document: &Document) -> &Dictionary {
    document.get_dictionary(document.trailer.get(b"Info").unwrap().as_reference().unwrap()).unwrap()
}

fn first_page(document: &Document) -> &Dictionary {
    document.get_dictionary(document.page_iter().next().unwrap()).unwrap()
}

fn form(document: &Document) -> &Dictionary {
    let is_form = |s: &&Stream| s.dict.get(b"Subtype").is_ok_and(|kind| kind == &Object::Name(b"Form".to_vec()));
    &document.objects.values().filter_map(|o| o.as_stream().ok()).find(is_form).unwrap().dict
}

#[test]
fn the_version_knows_what_is_in_the_file() {
    let [bare, mended] = both();
    assert_eq!((bare.version.as_str(), mended.version.as_str()), ("1.3", "1.7"));
}

#[test]
fn nothing_is_claimed_and_no_clock_asked() {
    let [bare, mended] = both();
    for key in ["GTS_PDFXVersion", "CreationDate", "ModDate", "Trapped", "Identifier", "Subject", "Keywords", "Creator"]
    {
        assert!(info(&bare).has(key.as_bytes()), "{key}");
    }
    let kept: BTreeSet<&[u8]> = info(&mended).iter().map(|(key, _)| key.as_slice()).collect();
    assert_eq!(kept, BTreeSet::from([&b"Author"[..], b"Producer", b"Title"]));
}

/// Why `mark` sets another one.
#[test]
fn the_id_of_the_crate_comes_from_chance() {
    let [one, other] = both();
    assert_ne!(one.trailer.get(b"ID").unwrap(), other.trailer.get(b"ID").unwrap());
}

#[test]
fn forms_have_a_box_and_resources() {
    let [bare, mended] = both();
    assert!(!form(&bare).has(b"Resources") && form(&bare).has(b"BBox"));
    let resources = form(&mended).get(b"Resources").unwrap().as_reference().unwrap();
    let resources = mended.get_dictionary(resources).unwrap();
    assert!(resources.has(b"Font") && resources.has(b"Properties"));
}

#[test]
fn pages_are_drawn_and_have_no_empty_lists() {
    let [bare, mended] = both();
    let drawn = |d: &Document| d.get_page_content(d.page_iter().next().unwrap());
    assert!(drawn(&bare).iter().all(u8::is_ascii_whitespace));
    assert_eq!(drawn(&mended).trim_ascii_end(), DRAWN);
    assert!(first_page(&bare).has(b"Annots") && !first_page(&mended).has(b"Annots"));
    assert!(!first_page(&bare).has(b"StructParents") && first_page(&mended).has(b"StructParents"));
}

#[test]
fn the_catalogue_is_complete() {
    let [bare, mended] = both().map(|d| d.catalog().unwrap().clone());
    for key in ["Lang", "MarkInfo", "ViewerPreferences", "StructTreeRoot", "Metadata", "OCProperties", "PageLabels"] {
        assert!(!bare.has(key.as_bytes()) && mended.has(key.as_bytes()), "{key}");
    }
    // Made by the crate.
    assert_eq!(bare.get(b"PageLayout").unwrap(), mended.get(b"PageLayout").unwrap());
}

#[test]
fn nothing_is_left_that_nothing_asks_for() {
    let [_, mut mended] = both();
    assert_eq!(mended.prune_objects(), []);
}

/// Why layers are ours.
#[test]
fn layers_of_the_crate_have_no_right_names() {
    let mut pdf = PdfDocument::new("x");
    let layer = Layer { creator: "x".to_owned(), ..Layer::new("Ελένη") };
    pdf.resources.layers.map.insert(LayerInternalId("a".to_owned()), layer);
    let document = pdf.to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new());
    let optional = document.catalog().unwrap().get(b"OCProperties").unwrap().as_dict().unwrap();
    let group = optional.get(b"OCGs").unwrap().as_array().unwrap()[0].as_reference().unwrap();
    let name = document.get_dictionary(group).unwrap().get(b"Name").unwrap();
    assert_ne!(lopdf::decode_text_string(name).unwrap_or_default(), "Ελένη");
}

/// Why bookmarks are ours.
#[test]
fn bookmarks_of_the_crate_are_sorted_and_lead_to_no_place() {
    let mut pdf = PdfDocument::new("x");
    pdf.pages.push(PdfPage::new(Mm(210.0), Mm(297.0), vec![]));
    for (id, name) in [("1", "front"), ("2", "back")] {
        let at = PageAnnotation { name: name.to_owned(), page: 1 };
        pdf.bookmarks.map.insert(PageAnnotId(id.to_owned()), at);
    }
    let document = pdf.to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new());
    let catalogue = document.catalog().unwrap();
    // Not a name, as it has to be.
    assert!(catalogue.get(b"PageMode").unwrap().as_name().is_err());
    let outlines = document.get_dictionary(catalogue.get(b"Outlines").unwrap().as_reference().unwrap()).unwrap();
    let first = document.get_dictionary(outlines.get(b"First").unwrap().as_reference().unwrap()).unwrap();
    assert_eq!(lopdf::decode_text_string(first.get(b"Title").unwrap()).unwrap(), "back");
    assert_eq!(first.get(b"Dest").unwrap().as_array().unwrap()[2..], [Object::Null, Object::Null, Object::Null]);
}

/// Why pages are handed over in points.
#[test]
fn millimetres_of_the_crate_are_not_exact() {
    let letter = PdfPage::new(Mm(215.9), Mm(279.4), vec![]);
    assert_ne!(letter.media_box.height.0, 792.0);
    let size = first_page(&both()[0]).get(b"MediaBox").unwrap().as_array().unwrap().clone();
    assert_eq!(size[3].as_float().unwrap(), (297.0 * 72.0 / 25.4) as f32);
}
