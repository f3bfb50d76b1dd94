//! The shelf: the generic equipment built in, and a user's own lists laid over it.

use std::path::{Path, PathBuf};

use station::document::{Entry, Node, Value};
use station::read::{Faults, FromNode};
use station::{Shelf, ShelfItem};
use words::Message;

use crate::document;
use crate::price_list::{Laid, lay_price_list};
use crate::reading::{Fault, OpenError, open_failed, read_text};
use crate::sheet::SheetError;
use crate::source::Source;

/// The built-in lists: name and text.
const BUILT_IN: &[(&str, &str)] = &[
    (
        "shelf/transmission.toml",
        include_str!("../../../shelf/transmission.toml"),
    ),
    ("shelf/studio.toml", include_str!("../../../shelf/studio.toml")),
    ("shelf/link.toml", include_str!("../../../shelf/link.toml")),
    ("shelf/site.toml", include_str!("../../../shelf/site.toml")),
];

/// Why a list could not be laid down at all.
#[derive(Debug, thiserror::Error)]
pub enum ShelfError {
    /// The file cannot be opened.
    Open(#[from] OpenError),
    /// The table cannot be read.
    Sheet(#[from] SheetError),
    /// The folder cannot be listed.
    Folder {
        /// The folder.
        path: PathBuf,
        /// The system's words.
        source: std::io::Error,
    },
    /// A kind of file that is no price list.
    Kind {
        /// The file.
        path: PathBuf,
    },
}

impl From<&ShelfError> for Message {
    fn from(error: &ShelfError) -> Self {
        match error {
            ShelfError::Open(error) => error.into(),
            ShelfError::Sheet(error) => error.into(),
            ShelfError::Folder { path, source } => open_failed(path, source),
            ShelfError::Kind { path } => Message::new("list-kind").text("path", path.display().to_string()),
        }
    }
}

words::said_in_english!(ShelfError);

/// The generic equipment that comes with the program: unbranded, prices invented.
///
/// # Errors
/// The faults of its files; a test reads them, so there are none.
pub fn built_in() -> Result<Shelf, Vec<Fault>> {
    let mut shelf = Shelf::default();
    let mut faults = Vec::new();
    for (name, text) in BUILT_IN {
        match items(&Source::new(*name, *text)) {
            Ok(items) => shelf.lay_over(items),
            Err(more) => faults.extend(more),
        }
    }
    if faults.is_empty() { Ok(shelf) } else { Err(faults) }
}

/// Reads the text of a shelf file: a list of `[[items]]`.
///
/// # Errors
/// Every fault, with its place.
pub fn items(source: &Source) -> Result<Vec<ShelfItem>, Vec<Fault>> {
    let (node, syntax) = document::parse(source.text());
    let mut faults = Faults(syntax);
    let mut read = None;
    if let Value::Table(entries) = &node.value {
        for entry in entries {
            match entry.key.as_str() {
                "items" => read = Vec::<ShelfItem>::from_node(&entry.node, "items", &mut faults),
                _ => unknown_key(entry, &mut faults),
            }
        }
        same_ids(&node, &mut faults);
    }
    let mut placed: Vec<Fault> = faults.0.into_iter().map(|f| Fault::placed(source, f)).collect();
    placed.sort_by_key(|f| (f.span.start, f.span.end));
    match read {
        Some(items) if placed.is_empty() => Ok(items),
        None if placed.is_empty() => Ok(Vec::new()),
        _ => Err(placed),
    }
}

fn unknown_key(entry: &Entry, faults: &mut Faults) {
    let what = Message::new("file-key-unknown").text("key", &*entry.key);
    let help = Message::new("file-shelf-is-items");
    faults.add(entry.key_span, &entry.key, what, Some(help));
}

fn same_ids(node: &Node, faults: &mut Faults) {
    let Some(Node {
        value: Value::List(items),
        ..
    }) = node.get("items")
    else {
        return;
    };
    let mut seen: Vec<&str> = Vec::new();
    for item in items {
        let Some(Node {
            value: Value::Text(id),
            span,
        }) = item.get("id")
        else {
            continue;
        };
        if seen.contains(&id.as_str()) {
            let what = Message::new("file-id-taken").text("id", id);
            let help = Message::new("file-id-taken-help");
            faults.add(*span, "items", what, Some(help));
        }
        seen.push(id);
    }
}

/// Lays a user's list over the shelf, by the end of its name: TOML whole items, tables (CSV, XLSX, ODS) field by field.
///
/// # Errors
/// [`ShelfError`] when nothing could be read; faults of single rows and items are in [`Laid::faults`].
pub fn lay_file(shelf: &mut Shelf, path: &Path) -> Result<Laid, ShelfError> {
    let extension = path
        .extension()
        .map(|e| e.to_string_lossy().to_lowercase())
        .unwrap_or_default();
    match extension.as_str() {
        "toml" => lay_toml(shelf, path),
        "csv" | "xlsx" | "ods" => Ok(lay_price_list(shelf, &crate::sheet::Sheet::open(path)?)),
        _ => Err(ShelfError::Kind { path: path.into() }),
    }
}

fn lay_toml(shelf: &mut Shelf, path: &Path) -> Result<Laid, ShelfError> {
    let (text, _) = read_text(path)?;
    let name = path
        .file_name()
        .map(|n| n.to_string_lossy().into_owned())
        .unwrap_or_default();
    let mut laid = Laid::default();
    match items(&Source::new(name, text)) {
        Ok(items) => {
            for item in &items {
                let ids = if shelf.get(&item.id).is_some() {
                    &mut laid.changed
                } else {
                    &mut laid.added
                };
                ids.push(item.id.clone());
                laid.unrated.extend(crate::price_list::unrated(item));
            }
            shelf.lay_over(items);
        }
        Err(faults) => laid.faults = faults,
    }
    Ok(laid)
}

/// The shelf of a station folder: the built-in one, then every list in its `shelf/`, in the order of their names.
///
/// # Errors
/// [`ShelfError`] for the first list that cannot be read.
pub fn of_folder(folder: &Path) -> Result<(Shelf, Vec<(PathBuf, Laid)>), ShelfError> {
    let mut shelf = built_in().unwrap_or_default();
    let own = folder.join("shelf");
    if !own.is_dir() {
        return Ok((shelf, Vec::new()));
    }
    let list = std::fs::read_dir(&own).map_err(|source| ShelfError::Folder {
        path: own.clone(),
        source,
    })?;
    let mut paths: Vec<PathBuf> = list
        .flatten()
        .map(|e| e.path())
        .filter(|p| p.is_file() && is_list(p))
        .collect();
    paths.sort();
    let mut laid = Vec::new();
    for path in paths {
        let report = lay_file(&mut shelf, &path)?;
        laid.push((path, report));
    }
    Ok((shelf, laid))
}

/// Lists only: a README beside them, or an editor's lock file, is none.
fn is_list(path: &Path) -> bool {
    let hidden = path
        .file_name()
        .is_some_and(|n| n.to_string_lossy().starts_with(['.', '~']));
    let extension = path
        .extension()
        .map(|e| e.to_string_lossy().to_lowercase())
        .unwrap_or_default();
    !hidden && ["toml", "csv", "xlsx", "ods"].contains(&extension.as_str())
}
