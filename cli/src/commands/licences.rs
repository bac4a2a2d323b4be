//! `licences`: under which terms the program and what it brings along may be used.

use crate::answer::Answer;
use crate::terminal::heading;

pub(super) fn run() -> Answer {
    let own = format!(
        "quarterpin: {}, as you like. The libraries that it is built of are free software as well; which\n\
         licences they may have is in deny.toml beside its source.\n",
        env!("CARGO_PKG_LICENSE")
    );
    let view = include_str!("../../page/vendor/preact.LICENSE.txt");
    let face = heading("DejaVu Sans, the face in every print") + export::font::LICENCE;
    Answer::done(own + &face + &heading("Preact, which draws the page") + view)
}
