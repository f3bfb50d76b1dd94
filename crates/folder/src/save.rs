//! Saves that are whole or not there, and that notice a change by somebody else.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use words::Message;

use serde::{Deserialize, Serialize};
use thiserror::Error;

/// Digest of a file's bytes (BLAKE3).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Digest([u8; 32]);

impl Digest {
    /// Of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(*blake3::hash(bytes).as_bytes())
    }

    /// The digest's own bytes.
    pub fn bytes(self) -> [u8; 32] {
        self.0
    }

    /// From the digest's own bytes.
    pub fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }
}

impl std::fmt::Display for Digest {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&blake3::Hash::from_bytes(self.0).to_hex())
    }
}

impl std::str::FromStr for Digest {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        blake3::Hash::from_hex(text)
            .map(|hash| Self(*hash.as_bytes()))
            .map_err(|e| format!("`{text}`: {e}"))
    }
}

impl Serialize for Digest {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Digest {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?
            .parse()
            .map_err(serde::de::Error::custom)
    }
}

/// What the saver believes to be on disk.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Expected {
    /// No such file yet.
    Absent,
    /// The file as it was read.
    Is(Digest),
    /// Whatever there is: it is replaced.
    Anything,
}

/// Why a save did not happen. The file on disk is as it was.
#[derive(Debug, Error)]
pub enum SaveError {
    /// Somebody changed the file since it was read.
    Changed {
        /// The file.
        path: PathBuf,
        /// What is there now; none when the file is gone.
        theirs: Option<Vec<u8>>,
        /// Its digest: saving again with it replaces their change knowingly.
        digest: Option<Digest>,
    },
    /// A step of the save failed.
    Io {
        /// The file.
        path: PathBuf,
        /// What was being done: a tag for the message.
        step: &'static str,
        /// The system's words.
        source: io::Error,
    },
}

impl From<&SaveError> for Message {
    fn from(error: &SaveError) -> Self {
        match error {
            SaveError::Changed { path, .. } => {
                Message::new("save-changed").text("path", path.display().to_string())
            }
            SaveError::Io { path, step, source } => Message::new("save-failed")
                .text("path", path.display().to_string())
                .tag("step", *step)
                .message("why", Message::foreign(source)),
        }
    }
}

words::said_in_english!(SaveError);

/// Ends of the names of files half written.
const SAVING: &str = ".saving";

/// Writes `bytes` to `path` so that any reader, and any crash, sees the old file or the new one, whole.
///
/// The bytes go to a second file in the same folder, are flushed to the disk, and take the name in one step; then the folder is
/// flushed. Savers of one folder wait for each other, so that looking at `expected` and taking the name are one step too.
///
/// # Errors
/// [`SaveError::Changed`] when the file is not as `expected`, [`SaveError::Io`] when the disk refuses.
pub fn save(path: &Path, bytes: &[u8], expected: Expected) -> Result<Digest, SaveError> {
    let io = |step| {
        move |source| SaveError::Io {
            path: path.to_owned(),
            step,
            source,
        }
    };
    let path = &fs::canonicalize(path).unwrap_or_else(|_| path.to_owned()); // a link stays a link
    let folder = path
        .parent()
        .filter(|p| !p.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    let name = path
        .file_name()
        .map(|n| n.to_string_lossy().into_owned())
        .unwrap_or_default();
    let lock = File::options()
        .create(true)
        .truncate(false)
        .write(true)
        .open(folder.join(".stationwright.lock"));
    let lock = lock.map_err(io("lock"))?;
    lock.lock().map_err(io("wait"))?;
    check_unchanged(path, expected)?;
    sweep(folder, &name);

    let mut half = tempfile::Builder::new();
    let mut half = half
        .prefix(&format!(".{name}."))
        .suffix(SAVING)
        .tempfile_in(folder)
        .map_err(io("second-file"))?;
    if let Ok(old) = fs::metadata(path) {
        half.as_file()
            .set_permissions(old.permissions())
            .map_err(io("rights"))?;
    } else {
        open_to_readers(half.as_file()).map_err(io("rights"))?;
    }
    half.write_all(bytes).map_err(io("write"))?;
    half.as_file().sync_all().map_err(io("flush"))?;
    half.persist(path).map_err(|e| SaveError::Io {
        path: path.clone(),
        step: "name",
        source: e.error,
    })?;
    flush_folder(folder).map_err(io("folder"))?;
    Ok(Digest::of(bytes))
}

fn check_unchanged(path: &Path, expected: Expected) -> Result<(), SaveError> {
    let theirs = match fs::read(path) {
        Ok(bytes) => Some(bytes),
        Err(e) if e.kind() == io::ErrorKind::NotFound => None,
        Err(source) => {
            return Err(SaveError::Io {
                path: path.into(),
                step: "look",
                source,
            });
        }
    };
    let digest = theirs.as_deref().map(Digest::of);
    let is_expected = match expected {
        Expected::Anything => true,
        Expected::Absent => digest.is_none(),
        Expected::Is(read) => digest == Some(read),
    };
    if is_expected {
        Ok(())
    } else {
        Err(SaveError::Changed {
            path: path.into(),
            theirs,
            digest,
        })
    }
}

/// Removes what a save that was killed left behind. Called under the lock, so no such file is in use.
fn sweep(folder: &Path, name: &str) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let file = entry.file_name();
        let file = file.to_string_lossy();
        if file.starts_with(&format!(".{name}.")) && file.ends_with(SAVING) {
            let _ = fs::remove_file(entry.path()); // litter only: failing to remove it harms nothing
        }
    }
}

#[cfg(unix)]
fn open_to_readers(file: &File) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    file.set_permissions(fs::Permissions::from_mode(0o644))
}

#[cfg(not(unix))]
fn open_to_readers(_: &File) -> io::Result<()> {
    Ok(())
}

#[cfg(unix)]
fn flush_folder(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}

/// Other systems flush the name with the file.
#[cfg(not(unix))]
fn flush_folder(_: &Path) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_change_by_somebody_else_is_noticed_and_both_sides_are_kept() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("station.toml");
        let first = save(&path, b"one", Expected::Absent).unwrap();
        fs::write(&path, b"theirs").unwrap();
        let Err(SaveError::Changed { theirs, digest, .. }) = save(&path, b"ours", Expected::Is(first)) else {
            panic!("a change was not noticed")
        };
        assert_eq!(theirs.as_deref(), Some(&b"theirs"[..]));
        assert_eq!(fs::read(&path).unwrap(), b"theirs");
        save(&path, b"ours", Expected::Is(digest.unwrap())).unwrap();
        assert_eq!(fs::read(&path).unwrap(), b"ours");
        assert!(matches!(
            save(&path, b"new", Expected::Absent),
            Err(SaveError::Changed { .. })
        ));
    }

    #[cfg(unix)]
    #[test]
    fn a_link_stays_a_link_and_permissions_stay() {
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("real.toml");
        save(&path, b"one", Expected::Absent).unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o664)).unwrap();
        let link = folder.path().join("station.toml");
        std::os::unix::fs::symlink(&path, &link).unwrap();
        save(&link, b"two", Expected::Anything).unwrap();
        assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
        assert_eq!(fs::read(&path).unwrap(), b"two");
        assert_eq!(fs::metadata(&path).unwrap().permissions().mode() & 0o777, 0o664);
    }

    #[test]
    fn bad_folder_is_named() {
        let error = save(
            Path::new("/nowhere/at/all/station.toml"),
            b"x",
            Expected::Anything,
        )
        .unwrap_err();
        assert!(
            error.to_string().contains("/nowhere/at/all/station.toml"),
            "{error}"
        );
    }
}
