//! The one face that everything is set in: its widths, and the part of it that a file uses.
//!
//! DejaVu Sans has all of Latin, Greek and Cyrillic, and Hebrew and Arabic. Text is set letter by
//! letter; letters of Arabic are joined by their presentation forms (Unicode, FE70 to FEFF), and what
//! reads from the right is turned round when it is set (UAX #9).

use ar_reshaper::ArabicReshaper;
use std::collections::BTreeMap;
use std::sync::{LazyLock, OnceLock};
use subsetter::GlyphRemapper;
use ttf_parser::{Face as Ttf, FaceParsingError, GlyphId};
use unicode_bidi::{BidiClass, BidiInfo, Level, ParagraphInfo, bidi_class};
use unicode_bidi_mirroring::get_mirrored;
use unicode_normalization::UnicodeNormalization;

/// Its licence: whoever hands on the face, as every print does, hands on its terms.
pub const LICENCE: &str = include_str!("../LICENSE-DEJAVU");

/// Stands where the face has no picture of a letter.
pub const REPLACEMENT: char = '\u{FFFD}';

/// The face with its metrics. Sizes and widths are shares of the em.
pub struct Face {
    data: &'static [u8],
    ttf: Ttf<'static>,
    /// Number and advance of the letters that are met most, by their code.
    common: Vec<(Option<GlyphId>, f64)>,
}

/// No letter before this one is changed by composing: all of them have `NFC_Quick_Check` Yes
/// (Unicode, `DerivedNormalizationProps`), and marks begin here.
const FIRST_MARK: char = '\u{300}';

/// Letters up to here are looked up once: Latin with its accents.
const COMMON: u32 = 0x180;

impl Face {
    /// DejaVu Sans, read once.
    ///
    /// # Errors
    /// Where the font data cannot be read, which would be a fault of the build.
    pub fn sans() -> Result<&'static Self, FaceParsingError> {
        static SANS: LazyLock<Result<Face, FaceParsingError>> = LazyLock::new(Face::parsed);
        SANS.as_ref().map_err(|e| *e)
    }

    fn parsed() -> Result<Self, FaceParsingError> {
        let data = dejavu::sans::regular();
        let mut face = Self { data, ttf: Ttf::parse(data, 0)?, common: Vec::new() };
        face.common = (0..COMMON)
            .map(|code| char::from_u32(code).unwrap_or(REPLACEMENT))
            .map(|c| (face.ttf.glyph_index(c), face.advance(c)))
            .collect();
        Ok(face)
    }

    /// A text as it is set, in the order it is read: composed (NFC), letters of Arabic joined, white
    /// space as plain blanks, and every letter that the face lacks as a visible [`REPLACEMENT`]. Little pictures
    /// that it lacks are left out, unless they are all there is.
    pub fn settable(&self, text: &str) -> String {
        if text.bytes().all(|b| (b' '..=b'~').contains(&b)) {
            return text.to_owned();
        }
        if text.chars().all(|c| c < FIRST_MARK) {
            return self.set(text.chars());
        }
        let composed: String = text.nfc().collect();
        if !composed.chars().any(|c| bidi_class(c) == BidiClass::AL) {
            return self.set(composed.chars());
        }
        self.set(ArabicReshaper::default().reshape(&composed).chars())
    }

    fn set(&self, letters: impl Iterator<Item = char> + Clone) -> String {
        let is_picture = |c: &char| !c.is_alphanumeric() && !c.is_whitespace() && self.index(*c).is_none();
        let has_more = letters.clone().any(|c| !c.is_whitespace() && !is_picture(&c));
        let set = |c: char| match c {
            c if c.is_whitespace() => ' ',
            c if self.index(c).is_some() => c,
            _ => REPLACEMENT,
        };
        let mut said = String::new();
        let mut left_out = false;
        for c in letters {
            if has_more && is_picture(&c) {
                left_out = true;
            } else if !(left_out && c.is_whitespace() && (said.is_empty() || said.ends_with(' '))) {
                // A blank on either side of what is left out is one.
                said.push(set(c));
                left_out = false;
            }
        }
        said
    }

    fn index(&self, c: char) -> Option<GlyphId> {
        self.common.get(c as usize).map_or_else(|| self.ttf.glyph_index(c), |(number, _)| *number)
    }

    fn glyph(&self, c: char) -> GlyphId {
        self.index(c).or_else(|| self.ttf.glyph_index(REPLACEMENT)).unwrap_or(GlyphId(0))
    }

    /// How far the pen moves for one letter, in em.
    pub fn advance(&self, c: char) -> f64 {
        let find = || self.em(f64::from(self.ttf.glyph_hor_advance(self.glyph(c)).unwrap_or(0)));
        self.common.get(c as usize).map_or_else(find, |(_, advance)| *advance)
    }

    /// The width of a [settable](Self::settable) text, in em.
    pub fn width(&self, text: &str) -> f64 {
        text.chars().map(|c| self.advance(c)).sum()
    }

    /// The height of capitals over the base line, in em.
    pub fn cap_height(&self) -> f64 {
        // 0.73: DejaVu Sans says 1493 of 2048 itself; this stands in for a face that says nothing.
        self.ttf.capital_height().map_or(0.73, |h| self.em(f64::from(h)))
    }

    /// How far the highest letters rise over the base line, in em.
    pub fn ascent(&self) -> f64 {
        self.em(f64::from(self.ttf.ascender()))
    }

    /// How far the lowest letters hang under the base line, in em, positive.
    pub fn descent(&self) -> f64 {
        -self.em(f64::from(self.ttf.descender()))
    }

    /// The box round all glyphs: left, bottom, right, top, in em.
    pub fn bounding_box(&self) -> [f64; 4] {
        let b = self.ttf.global_bounding_box();
        [b.x_min, b.y_min, b.x_max, b.y_max].map(|v| self.em(f64::from(v)))
    }

    fn em(&self, units: f64) -> f64 {
        units / f64::from(self.ttf.units_per_em())
    }
}

/// A [settable](Face::settable) line in the order that its letters stand on paper, from left to right,
/// in a document that reads from the left.
pub fn seen(line: &str) -> String {
    let from_right = |c: char| matches!(bidi_class(c), BidiClass::R | BidiClass::AL);
    if line.chars().all(|c| c < FIRST_MARK || !from_right(c)) {
        return line.to_owned();
    }
    let info = BidiInfo::new(line, Some(Level::ltr()));
    let whole = |paragraph: &ParagraphInfo| {
        let (levels, runs) = info.visual_runs(paragraph, paragraph.range.clone());
        let run = |run: std::ops::Range<usize>| -> String {
            let turned = levels[run.start].is_rtl();
            let letters = line[run].chars();
            if turned { letters.rev().map(|c| get_mirrored(c).unwrap_or(c)).collect() } else { letters.collect() }
        };
        runs.into_iter().map(run).collect::<String>()
    };
    info.paragraphs.iter().map(whole).collect()
}

/// What a letter stands for: of a joined one, the letters that were written.
pub fn written(letter: char) -> String {
    match letter {
        '\u{FB50}'..='\u{FDFF}' | '\u{FE70}'..='\u{FEFC}' => letter.nfkc().collect(),
        _ => letter.to_string(),
    }
}

/// Letters that are in every file, used or not, so that the face is cut down to them only once: what our
/// own texts are written in, and most names.
const PREPARED: &str = " !\"#$%&'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~\
    °·×¼½¾–’“”…→−";

/// The face cut down to those letters, as a file holds it (zlib), and how long it is as it is read.
/// `GOLDEN=write cargo test -p quarterpin-export prepared` makes it anew.
static PREPARED_FACE: (&[u8], usize) = (include_bytes!("font/prepared.zlib"), 31_868);

/// The glyphs that a file uses, numbered in the order of their first use after the prepared ones.
#[derive(Clone)]
pub struct Used {
    remapper: GlyphRemapper,
    letters: BTreeMap<u16, char>,
    numbers: BTreeMap<char, u16>,
    /// The numbers of those of ASCII that are noted already: nearly all text is of them.
    noted: [Option<u16>; 128],
    more: More,
}

/// Are there letters beside the prepared ones?
#[derive(Clone, Copy, PartialEq, Eq)]
enum More {
    None,
    Some,
}

/// A part of the face.
pub enum Part {
    /// One that is the same in many files, compressed.
    Prepared {
        /// As a file holds it (zlib).
        compressed: &'static [u8],
        /// How long it is as it is read.
        length: usize,
    },
    /// One of this file's own.
    Own(Vec<u8>),
}

impl Used {
    /// Nothing yet.
    pub fn of(face: &Face) -> Self {
        static NOTHING: OnceLock<Used> = OnceLock::new();
        NOTHING.get_or_init(|| Self::prepared(face)).clone()
    }

    fn prepared(face: &Face) -> Self {
        let mut remapper = GlyphRemapper::new();
        let numbers = PREPARED.chars().map(|c| (c, remapper.remap(face.glyph(c).0))).collect();
        Self { remapper, letters: BTreeMap::new(), numbers, noted: [None; 128], more: More::None }
    }

    /// The numbers of a text's glyphs, two bytes each, highest first; they are noted as used.
    pub fn encode(&mut self, face: &Face, text: &str) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(2 * text.len());
        text.chars().for_each(|c| bytes.extend(self.number(face, c).to_be_bytes()));
        bytes
    }

    fn number(&mut self, face: &Face, c: char) -> u16 {
        if let Some(number) = self.noted.get(c as usize).copied().flatten() {
            return number;
        }
        let number = self.numbers.get(&c).copied().unwrap_or_else(|| {
            self.more = More::Some;
            let number = self.remapper.remap(face.glyph(c).0);
            self.numbers.insert(c, number);
            number
        });
        self.letters.entry(number).or_insert(c);
        if let Some(noted) = self.noted.get_mut(c as usize) {
            *noted = Some(number);
        }
        number
    }

    /// Every used glyph with a letter it stands for, in the order of their numbers.
    pub fn letters(&self) -> impl Iterator<Item = (u16, char)> + '_ {
        self.letters.iter().map(|(n, c)| (*n, *c))
    }

    /// The face cut down to the prepared and the used glyphs.
    ///
    /// # Errors
    /// Where the font data cannot be cut.
    pub fn part(&self, face: &Face) -> Result<Part, subsetter::Error> {
        let (compressed, length) = PREPARED_FACE;
        match self.more {
            More::None => Ok(Part::Prepared { compressed, length }),
            More::Some => self.cut(face).map(Part::Own),
        }
    }

    fn cut(&self, face: &Face) -> Result<Vec<u8>, subsetter::Error> {
        subsetter::subset(face.data, 0, &self.remapper)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use flate2::Compression;
    use flate2::read::ZlibDecoder;
    use flate2::write::ZlibEncoder;
    use std::io::{Read, Write};

    #[test]
    fn letters_beyond_the_face_become_visible() {
        let face = Face::sans().unwrap();
        assert_eq!(face.settable("Ż漢\tl\u{301}"), format!("Ż{REPLACEMENT} ĺ"));
        assert_ne!(face.glyph(REPLACEMENT), GlyphId(0));
        // Texts of these alone are set as they are.
        let plain: String = (' '..='~').collect();
        assert!(plain.chars().all(|c| face.index(c).is_some()));
        assert_eq!(face.settable(&plain), plain);
    }

    /// A flower behind a name says nothing on paper; a name that is only that still shows that there is one.
    #[test]
    fn pictures_beyond_the_face_are_left_out() {
        let face = Face::sans().unwrap();
        assert_eq!(face.settable("Zoë \u{1F338} – brief"), "Zoë – brief");
        assert_eq!(face.settable("\u{1F338} Zoë"), "Zoë");
        assert_eq!(face.settable("\u{1F9F5}\u{1F9F5}"), format!("{REPLACEMENT}{REPLACEMENT}"));
        assert_eq!(face.settable("1½ × 2 · é – “a”  b"), "1½ × 2 · é – “a”  b");
    }

    #[test]
    fn what_is_not_composed_would_not_change() {
        for c in ('\0'..FIRST_MARK).flat_map(|a| ['e', 'Å', a].map(|b| [a, b])) {
            let pair = String::from_iter(c);
            assert_eq!(pair.nfc().collect::<String>(), pair);
        }
    }

    /// Order by UAX #9, forms by the code charts of Unicode; both names are common first names.
    #[test]
    fn what_reads_from_the_right_is_turned_round() {
        let face = Face::sans().unwrap();
        let set = |text: &str| seen(&face.settable(text));
        assert_eq!(set("first pair, 12"), "first pair, 12");
        // Tamar (tav, mem, resh): the first letter is the rightmost; numbers and Latin keep their order.
        assert_eq!(set("תמר"), "רמת");
        assert_eq!(set("תמר 12: front (1)"), "12 רמת: front (1)");
        assert_eq!(set("תמר (א)"), "(א) רמת");
        // Layla (lam, yeh, lam, alef maksura): initial, medial, initial of lam again joined to the end.
        assert_eq!(set("ليلى"), "\u{FEF0}\u{FEE0}\u{FEF4}\u{FEDF}");
        assert_eq!(written('\u{FEDF}'), "ل");
        assert_eq!(written('\u{FEFB}'), "لا");
        assert!(!face.settable("ليلى תמר").contains(REPLACEMENT));
    }

    #[test]
    fn the_prepared_part_is_cut_from_the_face() {
        let face = Face::sans().unwrap();
        let mut used = Used::of(face);
        assert_eq!(used.numbers.len(), PREPARED.chars().count());
        used.encode(face, PREPARED);
        let cut = used.cut(face).unwrap();
        if std::env::var("GOLDEN").is_ok_and(|v| v == "write") {
            let mut zlib = ZlibEncoder::new(Vec::new(), Compression::best());
            zlib.write_all(&cut).unwrap();
            let path = concat!(env!("CARGO_MANIFEST_DIR"), "/src/font/prepared.zlib");
            std::fs::write(path, zlib.finish().unwrap()).unwrap();
        }
        let Part::Prepared { compressed, length } = used.part(face).unwrap() else { panic!("all are prepared") };
        let mut read = Vec::new();
        ZlibDecoder::new(compressed).read_to_end(&mut read).unwrap();
        assert_eq!((read.len(), read == cut), (length, true), "make it anew, its length is {}", cut.len());
    }

    #[test]
    fn the_subset_is_a_small_face_with_the_same_widths() {
        let face = Face::sans().unwrap();
        let mut used = Used::of(face);
        let bytes = used.encode(face, "Ελένη ę");
        assert_eq!(bytes.len(), 14);
        let Part::Own(cut) = used.part(face).unwrap() else { panic!("letters that are not prepared") };
        assert!(cut.len() < 40_000, "{}", cut.len());
        let small = Ttf::parse(&cut, 0).unwrap();
        for (number, letter) in used.letters() {
            let width = small.glyph_hor_advance(GlyphId(number)).unwrap();
            assert!((f64::from(width) / 2048.0 - face.advance(letter)).abs() < 1e-9, "{letter}");
        }
    }
}
