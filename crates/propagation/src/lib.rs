//! Radio propagation as pure functions: no file is read, no sentence is spoken.
//!
//! Lengths of path are in kilometres, heights in metres, frequencies in megahertz, losses in decibels; the unit stands in
//! the name. Each module is one published method, its files the steps of the method in the order of the standard.

pub mod lane;
pub mod p1812;
pub mod radial;
