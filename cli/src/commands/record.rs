//! The record and parts of it, for those who pipe them.

use super::stop::Stop;
use engine::garment::{Finding, Garment};
use export::record::Part;

/// The whole record, as it is written to a file.
pub(super) fn whole(garment: &Garment) -> Result<String, Stop> {
    export::record::json(garment).map_err(|e| broken(&e))
}

/// These parts of the record, under its own head.
pub(super) fn parts(garment: &Garment, wanted: &[Part]) -> Result<String, Stop> {
    export::record::parts(garment, wanted).map_err(|e| broken(&e))
}

/// Findings alone, where there is no garment.
pub(super) fn findings(name: &str, findings: &[Finding]) -> Result<String, Stop> {
    export::record::findings(name, findings).map_err(|e| broken(&e))
}

pub(super) fn broken(cause: &dyn std::error::Error) -> Stop {
    Stop::plain(&cause.to_string(), "report it with the sheet: it is a fault of the program")
}
