//! Seams, crossings and openings, measured.

use super::heading;
use super::ruler::{Ruler, fixed, percent};
use super::table::Column::{Left, Right};
use super::table::Columns;
use engine::garment::{Garment, OpeningWalk};
use engine::quantity::Units;

/// The whole report.
pub fn render(garment: &Garment, units: Units) -> String {
    let ruler = Ruler(units);
    let openings: String = garment.openings.iter().map(|opening| one_opening(opening, ruler)).collect();
    seams(garment, ruler) + &crossings(garment) + &openings
}

/// Every seam: both lengths and the difference, in millimetres and in the sheet's unit. The seam's
/// own name says which edges of the two pieces it joins.
fn seams(garment: &Garment, ruler: Ruler) -> String {
    let own = ["a", "b", "a - b"].map(|head| format!("{head} {}", ruler.unit()));
    let mut heads =
        vec![("seam", Left), ("a", Left), ("b", Left), ("a mm", Right), ("b mm", Right), ("a - b mm", Right)];
    heads.extend(ruler.beside_mm(|| own.iter().map(|head| (head.as_str(), Right))).into_iter().flatten());
    let mut table = Columns::new(&heads);
    for seam in &garment.seams {
        let lengths = [seam.length_a, seam.length_b, seam.difference];
        let names = [&seam.name, &seam.a.piece, &seam.b.piece].map(ToString::to_string);
        let own = ruler.beside_mm(|| lengths.map(|mm| ruler.exact(mm))).into_iter().flatten();
        table.line(names.into_iter().chain(lengths.map(|mm| fixed(mm, 3))).chain(own));
    }
    heading("Seams, between finished edges").trim_start().to_owned() + &table.text() + &sewn(garment)
}

/// The same between the sewing lines of the openings.
fn sewn(garment: &Garment) -> String {
    let mut table = Columns::new(&[("seam", Left), ("a mm", Right), ("b mm", Right), ("a - b mm", Right)]);
    for seam in &garment.seams {
        let (a, b) = (seam.sewn_a, seam.sewn_b);
        table.line([seam.name.clone(), fixed(a, 3), fixed(b, 3), fixed(a - b, 3)]);
    }
    heading("Seams, between sewing lines") + &table.text()
}

fn crossings(garment: &Garment) -> String {
    let mut table = Columns::new(&[("opening", Left), ("crosses", Left), ("both angles together", Right)]);
    for crossing in &garment.crossings {
        let angle = format!("{}°", fixed(crossing.angle, 3));
        table.line([crossing.opening.name().to_owned(), crossing.seam.clone(), angle]);
    }
    heading("Crossings (180° runs through without peak or dip)") + &table.text()
}

/// A ring: each section ends where the next one begins.
fn one_opening(opening: &OpeningWalk, ruler: Ruler) -> String {
    let (finished, elastic) = (format!("finished {}", ruler.unit()), format!("elastic {}", ruler.unit()));
    let mut heads = vec![("section", Left), ("from", Left)];
    heads.extend([("finished mm", Right), ("sewing mm", Right), ("cut mm", Right)]);
    heads.extend(ruler.beside_mm(|| (finished.as_str(), Right)));
    heads.extend([("reduction", Right), (elastic.as_str(), Right)]);
    let mut table = Columns::new(&heads);
    for s in &opening.sections {
        let lines = [s.finished, s.sewing, s.cut];
        table.line(measured([&s.name, &s.from], lines, s.reduction, s.elastic_length, ruler));
    }
    let ring = [opening.finished, opening.sewing, opening.cut];
    let elastic = opening.elastic.as_ref();
    let (reduction, length) = (elastic.map(|e| e.reduction), elastic.map(|e| e.finished_length));
    table.line(measured(["whole ring", ""], ring, reduction, length, ruler));
    heading(&format!("{}, along the curve ({})", opening.opening.name(), opening.finish)) + &table.text()
}

/// One line of an opening's table. `lines` are the finished, sewing and cut lengths, mm.
fn measured(
    names: [&str; 2],
    lines: [f64; 3],
    reduction: Option<f64>,
    elastic: Option<f64>,
    ruler: Ruler,
) -> impl Iterator<Item = String> {
    let own = ruler.beside_mm(|| ruler.read(lines[0]));
    let reduction = reduction.map(percent).unwrap_or_default();
    let elastic = elastic.map(|mm| ruler.read(mm)).unwrap_or_default();
    names.map(str::to_owned).into_iter().chain(lines.map(|mm| fixed(mm, 3))).chain(own).chain([reduction, elastic])
}
