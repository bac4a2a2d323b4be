use super::*;
use crate::sample;

#[test]
fn dump() {
    let dir = std::env::temp_dir();
    std::fs::write(dir.join("raw-cut.dxf"), cut(&sample::drawing()).unwrap()).unwrap();
    std::fs::write(dir.join("raw-pieces.dxf"), pieces(&sample::drawing()).unwrap()).unwrap();
}
