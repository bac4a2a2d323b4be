//! The values that stand in the commented sheet: invented, of one body that belongs to nobody.

use engine::quantity::{Length, Units};

/// A value in the sheet.
#[derive(Clone, Copy)]
pub(super) enum Sample {
    /// A length, mm.
    Mm(f64),
    /// As it is written.
    Plain(&'static str),
    /// The unit of the sheet itself.
    Unit,
    /// The same, where inches are written otherwise.
    ByUnit { metric: Metric, inch: &'static str },
}

#[derive(Clone, Copy)]
pub(super) enum Metric {
    Mm(f64),
    Plain(&'static str),
}

impl Sample {
    pub(super) fn written(self, units: Units) -> String {
        match (self, units) {
            (Self::Plain(text), _) => text.to_owned(),
            (Self::Unit, unit) => format!("\"{}\"", unit.name()),
            (Self::Mm(mm), Units::In) => inches(mm),
            (Self::ByUnit { inch, .. }, Units::In) => inch.to_owned(),
            (Self::Mm(mm) | Self::ByUnit { metric: Metric::Mm(mm), .. }, unit) => {
                format!("{}", Length::from_mm(mm).to(unit))
            }
            (Self::ByUnit { metric: Metric::Plain(text), .. }, _) => text.to_owned(),
        }
    }
}

/// In inches as one writes them: measures of the body to a quarter, small ones to a sixteenth.
fn inches(mm: f64) -> String {
    let step = if mm >= 150.0 { 4 } else { 1 };
    let n = (mm / 25.4 * 16.0 / f64::from(step)).round() as i64 * i64::from(step);
    let (whole, rest) = (n / 16, n % 16);
    if rest == 0 {
        return whole.to_string();
    }
    let shift = rest.trailing_zeros();
    let fraction = format!("{}/{}", rest >> shift, 16 >> shift);
    if whole == 0 { format!("\"{fraction}\"") } else { format!("\"{whole} {fraction}\"") }
}

/// Is the key set in the sheet, or shown with `#` before it?
#[derive(Clone, Copy)]
pub(super) enum Demo {
    Set(Sample),
    Off(Sample, &'static str),
}

const fn set(text: &'static str) -> Option<Demo> {
    Some(Demo::Set(Sample::Plain(text)))
}

const fn set_mm(mm: f64) -> Option<Demo> {
    Some(Demo::Set(Sample::Mm(mm)))
}

const fn off(text: &'static str, note: &'static str) -> Option<Demo> {
    Some(Demo::Off(Sample::Plain(text), note))
}

const fn off_mm(mm: f64, note: &'static str) -> Option<Demo> {
    Some(Demo::Off(Sample::Mm(mm), note))
}

const BY_BASE: &str = "else from the base";

pub(super) fn demo(path: &str, key: &str) -> Option<Demo> {
    match path {
        "sheet" => demo_sheet(key),
        "body" => demo_body(key),
        "fabric" => demo_fabric(key),
        "style" => demo_style(key),
        "gusset" => demo_gusset(key),
        "seams" => demo_seams(key),
        "finish.top" => demo_top(key),
        "finish.legs" => demo_legs(key),
        "finish.left_leg" | "finish.right_leg" => demo_one_leg(key),
        "alternative" => demo_alternative(key),
        "elastic.soft 12" => demo_elastic(key, 12.0, 2.0),
        "elastic.soft 8" => demo_elastic(key, 8.0, 0.0),
        "print" => demo_print(key),
        "trial" => demo_trial(key),
        _ => None,
    }
}

fn demo_sheet(key: &str) -> Option<Demo> {
    match key {
        "version" => set("1"),
        "name" => set("\"my first pair\""),
        "units" => Some(Demo::Set(Sample::Unit)),
        "date" => off("2026-03-02", ""),
        _ => None,
    }
}

fn demo_body(key: &str) -> Option<Demo> {
    match key {
        "waist_girth" => set_mm(710.0),
        "waist_level" => set("\"natural\""),
        "hip_girth" => set_mm(970.0),
        "waist_to_hip" => set_mm(200.0),
        "crotch_length" => set_mm(710.0),
        "crotch_length_front" => off_mm(320.0, "else 45 % of the crotch length, with a warning"),
        "thigh_girth" => off_mm(580.0, "else estimated from the hip"),
        "waist_breadth" => off_mm(255.0, "else estimated from waist and hip"),
        "waist_depth" => off_mm(170.0, "else estimated from waist and hip"),
        "hip_breadth" => off_mm(340.0, "else estimated from waist and hip"),
        "hip_depth" => off_mm(215.0, "else estimated from waist and hip"),
        "top_edge_girth" => off_mm(830.0, "else worked out from waist and hip"),
        "leg_line_girth" => off_mm(610.0, "else the same draft without ease"),
        "elastic_top" => off_mm(760.0, "wanted for from = \"body\" below"),
        "child" => off("false", "default"),
        _ => None,
    }
}

fn demo_fabric(key: &str) -> Option<Demo> {
    const BY_STRETCH: &str = "else by stretch: under 25 % 0, 25–50 −4, 50–75 −8, more −10; woven +4";
    match key {
        "name" => set("\"cotton jersey\""),
        "kind" => set("\"knit\""),
        "stretch_across" => set("60"),
        "stretch_along" => set("35"),
        "width" => off_mm(1500.0, ""),
        "ease_across" => off("-8", BY_STRETCH),
        "ease_along" | "shrink_across" | "shrink_along" => off("0", "default"),
        _ => None,
    }
}

fn demo_style(key: &str) -> Option<Demo> {
    match key {
        "base" => set("\"brief\""),
        "top_drop_front" => off_mm(60.0, BY_BASE),
        "top_drop_side" => off_mm(50.0, BY_BASE),
        "top_drop_back" => off_mm(40.0, BY_BASE),
        "side_seam" => off_mm(90.0, BY_BASE),
        "front_scoop" => off("0.45", BY_BASE),
        "back_cover" => off("0.62", BY_BASE),
        "back_share" => off("0.52", BY_BASE),
        "leg_edge" => off_mm(560.0, "else as the shape gives it"),
        _ => None,
    }
}

fn demo_gusset(key: &str) -> Option<Demo> {
    const BY_BODY: &str = "else from the body and the base";
    match key {
        "length" => off_mm(140.0, BY_BODY),
        "width" => off_mm(65.0, BY_BODY),
        "front_width" => off_mm(75.0, BY_BODY),
        "back_width" => off_mm(120.0, BY_BODY),
        "forward" => off("0.4", "default"),
        "layers" => set("2"),
        "lining" => set("\"enclosed\""),
        _ => None,
    }
}

fn demo_seams(key: &str) -> Option<Demo> {
    match key {
        "kind" => set("\"overlock\""),
        "side" | "gusset" => {
            off_mm(7.0, "else by the kind of seam; knit overlocked 7 mm, zigzag 8, lockstitch 10; woven 12")
        }
        _ => None,
    }
}

fn demo_top(key: &str) -> Option<Demo> {
    match key {
        "kind" => set("\"turned\""),
        "elastic" => set("\"soft 12\""),
        "reduction" => set("8"),
        "length" => off_mm(760.0, "in place of reduction"),
        "from" => off("\"body\"", "in place of reduction"),
        "put_on" => set("\"flat\""),
        "sections" => off("{ back = 10 }", "front and back at the top"),
        "depth" => off_mm(10.0, "default"),
        "width" => off_mm(30.0, "default"),
        _ => demo_any_finish(key),
    }
}

fn demo_legs(key: &str) -> Option<Demo> {
    match key {
        "kind" => set("\"trim\""),
        "elastic" => set("\"soft 8\""),
        "reduction" => set("0"),
        "length" => off_mm(540.0, "in place of reduction"),
        "from" => None,
        "put_on" => set("\"flat\""),
        "sections" => off("{ back = 10 }", "the back of a leg can carry more"),
        "depth" => off_mm(7.0, "default"),
        "width" => off_mm(20.0, "default"),
        _ => demo_any_finish(key),
    }
}

/// Keys with the same default on every opening.
fn demo_any_finish(key: &str) -> Option<Demo> {
    match key {
        "marks" => set("\"quarters\""),
        "spread" => set("\"even\""),
        "overlap" => Some(Demo::Off(Sample::ByUnit { metric: Metric::Mm(20.0), inch: "1" }, "default")),
        "bite" => off_mm(3.0, "default"),
        "reach" => off("\"keep\"", "default"),
        "lap" => off_mm(6.0, "default"),
        "room" => off_mm(3.0, "default"),
        "catch" => off_mm(2.0, "default"),
        "turn" => off("0", "default"),
        _ => None,
    }
}

/// Only how one begins: it takes any key of a finish.
fn demo_alternative(key: &str) -> Option<Demo> {
    match key {
        "name" => off("\"bound legs\"", ""),
        "edge" => off("\"legs\"", ""),
        "kind" => off("\"binding\"", ""),
        "reduction" => off("5", ""),
        _ => None,
    }
}

fn demo_one_leg(key: &str) -> Option<Demo> {
    match key {
        "kind" => off("\"hem\"", ""),
        "depth" => off_mm(7.0, "default"),
        _ => None,
    }
}

fn demo_elastic(key: &str, width: f64, picot: f64) -> Option<Demo> {
    match key {
        "width" => set_mm(width),
        "picot" => Some(Demo::Set(Sample::Mm(picot))),
        "stretch" => set("100"),
        "growth" => off("0", "default"),
        "latex" => set("false"),
        "pull" => {
            off("[[25, 60], [50, 110], [100, 220]]", "the same in every unit; without it the pressure is unknown")
        }
        _ => None,
    }
}

fn demo_print(key: &str) -> Option<Demo> {
    match key {
        "paper" => Some(Demo::Set(Sample::ByUnit { metric: Metric::Plain("\"A4\""), inch: "\"Letter\"" })),
        "margin" | "overlap" => off_mm(10.0, "default"),
        _ => None,
    }
}

fn demo_trial(key: &str) -> Option<Demo> {
    match key {
        "date" => off("2026-03-02", ""),
        "edge" => off("\"left leg\"", ""),
        "reduction" => off("10", ""),
        "verdict" => off("\"tight\"", ""),
        "note" => off("\"marks after an hour\"", ""),
        _ => None,
    }
}
