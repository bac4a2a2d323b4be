//! How many pages a print has.

use lopdf::Document;

/// The pages of a document in memory, as its page tree says; none where it is no PDF.
pub fn pages(bytes: &[u8]) -> Option<usize> {
    let told = Document::load_metadata_mem(bytes).ok()?;
    usize::try_from(told.page_count).ok().filter(|count| *count > 0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sample;

    #[test]
    fn the_page_tree_is_believed() {
        let print = crate::pdf::tiled(&sample::drawing(), &Default::default()).unwrap();
        let document = Document::load_mem(&print).unwrap();
        assert_eq!(pages(&print), Some(document.get_pages().len()));
        assert_eq!((pages(b"no document"), pages(&print[..print.len() / 2])), (None, None));
    }
}
