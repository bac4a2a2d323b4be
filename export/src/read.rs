//! Reading back: outlines of a DXF or SVG, and the lengths of their edges.
//!
//! Files may come from anywhere. Nothing in here trusts a count, an index or an order that a file
//! claims, and nothing is read that is larger than [`LARGEST`] or has more of something than any
//! pattern has: time and memory follow the size of the file.

mod chain;
pub(crate) mod dxf;
mod edges;
#[cfg(test)]
mod hostile;
pub(crate) mod limits;
mod outlines;
pub(crate) mod records;
mod spline;
mod svg;
#[cfg(test)]
mod tests;
mod walk;

pub use edges::{EdgeLength, Found};
pub use outlines::{Format, Outlines, ReadError, ReadLine};
pub use walk::{BandLengths, Ring, SeamLengths, Walked, walk};
pub(crate) use walk::{LINES, Lying, all_openings, all_seams};

/// Larger files are not read, bytes: a pattern of ours has less than one million.
pub const LARGEST: u64 = 20_000_000;

/// Reads a file's outlines.
///
/// # Errors
/// [`ReadError`], each saying what to do.
pub fn read(bytes: &[u8], format: Format) -> Result<Outlines, ReadError> {
    let size = bytes.len() as u64;
    if size > LARGEST {
        return Err(ReadError::TooLarge(size));
    }
    let found = match format {
        Format::Dxf => dxf::look(bytes, |file| Ok(dxf::outlines(file)))?,
        Format::Svg => svg::outlines(std::str::from_utf8(bytes).map_err(|_| ReadError::NotText)?)?,
    };
    if found.lines.is_empty() { Err(ReadError::NoOutlines) } else { Ok(found) }
}
