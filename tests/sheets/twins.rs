//! One sheet in inches and in centimetres.

use engine::sheet::Sheet;
use serde_json::Value;

/// The same lengths in inches and in centimetres; `overlap` is given, since its default is a
/// round length in either unit.
const TWINS: [(&str, [&str; 8]); 2] = [
    ("in", ["\"29 1/2\"", "39.5", "\"8 1/4\"", "28", "\"12 3/4\"", "\"1/2\"", "\"5/16\"", "\"3/4\""]),
    ("cm", ["74.93", "100.33", "20.955", "71.12", "32.385", "1.27", "0.79375", "1.905"]),
];

fn twin((units, [waist, hip, down, crotch, front, wide, narrow, overlap]): &(&str, [&str; 8])) -> Sheet {
    let text = format!(
        "[sheet]\nversion = 1\nname = \"twin\"\nunits = \"{units}\"\n[body]\nwaist_girth = {waist}\nhip_girth = {hip}\n\
         waist_to_hip = {down}\ncrotch_length = {crotch}\ncrotch_length_front = {front}\n[fabric]\nstretch_across = 60\n\
         stretch_along = 40\n[style]\nbase = \"brief\"\n[finish.top]\nkind = \"turned\"\nelastic = \"wide\"\n\
         reduction = 8\nput_on = \"round\"\noverlap = {overlap}\n[finish.legs]\nkind = \"trim\"\nelastic = \"narrow\"\n\
         reduction = 5\noverlap = {overlap}\n[elastic.wide]\nwidth = {wide}\n[elastic.narrow]\nwidth = {narrow}\n"
    );
    quarterpin::sheet::read(&text, "twin.toml").unwrap_or_else(|e| panic!("{e}"))
}

/// Keys of the record that hold sentences; everything else is numbers, curves and names.
const TEXTS: [&str; 8] = ["text", "next", "joining", "does", "title", "caution", "because", "note"];

fn without_texts(value: &mut Value) {
    match value {
        Value::Object(fields) => {
            fields.retain(|key, _| !TEXTS.contains(&key.as_str()));
            fields.values_mut().for_each(without_texts);
        }
        Value::Array(items) => items.iter_mut().for_each(without_texts),
        _ => {}
    }
}

/// The twins give the same numbers, curves and cutter files; their texts speak another unit.
#[test]
fn an_inch_sheet_and_its_centimetre_twin_give_the_same_garment() {
    let files = TWINS.iter().map(|t| {
        let made = engine::make(&twin(t)).expect("an ordinary body");
        let text = export::record::json(&made.garment).expect("a record");
        let mut record: Value = serde_json::from_str(&text).expect("JSON");
        without_texts(&mut record);
        // Shops sell by the tenth of a metre, or by the eighth of a yard.
        for elastic in record["shopping"]["elastic"].as_array_mut().expect("elastics") {
            assert!(elastic.as_object_mut().expect("an object").remove("length_mm").is_some());
        }
        let drawing = &made.drawing;
        let cut = export::dxf::cut(drawing, &export::dxf::Options::default()).expect("a cutter file");
        let plotted = export::hpgl::hpgl(drawing, &export::cutter::Cutting::default()).expect("a plotter file");
        (record, cut.bytes, plotted, text)
    });
    let files: Vec<_> = files.collect();
    assert!(files[0].0 == files[1].0, "numbers and curves");
    assert!(files[0].1 == files[1].1 && files[0].2 == files[1].2, "files for cutters, byte for byte");
    assert!(files[0].3 != files[1].3, "and the texts in another unit");
    assert!(files[0].3.contains("749.3"), "the waist in millimetres");
}
