//! What may be typed to set two garments side by side.

use super::request::CompareRequest;
use super::shape;
use clap::Args;
use export::pdf::Pages;
use std::path::PathBuf;

#[derive(Debug, Args)]
pub(super) struct CompareArgs {
    /// A measurement sheet (TOML)
    first: PathBuf,
    /// Another one; it can stay out with --variant
    second: Option<PathBuf>,
    /// Take this variant of the second sheet, or of the first where there is no second
    #[arg(long, value_name = "NAME")]
    variant: Option<String>,
    /// Against the sheet as it was before `trial` last wrote into it
    #[arg(long, conflicts_with_all = ["second", "variant"])]
    before: bool,
    /// Draw the pieces of both laid over each other into this file (SVG)
    #[arg(long, value_name = "FILE")]
    picture: Option<PathBuf>,
    /// Print both laid over each other at true size into this file (PDF), on the paper of the first sheet
    #[arg(long, value_name = "FILE")]
    print: Option<PathBuf>,
    /// The print on one large page that holds everything
    #[arg(long, requires = "print")]
    one_page: bool,
    /// Answer in JSON on standard output
    #[arg(long)]
    json: bool,
}

impl CompareArgs {
    pub(super) fn meaning(self) -> CompareRequest {
        let Self { first, second, variant, before, picture, print, one_page, json } = self;
        let pages = if one_page { Pages::One } else { Pages::Tiles };
        CompareRequest { first, second, variant, before, picture, print, pages, answer: shape(json) }
    }
}
