//! The brief itself.

pub mod assumed_licence;
pub mod licence_against_height;
pub mod no_budget;
pub mod no_such_language;
pub mod not_on_the_shelf;
pub mod nothing_chosen;
pub mod nothing_wanted;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &nothing_wanted::RULE,
    &no_budget::RULE,
    &licence_against_height::RULE,
    &assumed_licence::RULE,
    &nothing_chosen::RULE,
    &not_on_the_shelf::RULE,
    &no_such_language::RULE,
];
