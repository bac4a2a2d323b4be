//! Walks a cutter file that somebody edited: which seams no longer fit?
//!
//! `cargo run -p quarterpin-export --example walk_edited [FILE.dxf]`; without a file it makes one,
//! and moves a corner of it.

#![allow(clippy::print_stdout, reason = "an example is there to show something")]

use engine::base::Base;
use engine::finish::FinishKind;
use engine::quantity::Length;
use engine::sheet::{Body, Fabric, FinishSpec, Sheet, Style};
use export::read::{Format, read, walk};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let bytes = match std::env::args_os().nth(1) {
        Some(file) => std::fs::read(file)?,
        None => edited()?,
    };
    let found = read(&bytes, Format::Dxf)?;
    let walked = walk(&found);
    for seam in &walked.seams {
        let off = seam.length_a - seam.length_b;
        let verdict = if off.abs() > 0.1 { "does not fit" } else { "fits" };
        println!("{}: {:.2} and {:.2} mm, {verdict}", seam.name, seam.length_a, seam.length_b);
    }
    Ok(())
}

/// A cutter file in which the foot of a side seam was dragged 3 mm down.
fn edited() -> Result<Vec<u8>, Box<dyn std::error::Error>> {
    let mm = Length::from_whole_mm;
    let hem = FinishKind::named("hem").ok_or("no such finish")?;
    let style = Style::new(Base::named("brief").ok_or("no such base")?);
    let body = Body::new(mm(740), mm(980), mm(200), mm(710));
    let sheet = Sheet::new("edited", body, Fabric::new(60.0, 40.0), style, FinishSpec::new(hem).everywhere());
    let mut drawing = engine::make(&sheet)?.drawing;
    let side = drawing.pieces[0].loops.iter_mut().flat_map(|l| &mut l.edges).filter(|e| e.name.contains("side"));
    for edge in side {
        let foot = edge.path.end();
        edge.path = edge.path.map(|p| if p.distance(foot) < 1e-6 { p + (0.0, 3.0) } else { p });
    }
    Ok(export::dxf::cut(&drawing, &export::dxf::Options::default())?.bytes)
}
