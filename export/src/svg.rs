//! A drawing as SVG: pieces as drawn (halves on the fold as halves), side by side, in millimetres.

mod group;
mod ids;
mod legend;
mod on_body;
mod pen;
mod shape;
#[cfg(test)]
mod tests;

pub use on_body::on_body;

use crate::outline::{self, Flaw};
use engine::drawing::Drawing;
use kurbo::{Point, Size, Vec2};
use shape::{clean, number};
use svg::node::Comment;
use svg::node::Node;
use svg::node::element::{Description, Element, SVG, Title};

/// Our own mark, in a comment near the top of every file.
pub const MARK: &str = "quarterpin";

/// Round everything, mm.
const MARGIN: f64 = 12.0;
/// Between pieces, mm; an edging that stands out is drawn beyond the cut line.
const GAP: f64 = 20.0;

/// A drawing that cannot be written as SVG.
#[derive(Debug, thiserror::Error)]
pub enum SvgError {
    /// The drawing is not sound.
    #[error(transparent)]
    Flaw(#[from] Flaw),
}

/// The drawing as a document of its own; width, height and view box in millimetres.
///
/// Every piece is a group with the piece's name as its id, with one sub-group per kind of line; its
/// cut outline is one closed path, curves kept.
///
/// # Errors
/// [`SvgError::Flaw`] for a drawing that would become a broken file, naming the piece.
pub fn svg(drawing: &Drawing) -> Result<String, SvgError> {
    outline::check(drawing)?;
    let tallest = drawing.pieces.iter().map(|p| p.bounds().height()).fold(0.0, f64::max);
    let wide: f64 = drawing.pieces.iter().map(|p| p.bounds().width() + GAP).sum();
    let width = (wide - GAP).max(legend::WIDTH) + 2.0 * MARGIN;
    let height = MARGIN + tallest + GAP + legend::HEIGHT + MARGIN;
    let names: Vec<&str> = drawing.pieces.iter().map(|p| p.name.as_str()).collect();
    let description = format!("Pieces to cut, true size in millimetres: {}", names.join(", "));
    let mut document = head(drawing, &description, Size::new(width, height));
    let mut left = MARGIN;
    for (piece, id) in drawing.pieces.iter().zip(ids::of_pieces(drawing)) {
        let bounds = piece.bounds();
        let shift = Vec2::new(left - bounds.x0, MARGIN - bounds.y0);
        document = document.add(group::piece(piece, &id, shift));
        left += bounds.width() + GAP;
    }
    document = document.add(legend::legend(drawing, Point::new(MARGIN, MARGIN + tallest + GAP)));
    Ok(format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{document}\n"))
}

fn head(drawing: &Drawing, description: &str, Size { width, height }: Size) -> SVG {
    SVG::new()
        .set("width", format!("{}mm", number(width)))
        .set("height", format!("{}mm", number(height)))
        .set("viewBox", format!("0 0 {} {}", number(width), number(height)))
        .add(Comment::new(MARK))
        .add(Title::new(clean(&drawing.name)))
        .add(Description::new().add(svg::node::Text::new(clean(description))))
        .add(metadata(drawing))
}

/// Who made it and what it is, in the terms that any reader of SVG knows: RDF with Dublin Core
/// (SVG 1.1, chapter 21; ISO 15836).
fn metadata(drawing: &Drawing) -> Element {
    let mut work = Element::new("rdf:Description");
    work.assign("rdf:about", "");
    let date = drawing.date.as_ref().map(|date| ("dc:date", clean(date)));
    let facts = [
        ("dc:title", clean(&drawing.name)),
        ("dc:creator", MARK.to_owned()),
        ("dc:format", "image/svg+xml".to_owned()),
        ("dc:language", "en".to_owned()),
    ];
    for (name, value) in facts.into_iter().chain(date) {
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
