//! The papers as the desk lists and writes them: those made for the client.

use super::handles::words_of;
use crate::commands::papers as command;
use crate::office::{Assessed, Office};
use papers::{Audience, Paper};
use std::path::Path;
use std::sync::LazyLock;

static LIST: LazyLock<Vec<(&'static str, String, String)>> = LazyLock::new(|| {
    let client = papers::all().iter().filter(|p| is_clients(p));
    client
        .map(|p| (p.file, words_of(p.code), words_of(p.says)))
        .collect()
});

fn is_clients(paper: &Paper) -> bool {
    paper.audience == Audience::Client
}

/// Name, title and content of every paper.
pub fn names() -> Vec<(&'static str, &'static str, &'static str)> {
    LIST.iter()
        .map(|(name, title, says)| (*name, title.as_str(), says.as_str()))
        .collect()
}

/// Writes every paper into a folder.
///
/// # Errors
/// What kept a paper from being made or written.
pub fn write(office: &Office, assessed: &Assessed, folder: &Path) -> Result<(), command::WriteError> {
    command::write(office, assessed, folder, is_clients).map(|_| ())
}
