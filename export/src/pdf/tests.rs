//! The file, read back.

use super::*;
use engine::quantity::Length;
use lopdf::{Dictionary, Document, Object};

const A4: PageSetup = PageSetup { paper: Paper::A4, margin_mm: 10.0, overlap_mm: 10.0 };
const NAME: &str = "Żółta para – Ελένη, первая";

fn file(name: &str, setup: &PageSetup) -> Vec<u8> {
    tiled(&sample::drawing(name), setup).unwrap()
}

fn pages(document: &Document) -> Vec<&Dictionary> {
    document.page_iter().map(|id| document.get_dictionary(id).unwrap()).collect()
}

fn media_box_mm(page: &Dictionary) -> [f64; 4] {
    let points = page.get(b"MediaBox").unwrap().as_array().unwrap();
    [0, 1, 2, 3].map(|i| f64::from(points[i].as_float().unwrap()) * 25.4 / 72.0)
}

#[test]
fn every_page_has_the_size_of_its_paper() {
    let papers = [(Paper::A4, 210.0, 297.0), (Paper::Letter, 215.9, 279.4), (Paper::Tabloid, 279.4, 431.8)];
    for (paper, width, height) in papers {
        let document = Document::load_mem(&file("x", &PageSetup { paper, ..A4 })).unwrap();
        for page in pages(&document) {
            let [x0, y0, w, h] = media_box_mm(page);
            assert_eq!((x0, y0), (0.0, 0.0));
            let (low, high) = (w.min(h), w.max(h));
            assert!((low - width).abs() < 1e-4 && (high - height).abs() < 1e-4, "{paper:?} {w} × {h}");
        }
    }
}

#[test]
fn a_roll_is_as_long_as_the_pieces_need() {
    let setup = PageSetup { paper: Paper::Roll(Length::from_whole_mm(610)), ..A4 };
    let document = Document::load_mem(&file("x", &setup)).unwrap();
    let pages = pages(&document);
    assert_eq!(pages.len(), 2);
    let [.., width, height] = media_box_mm(pages[1]);
    assert!((width - 610.0).abs() < 1e-3 && (220.0..700.0).contains(&height), "{width} × {height}");
}

#[test]
fn a_reader_is_asked_not_to_scale_and_nothing_is_claimed() {
    let document = Document::load_mem(&file(NAME, &A4)).unwrap();
    let catalogue = document.catalog().unwrap();
    let viewer = catalogue.get(b"ViewerPreferences").unwrap().as_dict().unwrap();
    assert_eq!(viewer.get(b"PrintScaling").unwrap().as_name().unwrap(), b"None");
    assert_eq!(catalogue.get(b"Lang").unwrap().as_str().unwrap(), b"en");
    let info = document.trailer.get(b"Info").unwrap().as_reference().unwrap();
    let info = document.get_dictionary(info).unwrap();
    assert_eq!(lopdf::decode_text_string(info.get(b"Title").unwrap()).unwrap(), NAME);
    for key in ["Author", "Producer"] {
        assert_eq!(lopdf::decode_text_string(info.get(key.as_bytes()).unwrap()).unwrap(), "quarterpin");
    }
    assert_eq!(info.len(), 3, "{info:?}");
    assert_eq!(document.version, "1.7");
}

#[test]
fn the_file_carries_our_mark_and_its_table_is_right() {
    let bytes = file("x", &A4);
    let lines: Vec<&[u8]> = bytes.split(|b| *b == b'\n').take(3).collect();
    assert_eq!((lines[0], lines[2]), (&b"%PDF-1.7"[..], &b"%quarterpin"[..]));
    let document = Document::load_mem(&bytes).unwrap();
    for (id, entry) in &document.reference_table.entries {
        if let lopdf::xref::XrefEntry::Normal { offset, .. } = entry {
            let head = format!("{id} 0 obj");
            assert!(bytes[*offset as usize..].starts_with(head.as_bytes()), "{head}");
        }
    }
}

#[test]
fn same_drawing_same_bytes_and_another_drawing_another_id() {
    let first = file(NAME, &A4);
    let other = file("other", &A4);
    assert!(first == file(NAME, &A4), "the second file of a process differs");
    let id = |bytes: &[u8]| Document::load_mem(bytes).unwrap().trailer.get(b"ID").unwrap().clone();
    assert_ne!(id(&first), id(&other));
}

#[test]
fn only_pages_that_carry_something_are_printed() {
    let drawing = sample::drawing("x");
    let face = Face::sans().unwrap();
    let blocks: Vec<Block> = drawing.pieces.iter().map(|p| Block::of(&face, &p.text, p.text_box)).collect();
    let layout = layout(&drawing, &blocks, &A4).unwrap();
    let document = Document::load_mem(&file("x", &A4)).unwrap();
    assert_eq!(pages(&document).len(), 1 + layout.cells.len());
    for id in document.page_iter().skip(1) {
        let content = String::from_utf8(document.get_page_content(id)).unwrap();
        assert!(content.contains("/Piece"), "{content}");
    }
}

#[test]
fn letters_of_every_script_can_be_read_back() {
    let document = Document::load_mem(&file(NAME, &A4)).unwrap();
    let map = document.objects.values().filter_map(|o| o.as_stream().ok()).find_map(|s| {
        let text = String::from_utf8(s.decompressed_content().ok()?).ok()?;
        text.contains("beginbfchar").then_some(text)
    });
    let map = map.unwrap();
    for letter in NAME.chars() {
        assert!(map.contains(&format!("<{:04X}>\n", u32::from(letter))), "{letter}");
    }
}

#[test]
fn a_long_name_stays_on_the_page() {
    let long = "Sehr lange Bezeichnung ohne jedes Ende ".repeat(12);
    let document = Document::load_mem(&file(&long, &A4)).unwrap();
    assert!(pages(&document).len() >= 2);
    let endless = Document::load_mem(&file(&"x".repeat(500), &A4)).unwrap();
    assert!(pages(&endless).len() >= 2);
}

#[test]
fn long_notes_go_on_to_further_pages() {
    let mut drawing = sample::drawing("x");
    let few = Document::load_mem(&tiled(&drawing, &A4).unwrap()).unwrap();
    drawing.notes[0].lines = vec!["a line of notes".to_owned(); 150];
    let many = Document::load_mem(&tiled(&drawing, &A4).unwrap()).unwrap();
    assert!(pages(&many).len() >= pages(&few).len() + 2);
}

#[test]
fn curves_stay_curves_and_the_file_stays_small() {
    let bytes = file(NAME, &A4);
    assert!(bytes.len() < 120_000, "{} bytes", bytes.len());
    let document = Document::load_mem(&bytes).unwrap();
    let forms = document.objects.values().filter_map(|o| o.as_stream().ok());
    let content = forms.filter(|s| s.dict.get(b"Subtype").is_ok_and(|n| n == &Object::Name(b"Form".to_vec())));
    let cubics: usize = content
        .map(|s| s.decompressed_content().unwrap())
        .map(|c| lopdf::content::Content::decode(&c).unwrap())
        .map(|c| c.operations.iter().filter(|o| o.operator == "c").count())
        .sum();
    // Two outlines with two cubics and a second row on either half, two on the gusset; the map
    // shows the cut lines again: 5 + 5 + 2, and 2 + 2 + 2.
    assert_eq!(cubics, 18);
}

#[test]
fn an_empty_drawing_is_refused() {
    let mut drawing = sample::drawing("x");
    drawing.pieces.clear();
    assert_eq!(tiled(&drawing, &A4), Err(PdfError::Empty));
}
