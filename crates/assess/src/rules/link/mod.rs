//! The way from studio to transmitter.

pub mod blocked;
pub mod cannot_compute;
pub mod fails_too_often;
pub mod late;
pub mod no_reserve;
pub mod none;
pub mod out_of_band;
pub mod thin_margin;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &none::RULE,
    &blocked::RULE,
    &thin_margin::RULE,
    &fails_too_often::RULE,
    &cannot_compute::RULE,
    &out_of_band::RULE,
    &late::RULE,
    &no_reserve::RULE,
];
