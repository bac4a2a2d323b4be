//! The steps of the order of work, as they are told.

/// One step of the order of work.
#[derive(Clone, Debug)]
#[allow(missing_docs)]
pub struct Step {
    /// A stable name, unique in the garment, such as `left leg row 1`.
    pub step: String,
    pub title: String,
    pub does: String,
    pub edge: Option<String>,
    pub length: Option<f64>,
    /// ISO 4915.
    pub stitch: Option<String>,
    /// The steps that come first, each with its reason; direct needs only.
    pub needs: Vec<Need>,
    pub caution: Option<String>,
}

/// Why a step waits for another one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Need {
    /// The name of the step that comes before.
    pub before: String,
    /// In words.
    pub because: &'static str,
}
