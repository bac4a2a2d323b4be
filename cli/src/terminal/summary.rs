//! The summary of a draft: what to know before cutting, at a glance.

use super::table::Column::{Left, Right};
use super::table::Columns;
use super::{TIE, checks, heading, plain, work, wrapped};
use engine::elastic::ElasticCut;
use engine::garment::{Garment, OpeningWalk, Piece, Source, Used, Value, Variant};
use engine::keys::{Edges, Home};
use engine::quantity::Units;
use engine::sheet::Opening;
use engine::terms::Extent;
use engine::words::number::{fixed, percent, short};
use engine::words::{Fineness, Speech, joining};
use std::path::Path;

/// The whole summary. `files` are the names of the files written into a folder, and what each is for.
pub fn render(garment: &Garment, units: Units, into: &Path, files: &[(&str, &str)]) -> String {
    let say = Speech(units);
    [
        title(garment),
        pieces(garment, say),
        seams(garment, say),
        elastics(garment, say),
        totals(garment, say),
        marks(garment, say),
        worn(garment, say),
        work::in_short(&garment.order_of_work, units),
        assumed(garment, say),
        variants(garment, say),
        format!("\n{}", checks::render(&garment.checks, units)),
        written(into, files),
    ]
    .concat()
}

fn title(garment: &Garment) -> String {
    let date = garment.date.as_ref().map(|date| format!(", {date}")).unwrap_or_default();
    heading(&plain(&format!("{}{date}", garment.name))).trim_start().to_owned()
}

fn pieces(garment: &Garment, say: Speech) -> String {
    heading("Pieces (whole, along the cut line)") + &pieces_table(&garment.pieces, say)
}

fn pieces_table<'p>(pieces: impl IntoIterator<Item = &'p Piece>, say: Speech) -> String {
    let unit = say.unit();
    let mut table =
        Columns::new(&[("piece", Left), ("cut", Right), ("of", Left), (&format!("width x height {unit}"), Right)]);
    for piece in pieces {
        let (width, height) = size(piece);
        let size = format!("{} x {}", say.bare(width, Fineness::Tape), say.bare(height, Fineness::Tape));
        table.line([piece.id.name().to_owned(), piece.quantity.to_string(), piece.material.clone(), size]);
    }
    table.text()
}

/// Width and height of the whole piece inside its cut line, mm. A half piece ends at x = 0.
fn size(piece: &Piece) -> (f64, f64) {
    let boxes = piece.cut.edges.iter().map(|edge| edge.path.bounds());
    let all = boxes.reduce(|a, b| a.union(b)).unwrap_or_default();
    let width = match piece.extent {
        Extent::HalfOnFold => 2.0 * all.x1,
        Extent::Full => all.width(),
    };
    (width, all.height())
}

fn seams(garment: &Garment, say: Speech) -> String {
    let unit = say.unit();
    let mut table = Columns::new(&[
        ("seam", Left),
        (&format!("one side {unit}"), Right),
        (&format!("other side {unit}"), Right),
        (&format!("difference {unit}"), Right),
    ]);
    for seam in &garment.seams {
        let (a, b) = (say.bare(seam.length_a, Fineness::Tape), say.bare(seam.length_b, Fineness::Tape));
        table.line([seam.id.name().to_owned(), a, b, say.bare(seam.difference, Fineness::Exact)]);
    }
    heading("Seams walked") + &table.text()
}

fn elastics(garment: &Garment, say: Speech) -> String {
    heading("Openings and elastic") + &edges(garment, say)
}

/// Each opening's edge and what is sewn to it.
fn edges(garment: &Garment, say: Speech) -> String {
    let unit = say.unit();
    let mut table = Columns::new(&[
        ("opening", Left),
        ("finish", Left),
        (&format!("edge {unit}"), Right),
        ("elastic", Left),
        ("sewn to", Right),
        ("reduction", Right),
        (&format!("cut {unit}"), Right),
        ("joined", Right),
        ("worn stretch", Right),
    ]);
    for opening in &garment.openings {
        table.line(elastic_line(opening, say));
    }
    table.text() + &joinings(garment)
}

fn elastic_line(opening: &OpeningWalk, say: Speech) -> [String; 9] {
    let elastic = opening.elastic.as_ref();
    let band = opening.band.as_ref();
    let cut = elastic.map(|e| e.cut_length).or(band.map(|b| b.cut_length));
    let reduction = elastic.map(|e| e.reduction).or(band.map(|b| b.reduction));
    let joined = elastic.map(|e| e.finished_length).or(band.map(|b| b.length));
    [
        opening.opening.name().to_owned(),
        opening.finish.name().to_owned(),
        say.bare(opening.finished, Fineness::Tape),
        elastic.map_or_else(|| "none".to_owned(), |e| e.name.clone()),
        cut.map(|_| say.bare(opening.sewing, Fineness::Tape)).unwrap_or_default(),
        reduction.map(percent).unwrap_or_default(),
        cut.map(|mm| say.bare(mm, Fineness::Tape)).unwrap_or_default(),
        joined.map(|mm| say.bare(mm, Fineness::Tape)).unwrap_or_default(),
        percent(opening.worn.stretch.round()),
    ]
}

/// What the variants of the sheet make.
fn variants(garment: &Garment, say: Speech) -> String {
    let one = |a: &Variant| {
        let name = heading(&plain(&format!("Variant: {}", a.name)));
        name + &edges(&a.garment, say) + &totals(&a.garment, say) + &other_pieces(garment, &a.garment, say)
    };
    garment.variants.iter().map(one).collect()
}

/// The pieces of a variant that the garment itself does not have in that shape.
fn other_pieces(garment: &Garment, other: &Garment, say: Speech) -> String {
    let same = |p: &Piece, q: &Piece| {
        (p.id, p.quantity, p.extent) == (q.id, q.quantity, q.extent)
            && (p.area_mm2 - q.area_mm2).abs() < 1e-6
            && (p.perimeter_mm - q.perimeter_mm).abs() < 1e-6
    };
    let is_new = |p: &&Piece| !garment.pieces.iter().any(|q| same(p, q));
    let new: Vec<&Piece> = other.pieces.iter().filter(is_new).collect();
    if new.is_empty() { String::new() } else { format!("\n{}", pieces_table(new, say)) }
}

/// How the ends of each elastic are joined; what is alike only once.
fn joinings(garment: &Garment) -> String {
    let mut said: Vec<(&ElasticCut, Vec<&str>)> = Vec::new();
    let alike = |a: &ElasticCut, b: &ElasticCut| (a.joining, a.growth, a.in_hand) == (b.joining, b.growth, b.in_hand);
    for opening in &garment.openings {
        let Some(elastic) = &opening.elastic else { continue };
        let name = opening.opening.name();
        match said.iter_mut().find(|(known, _)| alike(known, elastic)) {
            Some((_, openings)) => openings.push(name),
            None => said.push((elastic, vec![name])),
        }
    }
    let line = |(elastic, openings): &(&ElasticCut, Vec<&str>)| {
        let words = joining(*elastic, Speech(garment.units));
        format!("  {}\n", wrapped(&format!("{}: {words}", openings.join(", ")), 2))
    };
    said.iter().map(line).collect()
}

/// Pairs that an elastic is bought for.
const PAIRS: [u32; 4] = [1, 2, 5, 10];

/// How much of each elastic to have.
fn totals(garment: &Garment, say: Speech) -> String {
    if garment.elastics.is_empty() {
        return String::new();
    }
    let heads = PAIRS.map(|n| if n == 1 { format!("1 pair {}", say.unit()) } else { format!("{n} pairs") });
    let wide = format!("wide {}", say.unit());
    let mut columns = vec![("elastic in all", Left), (wide.as_str(), Right)];
    columns.extend(heads.iter().map(|head| (head.as_str(), Right)));
    let mut table = Columns::new(&columns);
    for total in &garment.elastics {
        let lengths = PAIRS.map(|n| say.bare(f64::from(n) * total.in_hand, Fineness::Tape));
        table.line([total.name.clone(), say.bare(total.width, Fineness::Tool)].into_iter().chain(lengths));
    }
    format!("\n{}", table.text())
}

/// Beside the table of openings as worn.
const SHORTER: &str = "shorter: at rest against the body, by the ease of the cloth and the reduction together";

/// How every opening sits on the body. What is not known is left empty.
fn worn(garment: &Garment, say: Speech) -> String {
    let unit = say.unit();
    let mut table = Columns::new(&[
        ("opening", Left),
        (&format!("body {unit}"), Right),
        (&format!("at rest {unit}"), Right),
        ("shorter", Right),
        ("cloth stretches", Right),
        ("elastic stretches", Right),
        ("pulls N", Right),
        ("presses kPa", Right),
    ]);
    let known = |value: Option<f64>| value.map(|v| fixed(v, 2)).unwrap_or_default();
    for OpeningWalk { opening, elastic, worn, .. } in &garment.openings {
        let elastic = elastic.as_ref().map(|_| percent(worn.stretch.round())).unwrap_or_default();
        table.line([
            opening.name().to_owned(),
            say.bare(worn.girth, Fineness::Tape),
            say.bare(worn.relaxed, Fineness::Tape),
            percent(worn.shorter().round()),
            percent(worn.cloth_stretch.round()),
            elastic,
            known(worn.tension_n),
            known(worn.pressure_kpa),
        ]);
    }
    heading("Worn (pressure is an indicative average, and only where a pull test is given)")
        + &table.text()
        + &format!("  {}\n", wrapped(SHORTER, 2))
}

/// Where to pin: the marks of every elastic, each with its place on the edge. Legs that are alike
/// are told once.
fn marks(garment: &Garment, say: Speech) -> String {
    let unit = say.unit();
    let mut table = Columns::new(&[
        ("opening", Left),
        ("mark", Left),
        ("on the edge", Left),
        (&format!("along elastic {unit}"), Right),
        (&format!("along edge {unit}"), Right),
    ]);
    let told = alike(garment);
    for (opening, elastic) in &told {
        for mark in &elastic.marks {
            let along = elastic.joining.ends.in_allowance() + mark.along_elastic;
            let (along, edge) = (say.bare(along, Fineness::Tape), say.bare(mark.along_edge, Fineness::Tape));
            table.line([(*opening).to_owned(), mark.number.to_string(), mark.place.name(), along, edge]);
        }
    }
    if told.is_empty() {
        String::new()
    } else {
        heading("Marks to pin at") + &table.text() + &format!("  {}\n", wrapped(COUNTED, 2))
    }
}

/// Under the table of marks.
const COUNTED: &str = "counted from the cut end of the elastic, of a ring from the middle of its joint";

fn alike(garment: &Garment) -> Vec<(&'static str, &ElasticCut)> {
    let mut told: Vec<(&'static str, &ElasticCut)> = Vec::new();
    let is_alike = |a: &ElasticCut, b: &ElasticCut| a.marks == b.marks && a.joining.ends == b.joining.ends;
    for (opening, elastic) in garment.openings.iter().filter_map(|o| o.elastic.as_ref().map(|e| (o.opening, e))) {
        match told.last_mut() {
            Some((name, left)) if opening == Opening::RightLeg && is_alike(left, elastic) => *name = "either leg",
            _ if elastic.marks.is_empty() => {}
            _ => told.push((opening.name(), elastic)),
        }
    }
    told
}

/// What the sheet did not say: estimates each with its reason, defaults section by section.
fn assumed(garment: &Garment, say: Speech) -> String {
    let of = |source| garment.used.iter().filter(move |used| used.source == source);
    let estimates: String = of(Source::Estimated).map(|used| estimate(used, say)).collect();
    let defaults: String = by_section(of(Source::Default), say)
        .iter()
        .map(|(section, pairs)| {
            let lead = format!("  {section}: ");
            format!("{lead}{}\n", wrapped(&pairs.join(", "), lead.chars().count()))
        })
        .collect();
    if estimates.is_empty() && defaults.is_empty() {
        return String::new();
    }
    heading("Not in the sheet, so taken as") + &estimates + &defaults
}

fn estimate(used: &Used, say: Speech) -> String {
    let note = if used.note.is_empty() { String::new() } else { format!(": {}", used.note) };
    let said = format!("estimated {} {}{note}", used.key, shown(&used.value, say));
    format!("  {}\n", wrapped(&said, 2))
}

/// The defaults of each section, in order; what is alike for both legs is told once.
fn by_section<'a>(used: impl Iterator<Item = &'a Used>, say: Speech) -> Vec<(String, Vec<String>)> {
    let mut homes: Vec<(&Home, Vec<String>)> = Vec::new();
    for Used { key, value, .. } in used {
        let pair = format!("{} {}", key.name(), shown(value, say)).replace(' ', &TIE.to_string());
        match homes.iter_mut().find(|(known, _)| *known == key.home()) {
            Some((_, pairs)) => pairs.push(pair),
            None => homes.push((key.home(), vec![pair])),
        }
    }
    let of_leg = |edges| homes.iter().position(|(home, _)| **home == Home::Finish(edges));
    let alike = match (of_leg(Edges::LeftLeg), of_leg(Edges::RightLeg)) {
        (Some(left), Some(right)) if homes[left].1 == homes[right].1 => Some(right),
        _ => None,
    };
    alike.map(|right| homes.remove(right));
    let title = |home: &Home| match home {
        Home::Finish(Edges::LeftLeg) if alike.is_some() => "finish of either leg".to_owned(),
        _ => home.to_string(),
    };
    homes.into_iter().map(|(home, pairs)| (title(home), pairs)).collect()
}

/// Shorter lengths are set at a tool, longer ones measured with a tape, mm.
const SMALL: f64 = 30.0;

fn shown(value: &Value, say: Speech) -> String {
    match value {
        // Allowances as the pieces and the steps tell them.
        Value::Mm(mm) if *mm < SMALL => say.tool(*mm),
        Value::Mm(mm) => say.tape(*mm),
        Value::Percent(p) => percent(*p),
        Value::Number(n) => short(*n, 3),
        Value::Word(word) => word.clone(),
    }
}

/// The names of the files, under the folder that they lie in: a path may be longer than a line.
fn written(into: &Path, files: &[(&str, &str)]) -> String {
    let mut table = Columns::new(&[("file", Left), ("for", Left)]);
    for (name, what) in files {
        table.line([(*name).to_owned(), (*what).to_owned()]);
    }
    heading(&plain(&format!("Written into {}", into.display()))) + &table.text()
}
