//! The papers: offer, bill of materials, drawings and map files of one assessed station.
//!
//! A paper is made from a [`Book`]: the assessment as it was said, and the map. Papers compute no number; the same book gives the
//! same bytes.

pub mod acceptance;
pub mod annex;
pub mod bill;
pub mod book;
pub mod chain;
mod frame;
pub mod map;
pub mod offer;
pub mod paper;
pub mod rigging;
mod svg;
mod typeset;
mod wording;

pub use book::Book;
pub use map::geotiff::written as geotiff;
pub use map::{Map, MapAsk, Mark, MarkKind};
pub use paper::{Audience, Paper, PaperError, all};
