//! People: exposure, climbing, mains, lightning, structure.

pub mod climbing;
pub mod lightning;
pub mod mains;
pub mod others_unknown;
pub mod public_exposed;
pub mod stay_away;
pub mod structure;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &public_exposed::RULE,
    &others_unknown::RULE,
    &stay_away::RULE,
    &climbing::RULE,
    &mains::RULE,
    &lightning::RULE,
    &structure::RULE,
];
