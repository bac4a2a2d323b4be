//! The bases: where each one's edges sit, as shares of a vertical scale of the body.

use std::fmt;

/// A base shape; every knob may be set over it.
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Base(&'static Shares);

/// One row of the table of bases.
///
/// Starting values from drawing 1,986 real bodies, not from a book. Drops and the side seam are
/// shares of the vertical scale; gusset widths are millimetres at a hip of 1,000 mm.
#[derive(Debug, PartialEq)]
pub struct Shares {
    /// Its name in the sheet.
    pub name: &'static str,
    /// The other name of the trade, if there is one.
    pub also: Option<&'static str>,
    /// The top edge under the waist level, at the centre front.
    pub front_drop: f64,
    /// The top edge under the waist level, at the sides.
    pub side_drop: f64,
    /// The top edge under the waist level, at the centre back.
    pub back_drop: f64,
    /// The finished side seam.
    pub side_seam: f64,
    /// The gusset at its front seam.
    pub front_width: f64,
    /// The gusset where it is narrowest.
    pub narrow_width: f64,
    /// The gusset at its back seam.
    pub back_width: f64,
    /// More back width per mm of hip over 1,000.
    pub back_width_per_hip: f64,
    /// Front leg edge: 0 straight, 1 deeply cut away.
    pub scoop: f64,
    /// Back: 0 bare, 1 full.
    pub cover: f64,
    /// Share of the hip girth that the back takes.
    pub back_share: f64,
    /// Does the top edge start at the waist level itself, wherever that sits?
    pub from_waist_level: bool,
}

impl Eq for Shares {}

impl std::hash::Hash for Shares {
    fn hash<H: std::hash::Hasher>(&self, state: &mut H) {
        self.name.hash(state);
    }
}

/// More front and narrowest width per mm of hip over 1,000.
pub const WIDTH_PER_HIP: f64 = 0.02;

const BRIEF: Shares = Shares {
    name: "brief",
    also: None,
    front_drop: 0.14,
    side_drop: 0.09,
    back_drop: 0.03,
    side_seam: 0.44,
    front_width: 76.0,
    narrow_width: 64.0,
    back_width: 118.0,
    back_width_per_hip: 0.07,
    scoop: 0.42,
    cover: 0.62,
    back_share: 0.52,
    from_waist_level: false,
};

static BASES: &[Shares] = &[
    Shares {
        name: "full brief",
        front_drop: 0.04,
        side_drop: 0.0,
        back_drop: -0.04,
        side_seam: 0.62,
        front_width: 78.0,
        narrow_width: 66.0,
        back_width: 124.0,
        scoop: 0.38,
        cover: 0.70,
        from_waist_level: true,
        ..BRIEF
    },
    BRIEF,
    Shares {
        name: "hipster",
        front_drop: 0.33,
        side_drop: 0.27,
        back_drop: 0.21,
        side_seam: 0.36,
        back_width: 114.0,
        scoop: 0.38,
        cover: 0.60,
        ..BRIEF
    },
    Shares {
        name: "high leg",
        also: Some("high cut"),
        side_drop: 0.03,
        back_drop: 0.0,
        side_seam: 0.24,
        front_width: 74.0,
        narrow_width: 62.0,
        back_width: 108.0,
        scoop: 0.50,
        cover: 0.53,
        ..BRIEF
    },
    Shares {
        name: "small brief",
        also: Some("bikini"),
        front_drop: 0.38,
        side_drop: 0.29,
        back_drop: 0.24,
        side_seam: 0.20,
        front_width: 72.0,
        narrow_width: 61.0,
        back_width: 100.0,
        scoop: 0.42,
        cover: 0.48,
        back_share: 0.51,
        ..BRIEF
    },
    Shares {
        name: "tanga",
        front_drop: 0.40,
        side_drop: 0.29,
        back_drop: 0.25,
        side_seam: 0.13,
        front_width: 68.0,
        narrow_width: 57.0,
        back_width: 74.0,
        back_width_per_hip: 0.03,
        scoop: 0.45,
        cover: 0.24,
        back_share: 0.50,
        ..BRIEF
    },
];

impl Base {
    /// Every base, in the order of the table.
    pub fn all() -> impl Iterator<Item = Self> {
        BASES.iter().map(Self)
    }

    /// The base of this name; a sheet's words, exactly.
    pub fn named(name: &str) -> Option<Self> {
        Self::all().find(|b| b.0.name == name)
    }

    /// The word in a sheet.
    pub const fn name(self) -> &'static str {
        self.0.name
    }

    /// Its row of the table.
    pub const fn shares(self) -> &'static Shares {
        self.0
    }
}

impl fmt::Debug for Base {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0.name)
    }
}
