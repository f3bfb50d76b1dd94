//! Ground: heights, land cover, water, people; profiles along the geodesic.
//!
//! The crate opens no file and speaks to no radio: it decodes tiles from the `Read + Seek` it is given, answers what the
//! ground is at a [`Position`] or along a path, and says how much of the answer was measured, filled or missing.
//!
//! | room | holds |
//! |---|---|
//! | [`position`], [`geodesic`] | points on WGS 84 and the shortest way between them |
//! | [`crs`], [`grid`], [`raster`], [`mosaic`] | where the samples of a tile lie; tiles read lazily; the nearest or bilinear value |
//! | [`source`], [`hgt`], [`geotiff`] | bytes the caller opens; the two file formats |
//! | [`cover`], [`coast`] | land cover to clutter height; sea, coastal land, inland |
//! | [`ground`], [`profile`] | all of it together, at a point and along a path |
//! | [`people`], [`places`] | who lives where |
//! | [`generated`] | invented grounds made from a seed |

pub mod coast;
pub mod cover;
pub mod crs;
pub mod generated;
pub mod geodesic;
pub mod geotiff;
pub mod grid;
pub mod ground;
pub mod hgt;
pub mod mosaic;
pub mod people;
pub mod places;
pub mod position;
pub mod profile;
pub mod raster;
mod refusals;
pub mod source;

pub use coast::{CoastAlongPath, CoastMap, Zone};
pub use cover::{ClutterTable, CoverCategory};
pub use crs::Crs;
pub use grid::{Grid, Registration};
pub use ground::{ClutterMode, Ground, GroundError, HeightKind, MissingGround, Spot};
pub use mosaic::{Mosaic, Tile};
pub use people::People;
pub use places::{Place, Surroundings};
pub use position::{Position, PositionError};
pub use profile::{Profile, Quality, Shares};
pub use raster::{BlockSource, Raster, RasterError, Samples};
