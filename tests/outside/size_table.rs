//! One style over two published tables of sizes: the garments, the growth, and the nested print.

use crate::{Line, RUN, python, renderer};
use anyhow::{Context, Result, bail};
use serde_json::{Value, json};
use std::fs;
use std::path::Path;
use std::process::Command;
use std::sync::mpsc::Sender;

/// What the checks are listed under.
pub(crate) const TITLE: &str = "sizes";

const TABLES: [&str; 2] = ["astm-d5585-11e1-curvy", "en-13402-3-women"];
/// Every size is checked where this is set; else the first, a middle and the last one.
const EVERY: &str = "QUARTERPIN_EVERY_SIZE";

pub(crate) fn check(python: &Path, base: &Path, folder: &Path, said: &Sender<Line>) -> Result<()> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("..");
    let renderer = renderer::program(base)?;
    let style = root.join("fixtures/first-pair.toml");
    let mut tables = Vec::new();
    for table in TABLES {
        let out = folder.join(table);
        let csv = root.join(format!("fixtures/sizes/{table}.csv"));
        let ran = Command::new(env!("CARGO_BIN_EXE_quarterpin"))
            .args(["sizes", "--sheet"])
            .args([&style, Path::new("-o"), &out, &csv])
            .output()?;
        let (ok, detail) = (ran.status.success(), format!("{}; {}", ran.status, String::from_utf8_lossy(&ran.stderr)));
        said.send(Line { job: TITLE.to_owned(), name: format!("{table} is made"), ok, detail })?;
        if ok {
            tables.push(json!({ "title": table, "folder": out, "sizes": sheets(&style, &out)? }));
        }
    }
    let job = folder.join("sizes.job.json");
    let whole = json!({ "title": TITLE, "tables": tables, "renderer": renderer });
    fs::write(&job, whole.to_string())?;
    let script = root.join("tests/outside/size_table.py");
    let output = python::process(python).args(["-c", RUN]).arg(&script).arg(&job).output()?;
    if !output.status.success() {
        bail!("the checks of sizes ended with {}: {}", output.status, String::from_utf8_lossy(&output.stderr));
    }
    for line in String::from_utf8(output.stdout)?.lines() {
        said.send(serde_json::from_str(line).with_context(|| line.to_owned())?)?;
    }
    Ok(())
}

/// The sheet that each of these sizes stands for: the style with the measures of its record, so that it
/// can be checked as any sheet.
fn sheets(style: &Path, out: &Path) -> Result<Vec<Value>> {
    let style = fs::read_to_string(style)?;
    let record: Value = serde_json::from_slice(&fs::read(out.join("sizes.json"))?)?;
    let folders: Vec<&str> =
        record["sizes"].as_array().into_iter().flatten().filter_map(|size| size["folder"].as_str()).collect();
    let last = folders.len().saturating_sub(1);
    let wanted = |at: &usize| std::env::var_os(EVERY).is_some() || [0, last / 2, last].contains(at);
    let one = |(at, folder): (usize, &&str)| -> Result<Value> {
        let path = out.join(folder);
        let garment: Value = serde_json::from_slice(&fs::read(path.join(format!("{folder}.json")))?)?;
        let sheet = out.join(format!("{folder}.toml"));
        fs::write(&sheet, with_body(&style, &garment)?)?;
        Ok(json!({ "folder": path, "sheet": sheet, "checked": wanted(&at) }))
    };
    folders.iter().enumerate().map(one).collect()
}

fn with_body(style: &str, garment: &Value) -> Result<String> {
    let (head, rest) = style.split_once("[body]").context("the style has no body")?;
    let (_, rest) = rest.split_once("\n[").context("nothing comes after the body")?;
    let name = garment["name"].as_str().context("no name")?;
    let head: String = head
        .lines()
        .map(|line| if line.starts_with("name = ") { format!("name = {name:?}\n") } else { format!("{line}\n") })
        .collect();
    let mut body = String::from("[body]\n");
    for used in garment["used"].as_array().into_iter().flatten() {
        let Some(key) = used["key"].as_str().and_then(|key| key.strip_prefix("body.")) else { continue };
        // What is estimated for any sheet is left for the check to estimate.
        let by_table = ["waist_girth", "hip_girth", "waist_to_hip", "crotch_length"].contains(&key);
        match (&used["value"], by_table) {
            (Value::Number(mm), true) => body += &format!("{key} = {:.5}\n", mm.as_f64().unwrap_or(0.0) / 10.0),
            (Value::String(word), _) => body += &format!("{key} = {word:?}\n"),
            _ => {}
        }
    }
    Ok(format!("{head}{body}\n[{rest}"))
}
