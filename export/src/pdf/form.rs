//! A drawing that pages show parts of: one piece, at true size.

use kurbo::Rect;

/// Content that is drawn on one page or on many.
pub(crate) struct Form {
    pub(crate) content: Vec<u8>,
    /// What it covers, in its own millimetres, y down.
    pub(crate) bounds: Rect,
    /// What it shows, for those who do not see it.
    pub(crate) alt: String,
}
