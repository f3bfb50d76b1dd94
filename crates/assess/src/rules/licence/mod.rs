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

use crate::finding::{Remedy, Rule};
use crate::rules::Look;
use quantity::Power;
use words::Message;

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

/// Sets an emission's power so that the field meets a condition with a tenth of a decibel to spare. `room_db` is what the condition
/// leaves now, below 0 where it is broken. `None` where no power is known or no transmitter could be set so low.
fn power_for_condition(look: &Look, tag: &str, room_db: f64) -> Option<Remedy> {
    let emissions = &look.outcome.transmission.emissions;
    let now_w = emissions.iter().find(|e| e.tag == tag)?.power_w?;
    // Below a watt no transmitter can be set: the place or the aerial must change.
    let power_w = Some(now_w * 10f64.powf((room_db - 0.1) / 10.0)).filter(|w| *w >= 1.0)?;
    let says = Message::new("li-05-do").quantity("power", Power::from_w(power_w));
    let set = look
        .case
        .set(format!("emissions.{tag}.power"), format!("{power_w:.1} W"));
    Some(Remedy::new(says, vec![set]))
}
