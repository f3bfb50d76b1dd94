//! Thin wires by the method of moments: the real computation behind every antenna figure.
//!
//! Mixed-potential Galerkin with triangular currents on straight segments, exact thin-tube kernel along one line, delta gap
//! at a node. Kirchhoff's law holds at every junction by construction and the matrix is complex symmetric.
//!
//! The steps, one file each: [`geometry`] says what there is, `check` refuses what cannot be computed ([`fault`] says why),
//! `joints` finds where wires meet each other and the ground, `cuts` and [`mesh`] cut them into segments and currents,
//! [`rotation`] finds a mast that repeats round its axis, [`pair`] integrates one pair of
//! segments, [`fill`] all of them, [`solve`] finds the currents for each port alone, [`far_field`], [`grid`] and [`near`] what
//! they radiate, [`network`] superposes any feed. [`format`](mod@format) reads and prints the file form.
//!
//! Conventions: exp(+jωt), peak phasors, metres, MHz, x y z right-handed with z up, azimuth from +x towards +y (not a
//! bearing), elevation above the horizon.
//!
//! # Source
//! Harrington, *Field Computation by Moment Methods* (theory, from memory); agreement with an independent engine is tested in
//! `tests/wires_reference.rs`.

mod answer;
pub(crate) mod apart;
mod beside;
mod check;
mod cuts;
mod dense;
mod elimination;
pub mod far_field;
pub mod fault;
pub mod fill;
pub mod format;
pub mod geometry;
pub mod grid;
mod joints;
mod lanes;
pub mod mesh;
pub mod near;
pub mod network;
pub mod pair;
mod phase;
mod quadrature;
pub mod rotation;
pub mod solve;
pub mod standing;
pub mod sweep;
mod vector;

pub use far_field::{FarField, directivity_dbi};
pub use fault::{WireCaution, WireFault};
pub use geometry::{Ground, Load, Port, Wire, WireEnds, WireModel};
pub use grid::{FieldGrid, Peak};
pub use near::{NearField, Piece, near_field};
pub use solve::{Drive, Health, Solution, solve};
pub use standing::{Standing, solve_on};

/// Complex number of double precision, as everywhere in this crate.
pub type Complex = num_complex::Complex<f64>;

/// Speed of light in m/µs, exact (BIPM SI brochure, definition of the metre).
pub const LIGHT_M_PER_US: f64 = 299.792_458;

/// Impedance of free space in ohm (CODATA 2018, 376.730 313 668).
pub const FREE_SPACE_OHM: f64 = 376.730_313_668;
