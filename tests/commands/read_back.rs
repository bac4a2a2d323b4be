//! Files for cutters read back: walked, inspected, edited, scaled.

use crate::program::{Folder, SHEET, draft};
use serde_json::Value;
use std::fs;

pub const CUT: &str = "out/first-pair-cut.dxf";
pub const CUT_SVG: &str = "out/first-pair-cut.svg";
pub const PIECES: &str = "out/first-pair-pieces.dxf";

pub fn mm(v: &Value) -> f64 {
    v.as_f64().unwrap_or_else(|| panic!("{v} is no number"))
}

/// Drafts with flags and walks a file of what was written.
fn walked(flags: &[&str], file: &str) -> (Value, Value) {
    walked_of(SHEET, flags, file)
}

fn walked_of(sheet: &str, flags: &[&str], file: &str) -> (Value, Value) {
    let folder = Folder::with_sheet(sheet);
    let drafted = draft(&folder, &[flags, &["--json"]].concat());
    assert_eq!(drafted.code, 0, "{}", drafted.err);
    let walk = folder.run(&["walk", file, "--json"]);
    assert_eq!(walk.code, 0, "{}", walk.err);
    (drafted.json(), walk.json())
}

/// Seams and openings of a file against the record's own.
fn compare(record: &Value, walk: &Value, per_edge: f64, per_ring: f64) {
    let seams = record["seams"].as_array().unwrap();
    assert_eq!(walk["seams"].as_array().unwrap().len(), seams.len());
    for seam in seams {
        let read = walk["seams"].as_array().unwrap().iter().find(|s| s["name"] == seam["name"]).unwrap();
        assert_eq!(read["line"], "sewing");
        for (own, back) in [("sewn_a", "length_a"), ("sewn_b", "length_b")] {
            let off = mm(&seam[own]) - mm(&read[back]);
            assert!(off.abs() <= per_edge, "{}: {off}", seam["name"]);
        }
    }
    for opening in record["openings"].as_array().unwrap() {
        for line in ["sewing", "cut"] {
            let all = walk["openings"].as_array().unwrap();
            let read = all.iter().find(|o| o["name"] == opening["name"] && o["line"] == line).unwrap();
            let off = mm(&opening[line]) - mm(&read["length"]);
            assert!(off.abs() <= per_ring, "{} {line}: {off}", opening["name"]);
        }
    }
}

#[test]
fn what_was_written_is_walked_again() {
    let forms = [
        ("r2000", "polylines", 0.05, 0.1),
        ("r2000", "arcs", 0.05, 0.1),
        ("r2000", "splines", 0.001, 0.001),
        ("r12", "polylines", 0.05, 0.1),
        ("r12", "arcs", 0.05, 0.1),
    ];
    for (version, curves, per_edge, per_ring) in forms {
        for extent in [&[][..], &["--halves"]] {
            let flags = [&["--dxf-version", version, "--curves", curves][..], extent].concat();
            let (record, walk) = walked(&flags, CUT);
            compare(&record, &walk, per_edge, per_ring);
        }
    }
    let (record, walk) = walked(&[], PIECES);
    compare(&record, &walk, 0.05, 0.1);
    let (record, walk) = walked(&[], "out/first-pair.svg");
    compare(&record, &walk, 0.001, 0.001);
}

/// There are no sewing lines in it: the cut lines are walked.
#[test]
fn the_outlines_for_home_cutters_are_walked_by_their_names() {
    let vees = ["--notches", "vees", "--start-off-corner"];
    let many = ["--pairs", "2", "--cut-width", "900", "--notches", "slits"];
    for flags in [&[][..], &["--halves"], &vees, &many] {
        let (record, walk) = walked(flags, CUT_SVG);
        assert_eq!(walk["seams"].as_array().unwrap().len(), record["seams"].as_array().unwrap().len(), "{flags:?}");
        let lines = walk["lines"].as_array().unwrap();
        assert!(lines.iter().all(|l| l["line"] == "cut" && l["closed"] == true), "{flags:?}");
        let edges = lines.iter().flat_map(|l| l["edges"].as_array().unwrap());
        assert!(edges.into_iter().all(|e| e["found"] == "by name"), "{flags:?}");
        // A V takes a piece out of its edge.
        for opening in record["openings"].as_array().unwrap().iter().filter(|_| !flags.contains(&"vees")) {
            let read = walk["openings"].as_array().unwrap().iter().find(|o| o["name"] == opening["name"]).unwrap();
            let off = mm(&opening["cut"]) - mm(&read["length"]);
            assert!(off.abs() <= 0.001, "{flags:?}, {}: {off}", opening["name"]);
        }
    }
}

/// Bands are pieces of their own: a file tells by their names which opening each goes on.
/// It ends square to the seam, by sides longer than half of it.
#[test]
fn an_allowance_may_be_wider_than_its_seam_is_long() {
    let (_, walk) = walked_of(&SHEET.replace("[seams]", "[seams]\ngusset = 4"), &[], CUT);
    assert!(walk["checks"].as_array().unwrap().is_empty(), "{}", walk["checks"]);
}

#[test]
fn bands_are_walked_against_their_openings() {
    let strip = "kind = \"band\"\nreduction = 12\n";
    let top = SHEET.replace("kind = \"turned\"\nelastic = \"soft 12\"\nreduction = 8\nput_on = \"flat\"\n", strip);
    let legs = "kind = \"trim\"\nelastic = \"soft 8\"\nreduction = 5\n";
    let alike = top.replace(legs, strip);
    let apart = alike.replace("[elastic.\"soft 12\"]", "[finish.left_leg]\nreduction = 7\n\n[elastic.\"soft 12\"]");
    let splines = ["--curves", "splines"];
    let forms = [
        (&alike, &[][..], CUT, 0.1, 3),
        (&apart, &["--dxf-version", "r12", "--halves"], CUT, 0.1, 3),
        (&apart, &splines, CUT, 0.002, 3),
        (&alike, &[], PIECES, 0.1, 3),
        (&top, &[], PIECES, 0.1, 1),
    ];
    for (sheet, flags, file, allowed, count) in forms {
        let (record, walk) = walked_of(sheet, flags, file);
        let bands = walk["bands"].as_array().unwrap();
        assert_eq!(bands.len(), count, "{walk:#}");
        let is_fold = |l: &&Value| l["line"] == "finished" && l["edges"][0]["edge"] == "fold";
        let folds = walk["lines"].as_array().unwrap().iter().filter(is_fold).count();
        // One for each piece; in the file to cut by it is a plain line, which is not walked.
        let drawn = if file == CUT { 0 } else { count.min(2) };
        assert_eq!(folds, drawn, "nothing is sewn on a fold");
        for band in bands {
            let opening = record["openings"].as_array().unwrap().iter().find(|o| o["name"] == band["opening"]).unwrap();
            for long_edge in ["upper", "lower"] {
                let off = mm(&opening["band"]["length"]) - mm(&band[long_edge]);
                assert!(off.abs() <= 0.001, "{} {long_edge}: {off}", band["band"]);
            }
            let off = mm(&opening["sewing"]) - mm(&band["ring"]);
            assert!(off.abs() <= allowed, "{}: {off}", band["opening"]);
            let reduction = 100.0 * (1.0 - mm(&opening["band"]["length"]) / mm(&opening["sewing"]));
            assert!((reduction - mm(&band["reduction"])).abs() < 0.02, "{reduction}: {band}");
        }
    }
    let folder = Folder::with_sheet(&alike);
    assert_eq!(draft(&folder, &[]).code, 0);
    let run = folder.run(&["walk", CUT]);
    assert!(run.out.contains("Bands against their openings") && run.out.contains("12 %"), "{}", run.out);
}

#[test]
fn names_of_edges_survive() {
    let moved = ["--start-off-corner", "--notches", "vees"];
    let old = [&moved[..], &["--dxf-version", "r12"]].concat();
    for (flags, file) in [(&moved[..], CUT), (&old, CUT), (&[], PIECES)] {
        let (_, walk) = walked(flags, file);
        let edges = walk["lines"].as_array().unwrap().iter().flat_map(|l| l["edges"].as_array().unwrap());
        let found: Vec<&str> = edges.map(|e| e["found"].as_str().unwrap()).collect();
        assert!(found.len() > 20 && found.iter().all(|f| *f == "by name"), "{flags:?}: {found:?}");
    }
}

/// Cut edges of a seam need not be equally long: no difference of theirs is told as if they had to be.
#[test]
fn a_file_of_cut_lines_says_so() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    let run = folder.run(&["walk", CUT_SVG, "--strict"]);
    assert!(run.code == 0 && run.out.contains("[walk-cut-lines-only]") && !run.out.contains("a - b"), "{}", run.out);
    let json = folder.run(&["walk", CUT_SVG, "--json"]).json();
    assert!(json["seams"].as_array().unwrap().iter().all(|s| s["difference"].is_null()), "{json:#}");
    let run = folder.run(&["walk", PIECES]);
    assert!(run.out.contains("a - b") && !run.out.contains("[walk-"), "{}", run.out);
    // At a raw edge cut and sewing line are one.
    let raw = SHEET.replace("kind = \"trim\"\nelastic = \"soft 8\"\nreduction = 5\n", "kind = \"raw\"\n");
    let folder = Folder::with_sheet(raw);
    assert_eq!(draft(&folder, &[]).code, 0);
    for file in [PIECES, CUT] {
        let run = folder.run(&["walk", file]);
        assert!(run.code == 0 && !run.out.contains("[walk-allowance-narrow]"), "{}", run.out);
    }
}

/// Another program took millimetres for points, or for inches.
#[test]
fn a_drawing_of_another_size_is_told() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    let svg = fs::read_to_string(folder.path(CUT_SVG)).unwrap();
    let width = svg.split("width=\"").nth(1).unwrap().split("mm\"").next().unwrap();
    let smaller = format!("width=\"{}mm\"", 0.75 * width.parse::<f64>().unwrap());
    fs::write(folder.path(CUT_SVG), svg.replacen(&format!("width=\"{width}mm\""), &smaller, 1)).unwrap();
    let run = folder.run(&["walk", CUT_SVG]);
    assert!(run.out.contains("[walk-scaled]") && run.out.contains("75.0 % of the size"), "{}", run.out);
    let dxf = fs::read_to_string(folder.path(CUT)).unwrap();
    let inches = dxf.replacen("$INSUNITS\r\n 70\r\n     4", "$INSUNITS\r\n 70\r\n     1", 1);
    assert_ne!(dxf, inches);
    fs::write(folder.path(CUT), inches).unwrap();
    let run = folder.run(&["walk", CUT]);
    assert!(run.out.contains("[walk-size]") && run.out.contains("nobody's size"), "{}", run.out);
    assert_eq!(folder.run(&["walk", CUT, "--strict"]).code, 1, "warnings stop there");
}

/// As a program leaves a DXF that scales every entity of it, extended data by their kinds; and one that inserts
/// the pieces of a file to exchange at another size.
#[test]
fn a_dxf_whose_lines_were_scaled_is_told() {
    for flags in [&["--dxf-version", "r12", "--tolerance", "1"][..], &["--curves", "arcs"], &["--curves", "splines"]] {
        let folder = Folder::with_sheet(SHEET);
        assert_eq!(draft(&folder, flags).code, 0);
        let dxf = fs::read_to_string(folder.path(CUT)).unwrap();
        assert!(!folder.run(&["walk", CUT]).out.contains("[walk-scaled]"), "{flags:?}");
        for (by, told) in [(1.016, "101.6 %"), (0.98, "98.0 %")] {
            fs::write(folder.path("scaled.dxf"), scaled(&dxf, by)).unwrap();
            let run = folder.run(&["walk", "scaled.dxf"]);
            assert!(run.out.contains("[walk-scaled]") && run.out.contains(told), "{flags:?}, {by}: {}", run.out);
        }
    }
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    let pieces = fs::read_to_string(folder.path(PIECES)).unwrap();
    assert!(!folder.run(&["walk", PIECES]).out.contains("[walk-scaled]"));
    let larger = pieces.replace("\r\nINSERT\r\n", "\r\nINSERT\r\n 41\r\n1.1\r\n 42\r\n1.1\r\n");
    assert_ne!(larger, pieces);
    fs::write(folder.path(PIECES), larger).unwrap();
    let run = folder.run(&["walk", PIECES]);
    assert!(run.out.contains("[walk-scaled]") && run.out.contains("110.0 %"), "{}", run.out);
}

/// Every place in the entities of a DXF times a number.
fn scaled(dxf: &str, by: f64) -> String {
    let (head, entities) = dxf.split_at(dxf.find("\nENTITIES").unwrap());
    let lines: Vec<&str> = entities.split("\r\n").collect();
    let pairs = lines[1..].chunks(2).map(|pair| {
        let value = pair.get(1).copied().unwrap_or_default();
        let is_place = ["10", "20", "11", "21", "1011", "1021"].contains(&pair[0].trim());
        let value = if is_place { (by * value.trim().parse::<f64>().unwrap()).to_string() } else { value.to_owned() };
        format!("{}\r\n{value}", pair[0])
    });
    [head.to_owned() + lines[0]].into_iter().chain(pairs).collect::<Vec<_>>().join("\r\n")
}

#[test]
fn what_is_walked_is_known_by_how_it_begins() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &["--plotter"]).code, 0);
    for file in ["out/first-pair.plt", "out/first-pair.json", "out/first-pair.pdf"] {
        let run = folder.run(&["walk", file]);
        assert_eq!(run.code, 2, "{}", run.out);
        assert!(run.err.contains("and no sheet") && run.err.lines().count() < 5, "{}", run.err);
    }
    for file in [PIECES, CUT_SVG, "sheet.toml"] {
        let piped = folder.run_piped(&["walk", "-"], &fs::read(folder.path(file)).unwrap());
        assert_eq!((piped.code, &piped.out), (0, &folder.run(&["walk", file]).out), "{file}: {}", piped.err);
    }
    // A wrong ending does no harm.
    fs::copy(folder.path(CUT), folder.path("cut.svg")).unwrap();
    assert_eq!(folder.run(&["walk", "cut.svg"]).out, folder.run(&["walk", CUT]).out);
}

#[test]
fn a_file_to_exchange_is_inspected() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    let good = folder.run(&["inspect", PIECES, "--strict"]);
    assert_eq!((good.code, good.out.contains("nothing to say")), (0, true), "{}", good.out);
    assert!(good.out.contains("nothing is certified"), "{}", good.out);

    let text = fs::read_to_string(folder.path(PIECES)).unwrap();
    folder.write("worse.dxf", text.replacen("Quantity: 1", "Quantity: one", 1));
    let worse = folder.run(&["inspect", "worse.dxf"]);
    assert_eq!((worse.code, worse.out.contains("[dxf-quantity]")), (0, true), "{}", worse.out);
    assert_eq!(folder.run(&["inspect", "worse.dxf", "--strict"]).code, 1);
    let json = folder.run(&["inspect", "worse.dxf", "--json"]).json();
    assert_eq!(json["checks"][0]["code"], "dxf-quantity");

    let cut = folder.run(&["inspect", CUT]);
    assert_eq!((cut.code, cut.out.contains("[dxf-no-pieces]")), (1, true), "{}", cut.out);
    assert_eq!(folder.run(&["inspect", "sheet.toml"]).code, 2);
    assert_eq!(folder.run(&["walk", "missing.dxf"]).code, 2);
}

#[test]
fn a_file_that_is_no_drawing_is_said() {
    let folder = Folder::with_sheet(SHEET);
    folder.write("a.dxf", b"AutoCAD Binary DXF\r\n\x1a\0");
    folder.write("b.svg", "<svg><g></svg>");
    folder.write("c.dxf", "  0\nEOF\n");
    folder.write("d.svg", vec![b' '; 20_000_001]);
    for (file, words) in
        [("a.dxf", "binary"), ("b.svg", "expected 'g' tag"), ("c.dxf", "no outlines"), ("d.svg", "20 million")]
    {
        let run = folder.run(&["walk", file]);
        assert_eq!(run.code, 2, "{file}");
        assert!(run.err.contains(words) && run.err.contains("next:"), "{}", run.err);
    }
}

/// The file with the first sewing line made so much longer, as an editor would: the points move,
/// the names stay where they were.
fn stretched(dxf: &str, by: f64) -> String {
    let lines: Vec<&str> = dxf.lines().collect();
    let mut out: Vec<String> = Vec::new();
    let (mut seen, mut is_in) = (0, false);
    for tag in lines.chunks(2) {
        let [code, value] = tag else { break };
        if code.trim() == "0" {
            is_in = false;
        } else if code.trim() == "8" && *value == "SEWING" {
            seen += 1;
            is_in = seen == 1;
        }
        let moved = if is_in && code.trim() == "20" { Some(by * value.trim().parse::<f64>().unwrap()) } else { None };
        out.extend([(*code).to_owned(), moved.map_or_else(|| (*value).to_owned(), |v| format!("{v:.6}"))]);
    }
    assert!(seen > 1, "no sewing lines");
    out.join("\r\n") + "\r\n"
}

#[test]
fn an_edit_that_spoils_a_seam_is_told() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    let whole = fs::read_to_string(folder.path(CUT)).unwrap();
    let sound = folder.run(&["walk", CUT, "--strict", "--json"]);
    assert_eq!((sound.code, sound.json()["checks"].as_array().unwrap().len()), (0, 0), "{}", sound.out);
    folder.write("longer.dxf", stretched(&whole, 1.03));
    let told = folder.run(&["walk", "longer.dxf"]);
    assert_eq!(told.code, 0, "{}", told.err);
    assert!(told.out.contains("left side seam: ") && told.out.contains("[walk-seam-differs]"), "{}", told.out);
    assert_eq!(folder.run(&["walk", "longer.dxf", "--strict"]).code, 1);
    // Every seam is told of: measured, or not.
    folder.write("far.dxf", stretched(&whole, 1.2));
    let far = folder.run(&["walk", "far.dxf", "--json"]).json();
    let lost = far["checks"].as_array().unwrap().iter().filter(|f| f["code"] == "walk-not-measured");
    let lost: Vec<&str> = lost.map(|f| f["place"].as_str().unwrap()).collect();
    assert!(lost.contains(&"left side seam") && lost.contains(&"top edge"), "{lost:?}");
    let seams = lost.iter().filter(|place| place.contains("seam")).count();
    assert_eq!(far["seams"].as_array().unwrap().len() + seams, 6, "{far:#}");
}

#[test]
fn a_file_that_was_cut_off_is_refused() {
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    for (command, file) in [("walk", CUT), ("walk", PIECES), ("inspect", PIECES)] {
        let whole = fs::read_to_string(folder.path(file)).unwrap();
        let tags: Vec<&str> = whole.split_inclusive('\n').collect();
        for share in [0.3, 0.95] {
            let kept = (share * tags.len() as f64 / 2.0) as usize * 2;
            folder.write("part.dxf", tags[..kept].concat());
            let run = folder.run(&[command, "part.dxf"]);
            assert!(run.code == 2 && run.err.contains("its end is missing"), "{command} {file}: {}", run.err);
        }
    }
}
