//! One module per command.

pub mod assess;
pub mod coverage;
pub mod papers;
pub mod path;
pub mod serve;
pub mod wires;
