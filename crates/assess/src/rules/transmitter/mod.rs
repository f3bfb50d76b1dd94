//! The transmitter.

pub mod folds_back;
pub mod near_limit;
pub mod no_reserve;
pub mod not_continuous;
pub mod off_raster;
pub mod out_of_band;
pub mod three_phase;
pub mod too_low;
pub mod too_small;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &too_small::RULE,
    &near_limit::RULE,
    &folds_back::RULE,
    &too_low::RULE,
    &out_of_band::RULE,
    &off_raster::RULE,
    &not_continuous::RULE,
    &three_phase::RULE,
    &no_reserve::RULE,
];
