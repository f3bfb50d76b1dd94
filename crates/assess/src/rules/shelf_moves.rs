//! Moves over the shelf that remedies propose, and names that findings print.

use crate::case::Case;
use crate::proofs::studio::Need;
use crate::proofs::transmission::line_constants;
use crate::rules::Look;
use quantity::Money;
use station::design::{Hop, ItemStatus, Way};
use station::shelf::{ItemKind, ShelfItem, TransmitterRatings};
use station::{Edit, design::Item};

/// What the client pays for one; very much where there is no price.
pub fn price(item: &ShelfItem) -> f64 {
    item.price.as_ref().map_or(f64::MAX, |p| p.sell.to_f64())
}

/// Tag of an emission's transmitter; the emission's own where it names none.
pub fn transmitter_tag(look: &Look, emission: &str) -> String {
    look.case
        .station
        .emission(emission)
        .and_then(|e| e.transmitter.clone())
        .unwrap_or_else(|| emission.to_owned())
}

/// Ratings of an emission's transmitter.
pub fn transmitter<'a>(look: &Look<'a>, emission: &str) -> Option<&'a TransmitterRatings> {
    let tag = look.case.station.emission(emission)?.transmitter.as_deref()?;
    look.case
        .shelf
        .get(&look.case.station.item(tag)?.shelf)?
        .transmitter
        .as_ref()
}

/// The cheapest transmitter that gives a power and can be turned down to it.
pub fn next_transmitter<'a>(look: &Look<'a>, power_w: f64) -> Option<&'a ShelfItem> {
    look.case
        .shelf
        .of(ItemKind::Transmitter)
        .filter(|s| {
            s.transmitter.as_ref().is_some_and(|t| {
                t.output.w() >= power_w * 1.0001 && t.least_output.is_none_or(|least| least.w() <= power_w)
            })
        })
        .min_by(|a, b| price(a).total_cmp(&price(b)))
}

/// The edits that put another thing where one stands: the new one is bought, whatever became of the old.
pub fn exchange(look: &Look, at: &str, key: &str, id: &str) -> Vec<Edit> {
    let mut edits = vec![look.case.set(format!("{at}.{key}"), id)];
    let status = format!("{at}.status");
    if look.case.file.at(&status).is_some() {
        edits.push(look.case.set(status, ItemStatus::New.word()));
    }
    edits
}

/// The cheapest bay in the planes of another that bears as much as that and passes a test.
pub fn other_bay<'a>(
    look: &Look<'a>,
    now: &ShelfItem,
    test: impl Fn(&ShelfItem) -> bool,
) -> Option<&'a ShelfItem> {
    let ratings = now.bay.as_ref()?;
    let bears = |s: &ShelfItem| s.bay.as_ref().and_then(|b| b.power).map_or(0.0, |p| p.w());
    look.case
        .shelf
        .of(ItemKind::Bay)
        .filter(|s| {
            s.bay
                .as_ref()
                .is_some_and(|b| b.polarisation == ratings.polarisation)
        })
        .filter(|s| bears(s) >= bears(now) && test(s))
        .min_by(|a, b| price(a).total_cmp(&price(b)))
}

/// Loss of a line at 100 MHz, dB per 100 m.
fn alpha(item: &ShelfItem) -> Option<f64> {
    line_constants(item)?.attenuation_db_per_100m(100.0, 20.0).ok()
}

/// The cheapest line of lower loss that bears a power with room for heat, sun and duty.
pub fn thicker_line<'a>(look: &Look<'a>, now: &str, power_w: f64) -> Option<&'a ShelfItem> {
    let now = look.case.shelf.get(now).and_then(alpha)?;
    look.case
        .shelf
        .of(ItemKind::Feeder)
        .filter(|s| alpha(s).is_some_and(|a| a < now))
        .filter(|s| {
            let rated = s.line.as_ref().and_then(|l| l.power_100mhz).map(|p| p.w());
            rated.is_some_and(|w| w * 0.5 >= power_w)
        })
        .min_by(|a, b| price(a).total_cmp(&price(b)))
}

/// An earth kit on the shelf goes on a line; `None` where the shelf has no earth kit at all.
pub fn earth_kit_fits(look: &Look, line: &str) -> Option<bool> {
    let kits = || {
        look.case
            .shelf
            .of(ItemKind::FeederFitting)
            .filter(|s| s.id.contains("earth"))
    };
    kits().next()?;
    Some(kits().any(|kit| kit.for_lines.iter().any(|l| l == line)))
}

/// The cheapest line on which an earth kit goes, which loses no more than another and bears a power with room for heat, sun and duty.
pub fn bonded_line<'a>(look: &Look<'a>, now: &str, power_w: f64) -> Option<&'a ShelfItem> {
    let now = look.case.shelf.get(now).and_then(alpha)?;
    look.case
        .shelf
        .of(ItemKind::Feeder)
        .filter(|s| earth_kit_fits(look, &s.id) == Some(true) && alpha(s).is_some_and(|a| a <= now))
        .filter(|s| {
            let rated = s.line.as_ref().and_then(|l| l.power_100mhz).map(|p| p.w());
            rated.is_some_and(|w| w * 0.5 >= power_w)
        })
        .min_by(|a, b| price(a).total_cmp(&price(b)))
}

/// The cheapest line that loses less than a limit where another loses more, dB.
pub fn lower_loss_line<'a>(look: &Look<'a>, now: &str, loss_db: f64, limit_db: f64) -> Option<&'a ShelfItem> {
    let now = look.case.shelf.get(now).and_then(alpha)?;
    look.case
        .shelf
        .of(ItemKind::Feeder)
        .filter(|s| alpha(s).is_some_and(|a| loss_db * a / now < limit_db))
        .min_by(|a, b| price(a).total_cmp(&price(b)))
}

/// The cheapest dish in the hop's band with at least so much more gain at both ends together, dB.
pub fn larger_dish<'a>(look: &Look<'a>, hop: &Hop, more_db: f64) -> Option<&'a ShelfItem> {
    let gain = |s: &ShelfItem| s.dish_gain.map(|g| g.to_dbd().dbd());
    let now = hop
        .dish
        .as_deref()
        .and_then(|id| look.case.shelf.get(id))
        .and_then(gain)?;
    // A band with a ceiling on what is radiated leaves the gain of the receiving end alone.
    let limited = hop
        .equipment
        .as_deref()
        .and_then(|id| look.case.shelf.get(id))
        .and_then(|s| s.link.as_ref())
        .is_some_and(|l| l.eirp_at_most.is_some());
    let ends = if limited { 1.0 } else { 2.0 };
    look.case
        .shelf
        .of(ItemKind::LinkAntenna)
        .filter(|s| same_band(s, hop) && gain(s).is_some_and(|g| (g - now) * ends >= more_db))
        .min_by(|a, b| price(a).total_cmp(&price(b)))
}

/// The cheapest codec that sends over a way.
pub fn codec_over<'a>(look: &Look<'a>, way: Way) -> Option<&'a ShelfItem> {
    let sends = |s: &&ShelfItem| s.link.as_ref().is_some_and(|l| l.sends_over(way));
    look.case
        .shelf
        .of(ItemKind::Codec)
        .filter(sends)
        .min_by(|a, b| price(a).total_cmp(&price(b)))
}

/// Dishes name their band in `link`, where they name one.
fn same_band(dish: &ShelfItem, hop: &Hop) -> bool {
    let Some(carrier) = hop.frequency else {
        return false;
    };
    match dish.link.as_ref().and_then(|l| l.from.zip(l.to)) {
        Some((from, to)) => (from.ghz()..=to.ghz()).contains(&carrier.ghz()),
        None => true,
    }
}

/// Needed and there, when something is short.
pub fn short(look: &Look, need: Need) -> Option<(u32, u32)> {
    if !look.outcome.studio.has_studio || !look.case.station.has_design() {
        return None;
    }
    let count = look.outcome.studio.count(need)?;
    let there = count.there?;
    (there < count.needed).then_some((count.needed, there))
}

/// Items present, with their shelf items.
fn present<'a>(look: &Look<'a>) -> impl Iterator<Item = (&'a Item, &'a ShelfItem)> {
    let (station, shelf) = (look.case.station, look.case.shelf);
    station
        .items
        .iter()
        .filter(|i| i.status.unwrap_or(ItemStatus::New).is_present())
        .filter_map(move |i| Some((i, shelf.get(&i.shelf)?)))
}

/// The first item of a kind: its tag and shelf item.
pub fn item_of<'a>(look: &Look<'a>, kind: ItemKind) -> Option<(&'a str, &'a ShelfItem)> {
    present(look)
        .find(|(_, s)| s.kind == kind)
        .map(|(i, s)| (i.tag.as_str(), s))
}

/// How many items that a test accepts.
pub fn count_of(look: &Look, test: impl Fn(&ShelfItem) -> bool) -> u32 {
    present(look)
        .filter(|(_, s)| test(s))
        .map(|(i, _)| i.count.unwrap_or(1))
        .sum()
}

/// The edit that brings more of a kind: one more of what is there, else the cheapest on the shelf.
pub fn more_of(look: &Look, kind: ItemKind, missing: u32) -> Option<Edit> {
    // More of what is bought; what is there already has no twin at no price.
    let bought = |i: &Item| i.status.unwrap_or(ItemStatus::New).is_bought();
    if let Some((item, shelf)) = present(look).find(|(i, s)| s.kind == kind && bought(i)) {
        let per_item = if kind == ItemKind::HeadphoneAmplifier {
            shelf
                .audio
                .as_ref()
                .and_then(|a| a.headphone_outputs)
                .unwrap_or(1)
                .max(1)
        } else {
            1
        };
        let count = item.count.unwrap_or(1) + missing.div_ceil(per_item);
        return Some(look.case.set(format!("items.{}.count", item.tag), count));
    }
    let cheapest = look
        .case
        .shelf
        .of(kind)
        .filter(|s| s.duty != Some(station::shelf::Duty::Intermittent))
        .min_by(|a, b| price(a).total_cmp(&price(b)))?;
    let tag = format!("NEW-{}", kind.word().replace(' ', "-").to_uppercase());
    let place = look.case.station.rooms.first().map(|r| r.tag.clone());
    let per_item = match kind {
        ItemKind::HeadphoneAmplifier => cheapest
            .audio
            .as_ref()
            .and_then(|a| a.headphone_outputs)
            .unwrap_or(1)
            .max(1),
        _ => 1,
    };
    let mut item = serde_json::json!({ "shelf": cheapest.id, "count": missing.div_ceil(per_item) });
    if let Some(place) = place {
        item["place"] = place.into();
    }
    Some(look.case.set(format!("items.{tag}"), item))
}

/// Name of the place a wish is about; its own tag when it is about an area.
pub fn place_name(look: &Look, wanted: &str) -> String {
    place(look, wanted).map_or_else(|| wanted.to_owned(), |p| p.name.clone())
}

/// What a wish is about, for sentences.
pub fn wanted_name(look: &Look, wanted: &str) -> String {
    place_name(look, wanted)
}

fn place<'a>(look: &Look<'a>, wanted: &str) -> Option<&'a station::place::Place> {
    let wish = look.case.station.brief.wanted.iter().find(|w| w.tag == wanted)?;
    look.case.station.place(wish.place.as_deref()?)
}

/// People who live where a wish is about, for ordering: as stated, else as the world's places say.
pub fn people_at(look: &Look, wanted: &str) -> f64 {
    let Some(place) = place(look, wanted) else {
        return 0.0;
    };
    match place.people {
        Some(people) => f64::from(people),
        None => look
            .case
            .world
            .places()
            .iter()
            .find(|p| p.name == place.name)
            .and_then(|p| p.people)
            .unwrap_or(0.0),
    }
}

/// People to the next ten.
pub fn tens(people: f64) -> i64 {
    ((people / 10.0).round() * 10.0) as i64
}

/// What is missing in the budget, as a positive amount.
pub fn budget_gap(left: Money) -> Money {
    Money::zero(left.currency).checked_sub(left).unwrap_or(left)
}

/// Looks at the station as edits would leave it: for rules that try a remedy before they propose it.
pub fn tried<T>(look: &Look, edits: &[Edit], see: impl FnOnce(&Case) -> T) -> Option<T> {
    let (file, document, station) = crate::weigh::edited(look.case, edits)?;
    Some(see(&Case {
        file: &file,
        document: &document,
        station: &station,
        ..*look.case
    }))
}
