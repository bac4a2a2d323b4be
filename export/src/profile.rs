//! Edges cut across, side by side: cloth, folds, elastic and stitches, as SVG.
//!
//! Across the picture lies the distance from the finished edge, true to scale; the thickness of
//! the layers is drawn apart, so that each can be seen.

use crate::number::decimal;
use engine::drawing::profile::{Ply, Profile, Stitches, Stuff};
use std::fmt::Write as _;
use svg::node::Text as Content;
use svg::node::element::{Description, Group, Line, Path, Rectangle, SVG, Text, Title};

/// One edge and what is written beside it.
#[derive(Clone, Debug)]
pub struct Panel {
    /// Its name.
    pub title: String,
    /// Below the picture.
    pub caption: Vec<String>,
    /// The edge.
    pub profile: Profile,
}

/// mm of the picture.
const PANEL: (f64, f64) = (100.0, 62.0);
const COLUMNS: usize = 3;
/// mm of the picture for one of the edge.
const SCALE: f64 = 1.7;
/// From layer to layer, mm of the picture.
const LAYER: f64 = 4.6;
/// Where the finished edge and the skin lie in a panel.
const EDGE: f64 = 80.0;
const SKIN: f64 = 36.0;
/// How many letters of a caption fit on a line.
const LETTERS: usize = 58;

/// Lines and words.
pub(crate) const INK: &str = "#1b1b1b";
/// Stitches.
pub(crate) const STITCHES: &str = "#b3261e";
/// How to read it.
const ABOUT: &str = "The dashed line is the finished edge, the body lies below, the garment to the left. Distances \
                     across are to scale, layers are drawn apart.";

/// All panels on one sheet, in millimetres.
pub fn strip(panels: &[Panel]) -> String {
    let rows = panels.len().div_ceil(COLUMNS);
    let columns = panels.len().min(COLUMNS);
    let (width, height) = (PANEL.0 * columns as f64, PANEL.1 * rows as f64);
    let mut document = SVG::new()
        .set("width", format!("{}mm", number(width)))
        .set("height", format!("{}mm", number(height)))
        .set("viewBox", format!("0 0 {} {}", number(width), number(height)))
        .add(Title::new("Finishes, cut across"))
        .add(Description::new().add(Content::new(ABOUT)))
        .add(Rectangle::new().set("width", "100%").set("height", "100%").set("fill", "#fff"));
    for (i, panel) in panels.iter().enumerate() {
        let (column, row) = (i % COLUMNS, i / COLUMNS);
        let at = format!("translate({} {})", number(column as f64 * PANEL.0), number(row as f64 * PANEL.1));
        document = document.add(draw(panel).set("transform", at));
    }
    format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{document}\n")
}

/// One edge alone, without a ground of its own and without its caption.
pub fn alone(panel: &Panel) -> String {
    let bare = Panel { caption: Vec::new(), ..panel.clone() };
    let document = SVG::new()
        .set("viewBox", "0 0 100 46")
        .set("role", "img")
        .add(Title::new(format!("{}, cut across", panel.title)))
        .add(Description::new().add(Content::new(format!("{}. {ABOUT}", panel.caption.join(". ")))))
        .add(Rectangle::new().set("width", "100%").set("height", "100%").set("fill", "#fff"))
        .add(draw(&bare));
    format!("{document}\n")
}

fn number(value: f64) -> String {
    decimal(value, 3)
}

fn x(distance: f64) -> f64 {
    EDGE + SCALE * distance
}

fn y(layer: f64) -> f64 {
    SKIN - 3.4 - LAYER * layer
}

fn draw(panel: &Panel) -> Group {
    let mut group = Group::new().set("id", panel.title.replace(' ', "-")).set("font-family", "sans-serif");
    group = group.add(words(&panel.title, (6.0, 8.0), 4.6).set("font-weight", "bold"));
    group = group.add(skin()).add(finished_edge());
    for ply in &panel.profile.plies {
        group = group.add(ply_outline(ply)).add(ply_body(ply));
    }
    for (i, row) in panel.profile.rows.iter().enumerate() {
        group = group.add(stitches(row)).add(distance(row.at, i));
    }
    let lines = panel.caption.iter().flat_map(|line| crate::fit::wrap(line, LETTERS));
    for (i, line) in lines.enumerate() {
        group = group.add(words(&line, (6.0, 50.0 + 4.0 * i as f64), 3.0));
    }
    group
}

fn words(text: &str, (x, y): (f64, f64), size: f64) -> Text {
    Text::new(text).set("x", number(x)).set("y", number(y)).set("font-size", number(size)).set("fill", INK)
}

/// The body, as a hatched ground.
fn skin() -> Path {
    let mut d = format!("M6 {} H96", number(SKIN));
    for i in 0..30 {
        let at = 7.0 + 3.0 * f64::from(i);
        let _ = write!(d, " M{} {} l-1.6 2", number(at), number(SKIN));
    }
    Path::new().set("d", d).set("fill", "none").set("stroke", "#8a6f5c").set("stroke-width", "0.3")
}

fn finished_edge() -> Line {
    Line::new()
        .set("x1", number(EDGE))
        .set("x2", number(EDGE))
        .set("y1", "11")
        .set("y2", number(SKIN + 2.0))
        .set("stroke", INK)
        .set("stroke-width", "0.25")
        .set("stroke-dasharray", "1.6 1.2")
}

/// Straight along a layer, round in a half circle where it is folded to another.
fn course(ply: &Ply) -> String {
    let mut d = String::new();
    let mut heading = 1.0_f64;
    for (i, &(at, layer)) in ply.course.iter().enumerate() {
        let (px, py) = (number(x(at)), number(y(layer)));
        match i.checked_sub(1).and_then(|before| ply.course.get(before)) {
            None => {
                let _ = write!(d, "M{px} {py}");
            }
            Some(&(from, lower)) if from == at => {
                let radius = number(0.5 * LAYER * (layer - lower).abs());
                // Bulges the way the cloth was running.
                let sweep = u8::from((heading > 0.0) == (layer < lower));
                let _ = write!(d, " A{radius} {radius} 0 0 {sweep} {px} {py}");
            }
            Some(&(from, _)) => {
                heading = at - from;
                let _ = write!(d, " L{px} {py}");
            }
        }
    }
    d
}

/// Thickness in the picture, ground, and the colour and dashes of its texture.
pub(crate) const fn look(stuff: Stuff) -> (f64, &'static str, &'static str, &'static str) {
    match stuff {
        Stuff::Cloth => (2.2, "#b9c7cf", "#b9c7cf", "none"),
        Stuff::Elastic => (2.6, "#fff3d9", "#f2c879", "0.8 0.5"),
        Stuff::Band => (2.2, "#9fb89a", "#9fb89a", "none"),
    }
}

/// A dark line that shows on both sides of a ply.
pub(crate) const RIM: f64 = 0.25;

fn ply_outline(ply: &Ply) -> Path {
    let (width, ..) = look(ply.stuff);
    stroke(ply, INK).set("stroke-width", number(width + 2.0 * RIM))
}

fn ply_body(ply: &Ply) -> Group {
    let (width, ground, colour, dashes) = look(ply.stuff);
    let texture = stroke(ply, colour).set("stroke-dasharray", dashes);
    [stroke(ply, ground), texture].into_iter().fold(Group::new(), |g, p| g.add(p.set("stroke-width", number(width))))
}

fn stroke(ply: &Ply, colour: &str) -> Path {
    Path::new().set("d", course(ply)).set("fill", "none").set("stroke", colour).set("stroke-linejoin", "round")
}

fn stitches(row: &Stitches) -> Path {
    let (low, high) = (y(row.through.0) + 2.0, y(row.through.1) - 2.0);
    let d = format!(
        "M{x} {high} V{low} M{left} {high} h1.6 M{left} {low} h1.6",
        x = number(x(row.at)),
        left = number(x(row.at) - 0.8),
        high = number(high),
        low = number(low)
    );
    Path::new().set("d", d).set("fill", "none").set("stroke", STITCHES).set("stroke-width", "0.6")
}

/// How far a row lies from the finished edge; each row has a line of its own, as rows lie close.
fn distance(at: f64, row: usize) -> Text {
    let label = format!("{at:.1}").replace('-', "\u{2212}");
    words(&label, (x(at), SKIN + 5.0 + 2.8 * row as f64), 2.6).set("text-anchor", "middle").set("fill", STITCHES)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn panel(name: &str) -> Panel {
        let profile = Profile {
            plies: vec![Ply::cloth(&[(-20.0, 1.0), (0.0, 1.0), (0.0, 0.0), (-8.0, 0.0)]), Ply::elastic(-8.0, 0.0, 2.0)],
            rows: vec![Stitches::new(-6.0, 0.0, 1.0)],
        };
        Panel { title: name.to_owned(), caption: vec!["folded in once".to_owned()], profile }
    }

    #[test]
    fn every_panel_and_row_is_drawn_to_scale() {
        let text = strip(&[panel("first"), panel("second")]);
        assert!(text.contains("id=\"first\"") && text.contains("id=\"second\""));
        assert!(text.contains(&format!("M{} ", number(EDGE - 20.0 * SCALE))), "cloth begins 20 mm inside");
        assert!(text.contains(&format!("M{} ", number(EDGE - 6.0 * SCALE))), "a row 6 mm inside");
        assert!(text.contains("\u{2212}6.0"));
    }

    #[test]
    fn a_fold_bulges_the_way_the_cloth_runs() {
        // Outward (to the right) and down to the skin: clockwise, sweep 1 in SVG.
        let ply = Ply::cloth(&[(-10.0, 1.0), (0.0, 1.0), (0.0, 0.0), (-8.0, 0.0)]);
        assert!(course(&ply).contains(" 0 0 1 "), "{}", course(&ply));
    }
}
