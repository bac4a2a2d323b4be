//! A document before it is a file: its pages, what is drawn on them, and where its bookmarks lead.

use super::canvas::Content;
use super::form::Form;
use super::layer::Layer;
use kurbo::{Point, Size};

/// One page.
pub(crate) struct Page {
    pub(crate) size: Size,
    /// Its origin at the top left.
    pub(crate) content: Content,
    /// What a reader calls it in place of a number.
    pub(crate) name: String,
}

/// All of a document.
pub(crate) struct Book {
    pub(crate) title: String,
    pub(crate) forms: Vec<Form>,
    pub(crate) pages: Vec<Page>,
    pub(crate) bookmarks: Vec<Bookmark>,
    /// What can be hidden, with its name, in the order that a reader lists it.
    pub(crate) layers: Vec<(Layer, String)>,
}

/// A place to go to.
pub(crate) struct Bookmark {
    pub(crate) title: String,
    /// Which page, from 0.
    pub(crate) page: usize,
    /// The top left of what should be seen, from its bottom left, mm.
    pub(crate) at: Point,
    pub(crate) inside: Vec<Self>,
}
