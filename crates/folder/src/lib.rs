//! A station folder on disk.
