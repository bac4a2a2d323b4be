//! How each kind of line is drawn in the picture: one table, legible in black and white as well as in
//! colour.

use svg::node::element::Path;

/// A kind of line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pen {
    Cut,
    Sewing,
    SecondRow,
    Finished,
    Fold,
    Notch,
    Grain,
    Stretch,
}

/// Its look.
struct Stroke {
    colour: &'static str,
    /// mm.
    width: &'static str,
    /// Dash and gap in turn, mm; empty for a solid line.
    dashes: &'static str,
    cap: &'static str,
}

impl Pen {
    /// In the order of the legend.
    pub(super) const ALL: [Self; 8] =
        [Self::Cut, Self::Sewing, Self::SecondRow, Self::Finished, Self::Fold, Self::Notch, Self::Grain, Self::Stretch];

    /// In ids.
    pub(super) const fn id(self) -> &'static str {
        match self {
            Self::Cut => "cut",
            Self::Sewing => "sewing",
            Self::SecondRow => "second-row",
            Self::Finished => "finished",
            Self::Fold => "fold",
            Self::Notch => "notches",
            Self::Grain => "grain",
            Self::Stretch => "stretch",
        }
    }

    /// In the legend.
    pub(super) const fn words(self) -> &'static str {
        match self {
            Self::Cut => "cut line",
            Self::Sewing => "sewing line, first row",
            Self::SecondRow => "second row",
            Self::Finished => "finished edge, where nothing else runs",
            Self::Fold => "lay on the fold of the cloth",
            Self::Notch => "notch",
            Self::Grain => "grain line",
            Self::Stretch => "greatest stretch, round the body",
        }
    }

    const fn stroke(self) -> Stroke {
        let (colour, width, dashes, cap) = match self {
            Self::Cut => ("#000000", "0.5", "", "butt"),
            Self::Sewing => ("#1c4587", "0.3", "4 2", "butt"),
            Self::SecondRow => ("#1c4587", "0.4", "0 1.6", "round"),
            Self::Finished => ("#274e13", "0.25", "8 1.5 1 1.5", "butt"),
            Self::Fold => ("#660000", "0.35", "", "butt"),
            Self::Notch => ("#000000", "0.5", "", "butt"),
            Self::Grain => ("#333333", "0.35", "", "butt"),
            Self::Stretch => ("#333333", "0.35", "2 1", "butt"),
        };
        Stroke { colour, width, dashes, cap }
    }

    /// Its colour, for what belongs to the line.
    pub(super) const fn colour(self) -> &'static str {
        self.stroke().colour
    }

    /// A line of this kind. Attributes, not a style sheet: simple readers do not know those.
    pub(super) fn path(self, d: String) -> Path {
        let Stroke { colour, width, dashes, cap } = self.stroke();
        let path = Path::new().set("d", d).set("fill", "none").set("stroke", colour).set("stroke-width", width);
        let path = if dashes.is_empty() { path } else { path.set("stroke-dasharray", dashes) };
        if cap == "butt" { path } else { path.set("stroke-linecap", cap) }
    }
}
