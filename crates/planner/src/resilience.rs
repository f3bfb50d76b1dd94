//! Batteries and generators for the time without mains, site by site, cheapest.

use crate::draft::Draft;
use crate::money::sell;
use crate::trial::Text;
use assess::Case;
use assess::proofs::{energy, transmission};
use station::design::RoomKind;
use station::edit::EditError;
use station::shelf::{ItemKind, ShelfItem};

/// Most of one kind of battery that is set side by side at a site (common practice, no source).
const MOST_BATTERIES: u32 = 6;

/// Adds what each site needs to last as long as the brief asks.
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn complete(
    around: &Case,
    draft: &mut Draft,
    text: &Text,
    transmission: &transmission::Outcome,
) -> Result<(), EditError> {
    let case = text.case(around);
    for site in energy::evaluate(&case, transmission).sites {
        let wanted_h = site.wanted_h.unwrap_or(0.0);
        let load_w = site.load_w;
        if wanted_h <= 0.0 || site.reserve_h >= wanted_h && site.reserve_output_w.is_some_and(|w| w >= load_w)
        {
            continue;
        }
        let place = case
            .station
            .rooms
            .iter()
            .filter(|r| r.site == site.tag)
            .find(|r| r.kind == RoomKind::Apparatus)
            .map_or(site.tag.as_str(), |r| r.tag.as_str());
        for (tag, id, count) in cheapest_reserve(&case, load_w, wanted_h) {
            draft.item(tag, &id, Some(place), count)?;
        }
    }
    Ok(())
}

/// Things to buy: tag, shelf id, how many.
pub type Purchase = (&'static str, String, u32);

/// The cheapest batteries, with a generator behind them where that costs less, for a load and a time.
pub fn cheapest_reserve(case: &Case, load_w: f64, wanted_h: f64) -> Vec<Purchase> {
    let mut best: Option<(f64, Vec<Purchase>)> = None;
    let generators: Vec<Option<&ShelfItem>> = std::iter::once(None)
        .chain(case.shelf.of(ItemKind::Generator).map(Some))
        .collect();
    for ups in case.shelf.of(ItemKind::Ups) {
        let Some(supply) = &ups.supply else { continue };
        let (Some(energy), Some(depth), Some(efficiency)) = (supply.energy, supply.depth, supply.efficiency)
        else {
            continue;
        };
        let own_w = ups.power.map_or(0.0, |p| p.w());
        for count in 1..=MOST_BATTERIES {
            let n = f64::from(count);
            let load_w = load_w + own_w * n;
            // End of life counts, as in the proof: 80 % of the new capacity is left.
            let battery_h = energy.wh() * depth.pct() * efficiency.pct() / 1e4 * 0.8 * n / load_w;
            if supply.output.w() * n < load_w {
                continue;
            }
            for generator in &generators {
                let Some((tank_h, price)) = behind(*generator, load_w) else {
                    continue;
                };
                if battery_h + tank_h < wanted_h {
                    continue;
                }
                let Some(price) = sell(ups).map(|p| p * n + price) else {
                    continue;
                };
                if best.as_ref().is_none_or(|(least, _)| price < *least) {
                    let mut list = vec![("UPS1", ups.id.clone(), count)];
                    list.extend(generator.map(|g| ("GEN1", g.id.clone(), 1)));
                    best = Some((price, list));
                }
            }
        }
    }
    best.map(|(_, list)| list).unwrap_or_default()
}

/// Hours of a generator's tank at a load, and its price; nothing where it does not bear the load.
fn behind(generator: Option<&ShelfItem>, load_w: f64) -> Option<(f64, f64)> {
    let Some(item) = generator else {
        return Some((0.0, 0.0));
    };
    let supply = item.supply.as_ref()?;
    if supply.output.w() * energy::GENERATOR_LOAD < load_w {
        return None;
    }
    let hours = supply.tank_litres? / (supply.litres_per_kwh? * load_w / 1000.0);
    Some((hours, sell(item)?))
}
