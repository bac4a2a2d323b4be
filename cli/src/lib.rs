//! x

pub mod sheet;
pub mod template;
