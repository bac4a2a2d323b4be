//! How much shorter than its line an elastic or a band is to start with, where a sheet does not say.
//!
//! Common practice throughout: legs 0 to 10 %, tops 5 to 10, more where an elastic runs freely, since
//! nothing else draws the cloth in. With the cloth's own ease these come to 10 to 20 % of stretch as worn.
//! A trial tells better.

use crate::base::Base;
use crate::terms::Opening;

/// A row of the table: percent at a leg, at a top edge that sits at the waist level, and at a lower one.
/// The waist holds up what sits in it; lower down the body slopes, and the elastic has to hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reductions {
    leg: f64,
    waist: f64,
    lower: f64,
}

impl Reductions {
    /// An edging that stands out: laid on flat round a leg, since its free edge would flute.
    pub const LAID_ON: Self = Self { leg: 0.0, waist: 5.0, lower: 8.0 };
    /// Sewn down flat on its edge all along.
    pub const SEWN_DOWN: Self = Self { leg: 5.0, waist: 5.0, lower: 8.0 };
    /// Threaded through: it alone draws the cloth in.
    pub const RUNS_FREELY: Self = Self { leg: 10.0, waist: 10.0, lower: 12.0 };
    /// A strip of the same knit: a tenth, so that it lies on the body.
    pub const STRIP: Self = Self { leg: 10.0, waist: 10.0, lower: 10.0 };

    /// Percent, and why so much.
    pub fn of(self, opening: Opening, base: Base) -> (f64, &'static str) {
        match opening {
            Opening::LeftLeg | Opening::RightLeg if self.leg == 0.0 => (self.leg, "usual at a leg: laid on flat"),
            Opening::LeftLeg | Opening::RightLeg => (self.leg, "usual at a leg for this finish"),
            Opening::Top if base.shares().from_waist_level => (self.waist, "usual at the waist for this finish"),
            Opening::Top => (self.lower, "usual below the waist for this finish, so that it stays up"),
        }
    }
}
