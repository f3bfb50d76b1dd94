//! The way from studio to transmitter.

pub mod blocked;
pub mod cannot_compute;
pub mod fails_too_often;
pub mod late;
pub mod no_reserve;
pub mod none;
pub mod out_of_band;
pub mod thin_margin;

use crate::finding::{Remedy, Rule};
use crate::rules::Look;
use station::design::Way;
use words::Message;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &none::RULE,
    &blocked::RULE,
    &thin_margin::RULE,
    &fails_too_often::RULE,
    &cannot_compute::RULE,
    &out_of_band::RULE,
    &late::RULE,
    &no_reserve::RULE,
];

/// A reserve beside the main way, where there is one and no reserve: over mobile data, or over the internet where the main way
/// goes over mobile data itself, as two ways over one network fail together.
fn second_way(look: &Look) -> Option<Remedy> {
    let station = look.case.station;
    let main = station.main_hop()?;
    let mut main_ways = station.hops.iter().filter(|h| h.is_main());
    if station.hops.iter().any(|h| !h.is_main()) {
        return None;
    }
    let mobile = main_ways.any(|h| h.way.value() == Some(&Way::MobileData));
    let (says, way, equipment, works) = if mobile {
        ("lk-04-do-line", Way::Internet, "codec-ip", "99.5 %")
    } else {
        ("lk-04-do", Way::MobileData, "modem-mobile", "98 %")
    };
    let table = serde_json::json!({"from": main.from, "to": main.to, "way": way.word(), "role": "reserve",
        "equipment": equipment, "leased_availability": works});
    Some(Remedy::new(
        Message::new(says),
        vec![look.case.set("hops.LR", table)],
    ))
}
