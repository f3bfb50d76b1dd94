//! The studio.

pub mod few_arms;
pub mod few_desk_seats;
pub mod few_headphone_outputs;
pub mod few_headphones;
pub mod few_hybrids;
pub mod few_inputs;
pub mod few_line_inputs;
pub mod few_microphones;
pub mod few_monitors;
pub mod hears_themselves;
pub mod little_gain;
pub mod mpx_not_limited;
pub mod no_emergency;
pub mod no_light;
pub mod no_mute;
pub mod no_playout;
pub mod no_processor;
pub mod no_radio_data;
pub mod not_continuous;
pub mod rack_full;

use crate::finding::Rule;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &few_microphones::RULE,
    &few_inputs::RULE,
    &few_line_inputs::RULE,
    &hears_themselves::RULE,
    &few_hybrids::RULE,
    &few_headphones::RULE,
    &few_headphone_outputs::RULE,
    &few_arms::RULE,
    &no_mute::RULE,
    &no_light::RULE,
    &no_playout::RULE,
    &no_emergency::RULE,
    &no_processor::RULE,
    &few_desk_seats::RULE,
    &few_monitors::RULE,
    &mpx_not_limited::RULE,
    &no_radio_data::RULE,
    &rack_full::RULE,
    &little_gain::RULE,
    &not_continuous::RULE,
];
