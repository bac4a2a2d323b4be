//! Variants: the same sheet with something changed.

use super::*;
use engine::finding::fact::BodyFact;
use engine::finding::{Finding, Place};
use engine::keys::{body, fabric, finish, gusset};
use engine::sheet::WaistLevel;
use engine::topology::PieceId;

const LARGER: &str = "\n[[variant]]\nname = \"a size up\"\nbody.hip_girth = 104\nbody.waist_level = \"navel\"\n\
                      fabric.stretch_across = 70\nstyle.base = \"tanga\"\ngusset.layers = 1\n";
const BOUND: &str = "\n[[variant]]\nname = \"bound\"\nbody.hip_girth = 104\n\
                     finish.legs = { kind = \"binding\", reduction = 5 }\nfinish.left_leg.kind = \"hem\"\n";

fn with(blocks: &str) -> String {
    format!("{GOOD}{blocks}")
}

#[test]
fn its_keys_lie_over_those_of_the_sheet_one_by_one() {
    let sheet = good(&with(&format!("{LARGER}{BOUND}")));
    let [larger, bound] = sheet.variants.as_slice() else { panic!("{:?}", sheet.variants) };
    assert_eq!((larger.name.as_str(), bound.name.as_str()), ("a size up", "bound"));
    assert_eq!(larger.body.hip_girth, Length::from_mm(1040.0));
    assert_eq!(larger.body.waist_level, Some(WaistLevel::Navel));
    assert_eq!(larger.body.waist_girth, sheet.body.waist_girth);
    assert_eq!(
        (larger.fabric.stretch_across.percent(), larger.fabric.stretch_along),
        (70.0, sheet.fabric.stretch_along)
    );
    assert_eq!((larger.style.base.name(), sheet.style.base.name()), ("tanga", "brief"));
    assert_eq!((larger.gusset.layers, larger.gusset.width), (Some(1), sheet.gusset.width));
    assert_eq!(larger.finish, sheet.finish);
    let kinds = Opening::ALL.map(|opening| bound.finish.get(opening).kind.name());
    assert_eq!(kinds, ["turned", "hem", "binding"]);
    assert_eq!(bound.finish.right_leg.elastic.as_deref(), Some("soft 8"));
    assert_eq!(bound.finish.top, sheet.finish.top);
    assert_eq!(sheet.body.hip_girth, Length::from_mm(990.0));
}

/// The sheet of a variant is the sheet written out whole.
#[test]
fn it_is_the_sheet_written_out_whole() {
    let sheet = good(&with(BOUND));
    let whole = with("\n[finish.left_leg]\nkind = \"hem\"\n")
        .replace("name = \"bench test\"", "name = \"bench test – bound\"")
        .replace("hip_girth = 99", "hip_girth = 104")
        .replace(
            "kind = \"trim\"\nelastic = \"soft 8\"\nreduction = 0",
            "kind = \"binding\"\nelastic = \"soft 8\"\nreduction = 5",
        );
    // A hem takes no elastic: the leg alone leaves the keys of both behind.
    assert_eq!(shown(&sheet.taking(&sheet.variants[0])), shown(&good(&whole)));
}

#[test]
fn however_its_keys_are_written_they_are_the_same() {
    let headed = "\n[[variant]]\nname = \"bound\"\n[variant.body]\nhip_girth = 104\n[variant.finish.left_leg]\n\
                  kind = \"hem\"\n[variant.finish.legs]\nkind = \"binding\"\nreduction = 5\n";
    assert_eq!(shown(&good(&with(headed))), shown(&good(&with(BOUND))));
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
        ("name = \"bound\"\n", "", "variant.1.name", "`name` is missing"),
        ("body.hip_girth = 104", "body.hip_grith = 104", "variant.1.body.hip_grith", "did you mean `hip_girth`?"),
        ("body.hip_girth = 104", "body.hip_girth = 5000", "variant.1.body.hip_girth", "out of range"),
        ("body.hip_girth = 104", "body.hip_girth = \"wide\"", "variant.1.body.hip_girth", "`hip_girth`"),
        ("body.hip_girth = 104", "hip_girth = 104", "variant.1.hip_girth", "did you mean `body.hip_girth`?"),
        ("body.hip_girth = 104", "body.base = \"tanga\"", "variant.1.body.base", "unknown key `base` in [body]"),
        ("body.hip_girth = 104", "bdoy.hip_girth = 104", "variant.1.bdoy", "did you mean `body`?"),
        ("body.hip_girth = 104", "body = 104", "variant.1.body", "such as body.waist_girth"),
        (
            "body.hip_girth = 104",
            "seams.side = 1",
            "variant.1.seams",
            "a variant knows name, body, fabric, style, gusset, finish",
        ),
        ("body.hip_girth = 104", "kind = \"knit\"", "variant.1.kind", "fabric.kind"),
        ("body.hip_girth = 104", "finish.lges.kind = \"hem\"", "variant.1.finish.lges", "did you mean `legs`?"),
        (
            "finish.left_leg.kind = \"hem\"",
            "finish.left_leg.kind = \"hme\"",
            "variant.1.finish.left_leg.kind",
            "\"hem\"",
        ),
        ("reduction = 5", "depth = 1", "variant.1.finish.legs.depth", "means nothing to the finish \"binding\""),
        ("reduction = 5", "elastic = \"sfot 8\"", "variant.1.finish.legs.elastic", "did you mean \"soft 8\"?"),
        ("reduction = 5", "from = \"body\"", "variant.1.finish.legs.from", "for the top edge only"),
        ("reduction = 5", "reduction = 5, length = 50", "variant.1.finish.legs.length", "given in two ways"),
    ];
    for (find, put, key, says) in cases {
        let (at, shown) = refused(&BOUND.replace(find, put));
        assert!(at == key && shown.contains(says), "{key}: {at}\n{shown}");
    }
}

#[test]
fn one_that_changes_nothing_is_refused() {
    for nothing in ["", "body = {}\n", "finish.legs = {}\n"] {
        let (key, shown) = refused(&format!("\n[[variant]]\nname = \"same\"\n{nothing}"));
        assert!(key == "variant.1" && shown.contains("what the variant changes is missing"), "{shown}");
    }
}

/// A measurement that only the variant has is enough for its elastic.
#[test]
fn a_length_from_the_body_may_come_with_the_variant() {
    let source = with("\n[[variant]]\nname = \"x\"\nbody.elastic_top = 80\nfinish.top.from = \"body\"\n").replacen(
        "elastic_top = 80\n",
        "",
        1,
    );
    let sheet = good(&source);
    assert_eq!(sheet.body.elastic_top, None);
    assert_eq!(sheet.variants[0].finish.top.basis, Some(Basis::Body));
    assert_eq!(sheet.variants[0].body.elastic_top, Some(Length::from_mm(800.0)));
}

#[test]
fn names_are_told_apart_from_each_other_and_from_alternatives() {
    let alternative = "\n[[alternative]]\nname = \"bound\"\nedge = \"legs\"\nkind = \"hem\"\n";
    for (blocks, at) in [
        (BOUND.repeat(2), "variant.2.name"),
        (format!("{alternative}{BOUND}"), "variant.1.name"),
        (format!("{BOUND}{alternative}"), "alternative.1.name"),
    ] {
        let (key, shown) = refused(&blocks);
        assert!(key == at && shown.contains("two variants are called `bound`"), "{shown}");
    }
    let (key, shown) = refused(&format!("{BOUND}{}", BOUND.replace("\"bound\"", "\"Bound!\"")));
    assert!(key == "variant.2.name" && shown.contains("would have the same files"), "{shown}");
}

#[test]
fn eight_of_either_kind_in_the_order_of_the_file() {
    let variant = |i: usize| BOUND.replace("bound", &format!("bound {i}"));
    let alternative = |i: usize| format!("\n[[alternative]]\nname = \"other {i}\"\nedge = \"legs\"\nkind = \"hem\"\n");
    let blocks: String = (0..4).map(|i| alternative(i) + &variant(i)).collect();
    let names: Vec<String> = good(&with(&blocks)).variants.into_iter().map(|v| v.name).collect();
    assert_eq!(names[..3], ["other 0", "bound 0", "other 1"]);
    assert_eq!(names.len(), 8);
    let (key, shown) = refused(&(blocks + &variant(4)));
    assert!(key == "variant.5" && shown.contains("more than 8 variants"), "{shown}");
}

#[test]
fn a_place_in_a_variant_is_found_in_its_block() {
    let source = with(&format!("{LARGER}{BOUND}"));
    let at = |name: Option<&str>, place: Place| {
        let mut found = Finding::from(BodyFact::Child);
        (found.place, found.variant) = (place, name.map(str::to_owned));
        locate_place(&source, &found).map(|span| source[span].to_owned())
    };
    let line = |name, place| at(name, place).unwrap_or_default();
    assert_eq!(line(None, body::HIP_GIRTH.into()), "99");
    assert_eq!(line(Some("bound"), body::HIP_GIRTH.into()), "104");
    assert_eq!(line(Some("a size up"), fabric::STRETCH_ACROSS.into()), "70");
    // What the variant leaves as it is stands in the sheet.
    assert_eq!(line(Some("bound"), body::WAIST_GIRTH.into()), "74.5");
    assert_eq!(line(Some("bound"), fabric::STRETCH_ACROSS.into()), "60");
    // An edge stands for its finish, and both legs for each.
    assert_eq!(line(Some("bound"), finish::REDUCTION.on(Opening::RightLeg).into()), "5");
    assert_eq!(line(Some("bound"), finish::BITE.on(Opening::LeftLeg).into()), "\"hem\"");
    assert_eq!(line(Some("a size up"), finish::KIND.on(Opening::RightLeg).into()), "\"trim\"");
    // What nobody wrote, and parts of the garment, are the variant's as a whole.
    assert_eq!(line(Some("bound"), gusset::LENGTH.into()), "[[variant]]");
    assert_eq!(line(Some("bound"), PieceId::Front.into()), "[[variant]]");
    assert_eq!(at(None, PieceId::Front.into()), None);
}
