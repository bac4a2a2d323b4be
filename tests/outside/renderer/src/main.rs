//! Draws the pages of a PDF with hayro, for the outside checks.
//!
//! `outside-renderer FILE.pdf FOLDER SCALE PAGE…` writes these pages (counted from 0) as grey
//! pictures, `0.pgm` and so on, SCALE pixels to the point, and says width and height of every page
//! in points, a line each.

use anyhow::{Context, Result, bail};
use hayro::hayro_interpret::InterpreterSettings;
use hayro::hayro_syntax::Pdf;
use hayro::vello_cpu::color::palette::css::WHITE;
use hayro::{PixmapSettings, RenderCache, RenderSettings, render};
use std::path::Path;

fn main() -> Result<()> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let [file, folder, scale, wanted @ ..] = words.as_slice() else { bail!("give FILE.pdf FOLDER SCALE PAGE…") };
    let scale: f32 = scale.parse().context("the scale is no number")?;
    let bytes = std::fs::read(file).with_context(|| file.clone())?;
    let Ok(pdf) = Pdf::new(bytes) else { bail!("{file} cannot be read") };
    let cache = RenderCache::new();
    for (number, page) in pdf.pages().iter().enumerate() {
        let (width, height) = page.render_dimensions();
        println!("{width} {height}");
        if !wanted.contains(&number.to_string()) {
            continue;
        }
        let settings = PixmapSettings { x_scale: scale, y_scale: scale, bg_color: WHITE };
        let drawn = render(page, &cache, &InterpreterSettings::default(), &RenderSettings::default(), &settings);
        let mut picture = format!("P5\n{} {}\n255\n", drawn.width(), drawn.height()).into_bytes();
        picture.extend(drawn.data().iter().map(|p| p.g));
        std::fs::write(Path::new(folder).join(format!("{number}.pgm")), picture)?;
    }
    Ok(())
}
