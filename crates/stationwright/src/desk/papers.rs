//! The papers as the desk lists and writes them: those made for the client.

use super::{view, words_of};
use crate::commands::papers as command;
use crate::office::{Assessed, Office};
use papers::{Audience, Paper as Made};
use server::desk::Refusal;
use server::paper::{Paper, PaperFile, PaperState};
use std::path::{Path, PathBuf};
use words::{Language, Message, said};

fn is_clients(paper: &Made) -> bool {
    paper.audience == Audience::Client
}

fn clients() -> impl Iterator<Item = &'static Made> {
    papers::all().iter().filter(|p| is_clients(p))
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
    clients().map(|made| paper(folder, assessed, made)).collect()
}

/// One paper that has been written.
///
/// # Errors
/// [`Refusal`]: no such paper, or not written yet.
pub fn one(folder: &Path, name: &str) -> Result<PaperFile, Refusal> {
    let known = clients().find(|p| p.file == name).ok_or_else(|| {
        let message = Message::new("desk-no-such-paper").text("name", name);
        Refusal::new("not-found", message)
    })?;
    let bytes = std::fs::read(folder.join(known.file))
        .map_err(|_| Refusal::new("not-found", Message::new("desk-paper-not-written")))?;
    Ok(PaperFile {
        media_type: media_type(known.file).into(),
        name: known.file.into(),
        bytes,
    })
}

/// Writes every paper and notes of which station they are.
///
/// # Errors
/// [`Refusal`], saying what could not be written.
pub fn write_all(office: &Office, assessed: &Assessed, folder: &Path) -> Result<(), Refusal> {
    let written = write(office, assessed, folder).map_err(|e| Refusal::new("failed", &e))?;
    let mut stamp = assessed.sheet.digest.clone();
    for name in written.iter().filter_map(|path| path.file_name()?.to_str()) {
        stamp = format!("{stamp}\n{name}");
    }
    std::fs::write(folder.join(STAMP), stamp).map_err(|e| Refusal::new("failed", Message::foreign(e)))
}

/// File beside the papers: the digest of the station they are of, then the name of each that was written of it.
const STAMP: &str = ".of";

fn paper(folder: &Path, assessed: &Assessed, made: &Made) -> Paper {
    let (name, language) = (made.file, view::language(assessed));
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
        title: words_of(made.code, language),
        says: words_of(made.says, language),
        format: name.rsplit('.').next().unwrap_or_default().to_uppercase(),
        state,
        why: None,
        size: about.map(|a| size(a.len(), language)),
        written: None,
    }
}

fn size(bytes: u64, language: Language) -> String {
    let size = Message::new("paper-size").count("size", bytes.div_ceil(1000) as i64);
    said(&size, language)
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
