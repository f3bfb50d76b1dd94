//! The proofs: one module each, numbers only.

pub mod coverage;
pub mod drafted;
pub mod energy;
pub mod exposure;
pub mod licence;
pub mod link;
pub mod money;
pub mod mounted;
pub mod studio;
pub mod transmission;
