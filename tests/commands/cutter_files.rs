//! Files for cutters and plotters from outside: flags, beds, refusals.

use crate::program::{Folder, Run, SHEET, draft};
use crate::read_back::{CUT, CUT_SVG, mm};
use serde_json::Value;
use std::fs;

#[test]
fn cautions_come_with_every_cutter_file() {
    let folder = Folder::with_sheet(SHEET);
    for flags in [&[][..], &["--dxf-version", "r12"], &["--curves", "splines", "--plotter"]] {
        let run = draft(&folder, flags);
        assert!(run.out.contains("never PVC") && run.out.contains("never unattended"), "{}", run.out);
        let text = fs::read_to_string(folder.path(CUT)).unwrap();
        let head: String = text.lines().take(10).collect();
        assert!(head.contains("999") && head.contains("never PVC"), "{head}");
        assert!(text.matches("never PVC").count() >= 2, "as a comment and as text");
    }
}

fn parts(run: &Run) -> usize {
    let at = run.out.find(" outlines of ").unwrap();
    run.out[at + " outlines of ".len()..].split(' ').next().unwrap().parse().unwrap()
}

/// Who wants one file of many says so by its name.
#[test]
fn a_folder_that_is_called_like_a_file_is_asked_about() {
    let folder = Folder::with_sheet(SHEET);
    for name in ["out.dxf", "new/pair.PDF"] {
        let run = folder.run(&["draft", "sheet.toml", "-o", name]);
        assert!(run.code == 2 && run.err.contains("all the files go into a folder"), "{}", run.err);
    }
    assert_eq!(folder.names("."), ["sheet.toml"]);
    fs::create_dir(folder.path("kept.svg")).unwrap();
    assert_eq!(folder.run(&["draft", "sheet.toml", "-o", "kept.svg"]).code, 0, "it is a folder");
    assert_eq!(folder.run(&["draft", "sheet.toml", "-o", "size.38"]).code, 0);
}

/// A laser has a bed: what it takes is told, and each bed can be taken by itself.
#[test]
fn a_bed_of_given_length_makes_several() {
    let folder = Folder::with_sheet(SHEET);
    let bed = ["--cut-width", "600", "--cut-length", "300", "--pairs", "3"];
    let run = draft(&folder, &bed);
    assert!(run.code == 0 && run.out.contains(" beds of 600 x 300 mm, bed 1: "), "{}", run.out);
    let svg = fs::read_to_string(folder.path(CUT_SVG)).unwrap();
    assert!(svg.contains("<title>bed 1 of "));
    assert!(svg.contains("<title>bed 2 of "), "{svg}");
    let alone = draft(&folder, &[&bed[..], &["--cut-alone"]].concat());
    assert!(alone.out.contains("without notches: marks are left out"), "{}", alone.out);
    // Without what lies beside it a piece may take less room.
    let count = fs::read_to_string(folder.path(CUT_SVG)).unwrap().matches("<title>bed ").count();
    let dxf = fs::read_to_string(folder.path(CUT)).unwrap();
    let parts: Vec<&str> = dxf.lines().map(str::trim).collect();
    let has = |pair: [&str; 2]| parts.windows(2).any(|two| two == pair);
    assert!(has(["8", "CUT"]) && !has(["0", "TEXT"]) && !has(["8", "SEWING"]) && dxf.contains("Laser: never PVC"));
    // Each by itself begins at the corner, and together they have every outline once.
    let outlines = |flags: &[&str]| {
        assert_eq!(draft(&folder, &[&bed[..], flags, &["--cut-alone", "--plotter"]].concat()).code, 0);
        let text = |path: &str| fs::read_to_string(folder.path(path)).unwrap();
        let plot = text("out/first-pair.plt");
        let lines = plot.lines().filter(|line| line.starts_with("PU") && line.contains("PD"));
        let places = lines.clone().flat_map(|line| line.split([';', ',']).skip(1).step_by(2));
        let highest = places.filter_map(|y| y.trim_matches(|c: char| c.is_alphabetic()).parse::<i64>().ok()).max();
        (lines.count(), text(CUT_SVG).matches("data-line=\"cut\"").count(), highest.unwrap())
    };
    let all = outlines(&[]);
    let each: Vec<_> = (1..=count).map(|n| outlines(&["--bed", &n.to_string()])).collect();
    let sum = |of: fn(&(usize, usize, i64)) -> usize| each.iter().map(of).sum::<usize>();
    assert_eq!((sum(|it| it.0), sum(|it| it.1)), (all.0, all.1), "{each:?}");
    assert!(all.2 > 300 * 40 && each.iter().all(|it| it.2 <= 300 * 40), "{each:?}");
    let beyond = draft(&folder, &[&bed[..], &["--bed", "90", "--cut-alone"]].concat());
    assert!(beyond.code == 2 && beyond.err.contains(&format!("no bed 90: the pieces take {count}")), "{}", beyond.err);
    // What is on another bed is told once.
    assert_eq!(draft(&folder, &[&bed[..], &["--bed", "1"]].concat()).code, 0);
    let walk = folder.run(&["walk", CUT, "--json"]).json();
    let codes: Vec<&str> = walk["checks"].as_array().unwrap().iter().map(|c| c["code"].as_str().unwrap()).collect();
    assert_eq!(codes, ["walk-piece-missing"], "{walk:#}");
    assert_eq!(draft(&folder, &bed).code, 0);
    // Whatever reads them finds the outlines as before.
    let walk = folder.run(&["walk", CUT]);
    assert_eq!(walk.code, 0, "{}", walk.err);
}

#[test]
fn arcs_are_far_fewer_than_chords() {
    let folder = Folder::with_sheet(SHEET);
    let [chords, arcs] = ["polylines", "arcs"].map(|curves| parts(&draft(&folder, &["--curves", curves])));
    assert!(2 * arcs < chords, "{arcs} arcs and lines, {chords} chords and lines");
}

#[test]
fn choices_that_cannot_be_are_refused() {
    let folder = Folder::with_sheet(SHEET);
    for (flags, words) in [
        (&["--dxf-version", "R12", "--curves", "splines"][..], "arcs, or the version R2000"),
        (&["--cut-width", "200"], "larger --cut-width"),
        (&["--kerf=-1"], "from 0 to 3 mm"),
        (&["--tolerance", "0"], "0.005 to 1 mm"),
        (&["--curves", "steps"], "polylines"),
        (&["--pairs", "0"], "a whole number, from 1 to 200"),
        (&["--pairs", "1.5"], "a whole number, from 1 to 200"),
        (&["--bed", "1"], "there is one bed"),
        (&["--cut-width", "900", "--cut-length", "100"], "give a larger --cut-length"),
        (&["--cut-width", "900", "--cut-length", "10"], "in mm, from 50 to 20000"),
        (&["--cut-length", "300"], "pieces lie in one row"),
        (&["--cut-width", "900", "--lay", "--cut-length", "200"], "lay fewer pairs at a time"),
        (&["--quarter-turns", "--cut-width", "900", "--lay"], "cloth has a grain"),
        (&["--cut-alone", "--pen-lines"], "cannot be used with"),
    ] {
        let run = draft(&folder, flags);
        assert_eq!(run.code, 2, "{flags:?}");
        assert!(run.err.contains(words), "{flags:?}: {}", run.err);
    }
    assert_eq!(folder.names("."), ["sheet.toml"], "nothing was written");
}

/// Halves are offered where they would go on it, and only then.
#[test]
fn a_piece_that_is_too_wide_is_told_with_what_would_help() {
    let folder = Folder::with_sheet(SHEET);
    let strip = "kind = \"band\"\nreduction = 12\n";
    let band = SHEET.replace("kind = \"turned\"\nelastic = \"soft 12\"\nreduction = 8\nput_on = \"flat\"\n", strip);
    folder.write("band.toml", band);
    for flags in [&["sheet.toml", "--cut-width", "200", "--halves"][..], &["band.toml", "--cut-width", "500"]] {
        let run = folder.run(&[&["draft", "-o", "out"], flags].concat());
        assert_eq!(run.code, 2, "{flags:?}");
        let is_told = run.err.contains("larger --cut-width") && !run.err.contains("halves");
        assert!(is_told, "{flags:?}: {}", run.err);
    }
    // What is told would do, each of it.
    for (bed, told, remedies) in [
        (["--cut-width", "300", "--cut-length", "300"], ", or --halves\n", &[&["--halves"][..]][..]),
        (["--cut-width", "290", "--cut-length", "500"], "--quarter-turns (card has no grain)", &[&["--quarter-turns"]]),
        (
            ["--cut-width", "285", "--cut-length", "240"],
            "--halves with --quarter-turns",
            &[&["--halves", "--quarter-turns"]],
        ),
    ] {
        let run = folder.run(&[&["draft", "sheet.toml", "-o", "out"], &bed[..]].concat());
        assert!(run.code == 2 && run.err.contains(told), "{bed:?}: {}", run.err);
        for remedy in remedies {
            let run = folder.run(&[&["draft", "sheet.toml", "-o", "out"], &bed[..], *remedy].concat());
            assert_eq!(run.code, 0, "{bed:?}: {}", run.err);
        }
    }
}

#[test]
fn a_decimal_comma_is_a_point() {
    let folder = Folder::with_sheet(SHEET);
    let bytes = |kerf: &str| {
        assert_eq!(draft(&folder, &["--kerf", kerf]).code, 0, "{kerf}");
        fs::read(folder.path(CUT)).unwrap()
    };
    assert_eq!(bytes("0,15"), bytes("0.15"));
    for odd in ["0,1,5", "1,000.5", "a lot"] {
        let run = draft(&folder, &["--kerf", odd]);
        assert!(run.code == 2 && run.err.contains("such as 0.15"), "{odd}: {}", run.err);
    }
}

/// The outline of a half runs along its fold: a slit there would be cut twice, and seen by nobody.
#[test]
fn a_half_has_no_slit_along_its_fold() {
    let slits = |flags: &[&str]| {
        let folder = Folder::with_sheet(SHEET);
        let run = draft(&folder, &[&["--notches", "slits", "--kerf", "0.2"], flags].concat());
        assert!(run.code == 0 && run.out.contains("kerf 0.2 mm: outlines are grown by 0.1 mm"), "{}", run.out);
        let svg = fs::read_to_string(folder.path(CUT_SVG)).unwrap();
        let group = svg.split("id=\"slits\"").nth(1).unwrap().split("</g>").next().unwrap().to_owned();
        group.split(" d=\"").skip(1).map(|d| d.split('"').next().unwrap().matches('M').count()).sum::<usize>()
    };
    let folder = Folder::with_sheet(SHEET);
    assert_eq!(draft(&folder, &[]).code, 0);
    let record: Value = serde_json::from_slice(&fs::read(folder.path("out/first-pair.json")).unwrap()).unwrap();
    let count = |is_counted: &dyn Fn(&Value, &Value) -> bool| {
        let of = |piece: &Value| {
            piece["notches"].as_array().unwrap().iter().filter(|notch| is_counted(piece, notch)).count()
        };
        record["pieces"].as_array().unwrap().iter().map(of).sum::<usize>()
    };
    // The fold of a half is the y axis of its piece.
    let at_fold = count(&|piece, notch| piece["on_fold"] == true && mm(&notch["at"][0]).abs() < 1e-6);
    let (whole, halves) = (slits(&[]), slits(&["--halves"]));
    assert!(at_fold > 0 && whole > halves, "{at_fold} at a fold, {whole} slits, {halves} of halves");
    assert_eq!(halves, count(&|_, _| true) - at_fold);
}

#[test]
fn a_plotter_file_is_written_on_request_and_replaced() {
    let folder = Folder::with_sheet(SHEET);
    let again = [0, 1].map(|_| {
        assert_eq!(draft(&folder, &["--plotter"]).code, 0);
        fs::read(folder.path("out/first-pair.plt")).unwrap()
    });
    assert_eq!(again[0], again[1]);
    fs::write(folder.path("out/first-pair.plt"), "IN;somebody's own").unwrap();
    let run = draft(&folder, &["--plotter"]);
    assert!(run.code == 2 && run.err.contains("first-pair.plt"), "{}", run.err);
}

/// Some count in 16 bits, and draw what lies further on at the edge.
#[test]
fn a_plot_beyond_the_numbers_of_older_plotters_is_told() {
    let folder = Folder::with_sheet(SHEET);
    let told = |flags: &[&str]| {
        let ran = draft(&folder, flags);
        assert_eq!(ran.code, 0, "{}", ran.err);
        ran.out.split_whitespace().collect::<Vec<_>>().join(" ").contains("beyond 81.9 cm, where older plotters stop")
    };
    assert!(told(&["--plotter"]) && !told(&[]));
    let beds = ["--plotter", "--cut-width", "600", "--cut-length", "500"];
    assert!(told(&beds) && !told(&[&beds[..], &["--bed", "1"]].concat()));
}

#[test]
fn every_form_has_the_same_bytes_in_any_time_zone() {
    let folder = Folder::with_sheet(SHEET);
    let forms = [
        &["--curves", "arcs", "--kerf", "0.15"][..],
        &["--curves", "splines", "--notches", "vees"],
        &["--dxf-version", "r12", "--pairs", "3", "--cut-width", "900", "--plotter"],
    ];
    for flags in forms {
        let mut seen: Vec<Vec<Vec<u8>>> = Vec::new();
        for zone in ["UTC", "Pacific/Kiritimati", "America/Adak"] {
            let args = [&["draft", "sheet.toml", "-o", "out"][..], flags].concat();
            assert_eq!(folder.run_with(&args, &[("TZ", zone)]).code, 0);
            let names = folder.names("out").into_iter().filter(|n| n.contains("-cut.") || n.ends_with(".plt"));
            seen.push(names.map(|n| fs::read(folder.path("out").join(n)).unwrap()).collect());
        }
        assert!(seen.windows(2).all(|w| w[0] == w[1]), "{flags:?}");
    }
}

#[test]
fn wrong_use_is_answered_in_words() {
    let folder = Folder::with_sheet(SHEET);
    for (flags, says) in [
        (&["--pairs", "0"][..], "give a whole number, from 1 to 200"),
        (&["--kerf", "-1"], "a kerf of -1 mm makes no sense"),
        (&["--tolerance", "-1"], "-1"),
        (&["--margin", "-3"], "give a length of 0 or more"),
    ] {
        let run = draft(&folder, flags);
        assert!(run.code != 0 && run.err.contains(says), "{flags:?}: {}", run.err);
        assert!(!run.err.contains("unexpected argument"), "{}", run.err);
    }
    folder.write("taken", "mine");
    let run = folder.run(&["draft", "sheet.toml", "-o", "taken"]);
    assert!(run.code == 2 && run.err.contains("taken is a file"), "{}", run.err);
    assert_eq!(draft(&folder, &[]).code, 0);
    let run = folder.run(&["inspect", "out/first-pair.svg"]);
    assert!(run.code == 2 && run.err.contains("inspect a DXF"), "{}", run.err);
}
