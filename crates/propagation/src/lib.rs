//! Radio propagation as pure functions: no file is read, no sentence is spoken: a refusal is a code with arguments.
//!
//! Lengths of path are in kilometres, heights in metres, frequencies in megahertz, losses in decibels; the unit stands in
//! the name. Each module is one published method, its files the steps of the method in the order of the standard.

pub mod hop;
pub mod itm;
pub mod lane;
pub mod out_of_range;
pub mod p1812;
pub mod p2108;
pub mod p2109;
pub mod p525;
pub mod p526;
pub mod p530;
pub mod p676;
pub mod p838;
pub mod radial;
pub mod refractivity;
mod refusals;
pub mod vegetation;
