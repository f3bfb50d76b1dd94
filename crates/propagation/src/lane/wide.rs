//! Eight numbers side by side.
