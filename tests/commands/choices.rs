//! Choices about the files: each changes the files that the table says, or is refused.

use crate::program::{Folder, SHEET, draft, edited};
use export::choice::Choice;
use export::table::{self, EXPORTERS, Exporter, Part, Written};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// A value of each choice that is not the one it has by itself.
fn other(choice: Choice) -> &'static [&'static str] {
    match choice {
        Choice::Paper => &["--paper", "letter"],
        Choice::Margin => &["--margin", "14"],
        Choice::Overlap => &["--overlap", "16"],
        Choice::Turn => &["--turn", "portrait"],
        Choice::KeepApart => &["--keep-apart"],
        Choice::OnePage => &["--one-page"],
        Choice::DxfVersion => &["--dxf-version", "r12"],
        Choice::Curves => &["--curves", "arcs"],
        Choice::Tolerance => &["--tolerance", "0.2"],
        Choice::Kerf => &["--kerf", "0.3"],
        Choice::Notches => &["--notches", "vees"],
        Choice::Halves => &["--halves"],
        Choice::Pairs => &["--pairs", "3"],
        Choice::CutWidth => &["--cut-width", "900"],
        Choice::CutLength => &["--cut-length", "300"],
        Choice::Bed => &["--bed", "1"],
        Choice::QuarterTurns => &["--quarter-turns"],
        Choice::CutAlone => &["--cut-alone"],
        Choice::StartOffCorner => &["--start-off-corner"],
        Choice::Lay => &["--lay"],
        Choice::Gap => &["--gap", "30"],
        Choice::LaySteps => &["--lay-steps", "1"],
        Choice::PenLines => &["--pen-lines"],
        Choice::Plotter => &["--plotter"],
        Choice::Only => &["--only", "pattern"],
        Choice::Measures => &["--measures"],
    }
}

/// Every file that a draft with these flags writes, by its ending.
fn files(flags: &[&str]) -> BTreeMap<&'static str, Vec<u8>> {
    let folder = Folder::with_sheet(edited("fabric", "width", Some("150")));
    let run = draft(&folder, flags);
    assert_eq!(run.code, 0, "{flags:?}: {}", run.err);
    let read = |ending: &str| fs::read(folder.path("out").join(format!("first-pair{ending}"))).ok();
    EXPORTERS.iter().filter_map(|e| Some((e.ending, read(e.ending)?))).collect()
}

#[test]
fn a_choice_changes_the_files_that_follow_it_and_no_others() {
    let usual = files(&[]);
    let with_plotter = files(&["--plotter"]);
    let laid = files(&["--plotter", "--lay"]);
    // Of one pair the cloth is as long as the longest piece, whatever the gap.
    let several = ["--plotter", "--lay", "--pairs", "3"];
    let of_several = files(&several);
    // The card tells the cloth as it is bought, by tenths of a metre: for these it is one more.
    let many = ["--plotter", "--lay", "--pairs", "4", "--cut-width", "600"];
    let of_many = files(&many);
    // Without a width of its own a lay is on the card in any case.
    let of_boxes_flags = ["--plotter", "--pairs", "4", "--cut-width", "600"];
    let of_boxes = files(&of_boxes_flags);
    let of_beds_flags = [&of_boxes_flags[..], &["--cut-length", "300"]].concat();
    let of_beds = files(&of_beds_flags);
    // Which files are written at all is told below.
    for (name, choice) in Choice::NAMED.into_iter().filter(|(_, choice)| *choice != Choice::Only) {
        let (before, flags) = match choice {
            Choice::Plotter => (&usual, other(choice).to_vec()),
            Choice::Gap => (&of_several, [&several[..], other(choice)].concat()),
            Choice::Kerf => (&of_many, [&many[..], &["--kerf", "3"]].concat()),
            Choice::Lay => (&of_boxes, many.to_vec()),
            Choice::CutLength | Choice::QuarterTurns => (&of_boxes, [&of_boxes_flags[..], other(choice)].concat()),
            Choice::Bed => (&of_beds, [&of_beds_flags[..], other(choice)].concat()),
            Choice::Paper | Choice::Pairs | Choice::CutWidth | Choice::LaySteps => {
                (&laid, [&["--plotter", "--lay"][..], other(choice)].concat())
            }
            _ => (&with_plotter, [&["--plotter"][..], other(choice)].concat()),
        };
        let after = files(&flags);
        for exporter in EXPORTERS {
            let follows = exporter.follows().any(|f| f.choice == choice);
            let changes = before.get(exporter.ending) != after.get(exporter.ending);
            assert_eq!(changes, follows, "--{name} and {}", exporter.ending);
        }
    }
}

#[test]
fn only_the_part_that_is_asked_for_is_written() {
    for (word, part) in [("pattern", Part::Pattern), ("card", Part::Card)] {
        let want = EXPORTERS.iter().filter(|e| e.part == part && e.written == Written::Always);
        let found = files(&["--only", word]);
        assert_eq!(found.keys().copied().collect::<BTreeSet<_>>(), want.map(|e| e.ending).collect(), "{word}");
    }
}

/// A file that lies about for a while still tells what made it as it is: every choice that it follows,
/// by its name, and no other.
#[test]
fn a_file_to_cut_by_records_the_choices_that_made_it() {
    let chosen = [
        (Choice::DxfVersion, "R12"),
        (Choice::Curves, "arcs"),
        (Choice::Tolerance, "0.2"),
        (Choice::Kerf, "0.3"),
        (Choice::Notches, "vees"),
        (Choice::Halves, "yes"),
        (Choice::Pairs, "3"),
        (Choice::CutWidth, "900"),
        (Choice::CutLength, "300"),
        (Choice::Bed, "1"),
        (Choice::QuarterTurns, "yes"),
        (Choice::StartOffCorner, "yes"),
        (Choice::PenLines, "yes"),
    ];
    let flags = chosen.iter().flat_map(|(choice, _)| other(*choice)).copied().chain(["--plotter"]);
    let files = files(&flags.collect::<Vec<_>>());
    // Record and card tell how many pairs were laid, and on what, in a way of their own.
    let is_marked = |e: &&Exporter| e.ending != ".json" && e.part == Part::Pattern && files.contains_key(e.ending);
    for exporter in EXPORTERS.iter().filter(is_marked) {
        let text = String::from_utf8_lossy(&files[exporter.ending]);
        for (choice, value) in chosen {
            let follows = exporter.follows().any(|f| f.choice == choice);
            assert_eq!(text.contains(&format!(" {}=", choice.name())), follows, "{choice:?} in {}", exporter.ending);
            let told = [" ", "\n"].iter().any(|end| {
                text.replace(['\r', '\u{3}', '<'], "\n").contains(&format!("{}={value}{end}", choice.name()))
            });
            assert_eq!(told, follows, "{choice:?} is {value} in {}", exporter.ending);
        }
    }
}

#[test]
fn a_choice_that_changes_no_file_is_refused_with_the_file_that_would_follow_it() {
    let folder = Folder::with_sheet(SHEET);
    for (flags, says) in [
        (
            &["--curves", "splines", "--tolerance", "0.1"][..],
            [
                "--tolerance changes no file: splines are exactly",
                "NAME-cut.dxf with --curves",
                "NAME.plt with --plotter",
            ],
        ),
        (
            &["--paper", "914", "--turn", "landscape"],
            ["--turn changes no file: a roll cannot be turned", "NAME.pdf with --paper", "leave it out"],
        ),
    ] {
        let run = draft(&folder, flags);
        assert_eq!(run.code, 2, "{flags:?}");
        assert!(says.iter().all(|words| run.err.contains(words)), "{flags:?}: {}", run.err);
    }
    assert_eq!(folder.names("."), ["sheet.toml"], "nothing was written");
    assert_eq!(draft(&folder, &["--curves", "splines", "--tolerance", "0.1", "--plotter"]).code, 0);
}

#[test]
fn the_table_of_files_in_the_readme_and_the_help_are_the_exporters() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let readme = fs::read_to_string(root.join("README.md")).unwrap();
    let rows: Vec<&str> = readme.lines().filter(|l| l.starts_with("| `NAME")).collect();
    assert_eq!(rows.len(), EXPORTERS.len(), "{rows:#?}");
    let help = Folder::empty().run(&["draft", "--help"]).out;
    for (exporter, row) in EXPORTERS.iter().zip(rows) {
        let (file, purpose) = (exporter.file("NAME"), exporter.purpose);
        assert!(row.starts_with(&format!("| `{file}` | {purpose}")), "{row}");
        assert!(help.contains(&format!("  {file}: {purpose}")), "{file} is not in\n{help}");
    }
    // The others are written with a choice of their own.
    assert_eq!(table::written(&[], &export::choice::Options::default()).len() + 3, EXPORTERS.len());
}

/// The first page makes room for it by a smaller map: these three have it, each in its unit.
#[test]
fn the_first_page_shows_the_pair_on_the_body() {
    let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures");
    for name in ["first-pair", "saturday-hipster", "uneven-legs"] {
        let sheet = fs::read_to_string(fixtures.join(format!("{name}.toml"))).unwrap();
        let folder = Folder::with_sheet(sheet);
        assert_eq!(draft(&folder, &["--only", "pattern"]).code, 0);
        let print = fs::read_dir(folder.path("out")).unwrap().map(|entry| entry.unwrap().path());
        let print = print.into_iter().find(|path| path.extension().is_some_and(|end| end == "pdf")).unwrap();
        let shown = b"The garment on the body, from the front, the side";
        assert!(fs::read(print).unwrap().windows(shown.len()).any(|part| part == shown), "{name}");
    }
}
