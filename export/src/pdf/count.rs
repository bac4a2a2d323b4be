//! How many pages a print has.

use lopdf::Document;

/// The pages of a document in memory; none where it is no PDF.
pub fn pages(bytes: &[u8]) -> Option<usize> {
    Document::load_mem(bytes).ok().map(|document| document.get_pages().len())
}
