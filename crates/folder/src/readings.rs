//! A file of readings from a field test, beside a station or anywhere.

use std::path::Path;

use station::readings::FieldTest;
use words::Message;

use crate::document;
use crate::reading::{Fault, OpenError, read_text};
use crate::source::Source;

/// Why there are no readings.
#[derive(Debug, thiserror::Error)]
pub enum ReadingsError {
    /// The file cannot be read.
    Open(#[from] OpenError),
    /// The file has faults.
    Faults {
        /// All of them.
        faults: Vec<Fault>,
    },
}

impl From<&ReadingsError> for Message {
    fn from(error: &ReadingsError) -> Self {
        match error {
            ReadingsError::Open(error) => error.into(),
            ReadingsError::Faults { faults } => {
                Message::new("readings-faults").count("count", faults.len() as i64)
            }
        }
    }
}

words::said_in_english!(ReadingsError);

/// Reads the readings of a text.
///
/// # Errors
/// Every fault, with its place.
pub fn of_source(source: &Source) -> Result<FieldTest, Vec<Fault>> {
    let (node, syntax) = document::parse(source.text());
    let model = match FieldTest::read(&node) {
        Ok(test) if syntax.is_empty() => return Ok(test),
        Ok(_) => Vec::new(),
        Err(faults) => faults,
    };
    let all = syntax.into_iter().chain(model);
    Err(all.map(|f| Fault::placed(source, f)).collect())
}

/// Reads a file of readings.
///
/// # Errors
/// [`ReadingsError`]: the file cannot be opened, or every fault in it.
pub fn open(path: &Path) -> Result<FieldTest, ReadingsError> {
    let name = path
        .file_name()
        .map_or_else(String::new, |n| n.to_string_lossy().into_owned());
    let source = Source::new(name, read_text(path)?.0);
    of_source(&source).map_err(|faults| ReadingsError::Faults { faults })
}
