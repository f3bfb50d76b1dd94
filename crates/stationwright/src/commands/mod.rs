//! One module per command.

pub mod path;
pub mod wires;
