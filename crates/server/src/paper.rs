//! The papers of a station.

use serde::Serialize;
use utoipa::ToSchema;

/// One paper and how it stands.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct Paper {
    /// File name, such as `offer.pdf`.
    pub name: String,
    /// What it is, such as `Offer`.
    pub title: String,
    /// What is in it, in a sentence.
    pub says: String,
    /// Format in words, such as `PDF`.
    pub format: String,
    /// How it stands.
    pub state: PaperState,
    /// Why it is not ready, or since when it is old.
    pub why: Option<String>,
    /// Size, said.
    pub size: Option<String>,
    /// When it was written, said.
    pub written: Option<String>,
}

/// How a paper stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PaperState {
    /// It says what the station is now.
    Ready,
    /// The station was changed since.
    Old,
    /// It has not been written.
    Missing,
}

/// A paper's bytes.
#[derive(Debug, Clone, PartialEq)]
pub struct PaperFile {
    /// Media type, such as `application/pdf`.
    pub media_type: String,
    /// Name to save it under.
    pub name: String,
    /// The bytes.
    pub bytes: Vec<u8>,
}
