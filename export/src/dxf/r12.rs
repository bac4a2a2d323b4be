//! R12, written by hand: it is a small format, and what the `dxf` crate writes under its name holds
//! marks of later versions, which foreign readers refuse.

use super::MARK;
use super::tags::push_code;
use crate::cutter::Closing;
use crate::digits::push_real;
use crate::number::decimal;
use kurbo::{Line, Point};

/// A file in the making.
pub(super) struct Writer {
    out: String,
}

impl Writer {
    /// With comments on top, then extents from the origin (mm) and layers with their colours.
    pub(super) fn new(comments: &[&str], size: (f64, f64), layers: &[(&str, u8)]) -> Self {
        let mut w = Self { out: String::with_capacity(1 << 16) };
        for comment in std::iter::once(&MARK).chain(comments) {
            w.tag(999, comment);
        }
        w.section("HEADER");
        w.variable("$ACADVER", 1, "AC1009");
        w.tag(9, "$INSBASE").place(Point::ZERO);
        w.tag(9, "$EXTMIN").place(Point::ZERO);
        w.tag(9, "$EXTMAX").place(size.into());
        // 1: decimal, with so many decimals on show.
        w.variable("$LUNITS", 70, "2").variable("$LUPREC", 70, "3");
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
        self.end();
    }

    fn tag(&mut self, code: u16, value: &str) -> &mut Self {
        push_code(&mut self.out, i32::from(code));
        self.out.push_str(value);
        self.out.push_str("\r\n");
        self
    }

    fn variable(&mut self, name: &str, code: u16, value: &str) -> &mut Self {
        self.tag(9, name).tag(code, value)
    }

    fn reals(&mut self, codes: &[(u16, f64)]) -> &mut Self {
        for (code, v) in codes {
            push_code(&mut self.out, i32::from(*code));
            push_real(&mut self.out, *v);
            self.out.push_str("\r\n");
        }
        self
    }

    fn place(&mut self, p: Point) -> &mut Self {
        self.reals(&[(10, p.x), (20, p.y)])
    }

    fn entity(&mut self, kind: &str, layer: &str) -> &mut Self {
        self.tag(0, kind).tag(8, layer)
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
        self.entity("BLOCK", layer).tag(2, name).tag(70, "0").place(Point::ZERO).tag(30, "0.0").tag(3, name);
    }

    /// Ends it.
    pub(super) fn end_block(&mut self, layer: &str) {
        self.entity("ENDBLK", layer);
    }

    /// Draws a block.
    pub(super) fn insert(&mut self, name: &str, layer: &str, at: Point) {
        self.entity("INSERT", layer).tag(2, name).place(at).tag(30, "0.0");
    }

    /// Straight and, where a bulge is not 0, round parts.
    pub(super) fn polyline(&mut self, layer: &str, vertices: &[(Point, f64)], closing: Closing) {
        let flag = if closing == Closing::Closed { "1" } else { "0" };
        self.entity("POLYLINE", layer).tag(66, "1").tag(70, flag);
        // The format wants this point, and that it is zero.
        self.place(Point::ZERO).tag(30, "0.0");
        for (p, bulge) in vertices {
            self.entity("VERTEX", layer).place(*p).tag(30, "0.0");
            if *bulge != 0.0 {
                // More decimals than a length: over a chord of a metre it still has to be exact.
                self.tag(42, &decimal(*bulge, 12));
            }
        }
        self.entity("SEQEND", layer);
    }

    /// A straight line.
    pub(super) fn line(&mut self, layer: &str, l: Line) {
        self.entity("LINE", layer).place(l.p0).tag(30, "0.0").reals(&[(11, l.p1.x), (21, l.p1.y), (31, 0.0)]);
    }

    /// A point.
    pub(super) fn point(&mut self, layer: &str, p: Point) {
        self.entity("POINT", layer).place(p).tag(30, "0.0");
    }

    /// A point with a height, a thickness (both mm) and an angle (degrees).
    pub(super) fn notch(&mut self, layer: &str, p: Point, depth: f64, width: f64, angle: f64) {
        self.entity("POINT", layer).reals(&[(39, width)]).place(p).reals(&[(30, depth), (50, angle)]);
    }

    /// One line of text, its baseline starting at a place; `height` is that of its capitals, mm.
    pub(super) fn text(&mut self, layer: &str, at: Point, height: f64, text: &str) {
        self.entity("TEXT", layer).place(at).tag(30, "0.0").reals(&[(40, height)]).tag(1, text);
    }

    /// The whole file.
    pub(super) fn finish(mut self) -> Vec<u8> {
        self.tag(0, "EOF");
        self.out.into_bytes()
    }
}
