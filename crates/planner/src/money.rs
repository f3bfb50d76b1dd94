//! Prices as the search compares them.

use station::shelf::ShelfItem;

/// What the client pays for one; `None` where the list has no price, which no plan may buy.
pub fn sell(item: &ShelfItem) -> Option<f64> {
    item.price.as_ref().map(|p| p.sell.to_f64())
}

/// The cheapest of some items that have a price; the id decides between equals, so that an answer never wavers.
pub fn cheapest<'a>(items: impl Iterator<Item = &'a ShelfItem>) -> Option<&'a ShelfItem> {
    items
        .filter_map(|i| sell(i).map(|p| (p, i)))
        .min_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.id.cmp(&b.1.id)))
        .map(|(_, i)| i)
}
