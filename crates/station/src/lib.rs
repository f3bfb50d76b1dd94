//! The station as data: what is wanted, what is chosen, how it changes.
//!
//! The model is declared once, with [`record!`] and [`choice!`]: the struct, how it is read with every complaint at
//! once, and its JSON Schema. It opens no file and knows no screen.

pub mod assumptions;
pub mod brief;
pub mod chain;
pub mod country;
pub mod design;
pub mod document;
pub mod edit;
pub mod exchange;
pub mod known;
pub mod licence;
pub mod model;
pub mod offer;
pub mod place;
pub mod read;
pub mod readings;
mod references;
pub mod shelf;
mod shelf_words;
pub mod value;

pub use document::Node;
pub use edit::Edit;
pub use known::{Known, Mark};
pub use model::Station;
pub use read::Fault;
pub use shelf::{Shelf, ShelfItem};
