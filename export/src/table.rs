//! Every kind of file that a pattern is written as: one row each.

use crate::card;
use crate::choice::Choice::{
    Bed, Curves, CutAlone, CutLength, CutWidth, DxfVersion, Gap, Halves, KeepApart, Kerf, Lay, LaySteps, Margin,
    Measures, Notches, OnePage, Overlap, Pairs, Paper, PenLines, Plotter, QuarterTurns, StartOffCorner, Tolerance,
    Turn,
};
use crate::choice::{
    BOXES, Choice, ENDLESS, EXACT, Follows, KEPT, Only, Options, ROLL, ROW, TOLD_ANYWAY, always, unless,
};
use crate::cutter::CutterError;
use crate::dxf::{self, CutReport, DxfError};
use crate::hpgl;
use crate::mark::Mark;
use crate::outline::Flaw;
use crate::pdf::{self, PdfError};
use crate::record::{self, RecordError};
use crate::svg;
use engine::drawing::Drawing;
use engine::garment::Garment;

/// What files are written from.
#[derive(Clone, Copy, Debug)]
pub struct Pattern<'a> {
    /// The pieces, to be drawn.
    pub drawing: &'a Drawing,
    /// Everything measured and found.
    pub garment: &'a Garment,
}

/// One kind of file.
#[derive(Debug)]
pub struct Exporter {
    /// What follows the pattern's name in that of the file.
    pub ending: &'static str,
    /// What it is for.
    pub purpose: &'static str,
    /// How a file of ours is known again.
    pub mark: Mark,
    /// Which part of the whole it belongs to.
    pub part: Part,
    /// Is it always written?
    pub written: Written,
    /// The choices that change it, some of them with all of their kind.
    follows: &'static [&'static [Follows]],
    /// What to look at where it cannot be made.
    pub advice: &'static str,
    write: fn(&Pattern<'_>, &Options) -> Result<Made, ExportError>,
}

/// What a file is a part of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// The pattern, to print, cut, look at and keep.
    Pattern,
    /// The work card.
    Card,
}

/// When a file is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Written {
    /// With every pattern.
    Always,
    /// Only with this choice.
    With(Choice),
}

/// A file in memory.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Made {
    /// All of it.
    pub bytes: Vec<u8>,
    /// What there is to say about a file to cut by.
    pub report: Option<CutReport>,
}

/// A file that cannot be made.
#[derive(Debug, thiserror::Error)]
#[error(transparent)]
pub enum ExportError {
    /// The print.
    Pdf(#[from] PdfError),
    /// A DXF.
    Dxf(#[from] DxfError),
    /// Another file for cutters and plotters.
    Cutter(#[from] CutterError),
    /// The drawing itself.
    Flaw(#[from] Flaw),
    /// The record.
    Record(#[from] RecordError),
}

const PRINT: &str = "look at [print] in the sheet, and at the flags for the print in `quarterpin draft --help`";
const CUTTER: &str = "look at the flags for cutters in `quarterpin draft --help`, and at the sheet";

/// What all files to cut by follow.
const CUT: &[Follows] = &[
    always(Kerf),
    always(Notches),
    always(Halves),
    always(Pairs),
    always(CutWidth),
    unless(CutLength, &ROW),
    unless(Bed, &ENDLESS),
    unless(QuarterTurns, &KEPT),
    always(CutAlone),
    always(StartOffCorner),
    always(Lay),
    always(Gap),
    unless(LaySteps, &BOXES),
];
/// What drawings of the lay follow.
const LAID: &[Follows] = &[always(Lay), always(Pairs), always(Gap), always(LaySteps), always(CutWidth), always(Kerf)];
/// The same of files that tell of it beside other things.
const TOLD: &[Follows] = &[
    unless(Lay, &TOLD_ANYWAY),
    always(Pairs),
    always(Gap),
    always(LaySteps),
    unless(CutWidth, &BOXES),
    unless(Kerf, &BOXES),
];
/// What both forms of the card follow.
const CARD: &[Follows] = &[always(Choice::Only), always(Measures)];

/// Every kind, in the order that they are listed. A new one is a row here, and a file that writes it.
pub static EXPORTERS: &[Exporter] = &[
    Exporter {
        ending: ".pdf",
        purpose: "to print at true size",
        mark: Mark::PdfComment,
        part: Part::Pattern,
        written: Written::Always,
        follows: &[&[
            always(Paper),
            always(Margin),
            always(Overlap),
            unless(Turn, &ROLL),
            always(KeepApart),
            always(OnePage),
            always(Choice::Only),
        ]],
        advice: PRINT,
        write: |pattern, options| Ok(pdf::print(pattern.drawing, &options.print)?.into()),
    },
    Exporter {
        ending: "-card.pdf",
        purpose: "to lie beside the machine: what is cut, marked and sewn",
        mark: Mark::PdfComment,
        part: Part::Card,
        written: Written::Always,
        follows: &[&[always(Paper)], CARD, TOLD],
        advice: "look at the sheet",
        write: |pattern, options| Ok(card::pdf(pattern.drawing, options.print.setup.paper, options.measures)?.into()),
    },
    Exporter {
        ending: "-card.md",
        purpose: "the same as text",
        mark: Mark::MarkdownComment,
        part: Part::Card,
        written: Written::Always,
        follows: &[CARD, TOLD],
        advice: "look at the sheet",
        write: |pattern, options| Ok(card::markdown(pattern.drawing, options.measures).into_bytes().into()),
    },
    Exporter {
        ending: "-cut.dxf",
        purpose: "for a plotter or laser",
        mark: Mark::DxfComment,
        part: Part::Pattern,
        written: Written::Always,
        follows: &[&[always(DxfVersion), always(Curves), unless(Tolerance, &EXACT)], CUT],
        advice: CUTTER,
        write: |pattern, options| {
            let file = dxf::cut(pattern.drawing, &options.cut)?;
            Ok(Made { bytes: file.bytes, report: Some(file.report) })
        },
    },
    Exporter {
        ending: "-cut.svg",
        purpose: "for home cutting machines",
        mark: Mark::SvgComment,
        part: Part::Pattern,
        written: Written::Always,
        follows: &[CUT, &[always(PenLines)]],
        advice: CUTTER,
        write: |pattern, options| Ok(svg::cut(pattern.drawing, &options.cut.cutting, options.pen)?.into_bytes().into()),
    },
    Exporter {
        ending: "-pieces.dxf",
        purpose: "to exchange with other programs",
        mark: Mark::DxfComment,
        part: Part::Pattern,
        written: Written::Always,
        follows: &[&[always(Notches)]],
        advice: CUTTER,
        write: |pattern, options| Ok(dxf::pieces(pattern.drawing, options.cut.cutting.notches)?.into()),
    },
    Exporter {
        ending: ".svg",
        purpose: "a picture to look at",
        mark: Mark::SvgComment,
        part: Part::Pattern,
        written: Written::Always,
        follows: &[],
        advice: CUTTER,
        write: |pattern, _| Ok(svg::svg(pattern.drawing)?.into_bytes().into()),
    },
    Exporter {
        ending: "-on-body.svg",
        purpose: "the garment on the body",
        mark: Mark::SvgComment,
        part: Part::Pattern,
        written: Written::Always,
        follows: &[],
        advice: "look at the sheet",
        write: |pattern, _| Ok(svg::on_body(pattern.drawing).into_bytes().into()),
    },
    Exporter {
        ending: "-lay.svg",
        purpose: "how the pieces lie on the cloth",
        mark: Mark::SvgComment,
        part: Part::Pattern,
        written: Written::With(Lay),
        follows: &[LAID],
        advice: "look at the sheet",
        write: |pattern, _| {
            let Garment { lays, units, .. } = pattern.garment;
            Ok(svg::lay(pattern.drawing, lays, *units).into_bytes().into())
        },
    },
    Exporter {
        ending: "-lay.pdf",
        purpose: "the same to lie on the cutting table",
        mark: Mark::PdfComment,
        part: Part::Pattern,
        written: Written::With(Lay),
        follows: &[&[always(Paper)], LAID],
        advice: "look at the sheet",
        write: |pattern, options| {
            let Garment { lays, units, .. } = pattern.garment;
            Ok(pdf::lay(pattern.drawing, lays, *units, options.print.setup.paper)?.into())
        },
    },
    Exporter {
        ending: ".json",
        purpose: "the whole record",
        mark: Mark::JsonProgram,
        part: Part::Pattern,
        written: Written::Always,
        follows: &[TOLD],
        advice: "look at the sheet",
        write: |pattern, _| Ok(record::file(pattern.garment)?.into_bytes().into()),
    },
    Exporter {
        ending: ".plt",
        purpose: "for a pen plotter, in HP-GL",
        mark: Mark::HpglLabel,
        part: Part::Pattern,
        written: Written::With(Plotter),
        follows: &[&[always(Tolerance)], CUT, &[always(Plotter)]],
        advice: CUTTER,
        write: |pattern, options| Ok(hpgl::hpgl(pattern.drawing, &options.cut.cutting)?.into()),
    },
];

impl From<Vec<u8>> for Made {
    fn from(bytes: Vec<u8>) -> Self {
        Self { bytes, report: None }
    }
}

impl Exporter {
    /// The name of the file of a pattern; `NAME` in messages.
    pub fn file(&self, pattern: &str) -> String {
        format!("{pattern}{}", self.ending)
    }

    /// The file in memory.
    ///
    /// # Errors
    /// [`ExportError`], in the words of the exporter.
    pub fn write(&self, pattern: &Pattern<'_>, options: &Options) -> Result<Made, ExportError> {
        (self.write)(pattern, options)
    }

    /// The choices that change it.
    pub fn follows(&self) -> impl Iterator<Item = &'static Follows> + use<> {
        self.follows.iter().copied().flatten()
    }

    /// Is there something in it that is known only when the pieces are laid on the cloth?
    pub fn waits_for_lay(&self, given: &[Choice]) -> bool {
        self.follows().any(|f| f.choice == LaySteps && (f.unless.is_none() || given.contains(&Lay)))
    }

    fn is_written(&self, given: &[Choice], only: Only) -> bool {
        self.is_among(only)
            && match self.written {
                Written::Always => true,
                Written::With(choice) => given.contains(&choice),
            }
    }

    /// Is it one of those that are wanted?
    fn is_among(&self, only: Only) -> bool {
        match only {
            Only::All => true,
            Only::Pattern => self.part == Part::Pattern,
            Only::Card => self.part == Part::Card,
        }
    }
}

/// The exporters whose files are written where these choices are given.
pub fn written(given: &[Choice], options: &Options) -> Vec<&'static Exporter> {
    EXPORTERS.iter().filter(|e| e.is_written(given, options.only)).collect()
}

/// A choice was given that no file follows.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("--{} changes no file{because}", choice.name())]
pub struct Unfollowed {
    /// Which.
    pub choice: Choice,
    /// Why, from a colon on; empty where there is no more to say.
    because: String,
    /// The files that would follow it, each with what else to choose.
    pub by: Vec<String>,
}

impl Unfollowed {
    /// What to do.
    pub fn next(&self) -> String {
        match self.by.as_slice() {
            [] => "leave it out".to_owned(),
            by => format!("leave it out; it is followed by {}", by.join(", and by ")),
        }
    }
}

/// Refuses a choice that was given and changes no file.
///
/// # Errors
/// The first [`Unfollowed`].
pub fn check(given: &[Choice], options: &Options) -> Result<(), Unfollowed> {
    let is_followed = |choice: &Choice| {
        let all = written(given, options).into_iter().flat_map(Exporter::follows).filter(|f| f.choice == *choice);
        all.into_iter().any(|f| !f.unless.is_some_and(|case| (case.holds)(given, options)))
    };
    match given.iter().find(|choice| !is_followed(choice)) {
        Some(choice) => Err(unfollowed(*choice, given, options.only)),
        None => Ok(()),
    }
}

fn unfollowed(choice: Choice, given: &[Choice], only: Only) -> Unfollowed {
    let mut because = String::new();
    let mut by = Vec::new();
    let rows = EXPORTERS.iter().flat_map(|e| e.follows().map(move |f| (e, f)));
    for (exporter, follows) in rows.filter(|(_, f)| f.choice == choice) {
        let asked = match exporter.written {
            Written::With(other) if !given.contains(&other) => Some(format!("--{}", other.name())),
            _ => None,
        };
        if let Some(case) = follows.unless {
            because = format!(": {}", case.because);
        }
        let with: Vec<String> = asked.into_iter().chain(follows.unless.map(|c| c.instead.to_owned())).collect();
        let with = (!with.is_empty()).then(|| format!("with {}", with.join(" and ")));
        let left_out = (!exporter.is_among(only)).then(|| "without --only".to_owned());
        let needs: Vec<String> = left_out.into_iter().chain(with).collect();
        by.push(format!("{} {}", exporter.file("NAME"), needs.join(", ")));
    }
    Unfollowed { choice, because, by }
}
