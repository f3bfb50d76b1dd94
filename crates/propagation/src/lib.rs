//! Radio propagation as pure functions.
