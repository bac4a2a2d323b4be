//! `[style]`: the base and the knobs set over it.

use super::key::Single;
use super::row::{Absent, Kind};
use crate::base::Base;

/// A depth under the waist level: less than nothing is above it.
const DROP: Kind = Kind::Length(-300.0, 800.0);

const BY_BASE: Absent = Absent::Default("by base and body");

/// A share of the base alone.
const OF_BASE: Absent = Absent::Default("by base");

rows! { Single = Single::Style;
    BASE "base": Kind::Word(|| Base::all().map(Base::name).collect()), Absent::Needed, "The shape to start from.";
    TOP_DROP_FRONT "top_drop_front": DROP, BY_BASE,
        "Depth of the top edge under the waist level, at the centre front.";
    TOP_DROP_SIDE "top_drop_side": DROP, BY_BASE, "Depth of the top edge under the waist level, at the sides.";
    TOP_DROP_BACK "top_drop_back": DROP, BY_BASE,
        "Depth of the top edge under the waist level, at the centre back.";
    SIDE_SEAM "side_seam": Kind::Size(5.0, 800.0), BY_BASE, "Finished length of the side seam.";
    FRONT_SCOOP "front_scoop": Kind::Share(0.0, 1.0), OF_BASE, "Front leg edge: 0 straight, 1 deeply cut away.";
    BACK_COVER "back_cover": Kind::Share(0.0, 1.0), OF_BASE, "Back: 0 bare, 1 full.";
    BACK_SHARE "back_share": Kind::Share(0.3, 0.7), OF_BASE, "Share of the hip girth that the back takes.";
    LEG_EDGE "leg_edge": Kind::Size(150.0, 3000.0), Absent::Derived("as the shape gives it"),
        "A wanted length of each finished leg edge: the shape is solved for it.";
}
