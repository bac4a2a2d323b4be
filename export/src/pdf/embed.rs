//! The face inside a file: only the glyphs it uses, and which letters they stand for.
//!
//! A composite font with two-byte glyph numbers (ISO 32000-1, 9.7), so that every script of the
//! face can be set, and a map back to letters (9.10.3), so that text can be searched and copied.

use super::canvas::Typesetter;
use super::error::PdfError;
use crate::font::{Part, written};
use lopdf::{Document, Object, ObjectId, Stream, dictionary};
use std::fmt::Write;

/// Six letters and the name of the face: a part of it (ISO 32000-1, 9.6.4).
const NAME: &str = "QRTPIN+DejaVuSans";

/// Adds the face; answers its font dictionary.
pub(super) fn face(document: &mut Document, setter: &Typesetter) -> Result<ObjectId, PdfError> {
    let file = match setter.used.part(setter.face).map_err(|e| PdfError::Font(e.to_string()))? {
        Part::Prepared { compressed, length } => {
            Stream::new(dictionary! { "Length1" => length as i64, "Filter" => "FlateDecode" }, compressed.to_vec())
        }
        Part::Own(face) => Stream::new(dictionary! { "Length1" => face.len() as i64 }, face),
    };
    let file = document.add_object(file);
    let descriptor = descriptor(document, setter, file);
    let descendant = document.add_object(dictionary! {
        "Type" => "Font",
        "Subtype" => "CIDFontType2",
        "BaseFont" => NAME,
        "CIDSystemInfo" => dictionary! {
            "Registry" => Object::string_literal("Adobe"),
            "Ordering" => Object::string_literal("Identity"),
            "Supplement" => 0,
        },
        "FontDescriptor" => descriptor,
        "DW" => 600,
        "W" => widths(setter),
        "CIDToGIDMap" => "Identity",
    });
    let letters = document.add_object(Stream::new(dictionary! {}, letters(setter).into_bytes()));
    Ok(document.add_object(dictionary! {
        "Type" => "Font",
        "Subtype" => "Type0",
        "BaseFont" => NAME,
        "Encoding" => "Identity-H",
        "DescendantFonts" => vec![descendant.into()],
        "ToUnicode" => letters,
    }))
}

fn thousandths(em: f64) -> i64 {
    (em * 1000.0).round() as i64
}

fn descriptor(document: &mut Document, setter: &Typesetter, file: ObjectId) -> ObjectId {
    let face = &setter.face;
    let corners: Vec<Object> = face.bounding_box().iter().map(|v| thousandths(*v).into()).collect();
    document.add_object(dictionary! {
        "Type" => "FontDescriptor",
        "FontName" => NAME,
        // Bit 3: glyphs outside the standard Latin set.
        "Flags" => 4,
        "FontBBox" => corners,
        "ItalicAngle" => 0,
        "Ascent" => thousandths(face.ascent()),
        "Descent" => -thousandths(face.descent()),
        "CapHeight" => thousandths(face.cap_height()),
        // The stems of DejaVu Sans, measured on its capital I: 201 of 2048.
        "StemV" => 98,
        "FontFile2" => file,
    })
}

fn widths(setter: &Typesetter) -> Vec<Object> {
    let each = setter.used.letters().flat_map(|(number, letter)| {
        let width = thousandths(setter.face.advance(letter));
        [i64::from(number).into(), Object::Array(vec![width.into()])]
    });
    each.collect()
}

/// The map from glyph numbers to letters.
fn letters(setter: &Typesetter) -> String {
    let mut map = String::from(
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n\
         /CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n\
         /CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n\
         1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n",
    );
    let all: Vec<(u16, char)> = setter.used.letters().collect();
    // A block holds a hundred entries at most.
    for block in all.chunks(100) {
        let _ = writeln!(map, "{} beginbfchar", block.len());
        for (number, letter) in block {
            let code: String = written(*letter).encode_utf16().map(|unit| format!("{unit:04X}")).collect();
            let _ = writeln!(map, "<{number:04X}> <{code}>");
        }
        map.push_str("endbfchar\n");
    }
    map.push_str("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    map
}
