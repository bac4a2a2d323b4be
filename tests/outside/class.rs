//! A class of 260 real women, some rows of it spoiled, and a small one in one print.

use crate::{Line, RUN, python};
use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::mpsc::Sender;

/// What the checks are listed under.
pub(crate) const TITLE: &str = "class";

/// Columns of the table, from A.
const HEAD: [&str; 9] =
    ["name", "units", "waist", "hips", "waist to hip", "crotch length", "thigh", "base", "finish.legs.kind"];

/// Ways to spoil a row: the column, what is written there, and what becomes of the row.
const SPOILED: [(usize, &str, &str); 12] = [
    (2, "seventy", "unreadable"),
    (3, "", "unreadable"),
    (3, "978", "unreadable"),
    (4, "-20", "unreadable"),
    (5, "0", "unreadable"),
    (1, "ells", "unreadable"),
    (0, "", "unreadable"),
    (7, "trousers", "unreadable"),
    (2, "29 1/2", "unreadable"),
    (5, "7,1,5", "unreadable"),
    (3, "#DIV/0!", "unreadable"),
    (8, "frill", "unreadable"),
];

/// Of a metre of the cloth, and of the elastic of the legs.
const PRICES: (f64, f64) = (12.5, 0.85);

/// So many rows are spoiled, spread over the table.
const ROWS: usize = 25;
const EVERY: usize = 10;

pub(crate) fn check(python: &Path, folder: &Path, said: &Sender<Line>) -> Result<()> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let (table, spoiled) = table(python, &root)?;
    let people = folder.join("people.csv");
    fs::write(&people, table)?;
    let base = root.join("fixtures/first-pair.toml");
    let class = run(said, (&people, &base), &folder.join("women"), 1, &[])?;
    let priced = folder.join("priced.toml");
    fs::write(&priced, with_prices(&fs::read_to_string(&base)?))?;
    let four = root.join("fixtures/class/people.xlsx");
    let laid = ["--lay", "--gap", "6", "--lay-steps", "20000"];
    let small = run(said, (&four, &priced), &folder.join("four"), 0, &laid)?;
    let job = folder.join("class.job.json");
    let prices = json!({ "cloth": PRICES.0, "soft 8": PRICES.1 });
    let whole = json!({ "title": TITLE, "folder": class, "small": small, "spoiled": spoiled, "prices": prices });
    fs::write(&job, whole.to_string())?;
    let script = root.join("tests/outside/class.py");
    let output = python::process(python).args(["-c", RUN]).arg(&script).arg(&job).output()?;
    if !output.status.success() {
        bail!("the checks of a class ended with {}: {}", output.status, String::from_utf8_lossy(&output.stderr));
    }
    for line in String::from_utf8(output.stdout)?.lines() {
        said.send(serde_json::from_str(line).with_context(|| line.to_owned())?)?;
    }
    Ok(())
}

/// The base with a price of its cloth and of one of its two elastics.
fn with_prices(base: &str) -> String {
    let priced = |sheet: &str, section: &str, price: f64| {
        sheet.replacen(&format!("[{section}]\n"), &format!("[{section}]\nprice = {price}\n"), 1)
    };
    priced(&priced(base, "fabric", PRICES.0), "elastic.\"soft 8\"", PRICES.1)
}

fn run(said: &Sender<Line>, (people, base): (&Path, &Path), out: &Path, code: i32, more: &[&str]) -> Result<PathBuf> {
    let mut class = Command::new(env!("CARGO_BIN_EXE_quarterpin"));
    let ran = class.arg("class").arg(people).arg("--sheet").arg(base).arg("-o").arg(out).args(more).output()?;
    let told = String::from_utf8_lossy(&ran.stdout);
    let detail =
        format!("{}; {}{}", ran.status, told.lines().nth(1).unwrap_or(""), String::from_utf8_lossy(&ran.stderr));
    let name = format!("{} is made", out.file_name().unwrap_or_default().display());
    said.send(Line { job: TITLE.to_owned(), name, ok: ran.status.code() == Some(code), detail })?;
    Ok(out.to_owned())
}

/// The women with measures that the data set has not, estimated: waist to hip an eighth of the
/// stature (common practice), crotch length by least squares over ANSUR II (see
/// `engine/tests/bodies/women.rs`).
fn table(python: &Path, root: &Path) -> Result<(String, Vec<Value>)> {
    let script = root.join("engine/tests/bodies/women.py");
    let output = python::process(python).arg(script).output()?;
    if !output.status.success() {
        bail!("the women cannot be listed: {}", String::from_utf8_lossy(&output.stderr));
    }
    let text = String::from_utf8(output.stdout)?;
    let mut lines = vec![HEAD.join(";")];
    let mut spoiled = Vec::new();
    for (i, line) in text.lines().skip(1).enumerate() {
        let mm: Vec<f64> = line.split(',').map(str::parse).collect::<Result<_, _>>()?;
        let [waist, hip, thigh, stature] = mm[..] else { bail!("not a woman: {line}") };
        let drop = 0.125 * stature;
        let crotch = 52.0 + 0.307 * hip + 0.157 * stature + 2.0 * (drop - 146.0);
        let mut cells = vec![format!("Woman {i}"), "cm".to_owned()];
        // Decimal commas, as spreadsheets of half of Europe write them.
        cells.extend([waist, hip, drop, crotch, thigh].map(|mm| format!("{:.1}", mm / 10.0).replace('.', ",")));
        cells.extend([String::new(), String::new()]);
        if i % EVERY == 3 && spoiled.len() < ROWS {
            let (column, text, status) = SPOILED[spoiled.len() % SPOILED.len()];
            text.clone_into(&mut cells[column]);
            // A row of the file: the header is the first.
            spoiled.push(json!({ "row": i + 2, "column": column, "text": text, "status": status }));
        }
        lines.push(cells.join(";"));
    }
    if spoiled.len() != ROWS {
        bail!("{} rows are spoiled, not {ROWS}", spoiled.len());
    }
    Ok((lines.join("\n") + "\n", spoiled))
}
