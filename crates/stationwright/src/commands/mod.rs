//! One module per command.

pub mod antenna;
pub mod ask;
pub mod assess;
pub mod coverage;
pub mod diagnose;
pub mod new;
pub mod papers;
pub mod path;
pub mod plan;
pub mod serve;
pub mod sweep;
pub mod watched;
pub mod wires;
