//! The station as data.
