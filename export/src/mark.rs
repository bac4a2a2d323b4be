//! How to tell a file of our own from anybody else's.

/// The program's name, which every file carries.
pub const PROGRAM: &str = "quarterpin";

/// Where in a file the mark is looked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A comment line in the head of a PDF.
    PdfComment,
    /// A 999 comment among the first tags of a DXF.
    DxfComment,
    /// A comment before the first element's content of an SVG.
    SvgComment,
    /// The key `program` of a JSON object.
    JsonProgram,
    /// The first label of a plotter file, or the comment that it begins with.
    HpglLabel,
    /// The first line of a table, of which nobody else's is the same.
    Head(&'static str),
    /// A comment in the first line of a Markdown text.
    MarkdownComment,
    /// A comment in the first line of a manual page.
    RoffComment,
}

/// What a mark says: the program, and places for which sheet a file came from and for a digest of the
/// file as it was written. Whoever puts a file in its place fills them in; they are never moved.
pub const BLANK: &str = "quarterpin sheet 0000000000000000 digest 00000000000000000000000000000000";

/// As much of a file's beginning holds its mark; nobody's own text has to be searched.
pub const HEAD_BYTES: usize = 1024;

impl Mark {
    /// Every kind whose mark says what the file was like when it was written.
    pub const SEALED: [Self; 7] = [
        Self::PdfComment,
        Self::DxfComment,
        Self::SvgComment,
        Self::JsonProgram,
        Self::HpglLabel,
        Self::MarkdownComment,
        Self::RoffComment,
    ];

    /// Is the mark in the head of a file?
    pub fn is_in(self, bytes: &[u8]) -> bool {
        match self {
            Self::PdfComment => is_in_pdf(bytes),
            Self::DxfComment => is_in_dxf(bytes),
            Self::SvgComment => is_in_svg(bytes),
            Self::JsonProgram => is_in_json(bytes),
            Self::HpglLabel => is_in_hpgl(bytes),
            Self::Head(head) => bytes.starts_with(head.as_bytes()),
            Self::MarkdownComment => bytes.starts_with(format!("<!-- {PROGRAM} ").as_bytes()),
            Self::RoffComment => bytes.starts_with(format!(".\\\" {PROGRAM} ").as_bytes()),
        }
    }

    /// Does the mark say what the file was like when it was written? A table has no room for it.
    pub fn is_sealed(self) -> bool {
        Self::SEALED.contains(&self)
    }
}

fn head(bytes: &[u8]) -> String {
    String::from_utf8_lossy(&bytes[..bytes.len().min(HEAD_BYTES)]).into_owned()
}

fn is_in_pdf(bytes: &[u8]) -> bool {
    bytes.starts_with(b"%PDF-") && head(bytes).lines().take(4).any(|line| line.starts_with(&format!("%{PROGRAM} ")))
}

fn is_in_dxf(bytes: &[u8]) -> bool {
    let head = head(bytes);
    let mut lines = head.lines().map(str::trim);
    while let (Some("999"), Some(comment)) = (lines.next(), lines.next()) {
        if comment.starts_with(PROGRAM) {
            return true;
        }
    }
    false
}

fn is_in_svg(bytes: &[u8]) -> bool {
    let head = head(bytes);
    head.contains("<svg") && head.contains(&format!("<!-- {PROGRAM} "))
}

fn is_in_hpgl(bytes: &[u8]) -> bool {
    let head = head(bytes);
    let label = head.strip_prefix("IN;\nCO\"").or_else(|| head.split("LB").nth(1));
    bytes.starts_with(b"IN;") && label.is_some_and(|label| label.starts_with(PROGRAM))
}

/// A key of the object itself, as it is written here: on a line of its own, indented once.
fn is_in_json(bytes: &[u8]) -> bool {
    head(bytes)
        .lines()
        .any(|line| line.strip_prefix("  ").is_some_and(|key| key == format!("\"program\": \"{PROGRAM}\",")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_is_found_in_its_place() {
        assert!(Mark::PdfComment.is_in(b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n%quarterpin sheet\n1 0 obj"));
        assert!(Mark::DxfComment.is_in(b"999\nquarterpin\n  0\nSECTION\n"));
        assert!(Mark::DxfComment.is_in(b"999\r\nlengths in mm\r\n999\r\nquarterpin 0.1\r\n0\r\nSECTION\r\n"));
        assert!(Mark::SvgComment.is_in(b"<svg xmlns=\"http://www.w3.org/2000/svg\">\n<!-- quarterpin sheet -->"));
        assert!(Mark::HpglLabel.is_in(b"IN;\nSP8;\nSI0.1,0.1;PU1,1;LBquarterpin\x03\n"));
        assert!(!Mark::HpglLabel.is_in(b"IN;SP1;LBmine\x03LBquarterpin\x03"));
        assert!(Mark::HpglLabel.is_in(b"IN;\nCO\"quarterpin sheet\";\nSP1;\n"));
        assert!(Mark::MarkdownComment.is_in(b"<!-- quarterpin sheet -->\n\n# a pair\n"));
        assert!(!Mark::MarkdownComment.is_in(b"# mine\n<!-- quarterpin -->\n"));
        assert!(Mark::RoffComment.is_in(b".\\\" quarterpin sheet\n.TH"));
        assert!(Mark::JsonProgram.is_in(b"{\n  \"version\": 1,\n  \"program\": \"quarterpin\",\n"));
        assert!(Mark::Head("row,name").is_in(b"row,name\n1,Anna\n") && !Mark::Head("row,name").is_in(b"name,row\n"));
    }

    #[test]
    fn the_word_elsewhere_is_no_mark() {
        assert!(!Mark::PdfComment.is_in(b"%PDF-1.7\n1 0 obj (quarterpin)"));
        assert!(!Mark::PdfComment.is_in(b"%quarterpin"));
        assert!(!Mark::DxfComment.is_in(b"0\nSECTION\n1\nquarterpin\n"));
        assert!(!Mark::SvgComment.is_in(b"<svg><title>quarterpin</title></svg>"));
        assert!(!Mark::JsonProgram.is_in(br#"{"name": "quarterpin"}"#));
        assert!(!Mark::JsonProgram.is_in(b"{\n  \"mine\": {\n    \"program\": \"quarterpin\",\n"));
        for mark in Mark::SEALED {
            assert!(!mark.is_in(b""), "{mark:?}");
            assert!(!mark.is_in(b"\xff\xfe\x00"), "{mark:?}");
        }
    }
}
