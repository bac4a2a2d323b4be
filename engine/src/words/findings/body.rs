//! What is said of a body's measures.

use crate::finding::Misread;
use crate::finding::fact::{BodyFact, Likely, Odd};
use crate::population::{Measure, Study};
use crate::quantity::Units;
use crate::words::Speech;
use crate::words::number::{percent, short};

pub(super) fn text(say: Speech, fact: &BodyFact) -> String {
    match fact {
        BodyFact::OtherUnits { written, likely, odd } => {
            let list: Vec<String> = odd.iter().map(|o| as_written(*written, o)).collect();
            format!(
                "no published body has these measures in {}: {}; in {} they would be ordinary",
                written.plural(),
                list.join(", "),
                likely.plural()
            )
        }
        BodyFact::UnlikePublished { odd, likely, .. } => {
            let meant = likely.iter().map(|it| format!("; {} it would be an ordinary one", read(it.misread)));
            let (name, tape) = (name(odd.measure), say.tape(odd.mm));
            format!("a {name} of {tape} lies outside the range of published bodies{}", meant.collect::<String>())
        }
        BodyFact::OneInAnotherUnit { odd, deviations, study, likely } => format!(
            "{}; {} it would be an ordinary one",
            out_of_step(say, odd, *deviations, *study),
            read(likely.misread)
        ),
        BodyFact::Unusual { odd, deviations, study } => out_of_step(say, odd, *deviations, *study),
        BodyFact::HipLevelBelowLegs { depth, limit } => format!(
            "the hip level would lie {} below the waist level, but the legs divide before {}: that is half of the \
             crotch length",
            say.tape(*depth),
            say.tape(*limit)
        ),
        BodyFact::HipBelowWaist { waist, hip, likely, .. } => {
            let text =
                format!("the hip girth of {} is far below the waist girth of {}", say.tape(*hip), say.tape(*waist));
            match likely {
                Some(Likely { measure, misread, .. }) => {
                    format!("{text}; with the {} {} they would go together", name(*measure), read(*misread))
                }
                None => text,
            }
        }
        BodyFact::WaistOverHip { waist, hip } => format!(
            "a waist girth of {} over a hip girth of {} is found on hardly anybody",
            say.tape(*waist),
            say.tape(*hip)
        ),
        BodyFact::FrontEstimated { share, off_by } => format!(
            "the front part of the crotch length was taken as {} of the whole; half of all bodies are more than {} \
             off that",
            percent(100.0 * share),
            say.tape(*off_by)
        ),
        BodyFact::Child => "for a child: softer and looser, no elastic against the skin".to_owned(),
    }
}

fn out_of_step(say: Speech, odd: &Odd, deviations: f64, study: Study) -> String {
    let way = if deviations < 0.0 { "below" } else { "above" };
    let beside = if odd.measure == Measure::HipGirth { " beside such a waist" } else { "" };
    format!(
        "a {} of {} is {} standard deviations {way} what is found{beside} in {}",
        name(odd.measure),
        say.tape(odd.mm),
        short(deviations.abs(), 1),
        of(study)
    )
}

/// The number as it was written, without a unit: whether it is the right one is the question.
fn as_written(units: Units, odd: &Odd) -> String {
    format!("{} {}", name(odd.measure), Speech(units).as_written(odd.mm))
}

fn read(misread: Misread) -> String {
    match misread {
        Misread::MeasuredIn(units) => format!("read as {}", units.plural()),
        Misread::ConvertedTwice => "converted from inches only once".to_owned(),
    }
}

const fn name(measure: Measure) -> &'static str {
    match measure {
        Measure::WaistGirth => "waist girth",
        Measure::HipGirth => "hip girth",
        Measure::WaistToHip => "waist to hip",
        Measure::CrotchLength => "crotch length",
        Measure::CrotchLengthFront => "front part of the crotch length",
        Measure::ThighGirth => "thigh girth",
    }
}

const fn of(study: Study) -> &'static str {
    match study {
        Study::Ansur2 => "1,986 women, ANSUR II (Gordon et al. 2014)",
        Study::Ansur2Sample => "300 of the women of ANSUR II (Gordon et al. 2014)",
        Study::Heinz2003 => "260 women (Heinz et al. 2003)",
    }
}
