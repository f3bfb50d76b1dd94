//! Money and time.

pub mod case_too_heavy;
pub mod late;
pub mod no_price;
pub mod old_prices;
pub mod other_currency;
pub mod over_budget;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &over_budget::RULE,
    &no_price::RULE,
    &old_prices::RULE,
    &other_currency::RULE,
    &case_too_heavy::RULE,
    &late::RULE,
];
