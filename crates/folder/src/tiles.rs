//! Tiles of a folder: headers read now, samples when first touched, bytes identified by digest.

use crate::reading::{open_failed, several};
use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::UNIX_EPOCH;
use words::Message;

use serde::{Deserialize, Serialize};
use terrain::source::ReadSeek;
use terrain::{Mosaic, Raster, Tile, geotiff, hgt};

use crate::save::Digest;

/// The tiles of one folder.
#[derive(Debug, Clone)]
pub struct TileSet {
    /// The tiles as one surface, in the order of their names: where they overlap the first one counts.
    pub mosaic: Mosaic,
    /// The files they came from, in the same order.
    pub files: Vec<TileFile>,
    /// Files beside them that are no tiles, by name.
    pub left_out: Vec<String>,
}

/// One tile's file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TileFile {
    /// Its name.
    pub name: String,
    /// Its size on disk.
    pub bytes: u64,
    /// Digest of its bytes.
    pub digest: Digest,
}

/// Why tiles cannot be used. All bad files at once.
#[derive(Debug, thiserror::Error)]
pub enum TileError {
    /// The folder cannot be listed.
    Folder {
        /// The folder.
        folder: PathBuf,
        /// The system's words.
        source: io::Error,
    },
    /// Nothing in it that is a tile.
    NoTile {
        /// The folder.
        folder: PathBuf,
    },
    /// Files that are refused.
    Refused {
        /// Path and reason of each.
        files: Vec<(String, Message)>,
    },
}

impl From<&TileError> for Message {
    fn from(error: &TileError) -> Self {
        match error {
            TileError::Folder { folder, source } => open_failed(folder, source),
            TileError::NoTile { folder } => {
                Message::new("tiles-none").text("path", folder.display().to_string())
            }
            TileError::Refused { files } => several(files.iter().map(|(path, why)| {
                Message::new("open-failed")
                    .text("path", path)
                    .message("why", why.clone())
            })),
        }
    }
}

words::said_in_english!(TileError);

impl TileSet {
    /// Opens every tile of a folder. `book` remembers digests of files that have not changed since.
    ///
    /// # Errors
    /// [`TileError`]: a folder without tiles, or every file that is refused with its reason. A tile left out in silence would be a
    /// hole in the ground, so none is.
    pub fn open(folder: &Path, book: &mut DigestBook) -> Result<Self, TileError> {
        let list = fs::read_dir(folder).map_err(|source| TileError::Folder {
            folder: folder.into(),
            source,
        })?;
        let mut paths: Vec<PathBuf> = list.flatten().map(|e| e.path()).filter(|p| p.is_file()).collect();
        paths.sort();
        let (mut tiles, mut files, mut left_out, mut refused) =
            (Vec::new(), Vec::new(), Vec::new(), Vec::new());
        for path in paths {
            let name = path
                .file_name()
                .map(|n| n.to_string_lossy().into_owned())
                .unwrap_or_default();
            let Some(format) = Format::of(&name) else {
                left_out.push(name);
                continue;
            };
            let opened = raster(&path, &name, format).and_then(|raster| {
                let (bytes, digest) = book.digest(&path).map_err(Message::foreign)?;
                Ok((raster, bytes, digest))
            });
            match opened {
                Ok((raster, bytes, digest)) => {
                    tiles.push(Tile {
                        name: name.clone(),
                        raster: Arc::new(raster),
                    });
                    files.push(TileFile { name, bytes, digest });
                }
                Err(why) => refused.push((path.display().to_string(), why)),
            }
        }
        if !refused.is_empty() {
            return Err(TileError::Refused { files: refused });
        }
        if tiles.is_empty() {
            return Err(TileError::NoTile {
                folder: folder.into(),
            });
        }
        Ok(Self {
            mosaic: Mosaic::new(tiles),
            files,
            left_out,
        })
    }

    /// Identifies the content: names tell where an SRTM tile lies, so they count as well as the bytes.
    pub fn content(&self) -> Vec<u8> {
        self.files
            .iter()
            .flat_map(|f| f.name.bytes().chain([0]).chain(f.digest.bytes()))
            .collect()
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Format {
    Hgt,
    GeoTiff,
}

impl Format {
    fn of(name: &str) -> Option<Self> {
        let lower = name.to_lowercase();
        if lower.starts_with('.') {
            return None;
        }
        let plain = lower.strip_suffix(".gz").unwrap_or(&lower);
        match plain.rsplit_once('.')?.1 {
            "hgt" => Some(Format::Hgt),
            "tif" | "tiff" => Some(Format::GeoTiff),
            _ => None,
        }
    }
}

fn raster(path: &Path, name: &str, format: Format) -> Result<Raster, Message> {
    let owned = path.to_owned();
    let open = move || File::open(&owned).map(|file| Box::new(io::BufReader::new(file)) as Box<dyn ReadSeek>);
    match format {
        Format::Hgt => hgt::raster(name, Arc::new(open)).map_err(|e| (&e).into()),
        Format::GeoTiff => geotiff::raster(Arc::new(open)).map_err(|e| (&e).into()),
    }
}

/// Digests of files, remembered by size and time of change, so that gigabytes are read once.
#[derive(Debug, Default, Serialize, Deserialize)]
pub struct DigestBook {
    #[serde(default)]
    files: BTreeMap<String, Known>,
    #[serde(skip)]
    is_changed: bool,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
struct Known {
    bytes: u64,
    changed_ns: u64,
    digest: Digest,
}

impl DigestBook {
    /// The book of a station folder, `.cache/digests.json`; a new one where there is none or it is damaged.
    pub fn of_folder(folder: &Path) -> Self {
        let text = fs::read_to_string(folder.join(".cache").join("digests.json")).unwrap_or_default();
        serde_json::from_str(&text).unwrap_or_default()
    }

    /// Writes the book, when it has changed. Where that is refused the digests are made again next time.
    pub fn keep(&self, folder: &Path) {
        let cache = folder.join(".cache");
        if !self.is_changed || crate::cache::make_folder(&cache).is_err() {
            return;
        }
        if let Ok(text) = serde_json::to_vec(self) {
            let _ = crate::save::save(
                &cache.join("digests.json"),
                &text,
                crate::save::Expected::Anything,
            );
        }
    }

    /// Size and digest of a file: remembered, or made now.
    ///
    /// # Errors
    /// The system's, when the file cannot be read.
    pub fn digest(&mut self, path: &Path) -> io::Result<(u64, Digest)> {
        let about = fs::metadata(path)?;
        let changed = about.modified()?.duration_since(UNIX_EPOCH).unwrap_or_default();
        let changed_ns = u64::try_from(changed.as_nanos()).unwrap_or(u64::MAX);
        let name = fs::canonicalize(path)?.display().to_string();
        if let Some(known) = self.files.get(&name)
            && (known.bytes, known.changed_ns) == (about.len(), changed_ns)
        {
            return Ok((known.bytes, known.digest));
        }
        let mut hasher = blake3::Hasher::new();
        hasher.update_reader(File::open(path)?)?;
        let digest = Digest::from_bytes(*hasher.finalize().as_bytes());
        self.files.insert(
            name,
            Known {
                bytes: about.len(),
                changed_ns,
                digest,
            },
        );
        self.is_changed = true;
        Ok((about.len(), digest))
    }
}
