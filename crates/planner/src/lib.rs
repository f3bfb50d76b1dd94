//! Designs for a brief.
