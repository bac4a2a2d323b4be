//! Variants of a sheet.

use super::{Basis, Sheet, Variant};
use crate::base::Base;
use crate::finding::Level;
use crate::quantity::{Length, Ratio};
use crate::support;
use crate::{make, record};

fn sheet() -> Sheet {
    support::sheet(&support::ordinary(), Base::named("brief").unwrap())
}

/// Another body, with another finish.
fn larger(sheet: &Sheet) -> Variant {
    let mut variant = sheet.variant("larger");
    variant.body.hip_girth = Length::from_mm(sheet.body.hip_girth.mm() + 40.0);
    variant.finish.left_leg = support::finish("hem", "");
    variant.finish.right_leg = support::finish("hem", "");
    variant
}

#[test]
fn a_variant_is_the_garment_of_the_sheet_written_out_whole() {
    let own = sheet();
    let variant = larger(&own);
    let mut whole = own.clone();
    whole.name = format!("{} – larger", own.name);
    (whole.body, whole.finish) = (variant.body.clone(), variant.finish.clone());
    let with = Sheet { variants: vec![variant], ..own.clone() };
    let (with, plain, whole) = (make(&with).unwrap(), record(&own).unwrap(), make(&whole).unwrap());
    let [made] = with.garment.variants.as_slice() else { panic!("{:?}", with.garment.variants) };
    // Every number of the record, exactly.
    assert_eq!(format!("{:?}", made.garment), format!("{:?}", whole.garment));
    assert_eq!(format!("{:?}", with.drawing.variants[0].pieces), format!("{:?}", whole.drawing.pieces));
    assert_ne!(format!("{:?}", made.garment.pieces), format!("{:?}", plain.pieces));
    // The sheet itself is as it is without it.
    assert_eq!(format!("{:?}", with.garment.pieces), format!("{:?}", plain.pieces));
    assert_eq!(format!("{:?}", with.garment.used), format!("{:?}", plain.used));
}

/// What only the variant has is said with its name, and nothing of the sheet is said twice.
#[test]
fn findings_of_a_variant_carry_its_name() {
    let mut own = sheet();
    let plain = record(&own).unwrap().checks;
    let mut variant = own.variant("tight");
    variant.finish.top.basis = Some(Basis::Reduction(Ratio::from_percent(45.0)));
    own.variants.push(variant);
    let found = record(&own).unwrap().checks;
    assert_eq!(found[..plain.len()], plain[..]);
    let new = &found[plain.len()..];
    assert!(!new.is_empty() && new.iter().all(|f| f.variant.as_deref() == Some("tight")), "{new:?}");
}

#[test]
fn a_variant_that_cannot_be_made_refuses_the_sheet_by_its_name() {
    let mut own = sheet();
    let mut variant = own.variant("in inches");
    variant.body.hip_girth = Length::from_mm(own.body.hip_girth.mm() / 2.54);
    own.variants.push(variant);
    let refused = make(&own).unwrap_err();
    assert!(refused.findings.iter().any(|f| f.level == Level::Refusal));
    assert!(refused.all().all(|f| f.variant.as_deref() == Some("in inches")), "{:?}", refused.findings);
}
