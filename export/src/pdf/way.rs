//! Ways into the file: a bookmark for each piece, and what each page is called.

use super::book::{Bookmark, Page};
use super::canvas::PT_PER_MM;
use super::layout::{self, Layout, extent};
use engine::drawing::{Drawing, Piece};
use kurbo::{Point, Vec2};
use lopdf::{Document, Object, ObjectId, dictionary};

/// One for the first page, and one for every piece, where its text begins; inside that, one for
/// every page that it lies on.
pub(super) fn bookmarks(drawing: &Drawing, layout: &Layout, pages: &[Page], covers: usize) -> Vec<Bookmark> {
    let top = |page: usize| pages.get(page).map_or(0.0, |p| p.size.height);
    let start = Bookmark {
        title: "test squares, page map, notes".to_owned(),
        page: 0,
        at: Point::new(0.0, top(0)),
        inside: vec![],
    };
    let of = |(i, (piece, offset)): (usize, (&Piece, &Vec2))| {
        let here = |page: &usize| pages[*page].placed.iter().any(|(form, _)| *form == i);
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
    std::iter::once(start).chain(pieces.map(of)).collect()
}

/// Sets the bookmarks and the names of the pages.
pub(super) fn add(document: &mut Document, bookmarks: &[Bookmark], names: &[String]) -> Result<(), lopdf::Error> {
    let pages: Vec<ObjectId> = document.page_iter().collect();
    let root = document.new_object_id();
    let (first, last) = chain(document, bookmarks, root, &pages);
    if let (Some(first), Some(last)) = (first, last) {
        let count = bookmarks.len() as i64;
        let outline = dictionary! { "Type" => "Outlines", "First" => first, "Last" => last, "Count" => count };
        document.objects.insert(root, Object::Dictionary(outline));
        document.catalog_mut()?.set("Outlines", root);
    }
    // A range of one page each, with a prefix and no number (ISO 32000-1, 12.4.2).
    let range = |(i, name): (usize, &String)| {
        [Object::Integer(i as i64), Object::Dictionary(dictionary! { "P" => lopdf::text_string(name) })]
    };
    let ranges: Vec<Object> = names.iter().enumerate().flat_map(range).collect();
    document.catalog_mut()?.set("PageLabels", dictionary! { "Nums" => ranges });
    Ok(())
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
            // Negative: shut until it is opened.
            entry.set("Count", -(item.inside.len() as i64));
        }
        document.objects.insert(ids[i], Object::Dictionary(entry));
    }
    (ids.first().copied(), ids.last().copied())
}
