//! What printpdf (0.12.8) leaves out or gets wrong in a document, mended with lopdf.
//!
//! Every step names its cause, and the tests find each cause in the crate's own document: when it
//! moves on, a step whose cause is gone can go as well. Its layers and bookmarks are not used at all:
//! names of layers are not in an encoding of the format, and none exclude each other (`layer`);
//! bookmarks are sorted, have no others inside, and lead to no place on a page (`way`).

use super::book::{Book, Page};
use super::canvas::{FONT_NAME, Typesetter};
use super::error::PdfError;
use super::tags::{self, Tag};
use super::{embed, layer, metadata, way};
use lopdf::{Dictionary, Document, Object, ObjectId, Stream, dictionary};

/// The version that knows layers, tags and these fonts.
const VERSION: &str = "1.7";
/// Of all words on the pages but a person's own.
const LANGUAGE: &str = "en";

/// Makes the crate's document of a book complete and true.
pub(super) fn mend(document: &mut Document, book: &Book, setter: &Typesetter) -> Result<(), PdfError> {
    // Cause: the header says 1.3.
    document.version = VERSION.to_owned();
    drop_false_claims(document)?;
    // Cause: its fonts take no glyph numbers of ours inside a form.
    let face = embed::face(document, setter)?;
    let (names, layers) = layer::add(document, &book.layers);
    let fonts = document.add_object(dictionary! { FONT_NAME => face });
    let names = document.add_object(names);
    let resources = [("Font", fonts), ("Properties", names)];
    give_forms(document, &resources);
    let pages: Vec<ObjectId> = document.page_iter().collect();
    for (number, (id, page)) in pages.iter().zip(&book.pages).enumerate() {
        draw_page(document, *id, page, number, &resources)?;
    }
    let mut more = catalogue(document, book, &pages);
    if let Some(layers) = layers {
        more.set("OCProperties", layers);
    }
    set_all(document.catalog_mut()?, more);
    // Cause: it lists its own fonts even where there are none; no page asks for that list any more.
    document.prune_objects();
    Ok(())
}

/// Cause: an empty /GTS_PDFXVersion claims PDF/X, dates come from the clock, and the rest is empty.
/// (Its /ID comes from chance: `mark` sets one that follows from the content.)
fn drop_false_claims(document: &mut Document) -> Result<(), lopdf::Error> {
    let info = document.trailer.get(b"Info")?.as_reference()?;
    let info = document.get_dictionary_mut(info)?;
    for key in ["GTS_PDFXVersion", "CreationDate", "ModDate", "Trapped", "Identifier", "Subject", "Keywords", "Creator"]
    {
        info.remove(key.as_bytes());
    }
    Ok(())
}

/// Cause: an external object comes without resources.
fn give_forms(document: &mut Document, resources: &[(&str, ObjectId)]) {
    let resources: Dictionary = resources.iter().map(|(kind, id)| (*kind, Object::Reference(*id))).collect();
    let resources = document.add_object(resources);
    for object in document.objects.values_mut() {
        if let Object::Stream(s) = object
            && s.dict.get(b"Subtype").is_ok_and(|kind| kind.as_name().is_ok_and(|kind| kind == b"Form"))
        {
            s.dict.set("Resources", resources);
        }
    }
}

/// What is drawn on a page, what it takes, and which page it is among the tags.
fn draw_page(
    document: &mut Document,
    id: ObjectId,
    page: &Page,
    number: usize,
    resources: &[(&str, ObjectId)],
) -> Result<(), lopdf::Error> {
    let dictionary = document.get_dictionary_mut(id)?;
    let content = dictionary.get(b"Contents")?.as_reference()?;
    let known = dictionary.get(b"Resources")?.as_reference()?;
    // Cause: every page gets a list of annotations, though empty.
    dictionary.remove(b"Annots");
    // Cause: it knows no tree of parts.
    dictionary.set("StructParents", number as i64);
    dictionary.set("Tabs", "S");
    // Cause: none of its operations sets text in a face that is not its own.
    document.set_object(content, Stream::new(dictionary! {}, page.content.bytes.clone()));
    let known = document.get_dictionary_mut(known)?;
    resources.iter().for_each(|(kind, id)| known.set(*kind, *id));
    Ok(())
}

/// Entries of the catalogue that the crate knows nothing of.
fn catalogue(document: &mut Document, book: &Book, pages: &[ObjectId]) -> Dictionary {
    let parts: Vec<(ObjectId, &[Tag])> =
        pages.iter().copied().zip(book.pages.iter().map(|p| p.content.parts.as_slice())).collect();
    let mut more = dictionary! {
        "Lang" => Object::string_literal(LANGUAGE),
        "MarkInfo" => dictionary! { "Marked" => true },
        // A reader that scales pages to fit spoils every length (ISO 32000-1, table 150).
        "ViewerPreferences" => dictionary! {
            "PrintScaling" => "None", "PickTrayByPDFSize" => true, "DisplayDocTitle" => true,
        },
        "StructTreeRoot" => tags::add(document, &parts, &book.forms),
        "Metadata" => document.add_object(metadata::stream(&book.title, LANGUAGE)),
    };
    let names = book.pages.iter().map(|p| p.name.as_str());
    way::add(document, &mut more, &book.bookmarks, pages, names);
    more
}

fn set_all(dictionary: &mut Dictionary, entries: Dictionary) {
    entries.into_iter().for_each(|(key, value)| dictionary.set(key, value));
}

#[cfg(test)]
mod tests;
