//! Why there is no print.

/// Why there is no print, and what to change.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PdfError {
    /// Not a finite length, or less than nothing.
    #[error("the {what} of the print is {value} mm; give a length of 0 or more")]
    NotALength {
        /// `margin` or `overlap`.
        what: &'static str,
        /// As given, mm.
        value: f64,
    },
    /// Too little is left to print on.
    #[error(
        "a margin of {margin:.1} mm leaves less than {least:.0} mm of {paper} to print on; \
         set a margin of at most {most:.1} mm, or take larger paper"
    )]
    MarginTooWide {
        /// Its name.
        paper: String,
        /// As given, mm.
        margin: f64,
        /// The least printable width, mm.
        least: f64,
        /// The widest margin that leaves it, mm.
        most: f64,
    },
    /// Pages would mostly repeat each other.
    #[error("an overlap of {overlap:.1} mm eats the pages of {paper}; set an overlap of at most {most:.1} mm")]
    OverlapTooWide {
        /// Its name.
        paper: String,
        /// As given, mm.
        overlap: f64,
        /// The widest that works, mm.
        most: f64,
    },
    /// More than a page may measure.
    #[error(
        "one page of all pieces would be {width:.0} × {height:.0} mm, and no page is longer than {most:.0} mm; \
         print on pages of the paper's size"
    )]
    PageTooLarge {
        /// mm.
        width: f64,
        /// mm.
        height: f64,
        /// mm.
        most: f64,
    },
    /// A drawing without a piece.
    #[error("the drawing has no pieces, so there is nothing to print")]
    Empty,
    /// The built-in face is broken: a fault of the program.
    #[error("the built-in font cannot be used: {0}")]
    Font(String),
    /// The document cannot be written: a fault of the program.
    #[error("the PDF cannot be put together: {0}")]
    Write(String),
}

impl From<lopdf::Error> for PdfError {
    fn from(e: lopdf::Error) -> Self {
        Self::Write(e.to_string())
    }
}
