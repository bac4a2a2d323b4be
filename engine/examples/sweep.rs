//! One knob over its range, as CSV: how the leg edge and the back answer to `back_cover`.
//!
//! `cargo run --release -p quarterpin-engine --example sweep`

#![allow(clippy::print_stdout, reason = "an example is there to show something")]

use engine::base::Base;
use engine::finish::FinishKind;
use engine::quantity::Length;
use engine::sheet::{Body, Fabric, FinishSpec, Sheet, Style};
use engine::terms::Opening;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mm = Length::from_whole_mm;
    let base = Base::named("high leg").ok_or("no such base")?;
    let raw = FinishKind::named("raw").ok_or("no such finish")?;
    let body = Body::new(mm(720), mm(960), mm(205), mm(720));
    let mut sheet =
        Sheet::new("sweep", body, Fabric::new(80.0, 60.0), Style::new(base), FinishSpec::new(raw).everywhere());

    println!("back_cover,leg_edge_mm,back_area_cm2");
    for step in 0..=20 {
        let cover = f64::from(step) / 20.0;
        sheet.style.back_cover = Some(cover);
        // A shape that cannot be made is left out of the table; its reasons would be in the error.
        let Ok(garment) = engine::record(&sheet) else { continue };
        let leg = garment.openings.iter().find(|o| o.opening == Opening::LeftLeg).ok_or("no left leg")?;
        let back = garment.pieces.get(1).ok_or("no back")?;
        println!("{cover:.2},{:.1},{:.1}", leg.finished, back.area_mm2 / 100.0);
    }
    Ok(())
}
