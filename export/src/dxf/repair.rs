//! x
use super::{DxfError, tags};
pub(super) fn r2000(bytes: &[u8]) -> Result<Vec<u8>, DxfError> { Ok(tags::write(&tags::read(bytes)?)) }
pub(super) fn r12(bytes: &[u8]) -> Result<Vec<u8>, DxfError> { Ok(tags::write(&tags::read(bytes)?)) }
