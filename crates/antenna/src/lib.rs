//! Antennas, their feeds and feeders.
//!
//! Two models with one vocabulary: a fast array model ([`array`]) for dragging and searching, marked a draft, and thin
//! wires ([`wires`]) for the proof; [`mount`] builds real stacks on real masts from them. [`feed`] solves splitter, harness
//! and coupled bays together for either; [`pattern`] is what coverage, licence and exposure ask. [`line`] holds feeder loss,
//! match and ratings; [`chain`] joins them from transmitter to bays; [`fault`] tells what a wrong part does to the readings.
//!
//! Conventions: time factor exp(+jωt), peak phasors, x east, y north, z up, bearings clockwise from true north, elevation
//! positive above the horizon. Nothing here reads a file or speaks a sentence to the user.

pub mod array;
pub mod chain;
pub mod direction;
pub mod fault;
pub mod feed;
pub mod line;
pub mod mount;
pub mod pattern;
pub mod quadrature;
mod refusals;

pub mod wires;
