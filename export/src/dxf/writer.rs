//! Entities, written by hand: a small part of the format, and a cutter file has hundreds of them.
//!
//! What differs between the versions stands here side by side: R2000 wants a handle, an owner and
//! subclass markers in each entity, and has light polylines and splines.

use super::named::Names;
use super::tags::push_code;
use crate::cutter::Closing;
use crate::number::digits::{push_fine, push_real, push_whole};
use kurbo::{Line, Point};

/// Which version's entities are written.
enum Dialect {
    R12,
    /// All belong to one owner; the next handle is free, and so are those after it.
    R2000 {
        owner: String,
        next: u64,
    },
}

/// Tags and entities, one after the other.
pub(super) struct Writer {
    out: Vec<u8>,
    dialect: Dialect,
}

/// Room to begin with, bytes.
const ROOM: usize = 1 << 16;

impl Writer {
    /// Entities as R12 has them.
    pub(super) fn r12() -> Self {
        Self { out: Vec::with_capacity(ROOM), dialect: Dialect::R12 }
    }

    /// Entities as R2000 has them, of one owner, their handles counted from one on.
    pub(super) fn r2000(owner: &str, first: u64) -> Self {
        Self { out: Vec::with_capacity(ROOM), dialect: Dialect::R2000 { owner: owner.to_owned(), next: first } }
    }

    /// What was written, and the first handle that is free.
    pub(super) fn done(self) -> (Vec<u8>, u64) {
        match self.dialect {
            Dialect::R12 => (self.out, 0),
            Dialect::R2000 { next, .. } => (self.out, next),
        }
    }

    pub(super) fn tag(&mut self, code: u16, value: &str) -> &mut Self {
        push_code(&mut self.out, i32::from(code));
        self.out.extend_from_slice(value.as_bytes());
        self.end_tag()
    }

    fn whole(&mut self, code: u16, value: usize) -> &mut Self {
        push_code(&mut self.out, i32::from(code));
        push_whole(&mut self.out, i64::try_from(value).unwrap_or(i64::MAX));
        self.end_tag()
    }

    pub(super) fn reals(&mut self, codes: &[(u16, f64)]) -> &mut Self {
        for (code, v) in codes {
            push_code(&mut self.out, i32::from(*code));
            push_real(&mut self.out, *v);
            self.end_tag();
        }
        self
    }

    fn end_tag(&mut self) -> &mut Self {
        self.out.extend_from_slice(b"\r\n");
        self
    }

    pub(super) fn place(&mut self, p: Point) -> &mut Self {
        self.reals(&[(10, p.x), (20, p.y)])
    }

    /// An entity's head, up to what is its own; R12 has no subclasses.
    pub(super) fn entity(&mut self, kind: &str, class: &str, layer: &str) -> &mut Self {
        self.tag(0, kind);
        let Dialect::R2000 { owner, next } = &mut self.dialect else {
            return self.tag(8, layer);
        };
        let (owner, handle) = (owner.clone(), format!("{next:X}"));
        *next += 1;
        self.tag(5, &handle).tag(330, &owner).tag(100, "AcDbEntity").tag(8, layer).tag(100, class)
    }

    /// Straight and, where a bulge is not 0, round parts.
    pub(super) fn polyline(&mut self, layer: &str, vertices: &[(Point, f64)], closing: Closing, names: Option<&Names>) {
        let flag = if closing == Closing::Closed { "1" } else { "0" };
        match self.dialect {
            Dialect::R12 => self.heavy(layer, vertices, flag, names),
            Dialect::R2000 { .. } => self.light(layer, vertices, flag, names),
        }
    }

    fn heavy(&mut self, layer: &str, vertices: &[(Point, f64)], flag: &str, names: Option<&Names>) {
        self.entity("POLYLINE", "", layer).tag(66, "1").tag(70, flag);
        // The format wants this point, and that it is zero.
        self.place(Point::ZERO).tag(30, "0.0");
        self.names(names);
        // A file to exchange has ten thousand vertices: what is the same in all is put together once.
        let begin = self.out.len();
        self.entity("VERTEX", "", layer);
        let head = self.out.split_off(begin);
        for (p, bulge) in vertices {
            self.out.extend_from_slice(&head);
            self.place(*p);
            self.out.extend_from_slice(b" 30\r\n0.0\r\n");
            self.bulge(*bulge);
        }
        self.entity("SEQEND", "", layer);
    }

    fn light(&mut self, layer: &str, vertices: &[(Point, f64)], flag: &str, names: Option<&Names>) {
        self.entity("LWPOLYLINE", "AcDbPolyline", layer).whole(90, vertices.len()).tag(70, flag);
        for (p, bulge) in vertices {
            self.place(*p);
            self.bulge(*bulge);
        }
        self.names(names);
    }

    fn bulge(&mut self, bulge: f64) {
        if bulge != 0.0 {
            // More decimals than a length: over a chord of a metre it still has to be exact.
            push_code(&mut self.out, 42);
            push_fine(&mut self.out, bulge);
            self.end_tag();
        }
    }

    /// A spline of degree 3 through Bézier segments, head to tail: every joint is a knot of
    /// multiplicity 3. Only R2000 has it.
    ///
    /// A closed one ends where it starts; the flag for that is not set, because readers that see it
    /// smooth the first corner over.
    pub(super) fn spline(&mut self, layer: &str, points: &[Point], names: Option<&Names>) {
        const PLANAR: &str = "8";
        let pieces = points.len().saturating_sub(1) / 3;
        let times = |i: usize| if i == 0 || i == pieces { 4 } else { 3 };
        self.entity("SPLINE", "AcDbSpline", layer).reals(&[(210, 0.0), (220, 0.0), (230, 1.0)]);
        self.tag(70, PLANAR).tag(71, "3").whole(72, 3 * pieces + 5).whole(73, points.len()).tag(74, "0");
        for knot in (0..=pieces).flat_map(|i| std::iter::repeat_n(i as f64, times(i))) {
            self.reals(&[(40, knot)]);
        }
        for p in points {
            self.place(*p).tag(30, "0.0");
        }
        self.names(names);
    }

    /// A straight line.
    pub(super) fn line(&mut self, layer: &str, l: Line, names: Option<&Names>) {
        self.entity("LINE", "AcDbLine", layer).place(l.p0);
        self.tag(30, "0.0").reals(&[(11, l.p1.x), (21, l.p1.y), (31, 0.0)]);
        self.names(names);
    }

    /// One line of text, its baseline starting at a place; `height` is that of its capitals, mm.
    pub(super) fn text(&mut self, layer: &str, at: Point, height: f64, text: &str) {
        self.entity("TEXT", "AcDbText", layer).place(at).tag(30, "0.0").reals(&[(40, height)]).tag(1, &escaped(text));
        if matches!(self.dialect, Dialect::R2000 { .. }) {
            // The subclass has two parts, and the second is empty for text that is not aligned.
            self.tag(100, "AcDbText");
        }
    }

    /// Extended data: piece, line and its length, then each edge with its start, as a place and as a vertex. A
    /// length under 1041 would be scaled together with the line.
    fn names(&mut self, names: Option<&Names>) {
        let Some(names) = names else { return };
        self.tag(1001, super::named::APPLICATION);
        self.tag(1000, &escaped(&names.piece)).tag(1000, &escaped(&names.line)).reals(&[(1040, names.length)]);
        for edge in &names.edges {
            self.tag(1000, &escaped(&edge.name));
            self.reals(&[(1011, edge.start.x), (1021, edge.start.y), (1031, 0.0)]).whole(1071, edge.vertex);
        }
    }
}

/// Letters beyond ASCII as `\U+017C`; a caret would begin a control character.
fn escaped(text: &str) -> std::borrow::Cow<'_, str> {
    if text.bytes().all(|b| b.is_ascii() && b != b'^') {
        return text.into();
    }
    let letter = |c: char| match c {
        '^' => "^ ".to_owned(),
        _ if c.is_ascii() => c.to_string(),
        _ => format!("\\U+{:04X}", u32::from(c)),
    };
    text.chars().map(letter).collect::<String>().into()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_beyond_ascii_and_carets_are_escaped() {
        assert_eq!(escaped("edge=leg, other half"), "edge=leg, other half");
        assert_eq!(escaped("żółw^2"), "\\U+017C\\U+00F3\\U+0142w^ 2");
    }

    #[test]
    fn handles_count_on_and_every_entity_has_its_owner() {
        let mut file = Writer::r2000("1F", 0xFE);
        for _ in 0..3 {
            file.line("CUT", Line::new((0.0, 0.0), (1.0, 0.0)), None);
        }
        let (out, free) = file.done();
        let text = String::from_utf8(out).unwrap();
        assert_eq!(free, 0x101);
        for handle in ["FE", "FF", "100"] {
            assert!(text.contains(&format!("  5\r\n{handle}\r\n330\r\n1F\r\n100\r\nAcDbEntity\r\n")), "{text}");
        }
    }
}
