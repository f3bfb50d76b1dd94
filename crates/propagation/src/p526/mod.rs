//! Diffraction: Rec. ITU-R P.526, the parts that a hop or a draft of a path needs.
//!
//! Formulas shared with P.1812 are written once, in [`crate::p1812`].

mod bullington;
mod delta_bullington;
mod fresnel;
mod knife_edge;

pub use bullington::{Bullington, PathEnds, bullington};
pub use delta_bullington::{DeltaBullington, delta_bullington};
pub use fresnel::{average_terrain_obstruction_db, fresnel_radius_m, fresnel_zone_radius_m};
pub use knife_edge::{knife_edge_loss_db, knife_edge_nu};
