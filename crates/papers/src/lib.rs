//! The papers.
