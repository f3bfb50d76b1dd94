//! The licence.

pub mod below_least;
pub mod condition;
pub mod elsewhere;
pub mod expires;
pub mod over;
pub mod silent;
pub mod third_order;
pub mod tight;
pub mod too_high;
pub mod under;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &over::RULE,
    &under::RULE,
    &too_high::RULE,
    &elsewhere::RULE,
    &condition::RULE,
    &tight::RULE,
    &silent::RULE,
    &below_least::RULE,
    &expires::RULE,
    &third_order::RULE,
];
