use super::error::TableError;
use super::{People, csv_file, read, spreadsheet};
use crate::sheet::Base;
use engine::quantity::Units;
use std::path::Path;

const BASE: &str = include_str!("../../../fixtures/first-pair.toml");

fn people(text: &str) -> Result<People, TableError> {
    People::of(&csv_file::grids(Path::new("people.csv"), text.as_bytes().to_vec())?, Units::Cm)
}

fn base() -> Base {
    Base::of(BASE, "base.toml", None).unwrap()
}

/// The reasons of everybody, a line each; empty for those who can be read.
fn said(text: &str) -> Vec<String> {
    let (people, base) = (people(text).unwrap(), base());
    let one = |p: &super::Person| match p.sheet(&base, &people.columns) {
        Ok(_) => String::new(),
        Err(reasons) => reasons.into_iter().map(|r| format!("{} {}: {}\n", r.code, r.key, r.whole())).collect(),
    };
    people.persons.iter().map(one).collect()
}

#[test]
fn three_ways_to_write_a_table_give_the_same_sheets() {
    let comma = "name,waist,hips,waist to hip,crotch length,thigh\nAnna,74.93,101.6,20.32,71.12,57.15\n";
    let semicolon =
        "\u{feff}Thigh (cm);Hips;Name;Crotch Length;Waist;Waist-to-hip\n57,15;101,6;Anna;71,12;74,93;20,32\n";
    let tab = "A class in spring\n\nname\tunits\twaist_girth\tfull hip\twaist_to_hip\tcrotch_length\tthigh\n\
               Anna\tin\t29 1/2\t40\t8\t28\t22½\n";
    let base = base();
    let sheets = [comma, semicolon, tab].map(|text| {
        let people = people(text).unwrap();
        assert_eq!(people.persons.len(), 1, "{text}");
        format!("{:?}", people.persons[0].sheet(&base, &people.columns).unwrap())
    });
    assert_eq!(sheets[0], sheets[1]);
    assert_eq!(sheets[0], sheets[2]);
    assert!(sheets[0].contains("\"Anna – Mirela, first pair\""), "{}", sheets[0]);
}

#[test]
fn nobody_gets_the_measures_of_the_base() {
    let all = said("name,waist,hips,waist to hip\nAnna,74,98,20\nBea,74,98,\n");
    for one in &all {
        assert!(one.contains("table.missing body.crotch_length: row"), "{one}");
        assert!(one.contains("no column for it") && one.contains("between the legs"), "{one}");
    }
    assert!(all[1].contains("row 3, column D (waist to hip): `waist_to_hip` is missing"), "{}", all[1]);
    let people = people("name,waist,hips,waist to hip,crotch length\nAnna,74,98,20,71\n").unwrap();
    let sheet = people.persons[0].sheet(&base(), &people.columns).unwrap();
    assert!(sheet.body.thigh_girth.is_none() && sheet.body.crotch_length_front.is_none());
    assert!(sheet.body.waist_level.is_some(), "how the waist is taken holds for all");
}

#[test]
fn any_key_may_have_a_column_for_those_who_differ() {
    let people = people(
        "name,waist,hips,waist to hip,crotch length,base,finish.legs.kind,finish.legs.depth,\"elastic.\"\"soft 12\"\".stretch\"\n\
         Anna,74,98,20,71,,,,\nBea,74,98,20,71,Hipster,hem,\"0,8\",80 %\n",
    )
    .unwrap();
    let [anna, bea] = [0, 1].map(|i| people.persons[i].sheet(&base(), &people.columns).unwrap());
    assert_eq!((anna.style.base.name(), bea.style.base.name()), ("brief", "hipster"));
    assert_eq!((anna.finish.left_leg.kind.name(), bea.finish.left_leg.kind.name()), ("trim", "hem"));
    assert_eq!(bea.finish.left_leg.depth.map(|d| d.mm()), Some(8.0));
    assert_eq!(bea.elastics["soft 12"].stretch.map(|s| s.percent().round()), Some(80.0));
}

#[test]
fn each_fault_is_told_with_its_row_its_column_the_text_and_what_to_do() {
    let head = "name,waist,hips,waist to hip,crotch length,units,base\n";
    let rows = [
        (
            "Anna,seventy,98,20,71,,",
            ["row 2, column B (waist), “seventy”", "has to be a number", "write a plain number"],
        ),
        ("Bea,740,98,20,71,,", ["column B (waist), “740”", "out of range", "was it typed in millimetres"]),
        ("Cleo,74,,20,71,,", ["column C (hips)", "is missing", "measure it"]),
        ("Dora,74,98,20,71,ells,", ["column F (units), “ells”", "no unit", "cm, mm or in"]),
        ("Edda,74,98,20,71,,trousers", ["column G (base), “trousers”", "unknown base", "write \"full brief\""]),
        (",74,98,20,71,,", ["column A (name)", "name is missing", "write who it is"]),
        ("Finn,-74,98,20,71,,", ["“-74”", "has to be more than 0", "write a length"]),
        ("Gina,29 1/2,98,20,71,,", ["“29 1/2”", "a fraction is read with its unit", "“29 1/2 in”"]),
        ("Hana,,,,,,", ["row 2: ", "no measurement is there", "take it out"]),
    ];
    for (row, words) in rows {
        let all = said(&format!("{head}{row}\nZoe,74,98,20,71,,\n"));
        for word in words {
            assert!(all[0].contains(word), "{word} not in {}", all[0]);
        }
        assert_eq!(all[1], "", "a bad row leaves the next one alone");
    }
}

#[test]
fn a_header_that_is_not_clear_is_refused_before_anything_is_made() {
    let refused = |text: &str| people(text).map(|_| ()).unwrap_err();
    let said = |text: &str| format!("{}; {}", refused(text), refused(text).next());
    assert!(matches!(refused("1,2\n3,4\n"), TableError::NoHeader));
    assert!(matches!(refused("name,waist\n"), TableError::Nobody));
    assert!(matches!(refused("waist,hips\n74,98\n"), TableError::NoName { row: 1 }));
    assert!(
        said("name,waist,hip depth\nA,1,2\n").contains("write waist_to_hip"),
        "{}",
        said("name,waist,hip depth\nA,1,2\n")
    );
    assert!(said("name,waist,hipps\nA,1,2\n").contains("did you mean “hip”"), "{}", said("name,waist,hipps\nA,1,2\n"));
    assert!(
        said("name,waist,hips,hip girth\nA,1,2,3\n").contains("C (hips) and D (hip girth) both mean `body.hip_girth`")
    );
    assert!(said("name,waist,width\nA,1,2\n").contains("fabric.width"));
    assert!(said("name,waist,body.hipps\nA,1,2\n").contains("no such key"));
    assert!(matches!(refused(""), TableError::NoHeader));
    // What means nothing here is told, and does no harm; what is marked so is left out.
    let with = people("name,waist,phone,-hipps,shoe size\nA,74,1,2,3\n").unwrap();
    assert_eq!(with.unused(), ["C (phone)", "D (-hipps)", "E (shoe size)"]);
}

#[test]
fn names_in_two_parts_are_said_with_the_given_name_first() {
    let people = people("Surname,First name,waist\nSmith,Anna,74\n,Bea,74\n").unwrap();
    assert_eq!(people.persons.iter().map(|p| p.name.as_str()).collect::<Vec<_>>(), ["Anna Smith", "Bea"]);
}

#[test]
fn what_is_no_table_is_refused_without_a_panic() {
    for bytes in
        [&b"PK\x03\x04nonsense"[..], b"PK", b"PK\x03\x04mimetypeapplication/vnd.oasis.opendocument.spreadsheet"]
    {
        let refused = spreadsheet::grids(Path::new("people.xlsx"), bytes.to_vec());
        assert!(matches!(refused, Err(TableError::Spreadsheet { .. })));
    }
    assert!(matches!(
        csv_file::grids(Path::new("a"), b"name,waist\n\xff,1\n".to_vec()),
        Err(TableError::NotUtf8 { line: 2, .. })
    ));
    assert!(matches!(read::read(Path::new("no such file")), Err(TableError::Unreadable { .. })));
    let wide = "a,".repeat(600);
    assert!(matches!(people(&wide), Err(TableError::TooLarge(_))));
    let unclosed = people("name,waist\n\"Anna,74\n");
    assert!(unclosed.is_ok_and(|p| p.persons[0].name.contains("Anna")));
}
