//! Bytes made from others by chance.

use fastrand::Rng;

/// What often breaks a reader.
const SCRAPS: [&str; 44] = [
    "[",
    "]",
    "[[",
    "]]",
    "=",
    "\"",
    "'",
    "\"\"\"",
    "#",
    ".",
    ",",
    ";",
    "\t",
    "{",
    "}",
    "\n",
    "\r",
    "\r\n",
    "-",
    "nan",
    "inf",
    "1e999",
    "-1e-999",
    "é",
    "\u{301}",
    "\u{0}",
    "\u{1b}",
    "\u{feff}",
    "\u{2028}",
    "\u{202e}",
    "[body]",
    "99999999999999999999",
    "1979-05-27T07:32:00Z",
    "  0\nEOF\n",
    "  0\nSECTION\n",
    "  0\nVERTEX\n",
    " 10\n1e308\n",
    " 70\n1\n",
    "<",
    "/>",
    "<!--",
    "&#x0;",
    "M0 0",
    "z",
];

/// A few changes to one of the seeds.
pub fn mutated(rng: &mut Rng, seeds: &[Vec<u8>]) -> Vec<u8> {
    let mut bytes = seeds[rng.usize(..seeds.len())].clone();
    // Most of a large file is alike: a part of it is tried as often as the whole.
    if bytes.len() > 20_000 && rng.bool() {
        let at = rng.usize(..bytes.len());
        let end = (at + rng.usize(..200_000)).min(bytes.len());
        bytes.drain(at..end);
    }
    for _ in 0..=rng.usize(..6) {
        change(rng, &mut bytes, seeds);
    }
    bytes
}

fn change(rng: &mut Rng, bytes: &mut Vec<u8>, seeds: &[Vec<u8>]) {
    let at = rng.usize(..=bytes.len());
    let end = (at + rng.usize(..80)).min(bytes.len());
    match rng.u8(..8) {
        0 => drop(bytes.drain(at..end)),
        1 => insert(bytes, at, SCRAPS[rng.usize(..SCRAPS.len())].as_bytes()),
        2 => {
            let copy = bytes[at..end].to_vec();
            let to = rng.usize(..=bytes.len());
            insert(bytes, to, &copy.repeat(1 + rng.usize(..4)));
        }
        3 => bytes.truncate(if rng.u8(..8) == 0 { at } else { bytes.len() }),
        4 => bytes[at..end].iter_mut().take(1).for_each(|b| *b = rng.u8(..)),
        5 => number(rng, bytes, at),
        6 => bytes[at..end].reverse(),
        _ => {
            let other = &seeds[rng.usize(..seeds.len())];
            let from = rng.usize(..=other.len());
            insert(bytes, at, &other[from..(from + rng.usize(..400)).min(other.len())]);
        }
    }
}

fn insert(bytes: &mut Vec<u8>, at: usize, more: &[u8]) {
    bytes.splice(at..at, more.iter().copied());
}

/// Writes another number in the place of the next one.
fn number(rng: &mut Rng, bytes: &mut Vec<u8>, at: usize) {
    let Some(start) = bytes[at..].iter().position(u8::is_ascii_digit).map(|i| at + i) else { return };
    let is_part = |b: &u8| b.is_ascii_digit() || *b == b'.';
    let end = start + bytes[start..].iter().take_while(|b| is_part(b)).count();
    let new = match rng.u8(..6) {
        0 => "0".to_owned(),
        1 => "-1".to_owned(),
        2 => format!("{}", rng.f64() * 1e9),
        3 => "1e-300".to_owned(),
        4 => format!("{:.3}", rng.f64() * 300.0),
        _ => rng.i64(..).to_string(),
    };
    bytes.splice(start..end, new.into_bytes());
}
