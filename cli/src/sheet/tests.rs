//! Whole sheets: what is read, what is refused and how that is said.

use super::*;
use crate::template::commented_sheet;
use engine::quantity::Units;

#[test]
fn the_commented_sheet_reads_in_every_unit() {
    for (_, units) in Units::ALL {
        let source = commented_sheet(units);
        if let Err(problems) = read(&source, "new.toml") {
            panic!("{}", problems.render(&source, "new.toml", false));
        }
    }
}
