//! What a person may type about the print, over the sheet's own.

use super::words::{number, words};
use clap::Args;
use engine::keys::print::ROLL;
use engine::quantity::Length;
use engine::sheet::{Paper, Print};
use export::pdf::{Options, PageSetup, Pages, Sharing, Turning};

/// The flags.
#[derive(Debug, Args)]
#[command(next_help_heading = "Print (lengths in mm)")]
pub(super) struct PaperArgs {
    /// The paper to print on, over the sheet's own: A4, Letter, A3, Legal, Tabloid, A0, or the width
    /// of a roll in mm, such as 914
    #[arg(long, value_name = "NAME|MM", value_parser = paper)]
    paper: Option<Paper>,
    /// Left free on every side of a page [default: the sheet's, else 10]
    #[arg(long, value_name = "MM", value_parser = number, allow_negative_numbers = true)]
    margin: Option<f64>,
    /// How far two pages lie over each other; 0 lays them edge to edge [default: the sheet's, else 10]
    #[arg(long, value_name = "MM", value_parser = number, allow_negative_numbers = true)]
    overlap: Option<f64>,
    /// Which way round the pages are; `auto` takes fewer of them
    #[arg(long, default_value = "auto", value_parser = words(&Turning::NAMED))]
    turn: Turning,
    /// Give every piece pages of its own
    #[arg(long)]
    keep_apart: bool,
    /// Everything on one large page, laid out as the pages would be
    #[arg(long)]
    one_page: bool,
}

/// A paper by its name, in capitals or not, or a roll by its width in mm.
fn paper(typed: &str) -> Result<Paper, String> {
    let typed = typed.trim();
    if let Some((_, paper)) = Paper::NAMED.iter().find(|(name, _)| name.eq_ignore_ascii_case(typed)) {
        return Ok(*paper);
    }
    let (low, high) = ROLL;
    match number(typed.strip_suffix("mm").unwrap_or(typed)) {
        Ok(width) if (low..=high).contains(&width) => Ok(Paper::Roll(Length::from_mm(width))),
        Ok(_) => Err(format!("a roll is from {low} to {high} mm wide")),
        Err(_) => {
            let names = Paper::NAMED.map(|(name, _)| name).join(", ");
            Err(format!("write {names}, or the width of a roll in mm, from {low} to {high}"))
        }
    }
}

/// How the print is wanted; what is not said here is said by the sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct PaperUse {
    /// What to print on.
    pub paper: Option<Paper>,
    /// Left free on every side of a page, mm.
    pub margin: Option<f64>,
    /// How far two pages lie over each other, mm.
    pub overlap: Option<f64>,
    /// Which way round the pages are.
    pub turning: Turning,
    /// May pieces share a page?
    pub sharing: Sharing,
    /// Pages of the paper's size, or a large one.
    pub pages: Pages,
}

impl PaperArgs {
    pub(super) fn meaning(self) -> PaperUse {
        PaperUse {
            paper: self.paper,
            margin: self.margin,
            overlap: self.overlap,
            turning: self.turn,
            sharing: if self.keep_apart { Sharing::Apart } else { Sharing::Shared },
            pages: if self.one_page { Pages::One } else { Pages::Tiles },
        }
    }
}

impl PaperUse {
    /// With what the sheet says, and the defaults.
    pub fn options(&self, print: &Print) -> Options {
        let by_sheet = PageSetup::of(print);
        let setup = PageSetup {
            paper: self.paper.unwrap_or(by_sheet.paper),
            margin_mm: self.margin.unwrap_or(by_sheet.margin_mm),
            overlap_mm: self.overlap.unwrap_or(by_sheet.overlap_mm),
        };
        Options { setup, turning: self.turning, sharing: self.sharing, pages: self.pages }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::Parser;

    #[derive(Parser)]
    struct Alone {
        #[command(flatten)]
        paper: PaperArgs,
    }

    fn typed(words: &[&str]) -> PaperUse {
        Alone::parse_from(std::iter::once(&"draft").chain(words)).paper.meaning()
    }

    #[test]
    fn flags_come_before_the_sheet_and_the_sheet_before_the_defaults() {
        let print = Print { paper: Some(Paper::Letter), margin: Some(Length::from_whole_mm(7)), overlap: None };
        assert_eq!(typed(&[]).options(&Print::default()), Options::default());
        let by_sheet = typed(&[]).options(&print).setup;
        assert_eq!(by_sheet, PageSetup { paper: Paper::Letter, margin_mm: 7.0, overlap_mm: 10.0 });
        let by_flags = typed(&["--paper", "a3", "--margin", "5", "--overlap", "0"]).options(&print).setup;
        assert_eq!(by_flags, PageSetup { paper: Paper::A3, margin_mm: 5.0, overlap_mm: 0.0 });
    }

    #[test]
    fn a_paper_is_a_name_or_the_width_of_a_roll() {
        for (name, it) in Paper::NAMED {
            assert_eq!(paper(name), Ok(it));
            assert_eq!(paper(&name.to_lowercase()), Ok(it));
        }
        for (words, mm) in [("914", 914.0), ("610.5", 610.5), ("200", 200.0), ("6000", 6000.0), ("1067mm", 1067.0)] {
            assert_eq!(paper(words), Ok(Paper::Roll(Length::from_mm(mm))));
        }
        for words in ["199.9", "6001", "-914", "1e9", "inf"] {
            assert!(paper(words).unwrap_err().contains("from 200 to 6000 mm"), "{words}");
        }
        for words in ["papyrus", "", "36 in", "NaN mm", "A5"] {
            let refused = paper(words);
            assert!(refused.as_ref().is_err_and(|e| e.contains("200 to 6000")), "{words}: {refused:?}");
        }
    }

    #[test]
    fn every_choice_can_be_typed() {
        for (word, turning) in Turning::NAMED {
            assert_eq!(typed(&["--turn", word]).turning, turning);
        }
        let both = typed(&["--keep-apart", "--one-page"]);
        assert_eq!((both.sharing, both.pages), (Sharing::Apart, Pages::One));
    }
}
