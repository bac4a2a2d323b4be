//! What a class buys, and how its pieces lie on the cloth.

use super::{THREE, class_of, record, run};
use crate::program::{Run, edited};
use serde_json::Value;
use std::fs;

#[test]
fn everybody_is_laid_on_one_cloth() {
    let folder = class_of(THREE);
    folder.write("sheet.toml", edited("fabric", "width", Some("150")));
    run(&folder, &[]);
    let beside = record(&folder);
    let ran = run(&folder, &["--lay", "--lay-steps", "5000", "--plotter"]);
    assert_eq!(ran.code, 1, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("laid by outlines"), "{}", ran.out);
    for ending in [".svg", ".pdf", "-cut.dxf", "-cut.svg", ".plt"] {
        let file = format!("out/lay-cotton-jersey-1500{ending}");
        assert!(folder.path(&file).is_file(), "{file} not in {:?}", folder.names("out"));
    }
    let record = record(&folder);
    let [lay] = record["lays"].as_array().unwrap().as_slice() else { panic!("{}", record["lays"]) };
    assert_eq!((lay["people"].as_array().unwrap().len(), lay["pairs"].as_u64()), (2, Some(2)));
    let [by_outlines, by_boxes] = [&record, &beside].map(|r| r["shopping"]["cloth"][0]["length_mm"].as_f64().unwrap());
    assert!(by_outlines < by_boxes && by_outlines >= lay["length_mm"].as_f64().unwrap(), "{by_outlines} {by_boxes}");
    // Without it, what lies there is of another day.
    let said = |ran: Run| ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    let ran = said(run(&folder, &[]));
    let old = "lay-cotton-jersey-1500-cut.dxf, lay-cotton-jersey-1500-cut.svg, lay-cotton-jersey-1500.pdf, \
               lay-cotton-jersey-1500.plt, lay-cotton-jersey-1500.svg";
    assert!(ran.contains(&format!("Of the lay of an earlier run, with the pieces of then: {old}.")), "{ran}");
    let ran = said(run(&folder, &["--lay", "--lay-steps", "10", "--plotter"]));
    assert!(!ran.contains("an earlier run"), "{ran}");
}

/// Several pairs for everybody are bought, laid and cut.
#[test]
fn what_is_bought_is_for_as_many_pairs_as_are_made() {
    let folder = class_of(THREE);
    folder.write("sheet.toml", edited("fabric", "width", Some("150")));
    let bought = |flags: &[&str]| {
        let ran = run(&folder, flags);
        assert_eq!(ran.code, 1, "{}{}", ran.out, ran.err);
        let shopping = record(&folder)["shopping"].clone();
        let elastic = &shopping["elastic"][0];
        let pairs = (elastic["pairs"].as_u64().unwrap(), shopping["cloth"][0]["pairs"].as_u64().unwrap());
        let mm = |value: &Value| value.as_f64().unwrap();
        (pairs, mm(&elastic["cut_mm"]), mm(&shopping["thread"][0]["sewn_mm"]), mm(&shopping["cloth"][0]["length_mm"]))
    };
    let (one, two) = (bought(&[]), bought(&["--pairs", "2"]));
    assert_eq!((one.0, two.0), ((2, 2), (4, 4)));
    assert!((two.1 - 2.0 * one.1).abs() < 1e-3 && (two.2 - 2.0 * one.2).abs() < 1e-3, "{one:?} {two:?}");
    assert!(two.3 > 1.5 * one.3, "{one:?} {two:?}");
    bought(&["--pairs", "2", "--lay", "--lay-steps", "100"]);
    let lay = &record(&folder)["lays"][0];
    assert_eq!((lay["pairs"].as_u64(), lay["placed"].as_array().unwrap().len()), (Some(4), 16));
}

/// She sews as everybody does: what she needs is bought, and what lies in her folder is not bound for her.
#[test]
fn somebody_whose_card_was_written_on_is_bought_for() {
    let folder = class_of(THREE);
    run(&folder, &[]);
    let pages = |record: &Value| record["pages"].as_u64().unwrap();
    let before = record(&folder);
    let name = before["people"][0]["folder"].as_str().unwrap().to_owned();
    let card = format!("out/{name}/{name}-card.md");
    folder.write(&card, fs::read_to_string(folder.path(&card)).unwrap() + "\nLeft leg 5 mm lower.\n");
    let ran = run(&folder, &["--again"]);
    assert_eq!(ran.code, 1, "{}", ran.out);
    let said = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for part in ["1 whose files could not be written", "was changed after quarterpin wrote it"] {
        assert!(said.contains(part), "{part} in\n{}", ran.out);
    }
    // Nothing has changed since: her other files hold.
    assert!(!said.contains("of an earlier run"), "{}", ran.out);
    let again = record(&folder);
    let of_her = |record: &Value, key: &str| record["people"][0][key].clone();
    assert_eq!(of_her(&again, "status"), "not written");
    assert_eq!((of_her(&again, "digest"), &again["shopping"]), (of_her(&before, "digest"), &before["shopping"]));
    assert_eq!(pages(&again), pages(&before));
    // Of another sheet they do not, and what she needs is that of the sheet.
    folder.write("sheet.toml", edited("gusset", "length", Some("14.5")));
    let ran = run(&folder, &[]);
    assert!(ran.out.contains("of an earlier run"), "{}", ran.out);
    let changed = record(&folder);
    assert_eq!((of_her(&changed, "status"), of_her(&changed, "digest")), (Value::from("not written"), Value::Null));
    assert!(pages(&changed) < pages(&before), "{} {}", pages(&changed), pages(&before));
    assert!(fs::read_to_string(folder.path(&card)).unwrap().ends_with("lower.\n"));
    let ran = run(&folder, &["--force"]);
    assert!(!ran.out.contains("could not be written"), "{}", ran.out);
    let forced = record(&folder);
    assert_eq!((of_her(&forced, "status"), &forced["shopping"]), (Value::from("done"), &changed["shopping"]));
}

/// Of an elastic that is laid on flat and cut after sewing, the teacher hands out what is to be in hand.
#[test]
fn the_lists_say_what_is_to_be_there_of_an_elastic() {
    let folder = class_of("Anna,74,98,20,71,32,57,\n");
    folder.write("sheet.toml", edited("finish.legs", "reduction", Some("0")));
    assert_eq!(run(&folder, &[]).code, 0);
    let garment: Value = serde_json::from_slice(&fs::read(folder.path("out/Anna/Anna.json")).unwrap()).unwrap();
    let elastics = garment["openings"].as_array().unwrap().iter().map(|opening| &opening["elastic"]);
    let legs = elastics.filter(|elastic| elastic["name"] == "soft 8");
    let in_hand: f64 = legs.map(|elastic| elastic["in_hand"].as_f64().unwrap()).sum();
    let summary = fs::read_to_string(folder.path("out/summary.csv")).unwrap();
    let mut read = csv::Reader::from_reader(summary.as_bytes());
    let at = read.headers().unwrap().iter().position(|head| head.starts_with("elastic soft 8")).unwrap();
    let said: f64 = read.records().next().unwrap().unwrap()[at].parse().unwrap();
    assert!((said - in_hand / 10.0).abs() < 1e-3, "{said} cm of {in_hand} mm");
}
