//! The page's server from outside: what it keeps, and whom it turns away.

#[path = "open/many.rs"]
mod many;
#[path = "open/page.rs"]
mod page;

use crate::program::{Folder, SHEET};
use page::Page;
use serde_json::{Value, json};
use std::fs;
use std::io::{Read, Write};
use std::time::{Duration, Instant};

const COMMENTED: &str = "# hers\n";

fn folder() -> Folder {
    Folder::with_sheet(format!("{COMMENTED}{SHEET}"))
}

fn text(folder: &Folder) -> String {
    fs::read_to_string(folder.path("sheet.toml")).unwrap()
}

#[test]
fn a_page_is_filled_in_saved_and_ended() {
    let folder = folder();
    let mut page = Page::of(&folder, &["sheet.toml"]);
    assert!(page.get("/").status == 200 && page.get("/nothing").status == 404);
    let state = page.get("/api/state").json();
    assert_eq!(state["keys"]["body.hip_girth"]["source"], "given");
    assert_eq!(state["keys"]["style.side_seam"]["source"], "default");
    assert!(state["garment"]["handles"].as_array().unwrap().len() >= 15, "{}", state["garment"]["handles"]);
    let state = page.set("body.hip_girth", "99,5");
    assert_eq!((&state["sheet"]["is_saved"], &state["sheet"]["undo"]), (&json!(false), &json!("hip girth")));
    assert_eq!(text(&folder), format!("{COMMENTED}{SHEET}"), "nothing is written unasked");
    assert_eq!(page.post("/api/save", &json!({})).json()["sheet"]["is_saved"], true);
    assert_eq!(text(&folder), format!("{COMMENTED}{}", SHEET.replace("hip_girth = 98", "hip_girth = 99.5")));
    assert_eq!(folder.names("."), ["sheet.toml", "sheet.toml.undo"]);
    assert_eq!(page.post("/api/stop", &json!({})).status, 200);
    assert_eq!(page.program.wait().unwrap().code(), Some(0));
}

/// Told as `check` tells it, beside its field, and the last good garment stays.
#[test]
fn a_mistake_is_told_beside_its_field() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let state = page.set("body.hip_girth", "wide");
    let problem = &state["keys"]["body.hip_girth"]["problem"];
    assert!(problem["text"].as_str().unwrap().contains("`hip_girth` has to be a number"), "{problem}");
    assert!(state["is_stale"] == true && state["garment"]["pieces"].as_array().unwrap().len() == 4);
    page.post("/api/save", &json!({}));
    let told = folder.run(&["check", "sheet.toml"]);
    assert!(told.code == 2 && told.err.contains(problem["text"].as_str().unwrap()), "{}", told.err);
    let state = page.set("body.hip_girth", "6000");
    assert!(state["keys"]["body.hip_girth"]["problem"]["label"].as_str().unwrap().contains("allowed"), "{state}");
    let state = page.set("body.hip_girth", "20");
    assert!(state["is_stale"] == true && !state["refusals"].as_array().unwrap().is_empty());
}

/// A choice that cannot be taken is told by its name and with what can, not as a command's flag.
#[test]
fn a_mistaken_choice_is_told_in_words() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let told = page.get("/api/file/first-pair.pdf?margin=1/2");
    let trouble = told.json()["trouble"].clone();
    assert_eq!((told.status, &trouble["text"]), (422, &json!("“1/2” is nothing for margin")));
    assert_eq!(trouble["next"], "write a number without a unit, such as 0.15; lengths are in mm");
}

/// Measures in centimetres typed into a sheet in inches: the button reads them so, and leaves the elastics as wide,
/// and the cloth, as they are.
#[test]
fn measures_in_another_unit_are_mended_by_a_button() {
    let folder = Folder::with_sheet(
        SHEET
            .replace("units = \"cm\"", "units = \"in\"")
            .replace("[fabric]", "[fabric]\nwidth = 58")
            .replace("length = 14", "length = \"5 1/2\"")
            .replace("width = 1.2", "width = \"15/32\"")
            .replace("width = 0.8", "width = \"5/16\""),
    );
    let page = Page::of(&folder, &["sheet.toml"]);
    let state = page.get("/api/state").json();
    let found = state["refusals"].as_array().unwrap().iter().chain(state["garment"]["findings"].as_array().unwrap());
    let mut remedies =
        found.filter(|one| one["code"] == "body.units").flat_map(|one| one["remedies"].as_array().unwrap());
    let changes = &remedies.next().unwrap()["changes"];
    let told = page.post("/api/set", &json!({ "changes": changes, "keep": true }));
    let state = told.json();
    assert_eq!((told.status, &state["sheet"]["problems"], &state["is_stale"]), (200, &json!([]), &json!(false)));
    let said = |key: &str| state["keys"][key]["written"].clone();
    assert_eq!(said("body.waist_girth"), "74");
    assert_eq!(
        [said("elastic.\"soft 12\".width"), said("fabric.width"), said("gusset.length")],
        ["1.19", "147.32", "13.97"]
    );
}

/// What was there before is not shown in the place of what is needed, as if it held.
#[test]
fn a_field_that_is_emptied_is_empty() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let before = page.get("/api/state").json();
    for key in ["body.waist_girth", "body.thigh_girth"] {
        assert_ne!(before["keys"][key]["value"], "", "{key}");
        page.post("/api/set", &json!({ "changes": [{ "key": key, "value": null }], "keep": true }));
    }
    let state = page.get("/api/state").json();
    assert_eq!((&state["is_stale"], &state["keys"]["body.waist_girth"]["written"]), (&json!(true), &json!(null)));
    for key in ["body.waist_girth", "body.thigh_girth"] {
        assert_eq!(state["keys"][key]["value"], "", "{key}");
    }
    let state = page.set("body.waist_girth", before["keys"]["body.waist_girth"]["value"].as_str().unwrap());
    assert_eq!((&state["is_stale"], &state["sheet"]["problems"]), (&json!(false), &json!([])));
}

/// The sheet of a new garment says that its legs are sewn on flat; a tunnel goes round.
#[test]
fn a_finish_that_goes_round_is_put_on_round() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    page.set("finish.legs.put_on", "flat");
    let state = page.set("finish.legs.kind", "tunnel");
    assert_eq!((&state["refusals"], &state["is_stale"]), (&json!([]), &json!(false)));
    assert_eq!(state["keys"]["finish.legs.put_on"]["written"], json!(null));
}

#[test]
fn everything_is_undone_and_done_again() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let kinds = ["binding", "hem", "band", "encased", "turned", "tunnel", "lapped", "raw", "trim"];
    for kind in kinds {
        let state = page.set("finish.legs.kind", kind);
        assert_eq!(state["sheet"]["problems"], json!([]), "{kind}");
    }
    for (key, value) in [("style.top_drop_front", "5"), ("gusset.width", "7"), ("sheet.units", "mm")] {
        page.set(key, value);
    }
    let theirs = page.get("/api/theirs").json();
    for _ in 0..kinds.len() + 3 {
        page.post("/api/undo", &json!({}));
    }
    let state = page.get("/api/state").json();
    assert_eq!((&state["sheet"]["is_saved"], &state["sheet"]["steps"]["undo"]), (&json!(true), &json!(0)));
    for _ in 0..kinds.len() + 3 {
        page.post("/api/redo", &json!({}));
    }
    assert_eq!(page.get("/api/theirs").json(), theirs);
}

#[test]
fn only_the_page_itself_is_answered() {
    let folder = folder();
    folder.write("secret.txt", "secret");
    let page = Page::of(&folder, &["sheet.toml"]);
    let (host, token) = (format!("127.0.0.1:{}", page.port), page.token.clone());
    let own = [("Host", host.as_str()), ("X-Quarterpin-Token", token.as_str())];
    let with = |name, value| page.ask("GET", "/api/state", &[&own[..], &[(name, value)]].concat(), "").status;
    assert_eq!(page.ask("GET", "/api/state", &own, "").status, 200);
    assert_eq!(with("Origin", "http://evil.example"), 403);
    assert_eq!(with("Origin", "null"), 403);
    assert_eq!(with("Sec-Fetch-Site", "cross-site"), 403);
    // A name that was bent to point here comes with itself as the host.
    let rebound = format!("evil.example:{}", page.port);
    let asked = page.ask("GET", "/api/state", &[("Host", &rebound), ("X-Quarterpin-Token", &token)], "");
    assert!(asked.status == 403 && asked.body.is_empty());
    assert_eq!(page.ask("GET", "/", &[("Host", &rebound)], "").status, 403);
    assert_eq!(page.ask("GET", "/api/state", &own[..1], "").status, 401);
    assert_eq!(page.ask("GET", "/api/state", &[own[0], ("X-Quarterpin-Token", "0")], "").status, 401);
    for path in
        ["/../Cargo.toml", "/%2e%2e/Cargo.toml", "/..%2fsecret.txt", "//etc/passwd", "/README.md", "/secret.txt"]
    {
        assert_eq!(page.get(path).status, 404, "{path}");
    }
    for path in ["/api/file/..%2Fsheet.toml", "/api/file/%2Fetc%2Fpasswd", "/api/figure/..%2f..", "/api/nothing"] {
        assert_eq!(page.get(path).status, 404, "{path}");
    }
    let told = page.get("/");
    let head = told.head.to_lowercase();
    for words in ["default-src 'none'", "frame-ancestors 'none'", "nosniff", "no-store"] {
        assert!(head.contains(words), "{head}");
    }
    assert!(!head.contains("access-control"), "{head}");
}

#[test]
fn no_path_leads_out_of_the_folder() {
    let outer = Folder::with_sheet(SHEET);
    fs::create_dir(outer.path("in")).unwrap();
    outer.write("in/own.toml", SHEET);
    #[cfg(unix)]
    std::os::unix::fs::symlink(outer.path("sheet.toml"), outer.path("in/link.toml")).unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink(outer.path("."), outer.path("in/out")).unwrap();
    let page = Page::of(&outer, &["in"]);
    let listed = page.get("/api/folder").json();
    let files: Vec<&Value> = listed["sheets"].as_array().unwrap().iter().map(|s| &s["file"]).collect();
    assert_eq!(files, ["own.toml"]);
    for file in ["../sheet.toml", "link.toml", "/etc/passwd", "..", "", "in/../../sheet.toml", "out/sheet.toml"] {
        assert_eq!(page.post("/api/open", &json!({ "file": file })).status, 404, "{file}");
        let written = page.post("/api/new", &json!({ "file": file, "units": "cm" })).status;
        assert!((400..500).contains(&written), "{file}: {written}");
    }
    assert_eq!(page.post("/api/open", &json!({ "file": "own.toml" })).status, 200);
    for folder in ["../x", "out", "/tmp", "..", "a/b", ".hidden"] {
        assert_eq!(page.post("/api/write", &json!({ "folder": folder })).status, 422, "{folder}");
    }
    assert_eq!(outer.names("."), ["in", "sheet.toml"]);
}

#[test]
fn what_is_too_much_or_means_nothing_is_turned_away() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let host = format!("127.0.0.1:{}", page.port);
    let own = format!("Host: {host}\r\nX-Quarterpin-Token: {}\r\n", page.token);
    for body in ["", "{", "[]", "{\"changes\":1}", "\u{0}", "{\"changes\":[{\"key\":\"x\"}],\"keep\":true}"] {
        let headers = [("Host", host.as_str()), ("X-Quarterpin-Token", page.token.as_str())];
        assert_eq!(page.ask("POST", "/api/set", &headers, body).status, 400, "{body}");
    }
    let huge = format!("POST /api/set HTTP/1.1\r\n{own}Content-Length: 100000000\r\n\r\n");
    assert!(page.raw(huge.as_bytes()).starts_with(b"HTTP/1.1 413"));
    // The same without saying so beforehand: 100 MB in chunks, as far as they are taken.
    let mut stream = page.connect();
    stream.write_all(format!("POST /api/set HTTP/1.1\r\n{own}Transfer-Encoding: chunked\r\n\r\n").as_bytes()).unwrap();
    let chunk = [b"10000\r\n".as_slice(), &[b'x'; 0x10000], b"\r\n"].concat();
    let sent = (0..1600).take_while(|_| stream.write_all(&chunk).is_ok()).count();
    assert!(sent < 1600, "all of it was taken");
    let long = format!("GET / HTTP/1.1\r\n{own}X-Long: {}\r\n\r\n", "x".repeat(100_000));
    assert!(!page.raw(long.as_bytes()).starts_with(b"HTTP/1.1 200"));
    assert!(!page.raw(b"\x16\x03\x01\x02\x00 what is this\r\n\r\n").starts_with(b"HTTP/1.1 200"));
    assert!(page.is_alive());
}

#[test]
fn those_who_hold_on_keep_nobody_out() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let slow: Vec<_> = (0..1000)
        .map(|_| {
            let mut stream = page.connect();
            // Those that are sent away meanwhile cannot say more.
            let _ = stream.write_all(b"GET /api/state HTTP/1.1\r\nHost: 12");
            stream
        })
        .collect();
    let begun = Instant::now();
    assert!(page.is_alive());
    assert!(begun.elapsed() < Duration::from_secs(10), "{:?}", begun.elapsed());
    drop(slow);
}

/// An empty line never comes: after a while the connection ends.
#[test]
fn slow_heads_are_not_waited_for() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let mut stream = page.connect();
    stream.write_all(b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n").unwrap();
    let mut rest = Vec::new();
    let begun = Instant::now();
    let ended = stream.read_to_end(&mut rest);
    assert!(ended.is_ok() && begun.elapsed() < Duration::from_secs(19), "{ended:?} {:?}", begun.elapsed());
}

/// Text stays text: it comes as JSON, which no browser takes for a page.
#[test]
fn scripts_in_names_are_text() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let name = "<img src=x onerror=alert(1)><script>alert(2)</script>";
    assert_eq!(page.set("sheet.name", name)["sheet"]["name"], name);
    let told = page.get("/api/state");
    assert!(told.head.to_lowercase().contains("content-type: application/json"), "{}", told.head);
    let file = page.get("/api/files").json()["files"][6]["name"].as_str().unwrap().to_owned();
    let told = page.get(&format!("/api/file/{file}"));
    assert!(told.status == 200 && told.head.to_lowercase().contains("content-disposition: attachment"), "{file}");
    assert!(!String::from_utf8_lossy(&told.body).contains("<script>"), "{file}");
}

fn left_unsaved(folder: &Folder) {
    let mut page = Page::of(folder, &["sheet.toml"]);
    page.set("style.side_seam", "7");
    page.set("gusset.width", "7");
    // SIGKILL: nothing can be put in order.
    page.program.kill().unwrap();
    page.program.wait().unwrap();
}

#[test]
fn what_was_not_saved_is_offered_again() {
    let folder = folder();
    left_unsaved(&folder);
    assert_eq!(text(&folder), format!("{COMMENTED}{SHEET}"));
    let page = Page::of(&folder, &["sheet.toml"]);
    assert_eq!(page.get("/api/state").json()["sheet"]["unsaved"], json!({ "is_of_this_file": true }));
    let state = page.post("/api/unsaved", &json!({ "take": true })).json();
    assert_eq!(state["keys"]["gusset.width"]["written"], "7");
    assert_eq!((&state["sheet"]["unsaved"], &state["sheet"]["steps"]["undo"]), (&Value::Null, &json!(1)));
    page.post("/api/save", &json!({}));
    assert_eq!(folder.names("."), ["sheet.toml", "sheet.toml.undo"]);
    drop(page);
    folder.write("sheet.toml", format!("{COMMENTED}{SHEET}"));
    left_unsaved(&folder);
    let page = Page::of(&folder, &["sheet.toml"]);
    assert_eq!(page.post("/api/unsaved", &json!({ "take": false })).json()["sheet"]["is_saved"], true);
    assert!(!folder.names(".").contains(&"sheet.toml.unsaved".to_owned()));
}

#[test]
fn a_file_that_changed_meanwhile_is_not_written_over_unasked() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    page.set("gusset.width", "7");
    let hers = text(&folder).replace("hip_girth = 98", "hip_girth = 97");
    folder.write("sheet.toml", &hers);
    let version = page.get("/api/state").json()["version"].clone();
    let told = page.get(&format!("/api/wait?after={version}")).json();
    assert_ne!(told["version"], version);
    assert_eq!(page.get("/api/state").json()["sheet"]["on_disk"], "changed");
    let refused = page.post("/api/save", &json!({}));
    assert!(refused.status == 409 && refused.json()["trouble"]["text"].as_str().unwrap().contains("changed meanwhile"));
    assert_eq!(text(&folder), hers);
    let theirs = page.get("/api/theirs").json();
    assert_eq!(theirs["theirs"], hers);
    let differs: Vec<&Value> = theirs["differs"].as_array().unwrap().iter().map(|d| &d["key"]).collect();
    assert_eq!(differs, ["body.hip_girth", "gusset.width"]);
    assert_eq!(page.post("/api/save", &json!({ "force": true })).status, 200);
    assert_eq!(fs::read_to_string(folder.path("sheet.toml.undo")).unwrap(), hers, "what it was is kept");
    folder.write("sheet.toml", &hers);
    let state = page.post("/api/reload", &json!({})).json();
    assert_eq!((&state["sheet"]["on_disk"], &state["sheet"]["is_saved"]), (&json!("same"), &json!(true)));
    assert_eq!(page.post("/api/undo", &json!({})).json()["keys"]["gusset.width"]["written"], "7");
}

#[test]
fn two_pages_keep_in_step() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let version = page.get("/api/state").json()["version"].clone();
    std::thread::scope(|scope| {
        let other = scope.spawn(|| page.get(&format!("/api/wait?after={version}")).json());
        page.set("gusset.width", "7");
        assert_ne!(other.join().unwrap()["version"], version);
    });
}

/// Pulls, saves, and compares every file with what `draft` writes of the saved sheet.
fn same_files(states: usize) {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let handles = page.get("/api/state").json()["garment"]["handles"].clone();
    let pulls = handles.as_array().unwrap().iter().cycle();
    for (i, handle) in pulls.take(states).enumerate() {
        let way = if i % 2 == 0 { 3.0 } else { -2.0 };
        let (mm, number) = (handle["value"]["mm"].as_f64(), handle["value"]["number"].as_f64());
        let change =
            json!({ "key": handle["key"], "mm": mm.map(|mm| mm + way), "number": number.map(|n| n + 0.02 * way) });
        let pulled = page.post("/api/set", &json!({ "changes": [change], "keep": true })).json();
        assert_eq!(pulled["is_stale"], false, "{}", handle["id"]);
        assert_eq!(page.post("/api/save", &json!({})).status, 200);
        let out = format!("page{i}");
        let written = page.post("/api/write", &json!({ "folder": out, "query": "paper=Letter&kerf=0.2" }));
        assert_eq!(written.status, 200, "{}", String::from_utf8_lossy(&written.body));
        let draft = format!("draft{i}");
        let run = folder.run(&["draft", "sheet.toml", "-o", &draft, "--paper", "Letter", "--kerf", "0.2"]);
        assert_eq!(run.code, 0, "{}", run.err);
        assert_eq!(folder.names(&out), folder.names(&draft));
        for name in folder.names(&out) {
            let read = |dir: &str| fs::read(folder.path(dir).join(&name)).unwrap();
            assert_eq!(read(&out), read(&draft), "{name} of {}", handle["id"]);
            if i == 0 {
                let taken = page.get(&format!("/api/file/{name}?paper=Letter&kerf=0.2"));
                assert_eq!(taken.body, read(&draft), "{name}");
            }
        }
    }
}

#[test]
fn its_files_are_those_of_draft() {
    same_files(2);
}

#[test]
#[ignore = "20 drafts"]
fn its_files_are_those_of_draft_wherever_it_is_pulled() {
    same_files(20);
}

#[test]
fn trials_are_those_of_the_command() {
    let folder = folder();
    let page = Page::of(&folder, &["sheet.toml"]);
    let trial = json!({ "left": ["tight"], "right": ["loose"], "fit": ["rides up at the back"], "date": "2026-04-01" });
    let told = page.post("/api/trial", &trial).json();
    assert_eq!(told["state"]["trials"].as_array().unwrap().len(), 2, "{told}");
    page.post("/api/save", &json!({}));
    let by_page = text(&folder);
    folder.write("sheet.toml", format!("{COMMENTED}{SHEET}"));
    let words = ["--left", "tight", "--right", "loose", "--fit", "rides up at the back", "--date", "2026-04-01"];
    let run = folder.run(&[&["trial", "sheet.toml"], &words[..], &["--json"]].concat());
    assert_eq!((run.json(), by_page), (told["lesson"].clone(), text(&folder)));
    let applied = page.post("/api/apply", &json!({ "date": "2026-04-02" })).json();
    assert_ne!(applied["state"]["keys"]["finish.legs.reduction"]["written"], Value::Null, "{applied}");
}

#[cfg(unix)]
#[test]
fn ctrl_c_ends_it_well() {
    let folder = folder();
    let mut page = Page::of(&folder, &["sheet.toml"]);
    let pid = page.program.id().to_string();
    assert!(std::process::Command::new("kill").args(["-INT", &pid]).status().unwrap().success());
    assert_eq!(page.program.wait().unwrap().code(), Some(0));
}

#[test]
fn a_new_sheet_is_begun_on_the_page() {
    let folder = Folder::empty();
    let page = Page::of(&folder, &[]);
    assert_eq!(page.get("/api/state").json()["sheet"], Value::Null);
    assert_eq!(page.post("/api/undo", &json!({})).status, 409);
    let new = json!({ "file": "mine", "units": "in", "name": "my pair" });
    let state = page.post("/api/new", &new).json();
    assert_eq!((&state["garment"], &state["sheet"]["steps"]["undo"]), (&Value::Null, &json!(0)));
    assert_eq!(page.post("/api/new", &new).status, 409, "never over a file");
    let measures = [
        ("body.waist_girth", "29 1/2"),
        ("body.hip_girth", "38½"),
        ("body.waist_to_hip", "7,875"),
        ("body.crotch_length", "71 cm"),
        ("fabric.stretch_across", "60 %"),
        ("fabric.stretch_along", "40"),
    ];
    let [.., state] = measures.map(|(key, value)| page.set(key, value));
    assert_eq!((&state["is_stale"], &state["keys"]["body.hip_girth"]["written"]), (&json!(false), &json!("38½")));
    assert_eq!(state["keys"]["body.crotch_length"]["written"], "27.95");
    let file = page.get("/api/files").json()["files"][0]["name"].clone();
    assert_eq!(file, "my-pair.pdf");
    // A finish brings the elastic that is usual for it; one of her own stays.
    let state = page.set("finish.legs.kind", "binding");
    assert_eq!(
        (&state["keys"]["finish.legs.elastic"]["written"], &state["is_stale"]),
        (&json!("fold-over 15"), &json!(false))
    );
    page.set("elastic.mine.width", "1/2");
    page.set("elastic.mine.stretch", "90");
    page.set("finish.legs.elastic", "mine");
    assert_eq!(page.set("finish.legs.kind", "trim")["keys"]["finish.legs.elastic"]["written"], "mine");
}

/// A sheet of the page may keep its elastics in a drawer.
#[test]
fn a_sheet_with_a_drawer_is_filled_in_as_any_other() {
    let folder = folder();
    let (head, elastics) = SHEET.split_once("[elastic.").unwrap();
    let elastics = format!("[elastic.{elastics}");
    let (elastics, rest) = elastics
        .split_once("\n[print")
        .map_or((elastics.as_str(), String::new()), |(e, r)| (e, format!("\n[print{r}")));
    folder.write("elastics.toml", format!("[sheet]\nunits = \"cm\"\n\n{elastics}"));
    let sheet = format!("{head}{rest}").replace("[sheet]\n", "[sheet]\ndrawer = \"elastics.toml\"\n");
    folder.write("sheet.toml", &sheet);
    let page = Page::of(&folder, &["sheet.toml"]);
    let state = page.get("/api/state").json();
    assert_eq!((&state["is_stale"], &state["sheet"]["problems"]), (&json!(false), &json!([])), "{state}");
    let names: Vec<(&Value, &Value)> =
        state["elastics"].as_array().unwrap().iter().map(|one| (&one["name"], &one["is_of_drawer"])).collect();
    assert_eq!(names, [(&json!("soft 12"), &json!(true)), (&json!("soft 8"), &json!(true))]);
    let state = page.set("body.hip_girth", "99");
    assert_eq!(state["is_stale"], false);
    // Named again, it is still the one of her drawer, though the program has one of that name as well.
    page.set("finish.legs.elastic", "soft 12");
    let state = page.set("finish.legs.elastic", "soft 8");
    assert_eq!(state["keys"]["elastic.\"soft 8\".width"], Value::Null, "{}", state["keys"]);
    page.post("/api/save", &json!({}));
    assert_eq!(text(&folder), sheet.replace("hip_girth = 98", "hip_girth = 99"), "and the drawer stays where it is");
    // A preview as well, and what is taken away.
    let preview = json!({ "changes": [{ "key": "style.side_seam", "mm": 80 }], "keep": false, "seq": 1 });
    assert_eq!(page.post("/api/set", &preview).json()["is_stale"], false);
    assert_eq!(page.post("/api/write", &json!({ "folder": "page" })).status, 200);
    folder.run(&["draft", "sheet.toml", "-o", "draft"]);
    for name in folder.names("page") {
        let read = |dir: &str| fs::read(folder.path(dir).join(&name)).unwrap();
        assert_eq!(read("page"), read("draft"), "{name}");
    }
    // A drawer that leads out of the folder is not looked into.
    let state = page.set("sheet.drawer", "../elastics.toml");
    let problem = &state["keys"]["sheet.drawer"]["problem"];
    assert!(problem["text"].as_str().is_some_and(|text| text.contains("does not lie beside the sheet")), "{state}");
}
