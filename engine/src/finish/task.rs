//! One thing done at an edge.

/// Stitch types of ISO 4915 in use here. 301, 304, 504 and 514 as the standard lists them; 321 for
/// the three-step zigzag is from memory, sources differ.
pub mod stitch {
    /// Lockstitch.
    pub const LOCKSTITCH: &str = "301";
    /// Zigzag lockstitch.
    pub const ZIGZAG: &str = "304";
    /// Three-step zigzag.
    pub const THREE_STEP: &str = "321";
    /// Four-thread overedge.
    pub const OVERLOCK: &str = "514";
}

/// One thing done at an edge, after the one before it.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// Short and stable, unique at its edge: `row 1`, `press`, `thread`.
    pub name: &'static str,
    /// What to do, one or two sentences.
    pub does: String,
    /// The line it follows, as a distance from the finished edge, mm.
    pub along: Option<f64>,
    /// ISO 4915, where something is sewn.
    pub stitch: Option<&'static str>,
    /// Where it helps.
    pub caution: Option<&'static str>,
}

impl Task {
    /// Something done by hand.
    pub fn by_hand(name: &'static str, does: impl Into<String>) -> Self {
        Self { name, does: does.into(), along: None, stitch: None, caution: None }
    }

    /// Pressing, after which the edge lies as it will be worn.
    pub fn press(does: impl Into<String>) -> Self {
        Self::by_hand("press", does).with_caution("test the iron on a scrap: elastane and plush scorch")
    }

    /// A row of stitches along a line.
    pub fn row(name: &'static str, stitch: &'static str, along: f64, does: impl Into<String>) -> Self {
        Self { name, does: does.into(), along: Some(along), stitch: Some(stitch), caution: None }
    }

    /// The same, sewn with this stitch across or to and fro, along no line of the pattern.
    pub fn sewn(mut self, stitch: &'static str) -> Self {
        self.stitch = Some(stitch);
        self
    }

    /// With a word of care.
    pub fn with_caution(mut self, caution: &'static str) -> Self {
        self.caution = Some(caution);
        self
    }
}
