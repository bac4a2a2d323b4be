//! The head of a document: its size, what it is, and who made it.

use super::shape::{clean, number};
use crate::mark::{BLANK, PROGRAM};
use engine::drawing::Drawing;
use kurbo::Size;
use svg::node::Comment;
use svg::node::Node;
use svg::node::element::{Description, Element, SVG, Title};

/// An empty document of a size, mm: width, height and view box in millimetres; with the choices that
/// made it, where there were any.
pub(super) fn begin(drawing: &Drawing, description: &str, choices: Option<&str>, size: Size) -> SVG {
    SVG::new()
        .set("width", format!("{}mm", number(size.width)))
        .set("height", format!("{}mm", number(size.height)))
        .set("viewBox", format!("0 0 {} {}", number(size.width), number(size.height)))
        .add(Comment::new(BLANK))
        .add(Title::new(clean(&drawing.name)))
        .add(Description::new().add(svg::node::Text::new(clean(description))))
        .add(metadata(drawing, choices))
}

/// A document of its own.
pub(super) fn written(document: &SVG) -> String {
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{document}\n")
}

/// Who made it and what it is, in the terms that any reader of SVG knows: RDF with Dublin Core
/// (SVG 1.1, chapter 21; ISO 15836).
fn metadata(drawing: &Drawing, choices: Option<&str>) -> Element {
    let mut work = Element::new("rdf:Description");
    work.assign("rdf:about", "");
    let date = drawing.date.as_ref().map(|date| ("dc:date", clean(date)));
    let facts = [
        ("dc:title", clean(&drawing.name)),
        ("dc:creator", PROGRAM.to_owned()),
        ("dc:format", "image/svg+xml".to_owned()),
        ("dc:language", "en".to_owned()),
    ];
    let choices = choices.map(|choices| ("dc:description", choices.to_owned()));
    for (name, value) in facts.into_iter().chain(date).chain(choices) {
        let mut fact = Element::new(name);
        fact.append(svg::node::Text::new(value));
        work.append(fact);
    }
    let mut rdf = Element::new("rdf:RDF");
    rdf.assign("xmlns:rdf", "http://www.w3.org/1999/02/22-rdf-syntax-ns#");
    rdf.assign("xmlns:dc", "http://purl.org/dc/elements/1.1/");
    rdf.append(work);
    let mut metadata = Element::new("metadata");
    metadata.append(rdf);
    metadata
}
