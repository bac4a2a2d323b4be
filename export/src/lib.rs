//! x
pub mod record;
