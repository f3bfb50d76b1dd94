//! One module per command.

pub mod assess;
pub mod path;
pub mod serve;
pub mod wires;
