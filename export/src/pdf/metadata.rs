//! What a file says of itself to programs that do not read it (XMP, ISO 16684-1).

use crate::mark::PROGRAM;
use lopdf::{Stream, dictionary};
use xmp_writer::{LangId, XmpWriter};

/// Title, kind and language; no date, which would come from a clock.
pub(super) fn stream(title: &str, language: &str) -> Stream {
    let mut xmp = XmpWriter::new();
    xmp.format("application/pdf");
    xmp.title([(None, title)]);
    xmp.creator([PROGRAM]);
    xmp.language([LangId(language)]);
    xmp.creator_tool(PROGRAM);
    xmp.producer(PROGRAM);
    let dictionary = dictionary! { "Type" => "Metadata", "Subtype" => "XML" };
    // Programs look for it without opening the file.
    Stream::new(dictionary, xmp.finish(None).into_bytes()).with_compression(false)
}
