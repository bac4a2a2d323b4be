//! A document before it is a file: its pages, what is drawn on them, and where its bookmarks lead.

use engine::drawing::Drawing;
use kurbo::{Point, Rect, Size, Vec2};

/// Content that is drawn on one page or on many.
pub(super) struct Form {
    pub(super) content: Vec<u8>,
    /// What it covers, in its own millimetres, y down.
    pub(super) bounds: Rect,
}

/// One page.
pub(super) struct Page {
    pub(super) size: Size,
    /// Forms by their number, with the place of their origin; clipped.
    pub(super) placed: Vec<(usize, Vec2)>,
    pub(super) clip: Rect,
    /// Drawn over them, its origin at the top left.
    pub(super) front: Vec<u8>,
    /// What a reader calls it in place of a number.
    pub(super) name: String,
}

/// All of a document.
pub(super) struct Book<'d> {
    pub(super) drawing: &'d Drawing,
    pub(super) forms: Vec<Form>,
    pub(super) pages: Vec<Page>,
    pub(super) bookmarks: Vec<Bookmark>,
}

/// A place to go to.
pub(super) struct Bookmark {
    pub(super) title: String,
    /// Which page, from 0.
    pub(super) page: usize,
    /// The top left of what should be seen, from its bottom left, mm.
    pub(super) at: Point,
    pub(super) inside: Vec<Self>,
}
