//! From the trials of a sheet to the next setting.
