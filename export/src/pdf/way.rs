//! Ways into the file: a bookmark for each piece, and what each page is called.

use super::book::{Bookmark, Page};
use super::canvas::PT_PER_MM;
use super::layout::{self, Layout, extent};
use super::tags::Tag;
use engine::drawing::{Drawing, Piece};
use kurbo::{Point, Vec2};
use lopdf::{Dictionary, Document, Object, ObjectId, dictionary};

/// One for the first page, where it is no page of the pattern, and one for every piece, where its text
/// begins; inside that, one for every page that it lies on.
pub(super) fn bookmarks(drawing: &Drawing, layout: &Layout, pages: &[Page], covers: usize) -> Vec<Bookmark> {
    let top = |page: usize| pages.get(page).map_or(0.0, |p| p.size.height);
    let title = "how to print: test squares, page map".to_owned();
    let start = Bookmark { title, page: 0, at: Point::new(0.0, top(0)), inside: vec![] };
    let of = |(i, (piece, offset)): (usize, (&Piece, &Vec2))| {
        let here = |page: &usize| pages[*page].content.parts.contains(&Tag::Form(i));
        let on: Vec<usize> = (covers..pages.len()).filter(here).collect();
        let text = piece.text_box.origin() + *offset;
        let main = on.iter().copied().find(|p| layout::holds(layout, *p - covers, text)).or(on.first().copied());
        let place = |page: usize, title: String, inside: Vec<Bookmark>| {
            let corner = extent(piece).origin() + *offset + layout::nth_shift(layout, page - covers);
            let at = Point::new(corner.x.max(0.0), top(page) - corner.y.max(0.0));
            Bookmark { title, page, at, inside }
        };
        let each = |page: &usize| place(*page, format!("page {}", pages[*page].name), vec![]);
        let inside = if on.len() > 1 { on.iter().map(each).collect() } else { vec![] };
        place(main.unwrap_or(covers), piece.name.clone(), inside)
    };
    let pieces = drawing.pieces.iter().zip(&layout.offsets).enumerate();
    Some(start).filter(|_| covers > 0).into_iter().chain(pieces.map(of)).collect()
}

/// Sets the bookmarks and the names of the pages.
pub(super) fn add<'a>(
    document: &mut Document,
    catalogue: &mut Dictionary,
    bookmarks: &[Bookmark],
    pages: &[ObjectId],
    names: impl Iterator<Item = &'a str>,
) {
    let root = document.new_object_id();
    let (first, last) = chain(document, bookmarks, root, pages);
    if let (Some(first), Some(last)) = (first, last) {
        let count: usize = bookmarks.iter().map(open).sum();
        let outline = dictionary! { "Type" => "Outlines", "First" => first, "Last" => last, "Count" => count as i64 };
        document.objects.insert(root, Object::Dictionary(outline));
        catalogue.set("Outlines", root);
        catalogue.set("PageMode", "UseOutlines");
    }
    // A range of one page each, with a prefix and no number (ISO 32000-1, 12.4.2).
    let range = |(i, name): (usize, &str)| {
        [Object::Integer(i as i64), Object::Dictionary(dictionary! { "P" => lopdf::text_string(name) })]
    };
    let ranges: Vec<Object> = names.enumerate().flat_map(range).collect();
    catalogue.set("PageLabels", dictionary! { "Nums" => ranges });
}

/// How many lines a bookmark takes in the list, with all that is inside it.
fn open(bookmark: &Bookmark) -> usize {
    1 + bookmark.inside.iter().map(open).sum::<usize>()
}

fn points(mm: f64) -> Object {
    Object::Real((mm * PT_PER_MM) as f32)
}

/// Adds items that follow each other; answers the first and the last.
fn chain(
    document: &mut Document,
    items: &[Bookmark],
    parent: ObjectId,
    pages: &[ObjectId],
) -> (Option<ObjectId>, Option<ObjectId>) {
    let ids: Vec<ObjectId> = items.iter().map(|_| document.new_object_id()).collect();
    for (i, item) in items.iter().enumerate() {
        let mut entry = dictionary! { "Title" => lopdf::text_string(&item.title), "Parent" => parent };
        if let Some(page) = pages.get(item.page) {
            let (x, y) = (points(item.at.x), points(item.at.y));
            entry.set("Dest", vec![(*page).into(), "XYZ".into(), x, y, Object::Null]);
        }
        if let Some(before) = i.checked_sub(1) {
            entry.set("Prev", ids[before]);
        }
        if let Some(after) = ids.get(i + 1) {
            entry.set("Next", *after);
        }
        if let (Some(first), Some(last)) = chain(document, &item.inside, ids[i], pages) {
            entry.set("First", first);
            entry.set("Last", last);
            // Positive: open from the start.
            entry.set("Count", (open(item) - 1) as i64);
        }
        document.objects.insert(ids[i], Object::Dictionary(entry));
    }
    (ids.first().copied(), ids.last().copied())
}
