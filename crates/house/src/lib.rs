//! The rules of the house: nothing to import, only tests.
//!
//! - `tests/floors.rs`: which crate may know which, read from the workspace itself.
//! - `tests/schema.rs`: the published schema of the station file is the one the program reads by.
//! - `tests/papers.rs`: what README, ARCHITECTURE and the guides point at is there.
