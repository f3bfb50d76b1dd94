//! The papers as the desk lists and writes them.

use crate::office::{Assessed, Office};
use std::path::Path;

/// Name, title and content of every paper.
pub fn names() -> Vec<(&'static str, &'static str, &'static str)> {
    Vec::new()
}

/// Writes every paper into a folder.
///
/// # Errors
/// What kept a paper from being made or written.
pub fn write(_: &Office, _: &Assessed, folder: &Path) -> Result<(), std::io::Error> {
    std::fs::create_dir_all(folder)
}
