//! Other finishes for the same garment.

use super::*;
use engine::finding::fact::BodyFact;
use engine::finding::{Finding, Place};
use engine::keys::{body, finish};
use engine::sheet::Opening;

const BOUND: &str = "\n[[alternative]]\nname = \"bound\"\nedge = \"legs\"\nkind = \"binding\"\nreduction = 5\n";
const BANDED: &str = "\n[[alternative]]\nname = \"banded\"\nedge = \"top edge\"\nkind = \"band\"\nwidth = 3\n\
                      \n[[alternative]]\nname = \"banded\"\nedge = \"left leg\"\nkind = \"hem\"\n";

fn with(blocks: &str) -> String {
    format!("{GOOD}{blocks}")
}

#[test]
fn they_lie_over_the_finishes_of_the_sheet() {
    let sheet = good(&with(&format!("{BOUND}{BANDED}")));
    let [bound, banded] = sheet.variants.as_slice() else { panic!("{:?}", sheet.variants) };
    assert_eq!((bound.name.as_str(), banded.name.as_str()), ("bound", "banded"));
    let kinds = |finish: &engine::sheet::PerOpening<engine::sheet::FinishSpec>| {
        Opening::ALL.map(|opening| finish.get(opening).kind.name())
    };
    assert_eq!(kinds(&sheet.finish), ["turned", "trim", "trim"]);
    assert_eq!(kinds(&bound.finish), ["turned", "binding", "binding"]);
    assert_eq!(kinds(&banded.finish), ["band", "hem", "trim"]);
    // What is not said anew stays: the elastic, and the sections.
    assert_eq!(bound.finish.left_leg.elastic.as_deref(), Some("soft 8"));
    assert_eq!(bound.finish.left_leg.sections, sheet.finish.left_leg.sections);
    assert_eq!(bound.finish.top, sheet.finish.top);
    assert_eq!(banded.finish.right_leg, sheet.finish.right_leg);
}

#[test]
fn one_leg_lies_over_both_whatever_comes_first() {
    let leg = "\n[[alternative]]\nname = \"bound\"\nedge = \"left leg\"\nkind = \"hem\"\n";
    let sheets = [format!("{BOUND}{leg}"), format!("{leg}{BOUND}")].map(|blocks| good(&with(&blocks)));
    for sheet in &sheets {
        let finish = &sheet.variants[0].finish;
        assert_eq!((finish.left_leg.kind.name(), finish.right_leg.kind.name()), ("hem", "binding"));
    }
}

/// The sheet with these blocks is refused for one reason; answers with the key and all words.
fn refused(blocks: &str) -> (String, String) {
    let source = with(blocks);
    let problems = read(&source, "x").unwrap_err();
    let [problem] = problems.list() else { panic!("{}", problems.render(&source, "x", false)) };
    (problem.key.clone(), problems.render(&source, "x", false))
}

#[test]
fn what_is_wrong_in_one_is_said_where_it_is() {
    let cases = [
        ("name = \"bound\"\n", "", "alternative.1.name", "`name` is missing"),
        ("edge = \"legs\"\n", "", "alternative.1.edge", "`edge` is missing"),
        ("\"legs\"", "\"waist\"", "alternative.1.edge", "\"top edge\", \"legs\", \"left leg\" or \"right leg\""),
        ("reduction = 5", "depth = 1", "alternative.1.depth", "means nothing to the finish \"binding\""),
        ("reduction = 5", "elastic = \"sfot 8\"", "alternative.1.elastic", "did you mean \"soft 8\"?"),
        ("reduction = 5", "from = \"body\"", "alternative.1.from", "for the top edge only"),
        ("reduction = 5", "reduction = 5\nlength = 50", "alternative.1.length", "given in two ways"),
        ("reduction = 5", "redcution = 5", "alternative.1.redcution", "did you mean `reduction`?"),
    ];
    for (find, put, key, says) in cases {
        let (at, shown) = refused(&BOUND.replace(find, put));
        assert!(at == key && shown.contains(says), "{key}: {at}\n{shown}");
    }
}

#[test]
fn an_edge_has_one_finish_in_an_alternative() {
    let (key, shown) = refused(&BOUND.repeat(2));
    assert_eq!(key, "alternative.2.edge", "{shown}");
    assert!(shown.contains("finishes one edge in two ways"), "{shown}");
}

#[test]
fn more_than_eight_are_too_many() {
    let blocks = |n: usize| (0..n).map(|i| BOUND.replace("bound", &format!("bound {i}"))).collect::<String>();
    assert_eq!(good(&with(&blocks(8))).variants.len(), 8);
    let (key, shown) = refused(&blocks(9));
    assert_eq!(key, "alternative.9", "{shown}");
}

#[test]
fn names_that_make_the_same_files_are_told_apart() {
    for other in ["Bound", "bound!"] {
        let second = BOUND.replace("\"bound\"", &format!("\"{other}\""));
        let (key, shown) = refused(&format!("{BOUND}{second}"));
        assert!(key == "alternative.2.name" && shown.contains("would have the same files"), "{other}: {shown}");
    }
}

#[test]
fn a_place_in_an_alternative_is_found_in_its_blocks() {
    let source = with(&format!("{BOUND}{BANDED}"));
    let at = |name: Option<&str>, place: Place| {
        let mut found = Finding::from(BodyFact::Child);
        (found.place, found.variant) = (place, name.map(str::to_owned));
        locate_place(&source, &found).map(|span| &source[span])
    };
    let (left, right) = (Opening::LeftLeg, Opening::RightLeg);
    assert_eq!(at(Some("bound"), finish::REDUCTION.on(left).into()), Some("5"));
    assert_eq!(at(Some("bound"), left.into()), Some("\"binding\""));
    assert_eq!(at(Some("banded"), finish::PUT_ON.on(left).into()), Some("\"hem\""));
    // What no block of it says is where the sheet says it.
    assert_eq!(at(Some("banded"), right.into()), at(None, right.into()));
    assert_eq!(at(Some("banded"), body::HIP_GIRTH.into()), Some("99"));
    // A name is data, whatever is in it.
    let quoted = source.replace("\"bound\"", "\"bound”, \\\" odd\"");
    let mut found = Finding::from(BodyFact::Child);
    (found.place, found.variant) = (left.into(), Some("bound”, \" odd".to_owned()));
    assert_eq!(locate_place(&quoted, &found).map(|span| &quoted[span]), Some("\"binding\""));
}
