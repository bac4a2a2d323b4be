//! `[gusset]`: its finished sizes.

use super::key::Single;
use super::row::{Absent, Kind, words};
use crate::terms::Lining;

const BY_BASE: Absent = Absent::Default("by base and hip");

rows! { Single = Single::Gusset;
    LENGTH "length": Kind::Size(30.0, 600.0), Absent::Default("by the crotch length"),
        "Finished length, from the front gusset seam to the back gusset seam.";
    WIDTH "width": Kind::Size(15.0, 300.0), BY_BASE, "The narrowest width, finished edge to finished edge.";
    FRONT_WIDTH "front_width": Kind::Size(15.0, 400.0), BY_BASE, "Width at the front gusset seam.";
    BACK_WIDTH "back_width": Kind::Size(15.0, 600.0), BY_BASE, "Width at the back gusset seam.";
    FORWARD "forward": Kind::Share(0.05, 0.95), Absent::Default(""),
        "Share of the gusset's length in front of the lowest point.";
    LAYERS "layers": Kind::Count(1, 2), Absent::Default(""), "1, or 2 with a lining.";
    LINING "lining": Kind::Word(|| words(&Lining::ALL)), Absent::Default(""),
        "enclosed hides both gusset seams between the layers; tacked leaves one end of the lining loose and tacks it.";
}
