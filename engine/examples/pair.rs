//! A pair from four numbers: what to cut, and how far to trust it.
//!
//! `cargo run -p quarterpin-engine --example pair`

#![allow(clippy::print_stdout, reason = "an example is there to show something")]

use engine::base::Base;
use engine::finish::FinishKind;
use engine::quantity::Length;
use engine::sheet::{Body, Fabric, FinishSpec, Sheet, Style};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mm = Length::from_whole_mm;
    let base = Base::named("brief").ok_or("no such base")?;
    let hem = FinishKind::named("hem").ok_or("no such finish")?;
    let body = Body::new(mm(740), mm(980), mm(200), mm(710));
    let sheet =
        Sheet::new("four numbers", body, Fabric::new(60.0, 40.0), Style::new(base), FinishSpec::new(hem).everywhere());

    let garment = engine::record(&sheet)?;
    for piece in &garment.pieces {
        let size = piece.bounds();
        println!("{}: cut {}, {:.0} x {:.0} mm", piece.id.name(), piece.quantity, size.width(), size.height());
    }
    for seam in &garment.seams {
        println!("{}: {:.1} mm, sides differ by {:.6} mm", seam.id.name(), seam.length_a, seam.difference);
    }
    Ok(())
}
