//! The station file as text.

use crate::view::View;
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// The file's text and what it is known by.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct FileText {
    /// Its name.
    pub name: String,
    /// Its text.
    pub text: String,
    /// Digest of the text.
    pub digest: String,
}

/// A text to be written, and the digest of the one it was begun from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct FileWish {
    /// The whole text.
    pub text: String,
    /// Digest of the text it was begun from.
    pub base: String,
}

/// What became of a text.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Saved {
    /// It is on disk; the view is of it.
    Taken {
        /// The station now.
        view: Box<View>,
        /// Digest of the text now on disk.
        digest: String,
    },
    /// It has faults and was not written.
    Faults {
        /// All of them, in order of the text.
        faults: Vec<Fault>,
    },
    /// The file was changed meanwhile and was not overwritten.
    Changed {
        /// What stands on disk.
        theirs: FileText,
        /// What differs, in words.
        says: Vec<String>,
    },
}

/// One fault of the text.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, ToSchema)]
pub struct Fault {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Length of what is wrong, in characters.
    pub length: usize,
    /// What stands there and what was expected.
    pub says: String,
    /// How to mend it.
    pub help: Option<String>,
}
