//! Seams, crossings and openings, measured.

use super::heading;
use super::table::Column::{Left, Right};
use super::table::Columns;
use engine::garment::{Garment, OpeningWalk};
use engine::quantity::Units;
use engine::words::number::{fixed, percent};
use engine::words::{Fineness, Speech};

/// The whole report.
pub fn render(garment: &Garment, units: Units) -> String {
    let say = Speech(units);
    let openings: String = garment.openings.iter().map(|opening| one_opening(opening, say)).collect();
    seams(garment, say) + &crossings(garment) + &openings
}

/// Every seam: both lengths and the difference, between finished edges and between the sewing
/// lines of the openings. The seam's own name says which edges of the two pieces it joins.
fn seams(garment: &Garment, say: Speech) -> String {
    let heads = ["a", "b", "a - b"].map(|head| format!("{head} {}", say.unit()));
    let table = || {
        let numbers = heads.iter().map(|head| (head.as_str(), Right));
        Columns::new(&[("seam", Left), ("a", Left), ("b", Left)].into_iter().chain(numbers).collect::<Vec<_>>())
    };
    let (mut finished, mut sewn) = (table(), table());
    for seam in &garment.seams {
        let names = [seam.id.name(), seam.a.piece.name(), seam.b.piece.name()].map(str::to_owned);
        let line = |a: f64, b: f64| names.clone().into_iter().chain([a, b, a - b].map(|mm| exact(say, mm)));
        finished.line(line(seam.length_a, seam.length_b));
        sewn.line(line(seam.sewn_a, seam.sewn_b));
    }
    heading("Seams, between finished edges").trim_start().to_owned()
        + &finished.text()
        + &heading("Seams, between sewing lines")
        + &sewn.text()
}

fn exact(say: Speech, mm: f64) -> String {
    say.bare(mm, Fineness::Exact)
}

fn crossings(garment: &Garment) -> String {
    let mut table = Columns::new(&[("opening", Left), ("crosses", Left), ("both angles together", Right)]);
    for crossing in &garment.crossings {
        let angle = format!("{}°", fixed(crossing.angle, 3));
        table.line([crossing.id.opening.name().to_owned(), crossing.id.seam.name().to_owned(), angle]);
    }
    heading("Crossings (180° runs through without peak or dip)") + &table.text()
}

/// A ring: each section ends where the next one begins.
fn one_opening(opening: &OpeningWalk, say: Speech) -> String {
    let heads = ["finished", "sewing", "cut", "elastic"].map(|head| format!("{head} {}", say.unit()));
    let [finished, sewing, cut, elastic] = heads.each_ref().map(|head| (head.as_str(), Right));
    let mut table =
        Columns::new(&[("section", Left), ("from", Left), finished, sewing, cut, ("reduction", Right), elastic]);
    for s in &opening.sections {
        let lines = [s.finished, s.sewing, s.cut];
        let from = s.from.name(s.id.opening);
        table.line(measured([s.id.name(), &from], lines, (s.reduction, s.elastic_length), say));
    }
    let ring = [opening.finished, opening.sewing, opening.cut];
    let elastic = opening.elastic.as_ref().map(|e| (e.reduction, e.finished_length)).unzip();
    table.line(measured(["whole ring", ""], ring, elastic, say));
    heading(&format!("{}, along the curve ({})", opening.opening.name(), opening.finish.name())) + &table.text()
}

/// One line of an opening's table. `lines` are the finished, sewing and cut lengths, mm.
fn measured(
    names: [&str; 2],
    lines: [f64; 3],
    (reduction, elastic): (Option<f64>, Option<f64>),
    say: Speech,
) -> impl Iterator<Item = String> {
    let reduction = reduction.map(percent).unwrap_or_default();
    let elastic = elastic.map(|mm| say.bare(mm, Fineness::Tape)).unwrap_or_default();
    names.map(str::to_owned).into_iter().chain(lines.map(|mm| exact(say, mm))).chain([reduction, elastic])
}
