//! Power and heat.

pub mod connection;
pub mod draw_unknown;
pub mod no_mains;
pub mod reserve_overloaded;
pub mod short_reserve;
pub mod too_hot;

use super::Look;
use super::shelf_moves::price;
use crate::finding::{Remedy, Rule};
use station::shelf::ItemKind;
use words::Message;

/// Its rules, by code.
pub static RULES: &[&Rule] = &[
    &connection::RULE,
    &no_mains::RULE,
    &short_reserve::RULE,
    &too_hot::RULE,
    &draw_unknown::RULE,
    &reserve_overloaded::RULE,
];

/// The cheapest thing of a kind that gives a site this much, put there; nothing when the shelf has none.
fn feeds(look: &Look, kind: ItemKind, site: &str, needed_w: f64) -> Option<Remedy> {
    let fits = |i: &&station::ShelfItem| i.supply.as_ref().is_some_and(|r| r.output.w() >= needed_w);
    let on_shelf = look.case.shelf.of(kind).filter(fits);
    let thing = on_shelf.min_by(|a, b| price(a).total_cmp(&price(b)))?;
    let (tag, says) = match kind {
        ItemKind::Solar => ("SUN", Message::new("fd-01-do").text("name", thing.name.as_str())),
        _ => {
            let says = Message::new("pw-03-do").text("name", thing.name.as_str());
            ("GEN", says.text("site", site))
        }
    };
    let put = look.case.set(
        format!("items.{tag}-{site}"),
        serde_json::json!({"shelf": thing.id, "place": site}),
    );
    Some(Remedy::new(says, vec![put]))
}
