//! Documents of ours one behind the other, as one to be printed in one go.
//!
//! Pages, what they draw with, and layers come along, each document's layers under its own title; of
//! bookmarks each document has one. The tree of parts (for readers that speak a page) stays that of
//! the first document: the others have it in their own files.

use super::error::PdfError;
use super::mark;
use lopdf::xref::XrefType;
use lopdf::{Bookmark, Dictionary, Document, Object, ObjectId};
use rayon::prelude::*;

/// A document to be bound, with what its bookmark says.
#[derive(Clone, Debug)]
pub struct Part {
    /// For its bookmark, and its layers.
    pub title: String,
    /// The file.
    pub bytes: Vec<u8>,
}

/// All of them as one, the first one's title and settings for all.
///
/// # Errors
/// [`PdfError`] where one of them is no document of ours.
pub fn bind(parts: Vec<Part>) -> Result<Vec<u8>, PdfError> {
    let wrong = |e: lopdf::Error| PdfError::Write(e.to_string());
    let read = |Part { title, bytes }| Document::load_mem(&bytes).map(|document| (title, document));
    // Of several that cannot be read, the first is told.
    let read: Vec<Result<_, lopdf::Error>> = parts.into_par_iter().map(read).collect();
    let mut parts = read.into_iter().collect::<Result<Vec<_>, _>>().map_err(wrong)?.into_iter();
    let Some((first, mut whole)) = parts.next() else { return Err(PdfError::Empty) };
    whole.reference_table.cross_reference_type = XrefType::CrossReferenceTable;
    let mut bound = Bound { pages: whole.get_pages().into_values().collect(), layers: Layers::default() };
    let catalogue = whole.catalog_mut().map_err(wrong)?;
    // Both count the pages of one document only.
    for key in [b"PageLabels".as_slice(), b"Outlines"] {
        catalogue.remove(key);
    }
    if let Some(page) = bound.pages.first() {
        whole.add_bookmark(Bookmark::new(first, [0.0; 3], 0, *page), None);
    }
    for (title, document) in parts {
        bound.add(&mut whole, title, document).map_err(wrong)?;
    }
    bound.complete(&mut whole).map_err(wrong)?;
    mark::bytes(whole)
}

/// What is collected of the documents.
struct Bound {
    pages: Vec<ObjectId>,
    layers: Layers,
}

/// The layers of all documents (ISO 32000-1, 8.11.4).
#[derive(Default)]
struct Layers {
    all: Vec<Object>,
    hidden: Vec<Object>,
    one_at_a_time: Vec<Object>,
    order: Vec<Object>,
}

impl Bound {
    fn add(&mut self, whole: &mut Document, title: String, mut document: Document) -> Result<(), lopdf::Error> {
        document.renumber_objects_with(whole.max_id + 1);
        whole.max_id = document.max_id;
        let pages: Vec<ObjectId> = document.get_pages().into_values().collect();
        if let Ok(properties) = document.catalog().and_then(|c| c.get(b"OCProperties")).and_then(Object::as_dict) {
            self.layers.add(properties, &title);
        }
        if let Some(page) = pages.first() {
            whole.add_bookmark(Bookmark::new(title, [0.0; 3], 0, *page), None);
        }
        for page in &pages {
            // Its place in a tree that stays behind.
            document.get_object_mut(*page)?.as_dict_mut()?.remove(b"StructParents");
        }
        let stays = |object: &Object| {
            let kinds: [&[u8]; 5] = [b"Catalog", b"Pages", b"Outlines", b"StructTreeRoot", b"Metadata"];
            object.type_name().is_ok_and(|kind| kinds.contains(&kind))
        };
        whole.objects.extend(document.objects.into_iter().filter(|(_, object)| !stays(object)));
        self.pages.extend(pages);
        Ok(())
    }

    fn complete(self, whole: &mut Document) -> Result<(), lopdf::Error> {
        let tree = whole.catalog()?.get(b"Pages")?.as_reference()?;
        for page in &self.pages {
            whole.get_object_mut(*page)?.as_dict_mut()?.set("Parent", tree);
        }
        let kids: Vec<Object> = self.pages.iter().copied().map(Object::Reference).collect();
        let pages = whole.get_object_mut(tree)?.as_dict_mut()?;
        pages.set("Count", kids.len() as i64);
        pages.set("Kids", kids);
        let outline = whole.build_outline();
        let layers = self.layers.properties();
        let catalogue = whole.catalog_mut()?;
        if let Some(outline) = outline {
            catalogue.set("Outlines", outline);
        }
        if let Some(layers) = layers {
            catalogue.set("OCProperties", layers);
        }
        // What only those pointed at that stayed behind.
        whole.prune_objects();
        whole.renumber_objects();
        Ok(())
    }
}

impl Layers {
    fn add(&mut self, properties: &Dictionary, title: &str) {
        let list = |of: &Dictionary, key: &[u8]| of.get(key).and_then(Object::as_array).cloned().unwrap_or_default();
        self.all.extend(list(properties, b"OCGs"));
        let Ok(shown) = properties.get(b"D").and_then(Object::as_dict) else { return };
        self.hidden.extend(list(shown, b"OFF"));
        self.one_at_a_time.extend(list(shown, b"RBGroups"));
        let order = list(shown, b"Order");
        self.order.push(Object::Array([vec![lopdf::text_string(title)], order].concat()));
    }

    fn properties(self) -> Option<Dictionary> {
        if self.all.is_empty() {
            return None;
        }
        let mut shown = Dictionary::new();
        shown.set("BaseState", Object::Name(b"ON".to_vec()));
        shown.set("Order", self.order);
        shown.set("OFF", self.hidden);
        shown.set("RBGroups", self.one_at_a_time);
        let mut properties = Dictionary::new();
        properties.set("OCGs", self.all);
        properties.set("D", shown);
        Some(properties)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::list::{List, Part as Block, Start, list};
    use crate::mark::Mark;
    use crate::pdf::{pages, tiled};
    use crate::sample;
    use engine::sheet::Paper;

    #[test]
    fn all_pages_are_there_in_order_and_the_same_twice() {
        let heading = |text: &str| Block::Heading(text.to_owned(), Start::NewPage);
        let first = list(&List { title: "first".to_owned(), parts: vec![heading("more")] }, Paper::A4).unwrap();
        let print = tiled(&sample::drawing(), &Default::default()).unwrap();
        let part = |title: &str, bytes: &[u8]| Part { title: title.to_owned(), bytes: bytes.to_vec() };
        let all = || bind(vec![part("a", &first), part("مريم", &print), part("c", &print)]).unwrap();
        let whole = all();
        assert!(whole == all() && Mark::PdfComment.is_in(&whole));
        assert_eq!(pages(&whole), Some(pages(&first).unwrap() + 2 * pages(&print).unwrap()));
        let document = Document::load_mem(&whole).unwrap();
        let sizes = |document: &Document| {
            let size = |id: ObjectId| format!("{:?}", document.get_dictionary(id).unwrap().get(b"MediaBox").unwrap());
            document.page_iter().map(size).collect::<Vec<_>>()
        };
        let own = sizes(&Document::load_mem(&print).unwrap());
        assert_eq!(sizes(&document)[2..], [own.clone(), own].concat());
        assert!(bind(vec![]).is_err() && bind(vec![part("a", b"no document")]).is_err());
    }
}
