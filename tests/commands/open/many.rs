//! Tables of people and of sizes on the page, and lays.

use super::page::Page;
use super::{COMMENTED, folder};
use crate::program::{Folder, SHEET};
use serde_json::{Value, json};
use std::fs;

const CLASS: &str = "Name;Waist;Hips;Waist to hip;Crotch length;Thigh;Phone\r\n\
                     Anna;74;98;20;71;;1\r\n\
                     Bea;seventy;95;19;69;;2\r\n\
                     Cleo;70;;19;69;;\r\n\
                     \r\n\
                     Dora;29 1/2 in;98;20;71;22.5 in;=1+1\r\n";

fn reasons(table: &Value, row: usize) -> Vec<(String, Value)> {
    let rows = table["rows"].as_array().unwrap();
    let found = rows.iter().find(|one| one["row"] == row).unwrap_or_else(|| panic!("no row {row} in {table}"));
    let told = |reason: &Value| (reason["text"].as_str().unwrap().to_owned(), reason["column"].clone());
    found["reasons"].as_array().unwrap().iter().map(told).collect()
}

/// What is odd is what `class --check` tells; a cell is mended, and every other byte stays.
#[test]
fn a_table_of_people_is_looked_over_and_mended() {
    let folder = folder();
    folder.write("people.csv", CLASS);
    let page = Page::of(&folder, &["sheet.toml"]);
    assert_eq!(page.get("/api/folder").json()["tables"], json!(["people.csv"]));
    let asked = json!({ "file": "people.csv", "base": null, "units": "" });
    let table = page.post("/api/people", &asked).json();
    let told = folder.run(&["class", "people.csv", "--sheet", "sheet.toml", "--check", "--json"]);
    let record: Value = serde_json::from_str(&told.out).unwrap();
    for (one, person) in table["rows"].as_array().unwrap().iter().zip(record["people"].as_array().unwrap()) {
        assert_eq!((&one["row"], &one["name"], &one["status"]), (&person["row"], &person["name"], &person["status"]));
        let count = |all: &Value| all.as_array().unwrap().len();
        let of_all = if one["status"] == "done" { count(&table["of_all"]) } else { 0 };
        assert_eq!(count(&one["reasons"]) + of_all, count(&person["reasons"]), "{one} {person}");
    }
    let rows: Vec<&Value> = table["rows"].as_array().unwrap().iter().map(|one| &one["row"]).collect();
    assert_eq!(rows, [2, 3, 4, 6], "as the file counts them");
    let [(text, column)] = reasons(&table, 3).try_into().unwrap();
    assert!(text.contains("has to be a number") && column == 1, "{text} {column}");
    assert_eq!(reasons(&table, 4)[0].1, 2, "{table}");
    assert_eq!(table["said"][1], "People: 2 of 4 would be done, 2 that cannot be read");
    let mend = |row: usize, column: usize, was: &str, now: &str| {
        page.post("/api/cell", &json!({ "file": "people.csv", "row": row, "column": column, "was": was, "now": now }))
    };
    assert_eq!(mend(3, 1, "seventy", "70").status, 200);
    assert_eq!(mend(4, 2, "", "94").status, 200);
    let text = fs::read_to_string(folder.path("people.csv")).unwrap();
    assert_eq!(text, CLASS.replace("seventy", "70").replace("Cleo;70;;", "Cleo;70;94;"));
    assert_eq!(fs::read_to_string(folder.path("people.csv.undo")).unwrap(), CLASS.replace("seventy", "70"));
    assert_eq!(mend(4, 2, "", "95").status, 409, "it is another cell meanwhile");
    assert_eq!(mend(9, 2, "", "95").status, 409);
    assert_eq!(mend(4, 40, "", "95").status, 409);
    let table = page.post("/api/people", &asked).json();
    assert_eq!(table["said"][1], "People: 4 of 4 would be done");
    assert_eq!(folder.names("."), ["people.csv", "people.csv.undo", "sheet.toml"]);
}

/// Her sheet makes the very files that the class makes of her row.
#[test]
fn a_person_of_a_table_has_a_sheet_of_her_own() {
    let folder = folder();
    folder.write(
        "people.csv",
        CLASS
            .replace("seventy", "70")
            .replace(";Phone", ";finish.legs.kind")
            .replace(";1\r", ";hem\r")
            .replace(";2\r", ";\r")
            .replace("=1+1", ""),
    );
    let page = Page::of(&folder, &["sheet.toml"]);
    let asked = |row: usize, there: Value| {
        page.post(
            "/api/person",
            &json!({ "file": "people.csv", "base": "sheet.toml", "row": row, "where_there": there }),
        )
    };
    let run = folder.run(&["class", "people.csv", "--sheet", "sheet.toml", "-o", "class"]);
    assert_eq!(run.code, 1, "{}", run.err);
    for (row, name) in [(2, "Anna"), (3, "Bea"), (6, "Dora")] {
        let opened = asked(row, Value::Null);
        assert_eq!(opened.status, 200, "{}", String::from_utf8_lossy(&opened.body));
        assert_eq!(opened.json()["state"]["sheet"]["file"], format!("{name}.toml"));
        let text = fs::read_to_string(folder.path(format!("{name}.toml"))).unwrap();
        assert!(text.starts_with(COMMENTED) && !text.contains("hip_girth = 98\n") | (row != 3), "{text}");
        let run = folder.run(&["draft", &format!("{name}.toml"), "-o", name]);
        assert_eq!(run.code, 0, "{}", run.err);
        let mut same = 0;
        for file in folder.names(&format!("class/{name}")) {
            let of_draft = format!("{name}-first-pair{}", file.strip_prefix(name).unwrap());
            let [class, draft] = [format!("class/{name}/{file}"), format!("{name}/{of_draft}")]
                .map(|path| fs::read(folder.path(&path)).unwrap());
            assert_eq!(class, draft, "{file}");
            same += 1;
        }
        assert!(same >= 9, "{same}");
    }
    assert_eq!(asked(4, Value::Null).status, 422, "a row that cannot be read");
    assert_eq!(asked(5, Value::Null).status, 409, "no such row");
    // Again: the same is opened; what says something else only when that is wanted.
    assert_eq!(asked(2, Value::Null).status, 200);
    folder.write("Anna.toml", SHEET);
    page.post("/api/open", &json!({ "file": "sheet.toml" }));
    let there = asked(2, Value::Null);
    assert!(there.status == 409 && String::from_utf8_lossy(&there.body).contains("something else"));
    assert_eq!(asked(2, json!("open")).json()["file"], "Anna.toml");
    assert_eq!(fs::read_to_string(folder.path("Anna.toml")).unwrap(), SHEET);
    assert_eq!(asked(2, json!("anew")).json()["file"], "Anna-2.toml");
}

/// What stands in the base about its own body is in nobody else's sheet, shown or not.
#[test]
fn nobody_has_the_measures_of_the_base_in_her_sheet() {
    let folder = Folder::with_sheet(
        SHEET.replace("waist_level = \"natural\"", "waist_level = \"natural\" # all\n# thigh_girth = 57.25"),
    );
    folder.write("people.csv", CLASS);
    let page = Page::of(&folder, &["sheet.toml"]);
    let told = page.post("/api/person", &json!({ "file": "people.csv", "row": 6 }));
    assert_eq!(told.status, 200, "{}", String::from_utf8_lossy(&told.body));
    let text = fs::read_to_string(folder.path("Dora.toml")).unwrap();
    let body: &str = text.split("[body]").nth(1).unwrap().split("\n[").next().unwrap();
    assert!(body.contains("waist_level = \"natural\" # all") && !body.contains("57.25"), "{body}");
    assert!(body.contains("waist_girth = 74.93") && body.contains("thigh_girth = 57.15"), "{body}");
    assert!(!text.contains("[[trial]]"), "{text}");
}

#[test]
fn a_table_of_sizes_is_laid_over_the_pieces() {
    let folder = folder();
    folder.write("sizes.csv", "size,waist,hips\n36,68,92\n40,,100\n44,84,108\n");
    let page = Page::of(&folder, &["sheet.toml"]);
    let table = page.post("/api/sizes", &json!({ "file": "sizes.csv" })).json();
    let names: Vec<&Value> = table["sizes"].as_array().unwrap().iter().map(|size| &size["name"]).collect();
    assert_eq!(names, ["36", "44"]);
    assert!(
        !reasons(&table, 3).is_empty() && table["estimated"].as_str().unwrap().contains("crotch length"),
        "{table}"
    );
    let dashes: Vec<&Value> = table["sizes"].as_array().unwrap().iter().map(|size| &size["dash"]).collect();
    assert_ne!(dashes[0], dashes[1]);
    let run = folder.run(&["sizes", "sizes.csv", "--sheet", "sheet.toml", "-o", "sizes", "--json"]);
    let record: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(record["made"], json!(["36", "44"]));
    // The outlines are those of the size's own sheet.
    let own = fs::read_to_string(folder.path("sizes/36/36.json")).unwrap();
    let own: Value = serde_json::from_str(&own).unwrap();
    let edges = |name: &str| {
        own["pieces"].as_array().unwrap().iter().find(|p| p["name"] == name).unwrap()["cut"].as_array().unwrap().len()
    };
    for piece in ["front", "back", "gusset"] {
        assert!(table["sizes"][0]["outlines"][piece].as_array().unwrap().len() >= edges(piece), "{piece}");
    }
    assert!(table["lengths"].as_array().unwrap().len() == 4 && table["lengths"][0]["heads"] == json!(["", "36", "44"]));
}

/// The lay on the page is the one that `draft` finds.
#[test]
fn the_lay_is_that_of_draft() {
    let folder = folder();
    folder.write(
        "elastics.toml",
        "[sheet]\nunits = \"cm\"\n\n[cloth.\"red jersey\"]\nstretch_across = 60\nstretch_along = 40\nwidth = 80\n",
    );
    folder.write("sheet.toml", SHEET.replace("[sheet]\n", "[sheet]\ndrawer = \"elastics.toml\"\n"));
    let page = Page::of(&folder, &["sheet.toml"]);
    let asked = |cloth: Value, width: Option<&str>, query: &str, quick: bool, seq: u64| {
        let changes: Vec<Value> = width.iter().map(|w| json!({ "key": "fabric.width", "value": w })).collect();
        page.post(
            "/api/lay",
            &json!({ "cloth": cloth, "changes": changes, "query": query, "is_quick": quick, "seq": seq }),
        )
    };
    let laid = asked(Value::Null, Some("90"), "pairs=2&lay-steps=900", false, 1).json();
    assert_eq!(laid["query"], "lay&cut-width=900&pairs=2&lay-steps=900");
    let run = folder.run(&[
        "draft",
        "sheet.toml",
        "-o",
        "out",
        "--lay",
        "--cut-width",
        "900",
        "--pairs",
        "2",
        "--lay-steps",
        "900",
    ]);
    assert_eq!(run.code, 0, "{}", run.err);
    let names = folder.names("out");
    let name = names.iter().find(|name| name.ends_with("-lay.svg")).unwrap();
    let drawn = fs::read_to_string(folder.path("out").join(name)).unwrap();
    // The file carries a mark over the same picture.
    let body = |svg: &str| svg.split_once("<g").unwrap().1.to_owned();
    assert_eq!(body(laid["picture"].as_str().unwrap()), body(&drawn));
    let file = page.get(&format!("/api/file/{name}?{}", laid["query"].as_str().unwrap()));
    assert_eq!(file.body, drawn.as_bytes());
    let state = page.get("/api/state").json();
    assert_eq!(state["sheet"]["is_saved"], true, "nothing is kept");
    // Another cloth of the drawer: everything that is said of the sheet's own goes.
    assert_eq!(laid["cloths"], json!(["red jersey"]));
    let red = asked(json!("red jersey"), None, "", true, 2).json();
    assert_eq!((&red["lays"][0]["width"]["mm"], &red["lays"][0]["cloth"]), (&json!(800.0), &json!("red jersey")));
    let kept = page.post("/api/set", &json!({ "changes": red["changes"], "keep": true })).json();
    assert_eq!((&kept["is_stale"], &kept["keys"]["fabric.width"]["value"]), (&json!(false), &json!("80")), "{kept}");
    // A younger one has been asked for; too narrow; nonsense.
    assert_eq!(asked(Value::Null, None, "", false, 1).json()["dropped"], true);
    assert_eq!(asked(Value::Null, Some("20"), "", true, 3).status, 422);
    assert_eq!(asked(Value::Null, Some("wide"), "", true, 4).status, 422);
    assert_eq!(asked(Value::Null, Some("90"), "pairs=0", true, 5).status, 422);
    assert_eq!(asked(json!("blue"), None, "", true, 6).status, 404);
    assert_eq!(page.post("/api/lay", &json!({ "seq": "x" })).status, 400);
}

#[test]
fn no_table_outside_of_the_folder_is_reached() {
    let outer = Folder::with_sheet(SHEET);
    fs::create_dir(outer.path("in")).unwrap();
    outer.write("in/own.toml", SHEET);
    outer.write("people.csv", CLASS);
    outer.write("in/notes.md", CLASS);
    outer.write("in/.hidden.csv", CLASS);
    #[cfg(unix)]
    std::os::unix::fs::symlink(outer.path("people.csv"), outer.path("in/link.csv")).unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink(outer.path("."), outer.path("in/out")).unwrap();
    let page = Page::of(&outer, &["in/own.toml"]);
    assert_eq!(page.get("/api/folder").json()["tables"], json!([]));
    let paths = [
        "../people.csv",
        "link.csv",
        "out/people.csv",
        "/etc/passwd",
        "..",
        "",
        "notes.md",
        ".hidden.csv",
        "own.toml",
        "in/../../people.csv",
        "%2e%2e/people.csv",
        "people.csv\0",
        "..\\people.csv",
    ];
    for file in paths {
        let asked = json!({ "file": file, "row": 2, "column": 1, "was": "74", "now": "75" });
        for path in ["/api/people", "/api/sizes", "/api/cell", "/api/copy", "/api/person"] {
            assert_eq!(page.post(path, &asked).status, 404, "{path} {file}");
        }
    }
    outer.write("in/people.csv", CLASS);
    for base in ["../sheet.toml", "/etc/passwd", "out/sheet.toml", ""] {
        let asked = json!({ "file": "people.csv", "base": base, "row": 2 });
        for path in ["/api/people", "/api/sizes", "/api/person"] {
            assert_eq!(page.post(path, &asked).status, 404, "{path} {base}");
        }
    }
    // A name that would lead elsewhere is a name, and no way.
    let evil = CLASS.replace("Anna", "../../evil").replace("Dora", "/etc/x");
    outer.write("in/people.csv", &evil);
    let told = page.post("/api/person", &json!({ "file": "people.csv", "row": 2 })).json();
    assert_eq!(told["file"], "evil.toml", "{told}");
    assert_eq!(
        page.post("/api/person", &json!({ "file": "people.csv", "base": "own.toml", "row": 6 })).json()["file"],
        "etc-x.toml"
    );
    assert_eq!(fs::read_to_string(outer.path("people.csv")).unwrap(), CLASS);
    assert_eq!(outer.names("."), ["in", "people.csv", "sheet.toml"]);
    // More rows than a page shows.
    outer.write("in/people.csv", format!("name,waist,hips\n{}", "A,74,98\n".repeat(501)));
    assert_eq!(page.post("/api/people", &json!({ "file": "people.csv", "base": "own.toml" })).status, 422);
    assert!(page.is_alive());
}

#[test]
fn a_spreadsheet_is_gone_on_with_as_text() {
    let folder = folder();
    let fixtures = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures/class");
    fs::copy(fixtures.join("people.xlsx"), folder.path("people.xlsx")).unwrap();
    let page = Page::of(&folder, &["sheet.toml"]);
    let table = page.post("/api/people", &json!({ "file": "people.xlsx" })).json();
    assert_eq!(table["can_be_mended"], false, "{table}");
    let cell = json!({ "file": "people.xlsx", "row": 4, "column": 1, "was": "", "now": "75" });
    assert_eq!(page.post("/api/cell", &cell).status, 422);
    assert_eq!(page.post("/api/copy", &json!({ "file": "people.xlsx" })).json()["file"], "people.csv");
    assert_eq!(
        page.post("/api/copy", &json!({ "file": "people.xlsx" })).json()["file"],
        "people-2.csv",
        "never over a file"
    );
    let copy = page.post("/api/people", &json!({ "file": "people.csv" })).json();
    assert_eq!((&copy["can_be_mended"], &copy["said"]), (&json!(true), &table["said"]));
    let rows = |table: &Value| {
        table["rows"].as_array().unwrap().iter().map(|r| (r["row"].clone(), r["reasons"].clone())).collect::<Vec<_>>()
    };
    assert_eq!(rows(&copy), rows(&table));
}
