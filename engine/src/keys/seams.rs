//! `[seams]`: how the seams are sewn.

use super::key::Single;
use super::row::{Absent, Kind, words};
use crate::terms::SeamKind;

const BY_KIND: Absent = Absent::Default("by kind");

rows! { Single = Single::Seams;
    KIND "kind": Kind::Word(|| words(&SeamKind::ALL)), Absent::Default(""),
        "overlock (UK overlocker, US serger), a narrow zigzag, or lockstitch, which cracks on a knit.";
    SIDE "side": Kind::Length(0.0, 60.0), BY_KIND, "Seam allowance of the side seams.";
    GUSSET "gusset": Kind::Length(0.0, 60.0), BY_KIND, "Seam allowance of the gusset seams.";
}
