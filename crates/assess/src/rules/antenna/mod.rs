//! The antenna.

pub mod bay_overloaded;
pub mod corrodes;
pub mod divides_otherwise;
pub mod ice;
pub mod iced_too_long;
pub mod mast_left_out;
pub mod no_pattern;
pub mod no_splitter;
pub mod null_on_place;
pub mod other_polarisation;
pub mod over_the_top;
pub mod upside_down;
pub mod ways;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &ways::RULE,
    &no_splitter::RULE,
    &bay_overloaded::RULE,
    &corrodes::RULE,
    &upside_down::RULE,
    &over_the_top::RULE,
    &other_polarisation::RULE,
    &null_on_place::RULE,
    &mast_left_out::RULE,
    &no_pattern::RULE,
    &ice::RULE,
    &iced_too_long::RULE,
    &divides_otherwise::RULE,
];
