//! The layers of the file to cut by: warm colours for the blade, cold ones for the needle, dull
//! ones for the eye; the heavier a line, the more it matters. Where a colour stands for what a machine does,
//! it is that of the SVG: cuts red, slits orange, notches that are only marked blue.

use crate::cutter::Layer;

/// A layer's name, colour number and weight (hundredths of a millimetre).
pub(super) struct Look {
    pub(super) name: &'static str,
    pub(super) colour: u8,
    pub(super) weight: u16,
}

const fn look(name: &'static str, colour: u8, weight: u16) -> Look {
    Look { name, colour, weight }
}

/// How a layer looks.
pub(super) const fn of(layer: Layer) -> Look {
    match layer {
        Layer::Cut => look("CUT", 1, 50),
        Layer::Slit => look("SLIT", 30, 35),
        Layer::Notch => look("NOTCH", 5, 35),
        Layer::Sewing => look("SEWING", 4, 25),
        Layer::SecondRow => look("SECOND_ROW", 134, 18),
        Layer::Finished => look("FINISHED", 3, 18),
        Layer::Fold => look("FOLD", 94, 25),
        Layer::Grain => look("GRAIN", 8, 18),
        Layer::Stretch => look("STRETCH", 6, 18),
        Layer::Text => look("TEXT", 7, 13),
    }
}

/// Every layer, what is cut first.
pub(super) const ALL: [Layer; 10] = [
    Layer::Cut,
    Layer::Slit,
    Layer::Notch,
    Layer::Sewing,
    Layer::SecondRow,
    Layer::Finished,
    Layer::Fold,
    Layer::Grain,
    Layer::Stretch,
    Layer::Text,
];
