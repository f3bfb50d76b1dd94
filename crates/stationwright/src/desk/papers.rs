//! The papers as the desk lists and writes them: those made for the client.

use super::words_of;
use crate::commands::papers as command;
use crate::office::{Assessed, Office};
use papers::{Audience, Paper as Made};
use server::desk::Refusal;
use server::paper::{Paper, PaperFile, PaperState};
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

static LIST: LazyLock<Vec<(&'static str, String, String)>> = LazyLock::new(|| {
    let client = papers::all().iter().filter(|p| is_clients(p));
    client
        .map(|p| (p.file, words_of(p.code), words_of(p.says)))
        .collect()
});

fn is_clients(paper: &Made) -> bool {
    paper.audience == Audience::Client
}

/// Name, title and content of every paper.
fn names() -> Vec<(&'static str, &'static str, &'static str)> {
    LIST.iter()
        .map(|(name, title, says)| (*name, title.as_str(), says.as_str()))
        .collect()
}

/// Writes every paper into a folder; which were written.
///
/// # Errors
/// What kept a paper from being made or written.
fn write(office: &Office, assessed: &Assessed, folder: &Path) -> Result<Vec<PathBuf>, command::WriteError> {
    command::write(office, assessed, folder, is_clients)
}

/// The papers with their state, beside the station as it stands.
pub fn listed(folder: &Path, assessed: &Assessed) -> Vec<Paper> {
    names()
        .into_iter()
        .map(|(name, title, says)| paper(folder, assessed, name, title, says))
        .collect()
}

/// One paper that has been written.
///
/// # Errors
/// [`Refusal`]: no such paper, or not written yet.
pub fn one(folder: &Path, name: &str) -> Result<PaperFile, Refusal> {
    let known = names();
    let known = known.iter().find(|p| p.0 == name).ok_or_else(|| {
        let message = words::Message::new("desk-no-such-paper").text("name", name);
        Refusal::new("not-found", words::said(&message, words::Language::English))
    })?;
    let bytes = std::fs::read(folder.join(known.0))
        .map_err(|_| Refusal::new("not-found", words_of("desk-paper-not-written")))?;
    Ok(PaperFile {
        media_type: media_type(known.0).into(),
        name: known.0.into(),
        bytes,
    })
}

/// Writes every paper and notes of which station they are.
///
/// # Errors
/// [`Refusal`], saying what could not be written.
pub fn write_all(office: &Office, assessed: &Assessed, folder: &Path) -> Result<(), Refusal> {
    let failed = |why: &dyn std::fmt::Display| Refusal::new("failed", why.to_string());
    let written = write(office, assessed, folder).map_err(|e| failed(&e))?;
    let mut stamp = assessed.sheet.digest.clone();
    for name in written.iter().filter_map(|path| path.file_name()?.to_str()) {
        stamp = format!("{stamp}\n{name}");
    }
    std::fs::write(folder.join(STAMP), stamp).map_err(|e| failed(&e))
}

/// File beside the papers: the digest of the station they are of, then the name of each that was written of it.
const STAMP: &str = ".of";

fn paper(folder: &Path, assessed: &Assessed, name: &str, title: &str, says: &str) -> Paper {
    let about = std::fs::metadata(folder.join(name)).ok();
    let of = std::fs::read_to_string(folder.join(STAMP)).unwrap_or_default();
    let mut lines = of.lines();
    let of_this = lines.next() == Some(assessed.sheet.digest.as_str()) && lines.any(|line| line == name);
    let state = match (&about, of_this) {
        (None, _) => PaperState::Missing,
        (Some(_), true) => PaperState::Ready,
        (Some(_), false) => PaperState::Old,
    };
    Paper {
        name: name.into(),
        title: title.into(),
        says: says.into(),
        format: name.rsplit('.').next().unwrap_or_default().to_uppercase(),
        state,
        why: None,
        size: about.map(|a| format!("{} kB", a.len().div_ceil(1000))),
        written: None,
    }
}

fn media_type(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("pdf") => "application/pdf",
        Some("xlsx") => "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
        Some("svg") => "image/svg+xml",
        Some("png") => "image/png",
        Some("tif") => "image/tiff",
        Some("geojson") => "application/geo+json",
        Some("kml") => "application/vnd.google-earth.kml+xml",
        Some("csv") => "text/csv",
        _ => "application/octet-stream",
    }
}
