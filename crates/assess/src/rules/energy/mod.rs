//! Power and heat.

pub mod connection;
pub mod draw_unknown;
pub mod no_mains;
pub mod reserve_overloaded;
pub mod short_reserve;
pub mod too_hot;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &connection::RULE,
    &no_mains::RULE,
    &short_reserve::RULE,
    &too_hot::RULE,
    &draw_unknown::RULE,
    &reserve_overloaded::RULE,
];
