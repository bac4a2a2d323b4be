//! R12, written by hand: it is a small format, and what the `dxf` crate writes under its name holds
//! marks of later versions, which foreign readers refuse.

use super::named::APPLICATION;
use super::writer::Writer;
use crate::mark::BLANK;
use kurbo::{Point, Rect};

impl Writer {
    /// A file's beginning: comments, extents (mm) and layers with their colours.
    ///
    /// The format itself has no units; readers of later versions look for them all the same, and read
    /// inches where they are missing.
    pub(super) fn begin(comments: &[&str], extents: Rect, layers: &[(&str, u8)]) -> Self {
        let mut w = Self::r12();
        for comment in std::iter::once(&BLANK).chain(comments) {
            w.tag(999, comment);
        }
        w.section("HEADER");
        w.tag(9, "$ACADVER").tag(1, "AC1009");
        w.tag(9, "$INSBASE").place(Point::ZERO);
        let far = Point::new(extents.x1, extents.y1);
        w.tag(9, "$EXTMIN").place(extents.origin()).tag(9, "$EXTMAX").place(far);
        w.tag(9, "$LIMMIN").place(extents.origin()).tag(9, "$LIMMAX").place(far);
        // 4: millimetres, 1: metric.
        w.tag(9, "$INSUNITS").tag(70, "4").tag(9, "$MEASUREMENT").tag(70, "1");
        // 1: decimal, with so many decimals on show.
        w.tag(9, "$LUNITS").tag(70, "2").tag(9, "$LUPREC").tag(70, "3");
        w.end();
        w.tables(layers);
        w
    }

    fn tables(&mut self, layers: &[(&str, u8)]) {
        self.section("TABLES");
        self.tag(0, "TABLE").tag(2, "LTYPE").tag(70, "1");
        self.tag(0, "LTYPE").tag(2, "CONTINUOUS").tag(70, "0").tag(3, "Solid line").tag(72, "65").tag(73, "0");
        self.tag(40, "0.0").tag(0, "ENDTAB");
        self.tag(0, "TABLE").tag(2, "LAYER").tag(70, &(layers.len() + 1).to_string());
        for (name, colour) in std::iter::once(&("0", 7)).chain(layers) {
            self.tag(0, "LAYER").tag(2, name).tag(70, "0").tag(62, &colour.to_string()).tag(6, "CONTINUOUS");
        }
        self.tag(0, "ENDTAB");
        self.tag(0, "TABLE").tag(2, "STYLE").tag(70, "1");
        self.tag(0, "STYLE").tag(2, "STANDARD").tag(70, "0").tag(40, "0.0").tag(41, "1.0").tag(50, "0.0");
        self.tag(71, "0").tag(42, "2.5").tag(3, "txt").tag(4, "").tag(0, "ENDTAB");
        // Whose extended data stands at the outlines.
        self.tag(0, "TABLE").tag(2, "APPID").tag(70, "1");
        self.tag(0, "APPID").tag(2, APPLICATION).tag(70, "0").tag(0, "ENDTAB");
        self.end();
    }

    /// Begins a section.
    pub(super) fn section(&mut self, name: &str) {
        self.tag(0, "SECTION").tag(2, name);
    }

    /// Ends it.
    pub(super) fn end(&mut self) {
        self.tag(0, "ENDSEC");
    }

    /// Begins a block with its origin at its own zero.
    pub(super) fn block(&mut self, name: &str, layer: &str) {
        self.entity("BLOCK", "", layer).tag(2, name).tag(70, "0").place(Point::ZERO).tag(30, "0.0").tag(3, name);
    }

    /// Ends it.
    pub(super) fn end_block(&mut self, layer: &str) {
        self.entity("ENDBLK", "", layer);
    }

    /// Draws a block.
    pub(super) fn insert(&mut self, name: &str, layer: &str, at: Point) {
        self.entity("INSERT", "", layer).tag(2, name).place(at).tag(30, "0.0");
    }

    /// A point.
    pub(super) fn point(&mut self, layer: &str, p: Point) {
        self.entity("POINT", "", layer).place(p).tag(30, "0.0");
    }

    /// A point with a height, a thickness (both mm) and an angle (degrees).
    pub(super) fn notch(&mut self, layer: &str, p: Point, depth: f64, width: f64, angle: f64) {
        self.entity("POINT", "", layer).reals(&[(39, width)]).place(p).reals(&[(30, depth), (50, angle)]);
    }

    /// The whole file.
    pub(super) fn finish(mut self) -> Vec<u8> {
        self.tag(0, "EOF");
        self.done().0
    }
}
