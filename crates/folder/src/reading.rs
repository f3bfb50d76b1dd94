//! From a file to a station: what could be read, and every complaint with line and column.

use std::fmt;
use std::path::{Path, PathBuf};

use serde::Serialize;
use station::Station;
use station::document::{Node, Span};
use station::read::complaint;

use crate::document;
use crate::save::Digest;
use crate::source::Source;
use words::{Language, Message, said};

/// One complaint about a file, with its place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Fault {
    /// The file's name.
    pub file: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Bytes in the text.
    pub span: Span,
    /// The text that is complained about.
    pub text: String,
    /// Dotted path of the key, empty for faults of syntax.
    pub path: String,
    /// What is wrong.
    pub what: Message,
    /// How to mend it, where that is known.
    pub help: Option<Message>,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.said(Language::English))
    }
}

impl Fault {
    /// The complaint in a language, with its place: `station.toml:3:7  ...; ...`.
    pub fn said(&self, language: Language) -> String {
        said(&self.into(), language)
    }

    /// Gives a complaint of the model or of the syntax its line, column and text.
    pub fn placed(source: &Source, fault: station::Fault) -> Self {
        let (line, column) = source.position(fault.span.start);
        let text = source
            .slice(fault.span.start, fault.span.end)
            .lines()
            .next()
            .unwrap_or("")
            .to_owned();
        Fault {
            file: source.name().into(),
            line,
            column,
            span: fault.span,
            text,
            path: fault.path,
            what: fault.what,
            help: fault.help,
        }
    }
}

/// The complaint with its place. Where its sentence does not show the text it is about, the text goes before it.
impl From<&Fault> for Message {
    fn from(fault: &Fault) -> Self {
        let text = fault.text.trim_matches(['"', '\'']);
        let what = if said(&fault.what, Language::English).contains(text) {
            fault.what.clone()
        } else {
            Message::new("file-fault-of")
                .text("text", text)
                .message("what", fault.what.clone())
        };
        let place = format!("{}:{}:{}", fault.file, fault.line, fault.column);
        complaint(&place, what, fault.help.as_ref())
    }
}

/// Several complaints, a line each.
pub(crate) fn several(lines: impl Iterator<Item = Message>) -> Message {
    Message::new("several-lines").lines("lines", lines)
}

/// What was read of a text: the tree, the station where there are no faults, and all faults in the order of the text.
#[derive(Debug, Clone)]
pub struct Reading {
    /// The text.
    pub source: Source,
    /// The tree of what could be read.
    pub document: Node,
    /// The station; none when there are faults.
    pub station: Option<Station>,
    /// Every complaint, in the order of the text.
    pub faults: Vec<Fault>,
}

impl Reading {
    /// Reads a text as a station.
    pub fn of(name: impl Into<String>, text: impl Into<std::sync::Arc<str>>) -> Self {
        let source = Source::new(name, text);
        let (document, syntax) = document::parse(source.text());
        let (station, model) = match Station::read(&document) {
            Ok(station) => (Some(station), Vec::new()),
            Err(faults) => (None, faults),
        };
        let broken_lines: Vec<usize> = syntax.iter().map(|f| source.position(f.span.start).0).collect();
        let follows_from_syntax =
            |fault: &station::Fault| broken_lines.contains(&source.position(fault.span.start).0);
        let model = model.into_iter().filter(|f| !follows_from_syntax(f));
        let mut faults: Vec<Fault> = syntax
            .iter()
            .cloned()
            .chain(model)
            .map(|f| Fault::placed(&source, f))
            .collect();
        faults.sort_by_key(|f| (f.span.start, f.span.end));
        let station = station.filter(|_| faults.is_empty());
        Self {
            source,
            document,
            station,
            faults,
        }
    }
}

/// A station file on disk as it was read.
#[derive(Debug, Clone)]
pub struct StationFile {
    /// Where it is.
    pub path: PathBuf,
    /// Digest of its bytes: a save names it, so that nobody's change is lost.
    pub digest: Digest,
    /// What was read.
    pub reading: Reading,
}

/// Why a file could not be read at all.
#[derive(Debug, thiserror::Error)]
pub enum OpenError {
    /// It cannot be opened or read.
    Io {
        /// The file.
        path: PathBuf,
        /// The system's words.
        source: std::io::Error,
    },
    /// It is no text in UTF-8.
    NotText {
        /// The file.
        path: PathBuf,
        /// First byte that is none.
        byte: usize,
    },
    /// It is larger than any station.
    TooLarge {
        /// The file.
        path: PathBuf,
        /// Its size.
        bytes: u64,
        /// The limit.
        limit: usize,
    },
}

impl From<&OpenError> for Message {
    fn from(error: &OpenError) -> Self {
        match error {
            OpenError::Io { path, source } => open_failed(path, source),
            OpenError::NotText { path, byte } => Message::new("open-not-text")
                .text("path", path.display().to_string())
                .count("byte", *byte as i64),
            OpenError::TooLarge { path, bytes, limit } => Message::new("open-too-large")
                .text("path", path.display().to_string())
                .count("bytes", *bytes as i64)
                .count("limit", *limit as i64),
        }
    }
}

words::said_in_english!(OpenError);

/// A file or folder that could not be opened, in the system's words.
pub(crate) fn open_failed(path: &Path, why: &std::io::Error) -> Message {
    Message::new("open-failed")
        .text("path", path.display().to_string())
        .message("why", Message::foreign(why))
}

/// Reads a text file whole, within the limit of size.
///
/// # Errors
/// [`OpenError`] with the path.
pub fn read_text(path: &Path) -> Result<(String, Digest), OpenError> {
    let io = |source| OpenError::Io {
        path: path.into(),
        source,
    };
    let bytes = std::fs::metadata(path).map_err(io)?.len();
    if bytes > document::LARGEST_BYTES as u64 {
        return Err(OpenError::TooLarge {
            path: path.into(),
            bytes,
            limit: document::LARGEST_BYTES,
        });
    }
    let bytes = std::fs::read(path).map_err(io)?;
    let digest = Digest::of(&bytes);
    let text = String::from_utf8(bytes).map_err(|e| OpenError::NotText {
        path: path.into(),
        byte: e.utf8_error().valid_up_to(),
    })?;
    Ok((text, digest))
}

impl StationFile {
    /// Reads a station file; `path` may be the file or its folder.
    ///
    /// # Errors
    /// [`OpenError`] when there is no text to read. Faults in the text are in [`Reading::faults`].
    pub fn open(path: &Path) -> Result<Self, OpenError> {
        let path = if path.is_dir() {
            path.join("station.toml")
        } else {
            path.to_owned()
        };
        let (text, digest) = read_text(&path)?;
        let name = path
            .file_name()
            .map_or_else(|| "station.toml".into(), |n| n.to_string_lossy().into_owned());
        Ok(Self {
            path,
            digest,
            reading: Reading::of(name, text),
        })
    }

    /// The folder it lies in.
    pub fn folder(&self) -> &Path {
        self.path
            .parent()
            .filter(|p| !p.as_os_str().is_empty())
            .unwrap_or(Path::new("."))
    }
}
