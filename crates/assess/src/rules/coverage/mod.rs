//! Field and listeners.

pub mod coarse_step;
pub mod few_people;
pub mod missing_tile;
pub mod no_field;
pub mod outside_study;
pub mod place_short;
pub mod site_at_sea;
pub mod surface_model;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &place_short::RULE,
    &few_people::RULE,
    &missing_tile::RULE,
    &surface_model::RULE,
    &outside_study::RULE,
    &no_field::RULE,
    &coarse_step::RULE,
    &site_at_sea::RULE,
];
