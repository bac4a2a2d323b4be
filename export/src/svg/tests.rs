use super::*;
use crate::sample;

#[test]
fn dump() {
    let dir = std::env::temp_dir();
    std::fs::write(dir.join("raw.svg"), svg(&sample::drawing()).unwrap()).unwrap();
    std::fs::write(dir.join("raw-awkward.svg"), svg(&sample::awkward()).unwrap()).unwrap();
}
