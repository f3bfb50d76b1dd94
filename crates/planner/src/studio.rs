//! Studio by rule: what the seats and sources need and the station does not have, bought cheapest.

use crate::draft::Draft;
use crate::money::{cheapest, sell};
use crate::tier::Tier;
use crate::trial::Text;
use assess::Case;
use assess::proofs::studio::{self, Need, RACK_FILL};
use serde_json::json;
use station::brief::Installation;
use station::design::RoomKind;
use station::edit::EditError;
use station::shelf::{AudioRatings, Duty, ItemKind, ShelfItem};

/// Reverberation wanted in a studio, s (common practice, no source).
const REVERBERATION_S: f64 = 0.3;
/// Share of the absorption that furniture, people and carpet bring (common practice, no source).
const ROOM_ITSELF: f64 = 0.3;
/// Cable laid for each source and each ear, m (common practice, no source).
const CABLE_PER_SOURCE_M: u32 = 20;

/// Adds what is short. Whatever is there stays.
///
/// # Errors
/// [`EditError`] when the document is not as its station says.
pub fn complete(around: &Case, draft: &mut Draft, tier: Tier) -> Result<(), EditError> {
    let Some(text) = Text::of(draft) else {
        return Ok(());
    };
    let case = text.case(around);
    let Some(room) = case.station.rooms.iter().find(|r| r.kind == RoomKind::OnAir) else {
        return hold_multiplex_power(&case, draft);
    };
    let rack_room = case.station.rooms.iter().find(|r| r.kind == RoomKind::Apparatus);
    let desk_place = room.tag.as_str();
    let rack_place = rack_room.map_or(desk_place, |r| r.tag.as_str());
    let found = studio::evaluate(&case);
    let short = |need| {
        found
            .count(need)
            .map_or(0, |c| c.needed.saturating_sub(c.there.unwrap_or(c.needed)))
    };
    let good = |s: &&ShelfItem| tier == Tier::A || s.duty != Some(Duty::Intermittent);
    let of = |kind| cheapest(around.shelf.of(kind).filter(good));
    let mut buy = |tag: &str, kind, place, count: u32| match of(kind) {
        Some(item) if count > 0 => draft.item(tag, &item.id, Some(place), count),
        _ => Ok(()),
    };
    buy("MIC", ItemKind::Microphone, desk_place, short(Need::Microphones))?;
    buy("ARM", ItemKind::Arm, desk_place, short(Need::Arms))?;
    buy("HP", ItemKind::Headphones, desk_place, short(Need::Headphones))?;
    buy("MON", ItemKind::Loudspeaker, desk_place, short(Need::Monitors))?;
    buy(
        "LIGHT1",
        ItemKind::OnAirLight,
        desk_place,
        short(Need::OnAirLights),
    )?;
    buy("HYB", ItemKind::Hybrid, rack_place, short(Need::Hybrids))?;
    buy("PLAY1", ItemKind::Playout, rack_place, short(Need::Playouts))?;
    if let Some(console) = console(&case, &found, tier) {
        draft.item("DESK1", &console, Some(desk_place), 1)?;
    }
    more(around, draft, &found, tier, (desk_place, rack_place))?;
    if tier >= Tier::C
        && let Some(volume) = room.volume.value().map(|v| v.m3()).or_else(|| box_m3(room))
    {
        absorbers(&case, draft, desk_place, volume)?;
    }
    Ok(())
}

/// A studio that is there already, and not spoken of: what the country asks of the signal is asked all the same.
fn hold_multiplex_power(case: &Case, draft: &mut Draft) -> Result<(), EditError> {
    let able = |s: &&ShelfItem| s.audio.as_ref().and_then(|a| a.mpx_power_control) == Some(true);
    let processor = cheapest(case.shelf.of(ItemKind::Processor).filter(able));
    match (studio::evaluate(case).mpx_limited, processor) {
        (Some(false), Some(item)) => {
            let hill = crate::options::antenna_site(case).map(|s| s.tag.clone());
            draft.item("PROC1", &item.id, hill.as_deref(), 1)
        }
        _ => Ok(()),
    }
}

fn box_m3(room: &station::design::Room) -> Option<f64> {
    Some(room.length?.m() * room.width?.m() * room.height?.m())
}

/// The cheapest console with inputs, clean feeds and contacts enough; the largest where none has.
fn console(case: &Case, found: &studio::Outcome, tier: Tier) -> Option<String> {
    let there = |need| found.count(need).and_then(|c| c.there).unwrap_or(0);
    if there(Need::MicrophoneInputs) + there(Need::LineInputs) > 0 {
        return None;
    }
    let needed = |need| found.count(need).map_or(0, |c| c.needed);
    let has = |value: Option<u32>, need| value.unwrap_or(0) >= needed(need);
    let fits = |a: &AudioRatings| {
        has(a.microphone_inputs, Need::MicrophoneInputs)
            && has(a.clean_feeds, Need::CleanFeeds)
            && (tier == Tier::A
                || has(a.line_inputs, Need::LineInputs) && has(a.control_outputs, Need::ControlOutputs))
    };
    let consoles = || case.shelf.of(ItemKind::Console);
    let good = |s: &&ShelfItem| tier == Tier::A || s.duty != Some(Duty::Intermittent);
    cheapest(
        consoles()
            .filter(good)
            .filter(|s| s.audio.as_ref().is_some_and(fits)),
    )
    .or_else(|| {
        consoles()
            .filter(|s| sell(s).is_some())
            .max_by_key(|s| s.audio.as_ref().and_then(|a| a.microphone_inputs))
    })
    .map(|s| s.id.clone())
}

/// What depends on the console: headphone outputs; then processing, radio data, desk, emergency player, cable.
fn more(
    around: &Case,
    draft: &mut Draft,
    found: &studio::Outcome,
    tier: Tier,
    (desk, rack): (&str, &str),
) -> Result<(), EditError> {
    let Some(text) = Text::of(draft) else {
        return Ok(());
    };
    let case = text.case(around);
    let now = studio::evaluate(&case);
    let short = |need| {
        now.count(need)
            .map_or(0, |c| c.needed.saturating_sub(c.there.unwrap_or(c.needed)))
    };
    let outputs = short(Need::HeadphoneOutputs);
    let per = |s: &ShelfItem, f: fn(&AudioRatings) -> Option<u32>| s.audio.as_ref().and_then(f).unwrap_or(0);
    for (tag, kind, lacking, rating, place) in [
        (
            "HPA1",
            ItemKind::HeadphoneAmplifier,
            outputs,
            (|a| a.headphone_outputs) as fn(&AudioRatings) -> Option<u32>,
            rack,
        ),
        (
            "TABLE1",
            ItemKind::Furniture,
            if tier == Tier::A {
                0
            } else {
                short(Need::DeskSeats)
            },
            |a| a.seats,
            desk,
        ),
    ] {
        if let Some((id, count)) = packs(around, kind, lacking, |s| per(s, rating)) {
            draft.item(tag, &id, Some(place), count)?;
        }
    }
    let transmitter_site = crate::options::antenna_site(&case).map(|s| s.tag.clone());
    let hill = transmitter_site.as_deref().unwrap_or(rack);
    let limited = now.mpx_limited == Some(false);
    if limited || short(Need::Processors) > 0 && tier > Tier::A {
        let able =
            |s: &&ShelfItem| !limited || s.audio.as_ref().and_then(|a| a.mpx_power_control) == Some(true);
        if let Some(item) = cheapest(around.shelf.of(ItemKind::Processor).filter(able)) {
            draft.item("PROC1", &item.id, Some(hill), 1)?;
        }
    }
    if now.radio_data == (true, false)
        && let Some(item) = cheapest(around.shelf.of(ItemKind::RdsEncoder))
    {
        draft.item("RDS1", &item.id, Some(hill), 1)?;
    }
    if short(Need::EmergencyPlayers) > 0
        && let Some(item) = cheapest(around.shelf.of(ItemKind::EmergencyPlayer))
    {
        draft.item("EMER1", &item.id, Some(hill), 1)?;
    }
    let cable = around.shelf.of(ItemKind::AudioCable);
    let laid = case.station.items.iter().any(|i| {
        around
            .shelf
            .get(&i.shelf)
            .is_some_and(|s| s.kind == ItemKind::AudioCable)
    });
    if !laid && let Some(item) = cheapest(cable) {
        let sources = found.speakers + found.listeners + 2;
        draft.item("AC1", &item.id, Some(desk), sources * CABLE_PER_SOURCE_M)?;
    }
    Ok(())
}

/// The cheapest number of one thing that together give enough.
fn packs(
    case: &Case,
    kind: ItemKind,
    lacking: u32,
    each: impl Fn(&ShelfItem) -> u32,
) -> Option<(String, u32)> {
    if lacking == 0 {
        return None;
    }
    case.shelf
        .of(kind)
        .filter(|s| each(s) > 0)
        .filter_map(|s| {
            let count = lacking.div_ceil(each(s));
            Some((sell(s)? * f64::from(count), s.id.clone(), count))
        })
        .min_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(&b.1)))
        .map(|(_, id, count)| (id, count))
}

/// Absorbers for the reverberation wanted, by Sabine's formula.
fn absorbers(case: &Case, draft: &mut Draft, place: &str, volume_m3: f64) -> Result<(), EditError> {
    let shelf = case.shelf;
    let there = case
        .station
        .items
        .iter()
        .any(|i| shelf.get(&i.shelf).is_some_and(|s| s.kind == ItemKind::Acoustics));
    let Some(panel) = cheapest(shelf.of(ItemKind::Acoustics)).filter(|_| !there) else {
        return Ok(());
    };
    let absorption = panel.audio.as_ref().and_then(|a| a.absorption).unwrap_or(0.8);
    let wanted_m2 = 0.161 * volume_m3 / REVERBERATION_S * (1.0 - ROOM_ITSELF) / absorption;
    draft.item("ABS", &panel.id, Some(place), wanted_m2.ceil() as u32)
}

/// Racks for everything with rack units, place by place; the smallest stations put it on a shelf.
///
/// # Errors
/// [`EditError`], as [`complete`].
pub fn racks(around: &Case, draft: &mut Draft, tier: Tier) -> Result<(), EditError> {
    if tier == Tier::A {
        return Ok(());
    }
    let Some(text) = Text::of(draft) else {
        return Ok(());
    };
    let found = studio::evaluate(&text.case(around));
    for (place, used, offered) in found.racks {
        let wanted = (f64::from(used) / RACK_FILL).ceil() as u32;
        let space = |s: &ShelfItem| s.audio.as_ref().and_then(|a| a.rack_space).unwrap_or(0);
        if let Some((id, count)) = packs(around, ItemKind::Rack, wanted.saturating_sub(offered), space) {
            draft.item("RACK1", &id, Some(&place), count)?;
        }
    }
    Ok(())
}

/// Work, papers and spare parts by tier, where the client's own people do not do it.
///
/// # Errors
/// [`EditError`], as [`complete`].
pub fn services(around: &Case, draft: &mut Draft, tier: Tier) -> Result<(), EditError> {
    let station = around.station;
    let has = |id: &str| station.items.iter().any(|i| i.shelf == id);
    let volunteers = station.brief.installation == Some(Installation::Volunteers);
    // Days of crew and fitters: ours, by tier (common practice, no source).
    let (crew, fitters) = match tier {
        Tier::A => (1, 0),
        Tier::B => (1, 2),
        Tier::C => (2, 5),
        Tier::D | Tier::E => (5, 12),
    };
    let list: &[(&str, &str, u32)] = &[
        ("CREW", "rigger-day", crew),
        ("INST", "install-day", fitters),
        ("COMM", "commissioning", 1),
        ("TRAIN", "training", u32::from(tier >= Tier::C)),
    ];
    for (tag, id, count) in list {
        if !volunteers && *count > 0 && !has(id) && around.shelf.get(id).and_then(sell).is_some() {
            draft.item(tag, id, None, *count)?;
        }
    }
    let spares = match tier {
        Tier::A | Tier::B => return Ok(()),
        Tier::C => "spares-small",
        Tier::D | Tier::E => "spares-large",
    };
    let any = station.items.iter().any(|i| {
        around
            .shelf
            .get(&i.shelf)
            .is_some_and(|s| s.kind == ItemKind::Spares)
    });
    if !any && around.shelf.get(spares).and_then(sell).is_some() {
        draft.set(
            format!("items.{}", draft.fresh("SPARE")),
            json!({ "shelf": spares }),
        )?;
    }
    Ok(())
}
