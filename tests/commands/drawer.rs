//! A drawer of one's own beside sheets.

use crate::program::{Folder, SHEET};
use std::fs;

/// In inches, beside a sheet in centimetres.
const DRAWER: &str = "[sheet]\nunits = \"in\"\n\n[elastic.\"half inch\"]\nwidth = \"1/2\"\nstretch = 100\n\n\
                      [cloth.\"grey jersey\"]\nkind = \"knit\"\nstretch_across = 60\nstretch_along = 40\nwidth = 60\n";

/// The sheet, but for what is put in place of some of its lines.
fn with(changes: &[(&str, &str)]) -> String {
    let named = SHEET.replacen("[sheet]\n", "[sheet]\ndrawer = \"elastics.toml\"\n", 1);
    changes.iter().fold(named, |sheet, (from, to)| {
        assert!(sheet.contains(from), "no {from}");
        sheet.replace(from, to)
    })
}

fn half_inch() -> String {
    with(&[("elastic = \"soft 8\"", "elastic = \"half inch\"")])
}

fn refused(sheet: &str, drawer: Option<&str>) -> String {
    let folder = Folder::with_sheet(sheet);
    if let Some(drawer) = drawer {
        folder.write("elastics.toml", drawer);
    }
    let run = folder.run(&["check", "sheet.toml"]);
    assert_eq!(run.code, 2, "{}", run.out);
    run.err
}

/// The same files as from a sheet that describes the elastic itself.
#[test]
fn an_elastic_of_the_drawer_is_as_one_of_the_sheet() {
    let folder = Folder::with_sheet(half_inch());
    folder.write("elastics.toml", DRAWER);
    let described = SHEET.replace("elastic = \"soft 8\"", "elastic = \"half inch\"");
    folder.write("described.toml", format!("{described}\n[elastic.\"half inch\"]\nwidth = 1.27\nstretch = 100\n"));
    let json = |sheet: &str| {
        let run = folder.run(&["check", sheet, "--json"]);
        assert_eq!(run.code, 0, "{}", run.err);
        let draft = folder.run(&["draft", sheet, "-o", sheet.trim_end_matches(".toml")]);
        assert_eq!(draft.code, 0, "{}", draft.err);
        run.out
    };
    assert_eq!(json("sheet.toml"), json("described.toml"));
    for name in folder.names("sheet") {
        let read = |of: &str| fs::read(folder.path(of).join(&name)).unwrap();
        assert_eq!(read("sheet"), read("described"), "{name}");
    }
    // From another folder as well: it lies beside the sheet.
    let inside = Folder::empty();
    let sheet = folder.path("sheet.toml");
    assert_eq!(inside.run(&["check", sheet.to_str().unwrap()]).code, 0);
}

#[test]
fn what_the_sheet_describes_itself_comes_first() {
    let folder = Folder::with_sheet(with(&[]));
    folder.write("elastics.toml", "[sheet]\nunits = \"cm\"\n[elastic.\"soft 8\"]\nwidth = 3\n");
    folder.write("plain.toml", SHEET);
    let json = |sheet: &str| folder.run(&["check", sheet, "--json"]).out;
    assert_eq!(json("sheet.toml"), json("plain.toml"));
}

#[test]
fn a_cloth_is_taken_by_its_name() {
    let [from, to] = [SHEET.find("[fabric]").unwrap(), SHEET.find("[style]").unwrap()];
    let fabric = &SHEET[from..to];
    let folder = Folder::with_sheet(with(&[(fabric, "[fabric]\nname = \"grey jersey\"\nease_across = -6\n\n")]));
    folder.write("elastics.toml", DRAWER);
    let out = folder.path("out");
    let run = folder.run(&["draft", "sheet.toml", "-o", out.to_str().unwrap(), "--json"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let record = run.json();
    let used =
        |key: &str| record["used"].as_array().unwrap().iter().find(|u| u["key"] == key).unwrap()["value"].as_f64();
    assert_eq!((used("fabric.stretch_across"), used("fabric.ease_across")), (Some(60.0), Some(-6.0)));
    // A name that is not in it.
    let sheet = with(&[(fabric, "[fabric]\nname = \"gray jersey\"\n\n")]);
    let said = refused(&sheet, Some(DRAWER));
    assert!(said.contains("has no cloth `gray jersey`") && said.contains("did you mean \"grey jersey\"?"), "{said}");
    assert!(!said.contains("is missing"), "{said}");
}

#[test]
fn what_is_wrong_is_told_where_it_stands() {
    let elsewhere = half_inch().replace("\"elastics.toml\"", "\"../elastics.toml\"");
    let rooted = half_inch().replace("\"elastics.toml\"", "\"/etc/passwd\"");
    let misspelt = half_inch().replace("\"half inch\"", "\"half inches\"");
    for (sheet, drawer, parts) in [
        (half_inch(), None, &["there is no drawer `elastics.toml`", "sheet.toml:2:"][..]),
        (elsewhere, Some(DRAWER), &["does not lie beside the sheet"]),
        (rooted, Some(DRAWER), &["does not lie beside the sheet"]),
        (misspelt, Some(DRAWER), &["unknown elastic `half inches`", "did you mean \"half inch\"?"]),
        (
            half_inch(),
            Some("[sheet]\nunits = \"cm\"\n[elastic.\"half inch\"]\nstretch = 90\n"),
            &["elastics.toml, line 3: `width` is missing"],
        ),
        (half_inch(), Some("[elastic.\"half inch\"]\nwidth = 1\n"), &["the unit of the drawer is missing"]),
        (half_inch(), Some("[sheet]\nunits = \"cm\"\n[body]\nhip_girth = 98\n"), &["line 3: a drawer has no `body`"]),
        (half_inch(), Some("[sheet\n"), &["elastics.toml, line 1"]),
        (half_inch(), Some(""), &["elastics.toml is empty"]),
    ] {
        let said = refused(&sheet, drawer);
        assert!(parts.iter().all(|part| said.contains(part)), "{parts:?} not in\n{said}");
    }
}

#[test]
fn a_trial_and_a_class_find_it_as_well() {
    let folder = Folder::with_sheet(half_inch());
    folder.write("elastics.toml", DRAWER);
    let run = folder.run(&["trial", "sheet.toml", "--left", "right", "--right", "tight", "--apply"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(fs::read_to_string(folder.path("sheet.toml")).unwrap().contains("elastic = \"half inch\""));
    folder.write("people.csv", "name,waist,hips,waist to hip,crotch length\nAda,72,98,20,71\n");
    let made = || {
        let run = folder.run(&["class", "people.csv", "--sheet", "sheet.toml", "-o", "class"]);
        assert_eq!(run.code, 0, "{}{}", run.out, run.err);
        fs::read(folder.path("class/Ada/Ada.json")).unwrap()
    };
    let before = made();
    // A change of the drawer is a change of the sheet.
    folder.write("elastics.toml", DRAWER.replace("\"1/2\"", "\"3/8\""));
    assert_ne!(made(), before);
}
