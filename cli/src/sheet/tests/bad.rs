//! Sheets that are refused: each names the place, points at the offending text, says what to do.

use super::*;

/// One change to the good sheet, and what has to come of it.
struct Bad {
    /// Replaced in the good sheet…
    find: &'static str,
    /// …by this.
    put: &'static str,
    /// The key the problem is about.
    key: &'static str,
    /// The text pointed at.
    at: &'static str,
    /// Part of title or label.
    says: &'static str,
    /// Part of the help: what to do.
    next: &'static str,
}

const fn bad(
    find: &'static str,
    put: &'static str,
    key: &'static str,
    at: &'static str,
    says: &'static str,
    next: &'static str,
) -> Bad {
    Bad { find, put, key, at, says, next }
}

const HIP: &str = "hip_girth = 99";
const TOP: &str = "reduction = 8";

static SHEETS: &[Bad] = &[
    // Missing.
    bad("hip_girth = 99\n", "", "body.hip_girth", "[body]", "`hip_girth` is missing", "fullest part of the seat"),
    bad("units = \"cm\"\n", "", "sheet.units", "[sheet]", "`units` is missing", "add `units` here"),
    bad("version = 1\n", "", "sheet.version", "[sheet]", "`version` is missing", "add `version`"),
    bad("[style]\nbase = \"brief\"\n", "", "style", "", "the section [style] is missing", "add [style] with base"),
    bad("stretch_along = 40\n", "", "fabric.stretch_along", "[fabric]", "missing", "fold test"),
    bad(
        "kind = \"turned\"\n",
        "",
        "finish.top.kind",
        "[finish.top]",
        "finish of the top edge",
        "add `kind` under [finish.top]",
    ),
    bad(
        "elastic = \"soft 8\"\n",
        "",
        "finish.legs.elastic",
        "\"trim\"",
        "needs an elastic",
        "\"soft 12\" or \"soft 8\"",
    ),
    bad("width = 0.8\n", "", "elastic.\"soft 8\".width", "[elastic.\"soft 8\"]", "`width` is missing", "Whole width"),
    bad("verdict = \"tight\"\n", "", "trial.1.verdict", "[[trial]]", "`verdict` is missing", "What the body said"),
    // Unknown.
    bad(HIP, "hip_girth = 99\nhips = 99", "body.hips", "hips", "unknown key `hips` in [body]", "write `hip_girth`"),
    bad(HIP, "hip_girth = 99\nqqq = 1", "body.qqq", "qqq", "not a key of this section", "[body] knows waist_girth"),
    bad(
        HIP,
        "hip_girth = 99\nstretch_across = 1",
        "body.stretch_across",
        "stretch_across",
        "belongs in [fabric]",
        "move it under [fabric]",
    ),
    bad("[print]", "[printer]", "printer", "printer", "unknown section `printer`", "write [print]"),
    bad("[finish.top]", "[top]", "top", "top", "did you mean [finish.top]?", "write [finish.top]"),
    bad("\"brief\"", "\"breif\"", "style.base", "\"breif\"", "did you mean \"brief\"?", "\"full brief\", \"brief\""),
    bad("\"brief\"", "\"bikini\"", "style.base", "\"bikini\"", "US word for \"small brief\"", "\"small brief\""),
    bad("\"trim\"", "\"frill\"", "finish.legs.kind", "\"frill\"", "unknown kind `frill`", "\"trim\", \"turned\""),
    bad(
        "\"soft 8\"\nreduction",
        "\"sfot 8\"\nreduction",
        "finish.legs.elastic",
        "\"sfot 8\"",
        "did you mean \"soft 8\"?",
        "name one of this sheet",
    ),
    bad(
        "{ back = 10 }",
        "{ bakc = 10 }",
        "finish.legs.sections",
        "bakc",
        "did you mean `back`?",
        "\"front\", \"gusset\" or \"back\"",
    ),
    bad("\"A4\"", "\"A5\"", "print.paper", "\"A5\"", "unknown paper `A5`", "width of a roll"),
    bad(
        "\"left leg\"",
        "\"waist\"",
        "trial.1.edge",
        "\"waist\"",
        "not one of the words",
        "\"top edge\", \"legs\", \"left leg\"",
    ),
    // Mistyped.
    bad(HIP, "hip_girth = \"ninety\"", "body.hip_girth", "\"ninety\"", "has to be a number", "write a plain number"),
    bad(HIP, "hip_girth = \"99\"", "body.hip_girth", "\"99\"", "this is text", "write 99, without quotes"),
    bad(HIP, "hip_girth = true", "body.hip_girth", "true", "this is true or false", "hip_girth = "),
    bad(HIP, "hip_girth = 0x63", "body.hip_girth", "0x63", "not a decimal number", "hip_girth = "),
    bad(
        HIP,
        "hip_girth = \"99 cm\"",
        "body.hip_girth",
        "\"99 cm\"",
        "unit is said once",
        "write 99, without quotes and unit",
    ),
    bad(
        HIP,
        "hip_girth = \"39 in\"",
        "body.hip_girth",
        "\"39 in\"",
        "in inches, but this sheet is in centimetres",
        "write 99.06",
    ),
    bad(HIP, "hip_girth = \"38 1/2\"", "body.hip_girth", "\"38 1/2\"", "inches only", "38.5"),
    bad("= 60", "= \"60 %\"", "fabric.stretch_across", "\"60 %\"", "number of percent", "stretch_across = 60"),
    bad("name = \"bench test\"", "name = 7", "sheet.name", "7", "text in quotes", "name = \""),
    bad(
        "date = 2026-01-31",
        "date = \"2026-01-31\"",
        "sheet.date",
        "\"2026-01-31\"",
        "has to be a day",
        "without quotes",
    ),
    bad(
        "date = 2026-01-31",
        "date = 2026-01-31T10:00:00",
        "sheet.date",
        "2026-01-31T10:00:00",
        "time of day",
        "the day only",
    ),
    bad("{ back = 10 }", "10", "finish.legs.sections", "10", "not a set of reductions", "sections = { back = 10 }"),
    bad("[50, 110]", "[50]", "elastic.\"soft 12\".pull", "[50]", "not a pair", "pull = [["),
    // Out of a key's own range.
    bad(HIP, "hip_girth = -99", "body.hip_girth", "-99", "has to be more than 0", "from 20 to 300 cm"),
    bad(HIP, "hip_girth = 0", "body.hip_girth", "0", "this is nothing", "from 20 to 300 cm"),
    bad(HIP, "hip_girth = nan", "body.hip_girth", "nan", "not finite", "from 20 to 300 cm"),
    bad(HIP, "hip_girth = inf", "body.hip_girth", "inf", "not finite", "from 20 to 300 cm"),
    bad(HIP, "hip_girth = 1e40", "body.hip_girth", "1e40", "far too large", "from 20 to 300 cm"),
    bad(HIP, "hip_girth = 990", "body.hip_girth", "990", "allowed: from 20 to 300 cm", "was it typed in millimetres?"),
    bad("version = 1", "version = 2", "sheet.version", "2", "`version` has to be 1", "reads version 1 only"),
    bad(TOP, "reduction = 61", "finish.top.reduction", "61", "allowed: -20 to 60 %", "write a number"),
    bad(TOP, "reduction = nan", "finish.top.reduction", "nan", "not finite", "plain number"),
    bad(
        "base = \"brief\"",
        "base = \"brief\"\nback_cover = 60",
        "style.back_cover",
        "60",
        "out of range",
        "0.6 for 60 %",
    ),
    bad("layers = 2", "layers = 3", "gusset.layers", "3", "from 1 to 2", "write 1 or 2"),
    bad("layers = 2", "layers = 1.5", "gusset.layers", "1.5", "whole number", "layers = "),
    bad("{ back = 10 }", "{ back = 90 }", "finish.legs.sections", "90", "`back` is out of range", "-20 to 60 %"),
    bad("[50, 110]", "[25, 110]", "elastic.\"soft 12\".pull", "[25, 110]", "not more than the one before", "pull = [["),
    bad("\"bench test\"", "\"  \"", "sheet.name", "\"  \"", "nothing in it", "write something"),
    bad("\"bench test\"", "\"a\\u0007b\"", "sheet.name", "\"a\\u0007b\"", "control character", "type it again"),
    bad("\"bench test\"", "\"a\\nb\"", "sheet.name", "\"a\\nb\"", "line break", "on one line"),
    bad(
        "[elastic.\"soft 8\"]",
        "[elastic.\"\"]\nwidth = 1\n[elastic.\"soft 8\"]",
        "elastic.\"\"",
        "\"\"",
        "nothing in it",
        "short name",
    ),
    // What does not go together.
    bad(TOP, "reduction = 8\nlength = 80", "finish.top.length", "length", "given in two ways", "keep one of"),
    bad(TOP, "from = \"body\"\nlength = 80", "finish.top.length", "length", "`from` is given as well", "keep one of"),
    bad("reduction = 0", "from = \"body\"", "finish.legs.from", "\"body\"", "for the top edge only", "`reduction`"),
    bad("picot = 0.2", "picot = 1.2", "elastic.\"soft 12\".picot", "1.2", "whole width", "smaller `picot`"),
    bad(
        TOP,
        "reduction = 8\ndepth = 1",
        "finish.top.depth",
        "depth",
        "means nothing to the finish \"turned\"",
        "\"hem\"",
    ),
    bad(
        TOP,
        "reduction = 8\nsections = { gusset = 1 }",
        "finish.top.sections",
        "{ gusset = 1 }",
        "no gusset section",
        "take `gusset` out",
    ),
    // Not TOML.
    bad(HIP, "hip_girth = 99\nhip_girth = 98", "hip_girth", "hip_girth", "is there twice", "keep one of the two"),
    bad("[print]", "[body]", "body", "body", "is there twice", "keep one of the two"),
    bad(HIP, "hip_girth = 98,5", "", "98,5", "cannot be read", "hip_girth = 98.5"),
    bad(HIP, "hip_girth = 38 1/2", "", "38 1/2", "cannot be read", "hip_girth = \"38 1/2\""),
    bad(HIP, "hip_girth = 99 cm", "", "99 cm", "cannot be read", "hip_girth = 99"),
    bad("\"brief\"", "brief", "", "brief", "cannot be read", "base = \"brief\""),
    bad(HIP, "hip_girth =", "", "", "cannot be read", "write a value after"),
    bad("date = 2026-01-31", "date = 2026-02-30", "", "2026-02-30", "cannot be read", "no such day"),
    bad("\"bench test\"", "\"bench test", "", "\"bench test", "cannot be read", "quotation mark is missing"),
];

#[test]
fn every_bad_sheet_is_refused_with_place_and_next_step() {
    let mut failures = Vec::new();
    for bad in SHEETS {
        if let Err(why) = judge(bad) {
            failures.push(format!("{:?} -> {:?}: {why}", bad.find, bad.put));
        }
    }
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

/// Exactly one problem, with the key, the text pointed at, the words and the next step.
fn judge(bad: &Bad) -> Result<(), String> {
    assert!(GOOD.contains(bad.find), "{:?} is not in the good sheet", bad.find);
    let source = GOOD.replacen(bad.find, bad.put, 1);
    let Err(problems) = read(&source, "bad.toml") else { return Err("accepted".to_owned()) };
    let [problem] = problems.list() else { return Err(format!("{} problems:\n{problems}", problems.list().len())) };
    let at = source.get(problem.span.clone()).ok_or("a span outside of the text")?;
    let words = format!("{} {}", problem.title, problem.label);
    let right = problem.key == bad.key && at == bad.at && words.contains(bad.says) && problem.help.contains(bad.next);
    let shown = problems.render(&source, "bad.toml", false);
    if !right {
        return Err(format!("key {:?}, at {at:?}\n{shown}", problem.key));
    }
    let place = source[..problem.span.start].matches('\n').count() + 1;
    if shown.contains(&format!("bad.toml:{place}:")) { Ok(()) } else { Err(format!("no line {place}:\n{shown}")) }
}

#[test]
fn an_elastic_from_a_body_that_was_not_measured_is_refused() {
    let source = GOOD.replace("elastic_top = 80\n", "").replace(TOP, "from = \"body\"");
    let problems = read(&source, "x").unwrap_err();
    let [problem] = problems.list() else { panic!("{problems}") };
    assert_eq!(&source[problem.span.clone()], "\"body\"");
    assert!(problem.help.contains("write it as `elastic_top` under [body]"), "{problems}");
    assert!(matches!(good(&GOOD.replace(TOP, "from = \"body\"")).finish.top.basis, Some(Basis::Body)));
}

#[test]
fn an_empty_table_of_a_sheet_lists_every_needed_section() {
    let problems = read("# nothing yet\n", "x").unwrap_err();
    for part in ["[sheet]", "[body]", "[fabric]", "[style]", "top edge", "legs"] {
        assert!(problems.to_string().contains(part), "no {part} in\n{problems}");
    }
}

#[test]
fn a_section_that_is_a_value_is_explained() {
    for (source, head) in [("body = 3\n", "[body]"), ("finish = 3\n", "[finish.top]"), ("trial = 3\n", "[[trial]]")] {
        let problems = read(source, "x").unwrap_err();
        assert!(problems.to_string().contains(&format!("write {head} on a line of its own")), "{problems}");
    }
}

#[test]
fn fractions_on_inch_sheets_are_checked() {
    let inch = |hip: &str| {
        let source = GOOD.replace("units = \"cm\"", "units = \"in\"").replace(HIP, &format!("hip_girth = {hip}"));
        read(&source, "x").map_err(|p| p.to_string())
    };
    assert!(inch("\"38 7/8\"").is_ok());
    assert!(inch("\"38 9/8\"").unwrap_err().contains("is not a fraction"));
    assert!(inch("\"38 1/0\"").unwrap_err().contains("is not a fraction"));
    assert!(inch("\"38 7/8 in\"").unwrap_err().contains("write \"38 7/8\""));
    assert!(inch("\"99 cm\"").unwrap_err().contains("write 38.976"));
    assert!(inch("\"3 ells\"").unwrap_err().contains("is not a length"));
}

#[test]
fn many_problems_are_counted_rather_than_listed() {
    let source: String = (0..500).map(|n| format!("k{n} = 1\n")).collect();
    let problems = read(&source, "x").unwrap_err();
    assert!(problems.list().len() > 500);
    assert!(problems.render(&source, "x", false).ends_with("more\n"));
}
