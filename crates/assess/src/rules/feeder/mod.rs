//! The feeder and its joints.

pub mod adapter;
pub mod connector_overloaded;
pub mod does_not_mate;
pub mod few_earth_kits;
pub mod no_arrester;
pub mod not_bonded;
pub mod not_rated;
pub mod open;
pub mod overloaded;
pub mod wasteful;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &overloaded::RULE,
    &connector_overloaded::RULE,
    &does_not_mate::RULE,
    &adapter::RULE,
    &wasteful::RULE,
    &open::RULE,
    &no_arrester::RULE,
    &not_rated::RULE,
    &few_earth_kits::RULE,
    &not_bonded::RULE,
];
