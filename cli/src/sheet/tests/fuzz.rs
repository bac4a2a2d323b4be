//! Broken sheets by the thousand: whatever is in the file, reading it says yes or no.

use super::*;

/// xorshift64 (Marsaglia, 2003), so that every run sees the same sheets.
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, n: usize) -> usize {
        (self.next() % n.max(1) as u64) as usize
    }
}

const SCRAPS: [&str; 24] = [
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
    "{",
    "}",
    "\n",
    "-",
    "nan",
    "1e999",
    "é",
    "\u{0}",
    "\u{1b}",
    "[body]",
    "trial = 1\n",
    "99999999999999999999999999",
    "1979-05-27T07:32:00Z",
];

fn mutate(source: &str, random: &mut Random) -> String {
    let mut letters: Vec<char> = source.chars().collect();
    for _ in 0..=random.below(4) {
        let at = random.below(letters.len());
        match random.below(4) {
            0 => {
                let end = (at + random.below(30)).min(letters.len());
                letters.drain(at..end);
            }
            1 => {
                let scrap = SCRAPS[random.below(SCRAPS.len())];
                letters.splice(at..at, scrap.chars());
            }
            2 => {
                let end = (at + random.below(60)).min(letters.len());
                let copy = letters[at..end].to_vec();
                let to = random.below(letters.len());
                letters.splice(to..to, copy);
            }
            _ => letters.truncate(if random.below(8) == 0 { at } else { letters.len() }),
        }
    }
    letters.into_iter().collect()
}

#[test]
fn mutated_sheets_never_panic_and_every_refusal_can_be_shown() {
    let mut random = Random(0x9e37_79b9_7f4a_7c15);
    let (mut read_well, mut refused) = (0, 0);
    for round in 0..4000 {
        let source = mutate(GOOD, &mut random);
        match read(&source, "fuzz.toml") {
            Ok(_) => read_well += 1,
            Err(problems) => {
                refused += 1;
                assert!(!problems.list().is_empty());
                let shown = problems.render(&source, "fuzz.toml", round % 2 == 0);
                assert!(shown.contains("fuzz.toml"), "{shown}");
                assert!(problems.list().iter().all(|p| source.get(p.span.clone()).is_some() && !p.help.is_empty()));
            }
        }
        locate(&source, "body.hip_girth");
    }
    // Both sides of the door are used.
    assert!(read_well > 100 && refused > 1000, "{read_well} read, {refused} refused");
}

#[test]
fn bytes_that_were_never_a_sheet_never_panic() {
    let mut random = Random(42);
    for _ in 0..2000 {
        let length = random.below(200);
        let source: String = (0..length).map(|_| char::from_u32(random.below(0x250) as u32).unwrap_or('?')).collect();
        if let Err(problems) = read(&source, "x") {
            problems.render(&source, "x", true);
        }
    }
}

#[test]
fn nesting_without_end_is_refused() {
    for (open, close) in [("[", "]"), ("{a=", "}")] {
        let source = format!("x = {}1{}", open.repeat(20_000), close.repeat(20_000));
        assert!(read(&source, "x").is_err());
    }
    let dotted = format!("{}a = 1", "a.".repeat(20_000));
    assert!(read(&dotted, "x").is_err());
}
