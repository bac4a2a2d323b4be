//! The file, read back.

use super::layout::Layout;
use super::*;
use crate::mark::BLANK;
use engine::drawing::{Trials, Variant};
use engine::quantity::Length;
use kurbo::Point;
use lopdf::{Dictionary, Document, Object};
use std::collections::BTreeSet;

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
    let papers = [
        (Paper::A4, 210.0, 297.0),
        (Paper::Letter, 215.9, 279.4),
        (Paper::A3, 297.0, 420.0),
        (Paper::Legal, 215.9, 355.6),
        (Paper::Tabloid, 279.4, 431.8),
    ];
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
fn a_plotter_sheet_takes_all_pieces_and_no_page_for_the_printer() {
    let document = Document::load_mem(&file("x", &PageSetup { paper: Paper::A0, ..A4 })).unwrap();
    let sizes: Vec<_> = pages(&document).into_iter().map(media_box_mm).collect();
    assert_eq!(sizes.len(), 1);
    assert!((sizes[0][2] - 841.0).abs() < 1e-3 && (sizes[0][3] - 1189.0).abs() < 1e-3);
}

#[test]
fn a_roll_is_as_long_as_the_pieces_need() {
    let setup = PageSetup { paper: Paper::Roll(Length::from_whole_mm(610)), ..A4 };
    let document = Document::load_mem(&file("x", &setup)).unwrap();
    let pages = pages(&document);
    assert_eq!(pages.len(), 1);
    let [.., width, height] = media_box_mm(pages[0]);
    assert!((width - 610.0).abs() < 1e-3 && (220.0..700.0).contains(&height), "{width} × {height}");
}

#[test]
fn a_reader_is_asked_not_to_scale_and_nothing_is_claimed() {
    let document = Document::load_mem(&file(NAME, &A4)).unwrap();
    let catalogue = document.catalog().unwrap();
    let viewer = catalogue.get(b"ViewerPreferences").unwrap().as_dict().unwrap();
    assert_eq!(viewer.get(b"PrintScaling").unwrap().as_name().unwrap(), b"None");
    assert!(viewer.get(b"PickTrayByPDFSize").unwrap().as_bool().unwrap());
    assert_eq!(catalogue.get(b"PageMode").unwrap().as_name().unwrap(), b"UseOutlines");
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
    assert_eq!((lines[0], lines[2]), (&b"%PDF-1.7"[..], format!("%{BLANK}").as_bytes()));
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

/// As [`print`] lays it.
fn laid(drawing: &Drawing) -> Layout {
    let face = Face::sans().unwrap();
    let overlay = Overlay::of(drawing);
    placing::layout(face, &overlay, sizes(face, &overlay), &A4.into()).unwrap()
}

#[test]
fn only_pages_that_carry_something_are_printed() {
    let drawing = sample::drawing("x");
    let layout = laid(&drawing);
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

/// On every paper, with variants and twelve trials.
#[test]
fn one_page_says_how_to_print() {
    let mut drawing = with_a_variant();
    drawing.trials.lines = vec!["2026-04-11, left leg with 9 % reduction: tight (marks)".to_owned(); 12];
    for paper in [Paper::A4, Paper::Letter, Paper::A3, Paper::Legal, Paper::Tabloid] {
        let document = Document::load_mem(&tiled(&drawing, &PageSetup { paper, ..A4 }).unwrap()).unwrap();
        let labels = document.catalog().unwrap().get(b"PageLabels").unwrap().as_dict().unwrap();
        let labels = labels.get(b"Nums").unwrap().as_array().unwrap();
        let name = |i: usize| {
            let label = labels[2 * i + 1].as_dict().unwrap().get(b"P").unwrap();
            lopdf::decode_text_string(label).unwrap()
        };
        assert_eq!((name(0).as_str(), name(1).as_str()), ("start", "A1"), "{paper:?}");
    }
}

#[test]
fn curves_stay_curves_and_the_file_stays_small() {
    let bytes = file(NAME, &A4);
    assert!(bytes.len() < 120_000, "{} bytes", bytes.len());
    let document = Document::load_mem(&bytes).unwrap();
    let cubics: usize =
        drawn(&document).iter().map(|c| c.operations.iter().filter(|o| o.operator == "c").count()).sum();
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

fn printed(options: &Options) -> Document {
    Document::load_mem(&print(&sample::drawing("x"), options).unwrap()).unwrap()
}

/// Is every tile wider than high?
fn level(document: &Document) -> Vec<bool> {
    let size = |p: &Dictionary| media_box_mm(p);
    pages(document).into_iter().skip(1).map(size).map(|[.., w, h]| w > h).collect()
}

#[test]
fn pages_are_turned_as_asked_and_otherwise_where_that_saves_some() {
    let turned = |turning| printed(&Options { turning, ..A4.into() });
    let (upright, flat) = (turned(Turning::Portrait), turned(Turning::Landscape));
    assert!(level(&upright).iter().all(|l| !l));
    assert!(level(&flat).iter().all(|l| *l));
    let fewest = level(&turned(Turning::Fewest)).len();
    assert_eq!(fewest, level(&upright).len().min(level(&flat).len()));
}

#[test]
fn kept_apart_a_tile_carries_one_piece() {
    let document = printed(&Options { sharing: Sharing::Apart, ..A4.into() });
    for id in document.page_iter().skip(1) {
        let content = String::from_utf8(document.get_page_content(id)).unwrap();
        assert_eq!(content.matches("/Piece").count(), 1, "{content}");
    }
}

#[test]
fn edge_to_edge_the_cores_fill_the_printable_part() {
    let setup = PageSetup { overlap_mm: 0.0, ..A4 };
    let sheet = Sheet::new(&setup, Turn::Upright).unwrap();
    assert_eq!(sheet.core(), sheet.printable());
    assert!(pages(&printed(&setup.into())).len() > 2);
    let bare = PageSetup { margin_mm: 0.0, ..setup };
    assert_eq!(Sheet::new(&bare, Turn::Upright).unwrap().core(), Rect::new(0.0, 0.0, 210.0, 297.0));
    assert!(pages(&printed(&bare.into())).len() <= pages(&printed(&setup.into())).len());
}

#[test]
fn one_page_is_what_the_tiles_make_together() {
    let tiles = sample::drawing("x");
    let layout = laid(&tiles);
    let core = layout.sheet.core().size();
    let document = printed(&Options { pages: Pages::One, ..A4.into() });
    let sizes: Vec<_> = pages(&document).into_iter().map(media_box_mm).collect();
    assert_eq!(sizes.len(), 1);
    // Margins of 10 mm and half an overlap of 5 mm on either side.
    assert!((sizes[0][2] - (layout.columns as f64 * core.width + 30.0)).abs() < 1e-3);
    assert!((sizes[0][3] - (layout.rows as f64 * core.height + 30.0)).abs() < 1e-3);
}

#[test]
fn a_page_that_is_too_large_for_any_reader_is_refused() {
    let mut drawing = sample::drawing("x");
    for edge in drawing.pieces.iter_mut().flat_map(|p| &mut p.loops).flat_map(|l| &mut l.edges) {
        edge.path = edge.path.map(|p| Point::new(p.x, 30.0 * p.y));
    }
    let refused = print(&drawing, &Options { pages: Pages::One, ..A4.into() }).unwrap_err();
    assert!(matches!(refused, PdfError::PageTooLarge { .. }), "{refused}");
}

/// The names of these layers.
fn names_of(document: &Document, groups: &Object) -> Vec<String> {
    let name = |id: &Object| {
        let group = document.get_dictionary(id.as_reference().unwrap()).unwrap();
        lopdf::decode_text_string(group.get(b"Name").unwrap()).unwrap()
    };
    groups.as_array().unwrap().iter().map(name).collect()
}

/// The content of all forms and pages.
fn drawn(document: &Document) -> Vec<lopdf::content::Content> {
    let forms = document.objects.values().filter_map(|o| o.as_stream().ok());
    let forms = forms.filter(|s| s.dict.get(b"Subtype").is_ok_and(|n| n == &Object::Name(b"Form".to_vec())));
    let forms = forms.map(|s| s.decompressed_content().unwrap());
    let pages = document.page_iter().map(|id| document.get_page_content(id));
    forms.chain(pages).map(|bytes| lopdf::content::Content::decode(&bytes).unwrap()).collect()
}

/// The layers that the content of a document opens, from the outermost inwards, each once.
fn opened(document: &Document) -> BTreeSet<Vec<String>> {
    let mut seen = BTreeSet::new();
    for content in drawn(document) {
        let mut open: Vec<Option<String>> = Vec::new();
        for operation in content.operations {
            match (operation.operator.as_str(), operation.operands.as_slice()) {
                ("BDC", [kind, Object::Name(name)]) if kind.as_name().unwrap() == b"OC" => {
                    open.push(Some(String::from_utf8(name.clone()).unwrap()));
                    seen.insert(open.iter().flatten().cloned().collect());
                }
                ("BDC" | "BMC", _) => open.push(None),
                ("EMC", _) => assert!(open.pop().is_some(), "closed more often than opened"),
                _ => {}
            }
        }
        assert!(open.is_empty(), "{open:?} is never closed");
    }
    seen
}

fn reference<'d>(document: &'d Document, from: &'d Dictionary, key: &[u8]) -> &'d Dictionary {
    document.get_dictionary(from.get(key).unwrap().as_reference().unwrap()).unwrap()
}

/// Where the content of an element is: on its page by a number, or by dictionaries where it goes over several
/// (ISO 32000-1, 14.7.4.2).
fn spots_of(element: &Dictionary) -> Vec<(lopdf::ObjectId, i64)> {
    let page = |of: &Dictionary| of.get(b"Pg").unwrap().as_reference().unwrap();
    let number = |of: &Dictionary, key: &[u8]| of.get(key).unwrap().as_i64().unwrap();
    let spots: Vec<_> = match element.get(b"K").unwrap() {
        Object::Array(kids) => {
            kids.iter().map(|kid| kid.as_dict().unwrap()).map(|kid| (page(kid), number(kid, b"MCID"))).collect()
        }
        _ => vec![(page(element), number(element, b"K"))],
    };
    assert!(!spots.is_empty());
    spots
}

/// Every piece of marked content belongs to one element, and every element has content.
#[test]
fn the_tree_of_parts_covers_every_page() {
    let document = printed(&A4.into());
    let tree = reference(&document, document.catalog().unwrap(), b"StructTreeRoot");
    let whole = reference(&document, tree, b"K");
    let mut spots: BTreeSet<(lopdf::ObjectId, i64)> = BTreeSet::new();
    let mut figures = Vec::new();
    for id in whole.get(b"K").unwrap().as_array().unwrap() {
        let element = document.get_dictionary(id.as_reference().unwrap()).unwrap();
        if let Ok(alt) = element.get(b"Alt") {
            figures.push(lopdf::decode_text_string(alt).unwrap());
        }
        for (page, number) in spots_of(element) {
            assert!(spots.insert((page, number)), "belongs to two");
        }
    }
    let marked = |page: lopdf::ObjectId| {
        let content = lopdf::content::Content::decode(&document.get_page_content(page)).unwrap();
        let numbers = content.operations.into_iter().filter(|o| o.operator == "BDC").filter_map(move |o| {
            o.operands[1].as_dict().ok().map(|d| (page, d.get(b"MCID").unwrap().as_i64().unwrap()))
        });
        numbers.collect::<Vec<_>>()
    };
    let all: BTreeSet<_> = document.page_iter().flat_map(marked).collect();
    assert_eq!(all, spots);
    // Squares, map, and the pieces as the pages bring them, each once.
    assert_eq!(figures.len(), 5, "{figures:?}");
    for name in ["front", "back", "gusset"] {
        assert_eq!(figures[2..].iter().filter(|figure| figure.contains(name)).count(), 1, "{figures:?}");
    }
}

const USUAL: [&str; 5] = [
    "Cut lines",
    "Sewing lines and finished edges",
    "Fold, grain line and notches",
    "Words on the pieces",
    "Page joins and page names",
];

fn optional(document: &Document) -> &Dictionary {
    document.catalog().unwrap().get(b"OCProperties").unwrap().as_dict().unwrap()
}

#[test]
fn layers_have_names_and_every_form_closes_what_it_opens() {
    let document = printed(&A4.into());
    let optional = optional(&document);
    assert_eq!(names_of(&document, optional.get(b"OCGs").unwrap()), USUAL);
    let seen: Vec<Vec<String>> = opened(&document).into_iter().collect();
    assert_eq!(seen, [["Cut"], ["Frames"], ["Marks"], ["Sewing"], ["Text"]]);
    assert!(optional.get(b"D").unwrap().as_dict().unwrap().get(b"OFF").is_err());
}

/// The sample with a variant that changes its first piece, leaves the second as it is, does
/// without the third, and has one more.
fn with_a_variant() -> Drawing {
    let mut drawing = sample::drawing("x");
    let mut pieces = drawing.pieces[..2].to_vec();
    for edge in pieces[0].loops.iter_mut().flat_map(|l| &mut l.edges) {
        edge.path = edge.path.map(|p| Point::new(1.1 * p.x, 1.1 * p.y));
    }
    let mut band = drawing.pieces[2].clone();
    band.name = "band".to_owned();
    pieces.push(band);
    drawing.variants.push(Variant { name: "banded".to_owned(), pieces });
    let lines = vec!["monday, left leg: tight".to_owned(), "friday, left leg: right".to_owned()];
    drawing.trials = Trials { heading: "Trials".to_owned(), lines };
    drawing
}

#[test]
fn alternatives_and_trials_have_layers_of_their_own() {
    let drawing = with_a_variant();
    let document = Document::load_mem(&tiled(&drawing, &A4).unwrap()).unwrap();
    let optional = optional(&document);
    let ways = ["As the sheet says", "Alternative: banded"];
    let lines = ["Trials: monday, left leg", "Trials: friday, left leg"];
    let all = [USUAL.as_slice(), &ways, &lines].concat();
    assert_eq!(names_of(&document, optional.get(b"OCGs").unwrap()), all);
    // One way shows at a time: that of the sheet, until another is picked (ISO 32000-1, table 101).
    let shown = optional.get(b"D").unwrap().as_dict().unwrap();
    assert_eq!(names_of(&document, shown.get(b"OFF").unwrap()), ways[1..]);
    assert_eq!(names_of(&document, &shown.get(b"RBGroups").unwrap().as_array().unwrap()[0]), ways);
    let seen = opened(&document);
    for kind in ["Cut", "Marks", "Sewing", "Text"] {
        let on = |names: &[&str]| seen.contains(&names.iter().map(|n| (*n).to_owned()).collect::<Vec<_>>());
        // The second piece is alike, so that it always shows.
        assert!(on(&[kind]) && on(&["Way0", kind]) && on(&["Way1", kind]), "{kind} in {seen:?}");
    }
    assert!(seen.contains(&vec!["Line0".to_owned()]) && seen.contains(&vec!["Line1".to_owned()]), "{seen:?}");
}

#[test]
fn pieces_that_only_alternatives_have_lie_on_pages_of_their_own() {
    let drawing = with_a_variant();
    let layout = laid(&drawing);
    let without = laid(&sample::drawing("x"));
    let bounds: Vec<Rect> =
        Overlay::of(&drawing).places.iter().zip(&layout.offsets).map(|(p, o)| p.bounds + *o).collect();
    let core = layout.sheet.core().size();
    let pages = |b: &Rect| -> BTreeSet<(usize, usize)> {
        let of = |v: f64, size: f64| (v / size) as usize;
        let rows = of(b.y0 + 3.0, core.height)..=of(b.y1 - 3.0, core.height);
        rows.flat_map(|r| (of(b.x0 + 3.0, core.width)..=of(b.x1 - 3.0, core.width)).map(move |c| (r, c))).collect()
    };
    let own: BTreeSet<_> = bounds[..3].iter().flat_map(pages).collect();
    assert!(pages(&bounds[3]).is_disjoint(&own), "{bounds:?}");
    assert!(layout.cells.len() > without.cells.len());
}

#[test]
fn pieces_of_one_name_share_their_place() {
    let drawing = with_a_variant();
    let overlay = Overlay::of(&drawing);
    let names: Vec<&str> = overlay.whole.pieces.iter().map(|p| p.name.as_str()).collect();
    assert_eq!(names, ["front", "back", "gusset", "band"]);
    assert_eq!(overlay.places.iter().map(|p| p.shown.len()).collect::<Vec<_>>(), [2, 1, 1, 1]);
    let larger = layout::extent(&drawing.variants[0].pieces[0]);
    assert_eq!(overlay.places[0].bounds, larger.union(layout::extent(&drawing.pieces[0])));
    let without = sample::drawing("x");
    let plain = Overlay::of(&without);
    assert!(plain.places.iter().all(|p| p.shown.len() == 1 && p.shown[0].on.is_none()));
}

#[test]
fn every_piece_has_a_bookmark_and_every_page_its_name() {
    let document = printed(&A4.into());
    let catalogue = document.catalog().unwrap();
    let outline = document.get_dictionary(catalogue.get(b"Outlines").unwrap().as_reference().unwrap()).unwrap();
    let ids: Vec<_> = document.page_iter().collect();
    let mut titles = Vec::new();
    let mut next = outline.get(b"First").ok();
    while let Some(id) = next {
        let item = document.get_dictionary(id.as_reference().unwrap()).unwrap();
        titles.push(lopdf::decode_text_string(item.get(b"Title").unwrap()).unwrap());
        let goal = item.get(b"Dest").unwrap().as_array().unwrap()[0].as_reference().unwrap();
        assert!(ids.contains(&goal));
        next = item.get(b"Next").ok();
    }
    assert_eq!(titles[1..], ["front", "back", "gusset"]);
    let labels = catalogue.get(b"PageLabels").unwrap().as_dict().unwrap().get(b"Nums").unwrap().as_array().unwrap();
    assert_eq!(labels.len(), 2 * ids.len());
    let first = labels[3].as_dict().unwrap().get(b"P").unwrap();
    assert_eq!(lopdf::decode_text_string(first).unwrap(), "A1");
}

#[test]
fn twelve_pages_stay_small() {
    let bytes = print(&sample::drawing(NAME), &Options { sharing: Sharing::Apart, ..A4.into() }).unwrap();
    let count = pages(&Document::load_mem(&bytes).unwrap()).len();
    // What a page adds, and what the whole file has once.
    assert!(bytes.len() / count * 12 < 120_000, "{} bytes on {count} pages", bytes.len());
}
