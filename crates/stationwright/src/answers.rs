//! Solved antennas kept in the station folder's cache, so that another run does not solve them again.

use assess::proofs::mounted::AnswerStore;
use folder::cache::{Cache, Key};
use std::path::Path;

/// Answers under the digest of their content.
pub(crate) struct Answers(Cache);

impl Answers {
    /// Those of a station folder.
    pub fn of_folder(folder: &Path) -> Answers {
        Answers(Cache::of_folder(folder))
    }
}

impl AnswerStore for Answers {
    fn load(&self, content: &[u8]) -> Option<Vec<u8>> {
        self.0.load(digest(content))
    }

    fn store(&self, content: &[u8], bytes: &[u8]) {
        // A full disk costs time, never an answer.
        let _ = self.0.store(digest(content), bytes);
    }
}

fn digest(content: &[u8]) -> folder::Digest {
    let mut key = Key::new();
    key.feed(content);
    key.digest()
}
