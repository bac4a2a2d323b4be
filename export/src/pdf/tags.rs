//! What the parts of a page are, for readers that speak a page or set it anew: a tree of the whole
//! document in reading order (ISO 32000-1, 14.7 and 14.8). Whatever is no part is decoration.

use super::form::Form;
use lopdf::{Dictionary, Document, Object, ObjectId, dictionary};

/// What a part of a page is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Tag {
    /// The name of the document.
    Title,
    /// The heading of a block.
    Heading,
    /// A paragraph or a line.
    Paragraph,
    /// A drawing, and what it shows.
    Figure(String),
    /// A part of a form, by its number; on however many pages it is drawn, it is one figure.
    Form(usize),
}

impl Tag {
    /// The standard type (ISO 32000-1, tables 333 to 340).
    pub(crate) const fn name(&self) -> &'static str {
        match self {
            Self::Title => "H1",
            Self::Heading => "H2",
            Self::Paragraph => "P",
            Self::Figure(_) | Self::Form(_) => "Figure",
        }
    }
}

/// A place of marked content: a page, and a number on it.
type Spot = (usize, usize);

/// An element of the tree, and where its content is.
struct Element<'a> {
    tag: &'a Tag,
    spots: Vec<Spot>,
}

/// Adds the tree for the parts of every page; answers its root.
pub(super) fn add(document: &mut Document, pages: &[(ObjectId, &[Tag])], forms: &[Form]) -> ObjectId {
    let elements = in_order(pages);
    let (root, whole) = (document.new_object_id(), document.new_object_id());
    let ids: Vec<ObjectId> = elements.iter().map(|_| document.new_object_id()).collect();
    let mut owners: Vec<Vec<Object>> = pages.iter().map(|(_, tags)| vec![Object::Null; tags.len()]).collect();
    for (element, id) in elements.iter().zip(&ids) {
        for (page, number) in &element.spots {
            owners[*page][*number] = Object::Reference(*id);
        }
        document.objects.insert(*id, Object::Dictionary(dictionary_of(element, pages, forms, whole)));
    }
    let kids: Vec<Object> = ids.into_iter().map(Object::Reference).collect();
    document.objects.insert(
        whole,
        Object::Dictionary(dictionary! {
            "Type" => "StructElem", "S" => "Document", "P" => root, "K" => kids,
        }),
    );
    let parents = (0..).zip(owners).flat_map(|(page, of)| [Object::Integer(page), Object::Array(of)]);
    let parents = document.add_object(dictionary! { "Nums" => parents.collect::<Vec<_>>() });
    document.objects.insert(
        root,
        Object::Dictionary(dictionary! {
            "Type" => "StructTreeRoot", "K" => whole, "ParentTree" => parents,
            "ParentTreeNextKey" => pages.len() as i64,
        }),
    );
    root
}

/// Every element once, where its first part is.
fn in_order<'a>(pages: &[(ObjectId, &'a [Tag])]) -> Vec<Element<'a>> {
    let mut elements: Vec<Element<'a>> = Vec::new();
    for (page, (_, tags)) in pages.iter().enumerate() {
        for (number, tag) in tags.iter().enumerate() {
            let is_known = |e: &&mut Element<'_>| matches!(tag, Tag::Form(_)) && e.tag == tag;
            match elements.iter_mut().find(is_known) {
                Some(known) => known.spots.push((page, number)),
                None => elements.push(Element { tag, spots: vec![(page, number)] }),
            }
        }
    }
    elements
}

fn dictionary_of(element: &Element<'_>, pages: &[(ObjectId, &[Tag])], forms: &[Form], parent: ObjectId) -> Dictionary {
    // A list of a thousand people has ten thousand of these: the type, which goes without saying (table 323), and
    // a dictionary for each place are left out.
    let mut made = dictionary! { "S" => element.tag.name(), "P" => parent };
    match element.spots.as_slice() {
        [(page, number)] => {
            made.set("Pg", pages[*page].0);
            made.set("K", *number as i64);
        }
        spots => {
            let kid = |(page, number): &Spot| {
                let (page, number) = (pages[*page].0, *number as i64);
                Object::Dictionary(dictionary! { "Type" => "MCR", "Pg" => page, "MCID" => number })
            };
            made.set("K", spots.iter().map(kid).collect::<Vec<_>>());
        }
    }
    let alt = match element.tag {
        Tag::Figure(words) => Some(words.as_str()),
        Tag::Form(number) => forms.get(*number).map(|form| form.alt.as_str()),
        Tag::Title | Tag::Heading | Tag::Paragraph => None,
    };
    if let Some(words) = alt {
        made.set("Alt", lopdf::text_string(words));
    }
    made
}
