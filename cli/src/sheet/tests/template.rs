//! The commented sheet: valid as it stands, and with any of its lines taken in.

use super::*;
use crate::sheet::read_in;
use engine::keys::{SECTIONS, Shape, finish};

#[test]
fn it_reads_in_every_unit() {
    for (_, units) in Units::ALL {
        assert_eq!(good(&commented_sheet(units)).units, units);
    }
}

#[test]
fn every_key_that_means_something_is_in_it() {
    let text = commented_sheet(Units::Cm);
    for section in &SECTIONS {
        let head = match section.shape {
            Shape::One => format!("[{}]", section.path),
            Shape::Named => format!("[{}.\"", section.path),
            Shape::List => format!("[[{}]]", section.path),
        };
        let start = text.find(&head).unwrap_or_else(|| panic!("no {head}"));
        let end = text[start..].find("# ----").map_or(text.len(), |n| start + n);
        let block = &text[start..end];
        for key in section.rows().filter(|k| belongs(section.path, k.name)) {
            let there = block.lines().any(|l| l.trim_start_matches('#').starts_with(&format!("{} = ", key.name)));
            assert!(there, "no {} in {head}", key.name);
        }
    }
}

/// Finish keys stand at the top edge as far as any finish takes them; the sections for one leg
/// and alternatives only show how they begin.
fn belongs(path: &str, key: &str) -> bool {
    match path {
        "finish.left_leg" | "finish.right_leg" => key == "kind",
        "alternative" => ["name", "edge", "kind", "reduction"].contains(&key),
        "finish.legs" if key == "from" => false,
        "finish.top" | "finish.legs" => {
            finish::named(key).is_some_and(|field| FinishKind::all().any(|kind| kind.takes_key(field)))
        }
        _ => true,
    }
}

/// Each line with `#` before it can be taken in: alone, with the head of its section.
#[test]
fn every_line_that_is_off_can_be_taken_in() {
    for (_, units) in Units::ALL {
        let text = commented_sheet(units);
        let lines: Vec<&str> = text.lines().collect();
        let mut tried = 0;
        for (n, _) in lines.iter().enumerate().filter(|(_, l)| is_off(l)) {
            let source = with_line(&lines, n);
            // The drawer that it shows lies there.
            let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures");
            if let Err(problems) = read_in(&source, "new.toml", Some(&folder)) {
                let allowed = ["means nothing to the finish", "elastic_top", "is missing"];
                let text = problems.to_string();
                assert!(allowed.iter().any(|a| text.contains(a)), "{}", problems.render(&source, "new.toml", false));
            }
            tried += 1;
        }
        assert!(tried > 40, "{tried} lines");
    }
}

fn is_off(line: &str) -> bool {
    line.starts_with('#') && line[1..].starts_with(|c: char| c.is_ascii_lowercase() || c == '[')
}

/// The sheet with one line taken in, its own head with it; a way to say a length replaces the
/// one that is set.
fn with_line(lines: &[&str], n: usize) -> String {
    let head = (0..=n).rev().find(|i| lines[*i].trim_start_matches('#').starts_with('[')).unwrap_or(n);
    let is_basis = ["#length", "#from"].iter().any(|b| lines[n].starts_with(b));
    let in_section = |i: usize| i > head && !lines[head..=i].iter().skip(1).any(|l| l.starts_with("# ----"));
    let kept = lines.iter().enumerate().filter(|(i, l)| !(is_basis && in_section(*i) && l.starts_with("reduction")));
    kept.map(|(i, l)| if i == n || i == head { l.trim_start_matches('#') } else { l })
        .fold(String::new(), |all, line| all + line + "\n")
}

#[test]
fn no_line_is_wider_than_a_printed_page() {
    for (_, units) in Units::ALL {
        for line in commented_sheet(units).lines() {
            assert!(line.chars().count() <= 90, "{line}");
            assert_eq!(line.trim_end(), line);
        }
    }
}

/// What stands behind `#` as a default or an estimate is what holds without it: taken in, it changes
/// no value in use by more than it is rounded to, and it becomes a given one.
#[test]
fn what_is_shown_as_in_force_is_in_force() {
    use engine::garment::{Source, Used, Value};
    // Written to a tenth of a millimetre, or to 1/32 in.
    for (units, near) in [(Units::Cm, 0.051), (Units::Mm, 0.051), (Units::In, 25.4 / 64.0 + 1e-6)] {
        let text = commented_sheet(units);
        let lines: Vec<&str> = text.lines().collect();
        let used = |source: &str| engine::record(&good(source)).unwrap().used;
        let plain = used(&text);
        let mut tried = 0;
        let says = |n: usize| lines[n].contains("default") || lines[n].contains("else estimated");
        for n in (0..lines.len()).filter(|n| is_off(lines[*n]) && (says(*n) || (*n > 0 && says(n - 1)))) {
            let source = with_line(&lines, n);
            // A key of another kind of finish is refused on this one.
            if read(&source, "x").is_err() {
                continue;
            }
            let taken = used(&source);
            let new =
                |u: &&Used| u.source == Source::Given && plain.iter().any(|p| p.key == u.key && p.source != u.source);
            let given: Vec<&Used> = taken.iter().filter(new).collect();
            // Paper is no value of the garment.
            assert!(!given.is_empty() || lines[n].contains("margin") || lines[n].contains("overlap"), "{}", lines[n]);
            for value in given {
                let before = plain.iter().find(|p| p.key == value.key).map(|p| &p.value);
                match (before, &value.value) {
                    (Some(Value::Mm(a)), Value::Mm(b)) => assert!((a - b).abs() <= near, "{} {a} {b}", value.key),
                    (before, now) => assert_eq!(before, Some(now), "{}", value.key),
                }
                tried += 1;
            }
        }
        assert!(tried > 15, "{tried} values");
    }
}
