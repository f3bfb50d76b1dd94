//! A station folder on disk: `station.toml`, its shelf, its tiles, its caches.
//!
//! | room | holds |
//! |---|---|
//! | [`source`], [`document`], [`reading`] | text to station: every complaint at once, each with line and column |
//! | [`edits`] | changes applied to the text, comments and order kept |
//! | [`shelf`], [`price_list`], [`sheet`] | equipment: the shelf's own files, and a supplier's list laid over them |
//! | [`country`] | country profiles |
//! | [`readings`] | readings of a field test |
//! | [`world`], [`tiles`] | the ground a station stands on: generated, or tiles read lazily |
//! | [`cache`] | slow answers kept under the digest of what they rest on |
//! | [`save`] | atomic saves that notice when somebody else saved meanwhile |
//!
//! Invariants: this crate computes nothing of radio; it never writes a file but through [`save`]; a file it read is either whole
//! or refused with its place.

pub mod cache;
pub mod country;
pub mod document;
pub mod edits;
pub mod price_list;
pub mod reading;
pub mod readings;
pub mod save;
pub mod sheet;
pub mod shelf;
pub mod source;
pub mod tiles;
pub mod world;

pub use cache::Cache;
pub use edits::{TextEditError, edit_text};
pub use reading::{Fault, Reading, StationFile};
pub use save::{Digest, Expected, SaveError, save};
pub use source::Source;
pub use world::{OpenedWorld, WorldError};
