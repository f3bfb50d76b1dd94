//! Diffraction: Rec. ITU-R P.526, the parts that a hop or a draft of a path needs.
//!
//! Spherical Earth and the delta-Bullington combination live with [`crate::p1812`].

mod bullington;
mod fresnel;
mod knife_edge;

pub use bullington::{Bullington, PathEnds, bullington};
pub use fresnel::{average_terrain_obstruction_db, fresnel_radius_m, fresnel_zone_radius_m};
pub use knife_edge::{knife_edge_loss_db, knife_edge_nu};
