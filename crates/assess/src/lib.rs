//! The proof.
