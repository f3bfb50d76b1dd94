//! Slow answers kept on disk under the digest of everything they rest on.
//!
//! Nothing here is needed: a cache that is gone, full or damaged costs time, never an answer.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use crate::save::Digest;

/// Makes a key from bytes fed to it: see [`coverage::Feed`].
#[derive(Debug, Default, Clone)]
pub struct Key(blake3::Hasher);

impl Key {
    /// A key of nothing yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Takes the next bytes.
    pub fn feed(&mut self, bytes: &[u8]) {
        self.0.update(bytes);
    }

    /// The key of all bytes fed.
    pub fn digest(&self) -> Digest {
        Digest::from_bytes(*self.0.finalize().as_bytes())
    }
}

impl coverage::Feed for Key {
    fn feed(&mut self, bytes: &[u8]) {
        Key::feed(self, bytes);
    }
}

/// A folder of kept answers.
#[derive(Debug, Clone)]
pub struct Cache {
    folder: PathBuf,
    most_bytes: u64,
}

/// Space a cache takes at most, unless told otherwise: 2 GB.
pub const MOST_BYTES: u64 = 2_000_000_000;

/// End of the names of kept answers.
const KEPT: &str = "kept";

impl Cache {
    /// The cache of a station folder: `.cache` in it. Made when first written to.
    pub fn of_folder(folder: &Path) -> Self {
        Self::at(folder.join(".cache"), MOST_BYTES)
    }

    /// A cache in this folder that takes at most so many bytes.
    pub fn at(folder: PathBuf, most_bytes: u64) -> Self {
        Self { folder, most_bytes }
    }

    fn path(&self, key: Digest) -> PathBuf {
        self.folder.join(format!("{key}.{KEPT}"))
    }

    /// What is kept under `key`; none when there is nothing, or when what is there is not whole.
    pub fn load(&self, key: Digest) -> Option<Vec<u8>> {
        let path = self.path(key);
        let mut bytes = fs::read(&path).ok()?;
        let body = bytes.get(32..)?;
        if Digest::of(body).bytes() != bytes[..32] {
            let _ = fs::remove_file(&path); // damaged: it will be computed again
            return None;
        }
        bytes.drain(..32);
        touch(&path);
        Some(bytes)
    }

    /// Keeps `bytes` under `key`, then makes room by dropping what was used longest ago.
    ///
    /// # Errors
    /// The disk's refusal; the caller may go on without.
    pub fn store(&self, key: Digest, bytes: &[u8]) -> io::Result<()> {
        make_folder(&self.folder)?;
        let mut half = tempfile::Builder::new()
            .prefix(".")
            .suffix(".saving")
            .tempfile_in(&self.folder)?;
        half.write_all(&Digest::of(bytes).bytes())?;
        half.write_all(bytes)?;
        half.persist(self.path(key)).map_err(|e| e.error)?;
        self.make_room(key)
    }

    /// Drops the longest unused answers until the rest fits; never the one just stored.
    fn make_room(&self, newest: Digest) -> io::Result<()> {
        let newest = self.path(newest);
        let mut kept: Vec<(SystemTime, u64, PathBuf)> = Vec::new();
        for entry in fs::read_dir(&self.folder)?.flatten() {
            let path = entry.path();
            let Ok(about) = entry.metadata() else { continue };
            if path.extension().is_some_and(|e| e == KEPT) && path != newest {
                kept.push((
                    about.modified().unwrap_or(SystemTime::UNIX_EPOCH),
                    about.len(),
                    path,
                ));
            }
        }
        let mut total: u64 = kept.iter().map(|k| k.1).sum::<u64>() + fs::metadata(&newest)?.len();
        kept.sort();
        for (_, bytes, path) in kept {
            if total <= self.most_bytes {
                break;
            }
            fs::remove_file(&path)?;
            total -= bytes;
        }
        Ok(())
    }
}

/// Makes a cache's folder, and tells version control to pass it by.
pub(crate) fn make_folder(folder: &Path) -> io::Result<()> {
    fs::create_dir_all(folder)?;
    let ignore = folder.join(".gitignore");
    if ignore.exists() {
        Ok(())
    } else {
        fs::write(ignore, "*\n")
    }
}

/// Marks a file as used now; where that is refused, it only counts as older than it is.
fn touch(path: &Path) {
    if let Ok(file) = fs::File::options().append(true).open(path) {
        let _ = file.set_modified(SystemTime::now());
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::time::Duration;

    fn key(n: u8) -> Digest {
        Digest::of(&[n])
    }

    #[test]
    fn what_is_kept_comes_back_whole_or_not_at_all() {
        let folder = tempfile::tempdir().unwrap();
        let cache = Cache::of_folder(folder.path());
        assert_eq!(cache.load(key(1)), None);
        cache.store(key(1), b"losses").unwrap();
        assert_eq!(cache.load(key(1)).as_deref(), Some(&b"losses"[..]));
        let path = cache.path(key(1));
        let whole = fs::read(&path).unwrap();
        for cut in [0, 10, 32, whole.len() - 1] {
            fs::write(&path, &whole[..cut]).unwrap();
            assert_eq!(cache.load(key(1)), None, "cut at {cut}");
        }
        let mut bent = whole.clone();
        bent[34] ^= 1;
        fs::write(&path, bent).unwrap();
        assert_eq!(cache.load(key(1)), None);
    }

    #[test]
    fn the_longest_unused_goes_first() {
        let folder = tempfile::tempdir().unwrap();
        let cache = Cache::at(folder.path().into(), 350);
        for n in 1..=3 {
            cache.store(key(n), &[n; 100]).unwrap();
            let file = fs::File::options().append(true).open(cache.path(key(n))).unwrap();
            file.set_modified(SystemTime::now() - Duration::from_secs(100 - u64::from(n)))
                .unwrap();
        }
        assert!(
            cache.load(key(2)).is_some(),
            "the second of three, at the limit of two, is there"
        );
        cache.store(key(4), &[4; 100]).unwrap();
        assert!(cache.load(key(2)).is_some() && cache.load(key(4)).is_some());
        assert!(cache.load(key(1)).is_none() && cache.load(key(3)).is_none());
    }
}
