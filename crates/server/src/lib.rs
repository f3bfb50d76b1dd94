//! The page and its API.
