use super::{PenLines, cut, svg};
use crate::cutter::{Copies, Cutting, Notches};
use crate::outline;
use crate::sample;
use kurbo::Point;
use svg::node::element::path::{Command, Data};
use svg::parser::Event;

/// Every `d` with the id of the group it stands in.
fn paths(text: &str) -> Vec<(String, String)> {
    let (mut groups, mut out) = (Vec::new(), Vec::new());
    for event in svg::read(text).unwrap() {
        match event {
            Event::Tag("g", svg::node::element::tag::Type::Start, attributes) => {
                groups.push(attributes["id"].to_string());
            }
            Event::Tag("g", svg::node::element::tag::Type::End, _) => drop(groups.pop()),
            Event::Tag("path", _, attributes) => {
                out.push((groups.last().cloned().unwrap_or_default(), attributes["d"].to_string()));
            }
            Event::Error(e) => panic!("{e}"),
            _ => {}
        }
    }
    out
}

#[test]
fn one_closed_cut_path_per_piece_with_its_curves() {
    let text = svg(&sample::drawing()).unwrap();
    let paths = paths(&text);
    for (id, cubics) in [("front-cut", 2), ("gusset-cut", 2)] {
        let cut: Vec<_> = paths.iter().filter(|(g, _)| g == id).collect();
        assert_eq!(cut.len(), 1, "{id}");
        let data = Data::parse(&cut[0].1).unwrap();
        let commands: Vec<&Command> = data.iter().collect();
        assert!(matches!(commands.last(), Some(Command::Close)));
        assert_eq!(commands.iter().filter(|c| matches!(c, Command::CubicCurve(..))).count(), cubics);
        assert_eq!(commands.iter().filter(|c| matches!(c, Command::Move(..))).count(), 1);
    }
    for id in ["front-sewing", "front-second-row", "front-notches", "front-fold", "front-grain", "gusset-stretch"] {
        assert!(paths.iter().any(|(g, _)| g == id), "{id}");
    }
    assert!(!paths.iter().any(|(g, _)| g == "gusset-fold"));
}

#[test]
fn the_cut_path_keeps_its_size() {
    use kurbo::Shape;
    let drawing = sample::drawing();
    let paths = paths(&svg(&drawing).unwrap());
    for piece in &drawing.pieces {
        let (_, d) = paths.iter().find(|(g, _)| *g == format!("{}-cut", piece.name)).unwrap();
        let back = kurbo::BezPath::from_svg(d).unwrap();
        let want = outline::joined(piece.cut().unwrap()).to_bez_path();
        // Coordinates are rounded to 0.0001 mm; the pieces are some hundred mm round.
        assert!((back.area() - want.area()).abs() < 0.1, "{}", piece.name);
        assert!((back.perimeter(1e-6) - want.perimeter(1e-6)).abs() < 0.01, "{}", piece.name);
    }
}

#[test]
fn it_says_what_it_is() {
    let text = svg(&sample::drawing()).unwrap();
    let (from, to) = (text.find("<metadata>").unwrap(), text.find("</metadata>").unwrap());
    let told = text[from..to].replace('\n', "");
    assert!(told.contains("<dc:creator>quarterpin</dc:creator>"), "{told}");
}

#[test]
fn everything_lies_on_the_page() {
    let text = svg(&sample::drawing()).unwrap();
    let number = |key: &str| -> f64 {
        let rest = text.split(&format!(" {key}=\"")).nth(1).unwrap();
        rest.split("mm\"").next().unwrap().parse().unwrap()
    };
    let (width, height) = (number("width"), number("height"));
    assert!(text.contains(&format!("viewBox=\"0 0 {width} {height}\"")));
    for (id, d) in paths(&text) {
        let b = kurbo::Shape::bounding_box(&kurbo::BezPath::from_svg(&d).unwrap());
        assert!(b.x0 >= 0.0 && b.y0 >= 0.0 && b.x1 <= width && b.y1 <= height, "{id}: {b:?}");
    }
}

#[test]
fn numbers_are_short_and_plain() {
    let text = svg(&sample::drawing()).unwrap();
    for (id, d) in paths(&text) {
        for n in d.split(|c: char| !(c.is_ascii_alphanumeric() || matches!(c, '-' | '.' | '+'))) {
            let n = n.trim_start_matches(['M', 'L', 'C', 'Z']);
            assert!(n != "-0" && !n.contains(['e', 'E']), "{id}: {n}");
            assert!(n.split('.').nth(1).is_none_or(|d| d.len() <= 4), "{id}: {n}");
        }
    }
}

#[test]
fn the_mark_stands_near_the_top() {
    let text = svg(&sample::drawing()).unwrap();
    assert!(text.find("<!-- quarterpin sheet ").unwrap() < 300);
    assert!(text.contains("<title>") && text.contains("first pair") && text.contains("<desc>"));
    assert!(text.contains(">\nfold\n<") || text.contains(">fold<"));
}

#[test]
fn the_same_bytes_every_time() {
    let first = svg(&sample::drawing()).unwrap();
    svg(&sample::awkward()).unwrap();
    assert_eq!(svg(&sample::drawing()).unwrap(), first);
}

#[test]
fn awkward_names_are_escaped() {
    let text = svg(&sample::awkward()).unwrap();
    assert!(!text.contains('\u{7}') && !text.contains("<b>") && !text.contains("--> "), "{text}");
    assert!(text.contains("μπροστά &lt;&amp;&gt;") && text.contains("żółw"));
    let mut ids: Vec<&str> = text.split(" id=\"").skip(1).filter_map(|r| r.split('"').next()).collect();
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), count, "ids are unique");
    assert!(ids.iter().all(|i| i.chars().all(|c| c.is_ascii_alphanumeric() || c == '-')));
}

#[test]
fn flawed_drawings_are_refused_by_piece() {
    let mut drawing = sample::drawing();
    drawing.pieces[1].loops[0].edges[1].path = engine::curve::Path::line(Point::new(f64::NAN, 0.0), Point::ZERO);
    let message = svg(&drawing).unwrap_err().to_string();
    assert!(message.contains("`gusset`") && message.contains("no length"), "{message}");
}

/// Every path of the file for home cutters: its id, its colour and its outline.
fn cut_paths(cutting: &Cutting) -> Vec<(String, String, kurbo::BezPath)> {
    let text = cut(&sample::drawing(), cutting, PenLines::Left).unwrap();
    let events = svg::read(&text).unwrap();
    let tag = |event| match event {
        Event::Tag("path", _, a) => {
            Some((a["id"].to_string(), a["stroke"].to_string(), kurbo::BezPath::from_svg(&a["d"]).unwrap()))
        }
        _ => None,
    };
    events.filter_map(tag).collect()
}

#[test]
fn a_cutter_gets_one_outline_per_copy_and_no_text() {
    use kurbo::Shape;
    let pairs = Copies::Pairs(std::num::NonZeroU32::new(2).unwrap());
    let plain = cut_paths(&Cutting::default());
    let outlines = |paths: &[(String, String, kurbo::BezPath)]| -> Vec<kurbo::BezPath> {
        paths.iter().filter(|(id, ..)| id.ends_with("-outline")).map(|(_, _, d)| d.clone()).collect()
    };
    let unfolded = sample::drawing().unfolded();
    assert_eq!(outlines(&plain).len(), unfolded.pieces.len());
    for (drawn, piece) in outlines(&plain).iter().zip(&unfolded.pieces) {
        let want = outline::joined(piece.cut().unwrap()).to_bez_path();
        // The same turn on the page: nothing is mirrored.
        assert!((drawn.area() - want.area()).abs() < 0.1, "{}", piece.name);
    }
    let copies: u32 = unfolded.pieces.iter().map(|p| 2 * p.quantity).sum();
    let many = cut_paths(&Cutting { copies: pairs, ..Cutting::default() });
    assert_eq!(outlines(&many).len(), copies as usize);
    let grown = cut_paths(&Cutting { kerf: 0.4, ..Cutting::default() });
    for (thin, wide) in outlines(&plain).iter().zip(outlines(&grown)) {
        // A strip of half a kerf round the outline.
        let strip = 0.2 * thin.perimeter(1e-3);
        assert!((wide.area().abs() - thin.area().abs() - strip).abs() < 0.02 * strip);
    }
    let text = cut(&sample::drawing(), &Cutting::default(), PenLines::Left).unwrap();
    assert!(!text.contains("<text") && text.contains("never PVC") && text.contains("no kerf in them"), "{text}");
}

#[test]
fn notches_are_drawn_slit_or_cut_out() {
    let colours = |notches| -> Vec<String> {
        let paths = cut_paths(&Cutting { notches, ..Cutting::default() });
        paths.into_iter().filter(|(id, ..)| !id.ends_with("-outline")).map(|(_, colour, _)| colour).collect()
    };
    let (marks, slits, vees) = (colours(Notches::Marks), colours(Notches::Slits), colours(Notches::Vees));
    assert!(!marks.is_empty() && marks.iter().all(|c| c == "#0000ff"), "{marks:?}");
    assert!(slits.len() == marks.len() && slits.iter().all(|c| c == "#ff8000"), "{slits:?}");
    assert!(vees.len() < marks.len(), "{vees:?}");
}

#[test]
fn outlines_lie_on_the_width_that_is_given() {
    use kurbo::Shape;
    let cutting = Cutting { sheet_width: Some(480.0), kerf: 0.2, ..Cutting::default() };
    let text = cut(&sample::drawing(), &cutting, PenLines::Left).unwrap();
    assert!(text.contains(" width=\"480mm\""), "{text}");
    for (id, _, path) in cut_paths(&cutting) {
        let b = path.bounding_box();
        assert!(b.x0 >= -1e-3 && b.x1 <= 480.001 && b.y0 >= -1e-3, "{id}: {b:?}");
    }
}

#[test]
fn the_garment_on_the_body_is_tones_under_lines() {
    let text = super::on_body(&sample::drawing());
    let document = roxmltree::Document::parse(&text).unwrap();
    let view = document.descendants().find(|n| n.attribute("id") == Some("on-body-front")).unwrap();
    let paths: Vec<_> = view.children().filter(|n| n.has_tag_name("path")).collect();
    let filled = |n: &roxmltree::Node<'_, '_>| n.attribute("fill") != Some("none");
    assert_eq!(paths.iter().map(filled).collect::<Vec<_>>(), [true, true, false, false]);
    // Relative luminance of the tones (ITU-R BT.709): apart in black and white.
    let luminance = |n: &roxmltree::Node<'_, '_>| {
        let colour = u32::from_str_radix(&n.attribute("fill").unwrap()[1..], 16).unwrap();
        let part = |shift: u32| f64::from((colour >> shift) & 0xff) / 255.0;
        0.2126 * part(16) + 0.7152 * part(8) + 0.0722 * part(0)
    };
    assert!(luminance(&paths[0]) - luminance(&paths[1]) > 0.12, "skin and cloth");
    assert!(text.contains("no likeness"), "{text}");
    assert_eq!(text, super::on_body(&sample::drawing()));
}

/// Lines for a pen are drawn where that is asked for, in a group and colour of their own, and are
/// walked like those of the other files.
#[test]
fn lines_for_a_pen_have_a_group_of_their_own() {
    let with = cut(&sample::drawing(), &Cutting::default(), PenLines::Drawn).unwrap();
    let groups = |text: &str| -> Vec<(String, Vec<String>)> {
        let document = roxmltree::Document::parse(text).unwrap();
        let groups = document.root_element().children().filter(|n| n.has_tag_name("g"));
        let colours = |g: roxmltree::Node<'_, '_>| {
            let mut all: Vec<String> =
                g.descendants().filter_map(|n| Some(n.attribute("stroke")?.to_owned())).collect();
            all.dedup();
            all
        };
        groups.map(|g| (g.attribute("id").unwrap().to_owned(), colours(g))).collect()
    };
    let own = |id: &str, colour: &str| (id.to_owned(), vec![colour.to_owned()]);
    let (pen, marks, cuts) = (own("pen", "#008000"), own("marks", "#0000ff"), own("cut", "#ff0000"));
    assert_eq!(groups(&with), [pen, marks.clone(), cuts.clone()]);
    let without = cut(&sample::drawing(), &Cutting::default(), PenLines::Left).unwrap();
    assert_eq!(groups(&without), [marks, cuts]);
    let lines = |text: &str| {
        let read = crate::read::read(text.as_bytes(), crate::read::Format::Svg).unwrap();
        read.lines.iter().map(|l| (l.piece.clone(), l.line.clone())).collect::<Vec<_>>()
    };
    assert!(lines(&with).contains(&("front".to_owned(), "sewing".to_owned())), "{:?}", lines(&with));
    assert!(lines(&without).iter().all(|(_, line)| line == "cut"));
}
